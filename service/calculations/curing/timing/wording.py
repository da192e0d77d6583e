"""Lengths as a caller reads them."""

from typing import Literal

from service.quantities.quantity import Units
from service.quantities.units import factor

Number = float | int
"""A number of any unit."""
DepthUnit = Literal["mm", "in"]


def length_text(length_mm: float, units: Units) -> str:
    """A length in words, to three digits."""
    return f"{told_length(length_mm, units):.3g} {unit_of_length(units)}"


def told_length(length_mm: float, units: Units) -> Number:
    """A length in the unit of the answer."""
    return length_mm / factor(unit_of_length(units))


def unit_of_length(units: Units) -> DepthUnit:
    """Millimetres, or inches."""
    return "mm" if units == "metric" else "in"
