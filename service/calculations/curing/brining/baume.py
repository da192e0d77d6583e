"""The scale of Baume, and back."""

BAUME_MODULUS = 145.0


def baume_deg(specific_gravity_ratio: float) -> float:
    r"""Degrees Baume of a liquid heavier than water.

    .. math:: Be = 145 - 145 / SG

    Parameters
    ----------
    specific_gravity_ratio : float
        Specific gravity 60/60 degF [ratio]

    Returns
    -------
    baume : float
        Degrees Baume, American scale [deg]

    Notes
    -----
    Range: 1 and more. Other countries divide 144.3 instead of 145.

    Examples
    --------
    >>> round(baume_deg(1.078), 2)
    10.49

    References
    ----------
    The American Baume scale for liquids heavier than water, 60/60 degF (reported).
    """
    return BAUME_MODULUS - BAUME_MODULUS / specific_gravity_ratio


def gravity_of_baume_ratio(baume_deg: float) -> float:
    r"""Specific gravity of a liquid heavier than water by its degrees Baume.

    .. math:: SG = 145 / (145 - Be)

    Parameters
    ----------
    baume_deg : float
        Degrees Baume, American scale [deg]

    Returns
    -------
    specific_gravity : float
        Specific gravity 60/60 degF [ratio]

    Notes
    -----
    Range: under 145. Inverse of baume_deg.

    Examples
    --------
    >>> round(gravity_of_baume_ratio(10.49), 3)
    1.078

    References
    ----------
    The American Baume scale for liquids heavier than water, 60/60 degF (reported).
    """
    return BAUME_MODULUS / (BAUME_MODULUS - baume_deg)
