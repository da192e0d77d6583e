"""How much heat water and brine hold."""

from math import exp

MIXING_C = 25.0
"""Where brine and water are taken to mix without heat."""
STRIPS = 4
"""Of Simpson's rule; the heat capacities are nearly straight lines."""


def water_heat_capacity_kj_per_kg_k(temperature_c: float) -> float:
    r"""Specific heat capacity of water.

    .. math:: c = 4.218946 - 3.19749 \times 10^{-3} t + 9.67132 \times 10^{-5} t^2 - 1.425908 \times 10^{-6} t^3
        + 1.107731 \times 10^{-8} t^4 - 3.327998 \times 10^{-11} t^5

    Parameters
    ----------
    temperature_c : float
        Temperature [degC]

    Returns
    -------
    heat_capacity : float
        Specific heat capacity [kJ/(kg K)]

    Notes
    -----
    Range: 0 to 100 degC, within 0.02 percent of the formulation it was fitted to.

    Examples
    --------
    >>> round(water_heat_capacity_kj_per_kg_k(20), 2)
    4.18

    References
    ----------
    IAPWS Formulation 1995 for ordinary water at 101.325 kPa (fitted here).
    """
    t = temperature_c
    bent = 9.67132e-5 + t * (-1.425908e-6 + t * (1.107731e-8 - 3.327998e-11 * t))
    return 4.218946 + t * (-3.19749e-3 + t * bent)


def brine_heat_capacity_kj_per_kg_k(salt_fraction: float, *, temperature_c: float) -> float:
    r"""Specific heat capacity of a solution of salt in water.

    .. math:: c = (1 - w) c_{water} + w (a_1 e^{a_2 t + a_3 e^{0.01 t} + a_4 w} + a_5 w^{a_6})

    Parameters
    ----------
    salt_fraction : float
        Salt by weight of the brine [fraction]
    temperature_c : float
        Temperature [degC]

    Returns
    -------
    heat_capacity : float
        Specific heat capacity [kJ/(kg K)]

    Notes
    -----
    Range: 1.5 to 120 degC, 0 to 0.261; used here from -5 to 100 degC and to saturation. Within 0.7 percent of another
    published model from 0 to 40 degC.

    Examples
    --------
    >>> round(brine_heat_capacity_kj_per_kg_k(0.10, temperature_c=20), 3)
    3.727

    References
    ----------
    M. Laliberte, J. Chem. Eng. Data 54 (2009), 1725-1760, parameters of sodium chloride.
    """
    w, t = salt_fraction, temperature_c
    slope = -0.0782134167486952 * t + 3.84798479408635 * exp(0.01 * t) - 11.2762109247072 * w
    salt = -0.0693559668993322 * exp(slope) + 8.73187698542672 * float(w**1.81245930472755)
    return (1 - w) * water_heat_capacity_kj_per_kg_k(t) + w * salt


def brine_heat_kj_per_kg(salt_fraction: float, *, temperature_c: float) -> float:
    r"""Heat of a brine above 25 degC.

    .. math:: h(w, t) = \int_{25}^{t} c(w, t') dt'

    Parameters
    ----------
    salt_fraction : float
        Salt by weight of the brine; 0 for water [fraction]
    temperature_c : float
        Temperature [degC]

    Returns
    -------
    heat : float
        Heat of a kilogram, negative under 25 degC [kJ/kg]

    Notes
    -----
    Range: that of the heat capacity. Brine and water are taken to mix without heat at 25 degC. In truth a saturated
    brine cools by about half a degree as it is thinned there, so a real mixture comes out a little colder.

    Examples
    --------
    >>> round(brine_heat_kj_per_kg(0.0, temperature_c=0), 1)
    -104.9

    References
    ----------
    Derived here from the heat capacity of brine, by Simpson's rule.
    """
    step = (temperature_c - MIXING_C) / (2 * STRIPS)
    weights = (1, *(4, 2) * (STRIPS - 1), 4, 1)
    heats = (
        brine_heat_capacity_kj_per_kg_k(salt_fraction, temperature_c=MIXING_C + n * step) for n in range(len(weights))
    )
    return step / 3 * sum(weight * heat for weight, heat in zip(weights, heats, strict=True))
