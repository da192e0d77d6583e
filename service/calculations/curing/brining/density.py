"""How heavy a litre of brine is, warm or cold."""

from math import exp

from service.calculations.curing.salts import SATURATED_BRINE_SALT_PERCENT

SATURATED_FRACTION = SATURATED_BRINE_SALT_PERCENT / 100
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
