"""How strong a brine is of which the density, or the salt in a litre, is known."""

from service.calculations.curing.brining.density import brine_density_kg_per_m3
from service.calculations.curing.brining.root import crossing

STRONGEST_FRACTION = 0.30
"""End of the search for a strength; what is over saturation is refused, not told."""


def salt_of_density_fraction(density_kg_per_m3: float, *, temperature_c: float) -> float | None:
    r"""How strong a brine of a known density is.

    .. math:: \rho(w, t) = \rho

    Parameters
    ----------
    density_kg_per_m3 : float
        Density of the brine [kg/m3]
    temperature_c : float
        Temperature at which it has it [degC]

    Returns
    -------
    salt : float
        Salt by weight of the brine; None for less than that of water, or more than any brine [fraction]

    Notes
    -----
    Inverse of brine_density_kg_per_m3, searched from 0 to 0.30.

    Examples
    --------
    >>> round(salt_of_density_fraction(1070.7, temperature_c=20), 4)
    0.1

    References
    ----------
    Derived here from the density of brine.
    """
    return crossing(
        lambda w: brine_density_kg_per_m3(w, temperature_c=temperature_c) - density_kg_per_m3, (0.0, STRONGEST_FRACTION)
    )


def salt_of_grams_per_litre_fraction(salt_g_per_l: float, *, temperature_c: float) -> float | None:
    r"""How strong a brine is that holds so much salt in a litre.

    .. math:: w \rho(w, t) = c

    Parameters
    ----------
    salt_g_per_l : float
        Salt in a litre of finished brine [g/l]
    temperature_c : float
        Temperature at which the litre is measured [degC]

    Returns
    -------
    salt : float
        Salt by weight of the brine; None for more than any brine holds [fraction]

    Notes
    -----
    A litre of brine, not a litre of water: 100 g in a litre of brine is 9.4 percent, 100 g to a litre of water 9.1.

    Examples
    --------
    >>> round(salt_of_grams_per_litre_fraction(107.07, temperature_c=20), 4)
    0.1

    References
    ----------
    Derived here from the density of brine.
    """
    return crossing(
        lambda w: w * brine_density_kg_per_m3(w, temperature_c=temperature_c) - salt_g_per_l, (0.0, STRONGEST_FRACTION)
    )
