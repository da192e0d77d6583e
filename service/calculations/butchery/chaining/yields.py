"""The formulas of a chain of yields."""

from math import ceil, floor

COUNT_SLACK = 1e-9
"""A count this close to a whole number is that number: floating-point noise, not another piece."""


def weight_left_g(entering_g: float, *, left_fraction: float) -> float:
    r"""What is left of a weight after a stage.

    .. math:: left = entering \times share

    Parameters
    ----------
    entering_g : float
        Weight that enters the stage [g]
    left_fraction : float
        Share of it that is left; above one where the stage adds weight [fraction]

    Returns
    -------
    leaving_g : float
        Weight that leaves the stage [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    The share is of the weight that enters this stage, never of another one.

    Examples
    --------
    >>> round(weight_left_g(11.9, left_fraction=0.593), 4)
    7.0567

    References
    ----------
    Butcher's and cooked yield tests of textbooks on food cost (reported): yield = usable weight / weight before.
    """
    return entering_g * left_fraction


def weight_needed_g(leaving_g: float, *, left_fraction: float) -> float:
    r"""What has to enter a stage so that a weight is left.

    .. math:: entering = left / share

    Parameters
    ----------
    leaving_g : float
        Weight that is to leave the stage [g]
    left_fraction : float
        Share that is left, above zero [fraction]

    Returns
    -------
    entering_g : float
        Weight that has to enter [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    Not rounded: whole pieces are rounded up last. A yield rounded before dividing moves an order (88.5 for
    88.46 percent takes 7 g off 16.335 kg).

    Examples
    --------
    >>> round(weight_needed_g(14450, left_fraction=4.6 / 5.2), 1)
    16334.8

    References
    ----------
    Trade calculation lesson for cooks, Canada, 2007 (reported): as purchased = edible portion / yield.
    """
    return leaving_g / left_fraction


def portions_weight_g(portions: int, *, portion_g: float) -> float:
    r"""What so many portions weigh.

    .. math:: weight = portions \times size

    Parameters
    ----------
    portions : int
        How many
    portion_g : float
        Weight of one [g]

    Returns
    -------
    sold_g : float
        Weight of all [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    As sold: after slicing, without bread or sauce.

    Examples
    --------
    >>> portions_weight_g(37, portion_g=6 * 28.349523125) / 453.59237
    13.875

    References
    ----------
    By definition.
    """
    return portions * portion_g


def whole_portions(weight_g: float, *, portion_g: float) -> int:
    """How many whole portions a weight gives."""
    return floor(weight_g / portion_g + COUNT_SLACK)


def whole_pieces(needed_g: float, *, piece_g: float) -> int:
    """How many pieces of this weight hold what is needed: rounded up, and only here."""
    return max(1, ceil(needed_g / piece_g - COUNT_SLACK))


def worth_of_a_point_g(purchased_g: float, *, left_fraction: float) -> float:
    r"""What one more point of yield in a stage saves to buy.

    .. math:: saved = purchased \times \left(1 - \frac{share}{share + 0.01}\right)

    Parameters
    ----------
    purchased_g : float
        What is bought at the share that it has now [g]
    left_fraction : float
        Share that is left in that stage [fraction]

    Returns
    -------
    saved_g : float
        Less to buy, for the same weight at the end [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    Every other stage stays as it is. The lower the share, the more a point of it is worth.

    Examples
    --------
    >>> round(worth_of_a_point_g(1000, left_fraction=0.59), 2)
    16.67

    References
    ----------
    From purchased = wanted / product of all shares; this project's.
    """
    return purchased_g * (1 - left_fraction / (left_fraction + 0.01))
