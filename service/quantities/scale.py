"""The kitchen scale: what it can show, and how a weight is rounded to that."""

from functools import lru_cache
from math import floor
from typing import NamedTuple

from service.quantities.quantity import Mass
from service.quantities.units import MassUnit, factor

COUNT_SLACK = 1e-9
"""A count of steps this close under a whole number is that number: floating-point noise, not a missing step."""

SCALES_KEPT = 1024


class Scale(NamedTuple):
    """A scale that shows whole multiples of its smallest step."""

    step_units: float
    """Its smallest step, in its own unit."""
    unit: MassUnit
    unit_g: float
    step_g: float
    name: str
    says_down: str
    """How it is said that a weight was rounded down to its step."""
    says_nearest: str
    """Likewise to the nearest step."""

    def steps_down(self, mass_g: float) -> int:
        """How many whole steps fit under a weight."""
        return floor(mass_g / self.step_g + COUNT_SLACK)

    def steps_nearest(self, mass_g: float) -> int:
        return floor(mass_g / self.step_g + 0.5)

    def down(self, mass_g: float) -> float:
        """What it shows, in its own unit, of a weight that is rounded down."""
        return self.reading(self.steps_down(mass_g))

    def nearest(self, mass_g: float) -> float:
        return self.reading(self.steps_nearest(mass_g))

    def reading(self, steps: int) -> float:
        """What it shows after so many steps, in its own unit, without binary noise (3 x 0.1 is 0.3)."""
        return round(steps * self.step_units, 12) if steps else 0.0


def scale_of(step: Mass) -> Scale:
    """The scale with this smallest step; a kitchen has few of them, so they are kept."""
    return _scale(step.value, step.unit)


@lru_cache(maxsize=SCALES_KEPT)
def _scale(step_units: float, unit: MassUnit) -> Scale:
    unit_g, name = factor(unit), f"{step_units:g} {unit}"
    return Scale(step_units, unit, unit_g, step_units * unit_g, name, f"down to {name}", f"to the nearest {name}")
