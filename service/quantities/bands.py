"""Weights and volumes with a low and a high side, told so that rounding never makes the band narrower."""

from decimal import ROUND_CEILING, ROUND_FLOOR, Context, Decimal
from math import ceil, floor, log10

from service.quantities.models import Answer
from service.quantities.quantity import G_PER_OZ, Units
from service.quantities.units import MassUnit, VolumeUnit

DIGITS = 4
_DOWN, _UP = Context(prec=DIGITS, rounding=ROUND_FLOOR), Context(prec=DIGITS, rounding=ROUND_CEILING)
OUNCES_PER_POUND = 16
QUICK_FROM, QUICK_TO, NOISE = 1e-6, 9999.0, 5e-9
"""Between these, whole numbers over a whole power of ten come to the same as decimals, in a fifth of the time."""
TENS: tuple[int, ...] = tuple(10**power for power in range(DIGITS + 6))


class WeightBand(Answer):
    """A weight between two sides. low is rounded down, high is rounded up."""

    low: float
    """The least it may be, in the unit beside it."""
    typical: float | None
    """What is usual; null where no single weight may be named."""
    high: float
    """The most it may be."""
    unit: MassUnit
    """g, or oz, or lb from a pound on."""


class VolumeBand(Answer):
    """A level volume between two sides. low is rounded down, high is rounded up."""

    low: float
    """The least it may be, in the unit beside it."""
    typical: float
    """What is usual."""
    high: float
    """The most it may be."""
    unit: VolumeUnit
    """Its unit."""


def rounded_down(value: float) -> float:
    """To four digits, towards minus infinity; floating-point noise is no digit."""
    return float(_DOWN.create_decimal(_plain(value)))


def rounded_up(value: float) -> float:
    """To four digits, towards plus infinity; floating-point noise is no digit."""
    return float(_UP.create_decimal(_plain(value)))


def rounded(value: float) -> float:
    """To four digits."""
    return float(f"{value:.{DIGITS}g}")


def rounded_sides(low: float, *, typical: float, high: float) -> tuple[float, float, float]:
    """All three at once: low rounded down, high rounded up; quick but for the very small and the large."""
    if low >= QUICK_FROM and high < QUICK_TO:
        tens = middle = top = _tens_of(low)
        if high * tens >= QUICK_TO:
            middle, top = _tens_of(typical), _tens_of(high)
        return floor(low * tens + NOISE) / tens, round(typical * middle) / middle, ceil(high * top - NOISE) / top
    return rounded_down(low), rounded(typical), rounded_up(high)


def _tens_of(value: float) -> int:
    """The power of ten that brings a number to as many digits before its point."""
    return TENS[DIGITS - 1 - floor(log10(value))]


def present_band(low_g: float, *, high_g: float, typical_g: float | None, units: Units) -> WeightBand:
    """A band of weights in kitchen units."""
    unit, factor_g = unit_of(high_g, units)
    return WeightBand.of(
        low=rounded_down(low_g / factor_g),
        typical=None if typical_g is None else rounded(typical_g / factor_g),
        high=rounded_up(high_g / factor_g),
        unit=unit,
    )


def unit_of(high_g: float, units: Units) -> tuple[MassUnit, float]:
    """The unit that a weight is told in, and what one of it weighs in grams."""
    if units == "metric":
        return "g", 1.0
    is_heavy = high_g >= OUNCES_PER_POUND * G_PER_OZ
    return ("lb", OUNCES_PER_POUND * G_PER_OZ) if is_heavy else ("oz", G_PER_OZ)


def _plain(value: float) -> Decimal:
    return Decimal(f"{value:.12g}")
