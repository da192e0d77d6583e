"""How heavy a litre of brine is, warm or cold, and how strong a brine of a known weight is."""

from math import exp

from service.calculations.curing.brining.root import crossing
from service.calculations.curing.salts import SATURATED_BRINE_SALT_PERCENT

SATURATED_FRACTION = SATURATED_BRINE_SALT_PERCENT / 100
STRONGEST_FRACTION = 0.27
"""End of the search for a strength; what is over saturation is refused, not told."""
SIXTY_F_C, TWENTY_C = (60 - 32) / 1.8, 20.0


def brine_density_kg_per_m3(salt_fraction: float, *, temperature_c: float) -> float:
    r"""Density of a solution of salt in water.

    .. math:: \rho(w, t) = \rho_{20}(w) \frac{\lambda(w, t)}{\lambda(w, 20)},
        \rho_{20} = 998.216 + 709.751 w + 109.453 w^2 + 402.846 w^3

    Parameters
    ----------
    salt_fraction : float
        Salt by weight of the brine [fraction]
    temperature_c : float
        Temperature of the brine [degC]

    Returns
    -------
    density : float
        Density [kg/m3]

    Notes
    -----
    Range: 0 to 0.264, 0 to 100 degC. The table at 20 degC is kept within 0.09 kg/m3; lambda, the model of Laliberte,
    only carries it to other temperatures. From 0 to 40 degC it agrees with another published model within 0.1
    percent; down to -5 degC within 0.15 percent.

    Examples
    --------
    >>> round(brine_density_kg_per_m3(0.10, temperature_c=20), 1)  # printed: 1.0707 kg/l
    1070.7

    References
    ----------
    CRC Handbook of Chemistry and Physics, 102nd ed., 2021, Concentrative Properties of Aqueous Solutions (fitted here).

    M. Laliberte, J. Chem. Eng. Data 54 (2009), 1725-1760, parameters of sodium chloride.
    """
    w = salt_fraction
    at_twenty = 998.216 + w * (709.751 + w * (109.453 + w * 402.846))
    return at_twenty * _laliberte(w, temperature_c=temperature_c) / _laliberte(w, temperature_c=TWENTY_C)


def _laliberte(salt_fraction: float, *, temperature_c: float) -> float:
    """The model of Laliberte, kg/m3: volumes of water and of salt side by side."""
    w, t = salt_fraction, temperature_c
    curve = 1.0556302e-7 - 2.8054253e-10 * t
    water = 999.83952 + t * (16.945176 + t * (-7.987040e-3 + t * (-46.170461e-6 + t * curve)))
    salt = (-0.00324112223655149 * w + 0.0636354335906616) * exp(1e-6 * (t + 3317.34854426537) ** 2)
    return 1 / ((1 - w) * (1 + 0.01687985 * t) / water + w * (w + 1.01371399467365 + 0.0145951015210159 * t) / salt)


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
    Inverse of brine_density_kg_per_m3, by halving a bracket from 0 to 0.27.

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
