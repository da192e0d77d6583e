"""The slow libraries of this room, which are imported by the functions that use them."""


def load_libraries() -> None:
    """Import them now, while nobody waits: together they take about a second, once in each process."""
    import highspy
    import numpy as np
    import scipy.special

    del highspy, np, scipy
