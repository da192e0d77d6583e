"""The two ways to reckon what meat and bath come to, both of them in use."""


def whole_system_salt_percent(*, salt_g: float, meat_g: float, bath_g: float) -> float:
    r"""Salt at equilibrium over everything, by weight.

    .. math:: percent = 100 \times salt / (meat + bath)

    Parameters
    ----------
    salt_g : float
        All salt, in the bath or laid on the meat [g]
    meat_g : float
        Raw meat, with what was pumped into it [g]
    bath_g : float
        Brine, its salt counted; for a dry cure the salt alone [g]

    Returns
    -------
    salt : float
        Salt by weight of everything [percent]

    Raises
    ------
    ZeroDivisionError
        When meat and bath weigh nothing.

    Notes
    -----
    The reading that inspectors use for a cover pickle. It takes meat and brine for one even mixture, although only
    the water of the meat takes salt up: some tenth higher than the reading by meat water.

    Examples
    --------
    >>> round(whole_system_salt_percent(salt_g=42, meat_g=1000, bath_g=600), 3)
    2.625

    References
    ----------
    FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook, 1995, p. 22 (immersion, method two)
    (reported), for salt instead of nitrite.
    """
    return 100 * salt_g / (meat_g + bath_g)


def meat_water_salt_percent(*, strength_ratio: float, water_fraction: float) -> float:
    r"""Salt in the piece when its water is as strong as this, by its green weight.

    .. math:: percent = 100 \times strength \times water

    Parameters
    ----------
    strength_ratio : float
        Salt per water in the meat, by weight [ratio]
    water_fraction : float
        Water in the meat per green weight, pumped water counted [fraction]

    Returns
    -------
    salt : float
        Salt by green weight [percent]

    Raises
    ------
    Nothing.

    Notes
    -----
    Salt spreads evenly over water, in the meat as in the bath (partition coefficient 1). Water that moves between
    the two is left out.

    Examples
    --------
    >>> round(meat_water_salt_percent(strength_ratio=42 / (700 + 558), water_fraction=0.7), 3)
    2.337

    References
    ----------
    Mass balance over the water of meat and bath; Crank, The Mathematics of Diffusion, 2nd ed. 1975, section 4.3.5
    (from memory).
    """
    return 100 * strength_ratio * water_fraction


def bath_ratio(*, bath_water_g: float, meat_water_g: float) -> float:
    r"""How big a bath is to the meat in it, by water.

    .. math:: ratio = bath\ water / meat\ water

    Parameters
    ----------
    bath_water_g : float
        Water in the bath [g]
    meat_water_g : float
        Water in all the meat that lies in it [g]

    Returns
    -------
    ratio : float
        Water to water [ratio]

    Raises
    ------
    ZeroDivisionError
        When the meat holds no water.

    Notes
    -----
    0 is a dry cure or a rest. Whether one piece or many share a bath changes nothing but this ratio.

    Examples
    --------
    >>> round(bath_ratio(bath_water_g=558, meat_water_g=700), 4)
    0.7971

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. 1975, section 4.3.5 (from memory).
    """
    return bath_water_g / meat_water_g
