"""The scales on which the trade reads a brine."""

from service.calculations.curing.brining.density import SATURATED_FRACTION, SIXTY_F_C, brine_density_kg_per_m3

WATER_IN_AIR_LB_PER_GAL = 8.328
"""A US gallon of water at 60 degF, weighed in air. The salometer tables are printed with it, not with 8.337."""


def salometer_deg(salt_fraction: float) -> float:
    r"""Degrees on a salometer: how far a brine is on its way to saturation.

    .. math:: SAL = 100 w / 0.26395

    Parameters
    ----------
    salt_fraction : float
        Salt by weight of the brine [fraction]

    Returns
    -------
    salometer : float
        Degrees salometer [deg]

    Notes
    -----
    Range: 0 to 100. The standard scale: 100 is saturation at 60 degF. One reprint has 8.162 percent for 31 degrees
    and 0.526 for 2, where the scale gives 8.182 and 0.528: misprints.

    Examples
    --------
    >>> round(salometer_deg(0.10558), 2)  # printed: 40
    40.0

    References
    ----------
    Salometer table for 60 degF, reprinted on a public page (reported).
    """
    return 100 * salt_fraction / SATURATED_FRACTION


def specific_gravity_ratio(salt_fraction: float) -> float:
    r"""Specific gravity of a brine at 60 degF against water at 60 degF.

    .. math:: SG = \rho(w, 15.56) / \rho(0, 15.56)

    Parameters
    ----------
    salt_fraction : float
        Salt by weight of the brine [fraction]

    Returns
    -------
    specific_gravity : float
        Specific gravity 60/60 degF [ratio]

    Notes
    -----
    Range: 0 to 0.264. Within 0.0006 of the tables, which print three decimals.

    Examples
    --------
    >>> round(specific_gravity_ratio(0.26395), 3)  # printed: 1.204
    1.204

    References
    ----------
    Derived here from the density of brine.
    """
    brine, water = (brine_density_kg_per_m3(w, temperature_c=SIXTY_F_C) for w in (salt_fraction, 0.0))
    return brine / water


def salt_per_gallon_of_water_lb(salt_fraction: float) -> float:
    r"""Pounds of salt to a US gallon of water.

    .. math:: lb = 8.328 w / (1 - w)

    Parameters
    ----------
    salt_fraction : float
        Salt by weight of the brine [fraction]

    Returns
    -------
    salt : float
        Salt to one US gallon of water at 60 degF [lb]

    Notes
    -----
    Range: 0 to 0.264. A gallon of water, before the salt goes in; a gallon of brine holds less.

    Examples
    --------
    >>> round(salt_per_gallon_of_water_lb(0.10558), 3)  # printed: 0.983
    0.983

    References
    ----------
    Salometer table for 60 degF, reprinted on a public page (reported).
    """
    return WATER_IN_AIR_LB_PER_GAL * salt_fraction / (1 - salt_fraction)
