"""How the salt of a piece comes to rest from one state on."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from service.calculations.curing.diffusing.axes import Array

MEAN, MIDDLE, PROFILE, SURFACE = 0, 1, slice(2, -1), -1
"""Rows of what is told."""


@dataclass(frozen=True, slots=True, eq=False)
class Relaxation:
    """Everything at rest, and what is still to fade: value = final + sum(amplitude * exp(-rate * reach)).

    reach is diffusivity times time [mm2]; strengths are grams of salt per gram of water.
    """

    rates: "Array"
    final_ratio: float
    """What everything comes to."""
    told: "Array"
    """Amplitudes of the mean, the middle, the profile and, last, the surface: a row each."""
    shares: "Array"
    """Amplitudes of the shares of the modes: a row each."""

    def uneven(self, rates: "Array", amplitudes: "Array") -> "Relaxation":
        """The same with something more that fades in the middle and all along the profile, at its own rates."""
        import numpy as np

        told = np.zeros((len(self.told), len(rates)))
        told[MIDDLE] = told[PROFILE] = amplitudes
        shares = np.hstack([self.shares, np.zeros((len(self.shares), len(rates)))])
        return Relaxation(np.append(self.rates, rates), self.final_ratio, np.hstack([self.told, told]), shares)

    def at(self, reaches_mm2: "Array") -> "Array":
        """Mean, middle, profile and surface: a row each, a column for each reach."""
        import numpy as np

        return self.final_ratio + self.told @ np.exp(-np.outer(self.rates, reaches_mm2))

    def row_at(self, row: int, reaches_mm2: "Array") -> "Array":
        """One of these rows alone."""
        import numpy as np

        faded: Array = self.told[row] @ np.exp(-np.outer(self.rates, reaches_mm2))
        return self.final_ratio + faded

    def state(self, reach_mm2: float) -> "Array":
        """The shares of the modes, from which the next stage goes on."""
        import numpy as np

        return self.final_ratio + self.shares @ np.exp(-self.rates * reach_mm2)
