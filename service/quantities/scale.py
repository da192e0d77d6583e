"""The kitchen scale: what it can show, and how a weight is rounded to that."""

from dataclasses import dataclass, field
from math import floor

from service.quantities.quantity import Mass, Weight
from service.quantities.units import factor

COUNT_SLACK = 1e-9
"""A count of steps this close under a whole number is that number: floating-point noise, not a missing step."""


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale that shows whole multiples of its smallest step."""

    step: Mass
    step_g: float = field(init=False)
    unit_g: float = field(init=False)
    """Its unit."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "step_g", self.step.g)
        object.__setattr__(self, "unit_g", factor(self.step.unit))

    def steps_down(self, mass_g: float) -> int:
        """How many whole steps fit under a weight."""
        return floor(mass_g / self.step_g + COUNT_SLACK)

    def steps_nearest(self, mass_g: float) -> int:
        return floor(mass_g / self.step_g + 0.5)

    def shown(self, steps: int) -> Weight:
        """The reading after so many steps, in the scale's own unit, without binary noise (3 x 0.1 is 0.3)."""
        return Weight.of(value=self._value(steps), unit=self.step.unit)

    def shown_g(self, steps: int) -> float:
        """The reading in grams: what is really weighed."""
        return self._value(steps) * self.unit_g

    def _value(self, steps: int) -> float:
        return round(steps * self.step.value, 12) if steps else 0.0

    @property
    def name(self) -> str:
        return f"{self.step.value:g} {self.step.unit}"
