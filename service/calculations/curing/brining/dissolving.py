"""How much salt stays dissolved in the cold, and how cold a brine may be before ice or salt falls out."""

from service.calculations.curing.brining.density import SATURATED_FRACTION
from service.calculations.curing.brining.freezing import EUTECTIC_FRACTION, freezing_point_c
from service.calculations.curing.brining.root import Number

HYDRATE_C, HYDRATE_FRACTION = 0.1, 0.263
"""Below 0.1 degC salt falls out with water in it; there 26.3 percent stay dissolved (from memory)."""
EUTECTIC_C = -21.1
COLDEST_C = -5.0
"""Colder than this the figures for brine are not told."""
A_LITTLE = 1e-9


def most_dissolved_fraction(temperature_c: float) -> float:
    r"""Salt that stays dissolved at a temperature.

    .. math:: w = 0.233 + 0.030 (t + 21.1) / 21.2

    Parameters
    ----------
    temperature_c : float
        Temperature of the brine [degC]

    Returns
    -------
    salt : float
        The most salt by weight of the brine [fraction]

    Notes
    -----
    Range: -21.1 to 0.1 degC. From 0.1 degC on it is 0.26395, which is saturation at 60 degF. What falls out below is
    the hydrate, two parts of water to one of salt. The straight line between its two ends is this project's.

    Examples
    --------
    >>> round(most_dissolved_fraction(-5), 4)
    0.2558

    References
    ----------
    Lange's Handbook of Chemistry, 15th ed., Table 5.13 (23.3 percent at -21.1 degC, reported); 26.3 percent at 0.1 degC
    from memory.
    """
    if temperature_c >= HYDRATE_C:
        return SATURATED_FRACTION
    share = (temperature_c - EUTECTIC_C) / (HYDRATE_C - EUTECTIC_C)
    return EUTECTIC_FRACTION + share * (HYDRATE_FRACTION - EUTECTIC_FRACTION)


def coldest_of(salt_fraction: Number) -> Number:
    """Degrees Celsius at which ice or salt begins to fall out of a brine, or the figures end, whichever is warmer."""
    share = (salt_fraction - EUTECTIC_FRACTION) / (HYDRATE_FRACTION - EUTECTIC_FRACTION)
    salt_c = min(HYDRATE_C, EUTECTIC_C + share * (HYDRATE_C - EUTECTIC_C))
    return max(COLDEST_C, salt_c, freezing_point_c(min(salt_fraction, EUTECTIC_FRACTION)))


def is_dissolved(salt_fraction: float, *, temperature_c: float) -> bool:
    """Whether all of the salt stays in the brine."""
    return salt_fraction <= most_dissolved_fraction(temperature_c) * (1 + A_LITTLE)
