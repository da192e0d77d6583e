"""What a piece weighs against its green weight: the figures that standards of identity bound."""


def gained_percent(green_g: float, *, cured_g: float) -> float:
    r"""Weight that a piece gained in the cure.

    .. math:: gain = 100 \times (cured - green) / green

    Parameters
    ----------
    green_g : float
        The fresh piece, trimmed, before anything is added [g]
    cured_g : float
        The same piece out of the cure, drained [g]

    Returns
    -------
    gain : float
        Weight gained; below zero where it was lost [percent]

    Raises
    ------
    ZeroDivisionError
        When green_g is zero.

    Notes
    -----
    Both weighed. What a pump or a pick-up is planned to bring is a forecast of it.

    Examples
    --------
    >>> gained_percent(10.0, cured_g=12.0)
    20.0

    References
    ----------
    9 CFR 319.100 to 319.103 (read): gain by the weight of the fresh uncured piece.
    """
    return 100 * (cured_g - green_g) / green_g


def finished_percent(green_g: float, *, finished_g: float) -> float:
    r"""What the finished piece weighs against the fresh one.

    .. math:: finished = 100 \times finished / green

    Parameters
    ----------
    green_g : float
        The fresh piece, trimmed, before anything is added [g]
    finished_g : float
        The same piece cured, cooked or smoked [g]

    Returns
    -------
    finished : float
        Finished weight of the green weight [percent]

    Raises
    ------
    ZeroDivisionError
        When green_g is zero.

    Notes
    -----
    What is lost, as a country ham has to lose some, is a hundred less this.

    Examples
    --------
    >>> finished_percent(10.0, finished_g=8.5)
    85.0

    References
    ----------
    9 CFR 319.100 to 319.102 and 319.106 (read), 319.80 and 319.107 (reported): by the weight of the fresh uncured
    piece.
    """
    return 100 * finished_g / green_g
