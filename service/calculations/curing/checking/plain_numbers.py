"""Numbers in the sentences of call-outs."""

Number = int | float
"""A number of any unit."""


def plain(value: Number) -> str:
    """Four digits, never with an exponent: a cook reads it."""
    return f"{float(f'{value:.4g}'):,.10f}".rstrip("0").rstrip(".")
