"""Water after water of one size: the salt of a piece in each of them, at three speeds at once.

Every water is the same exchange over again, so it is worked out once: what a gram of salt in the bath does to a piece
without any. By reciprocity what reaches the bath from each share of the piece is what each share would take from it.
"""

from collections.abc import Sequence
from math import ceil, inf
from typing import TYPE_CHECKING

from service.calculations.curing.diffusing.axes import Modes
from service.calculations.curing.diffusing.exchange import Limited
from service.calculations.curing.diffusing.relaxation import MEAN, SURFACE

if TYPE_CHECKING:
    from service.calculations.curing.diffusing.axes import Array

GRID, ROUNDS = 17, 5
"""An hour is sought on a grid, then between two of its points, and so on: to a millionth of one water."""


class Waters:
    """The shares of a piece when each water is poured on, and what is read off them. A column for each speed."""

    def __init__(
        self, modes: Modes, bath_ratio: float, speeds_mm2_per_d: Sequence[float], *,
        even_ratio: float, change_every_d: float, longest_d: float,
    ) -> None:  # fmt: skip
        import numpy as np

        response = Limited(modes, bath_ratio).relaxation(np.zeros_like(modes.rates), salt_ratio=1.0)
        self._told, self._change_d, self._longest_d = response.told, change_every_d, longest_d
        self._fading_per_d = np.outer(response.rates, speeds_mm2_per_d)
        self.count = ceil(longest_d / change_every_d - 1e-9)
        self._finals, self._loads = [], []
        state = np.full((len(modes.rates), len(speeds_mm2_per_d)), even_ratio)
        pulls = modes.weights[MEAN][:, None]
        left = np.exp(-self._fading_per_d * change_every_d)
        for _ in range(self.count):
            held = pulls * state
            final = held.sum(axis=0) / (1 + bath_ratio)
            loads = response.shares.T @ held / response.told[SURFACE][:, None]
            self._finals.append(final)
            self._loads.append(loads)
            state = final + response.shares @ (loads * left)

    def at(self, days_d: "Array") -> "Array":
        """Mean, middle and bath after so many days: for each of them a row each, and a column for each speed."""
        import numpy as np

        numbers = np.clip(np.ceil(days_d / self._change_d - 1e-9).astype(np.intp) - 1, 0, self.count - 1)
        since_d = (days_d - numbers * self._change_d)[:, None, None]
        loads = np.stack(self._loads)[numbers] * np.exp(-self._fading_per_d * since_d)
        read: Array = np.stack(self._finals)[numbers][:, None, :] + self._told @ loads
        return read

    @property
    def ends_d(self) -> "Array":
        """When each water is poured off."""
        import numpy as np

        ends: Array = np.minimum(np.arange(1, self.count + 1) * self._change_d, self._longest_d)
        return ends

    def days_to(self, wanted_ratio: float) -> tuple[float, ...]:
        """Days until the whole piece has come down to this strength, for each speed; inf for never."""
        reached = self.at(self.ends_d)[:, MEAN] <= wanted_ratio
        return tuple(
            self._day_d(int(column.argmax()), speed, wanted_ratio) if column.any() else inf
            for speed, column in enumerate(reached.T)
        )

    def _day_d(self, number: int, speed: int, wanted_ratio: float) -> float:
        """When, in this water, the mean has come down."""
        import numpy as np

        amplitudes = self._told[MEAN] * self._loads[number][:, speed]
        room = wanted_ratio - self._finals[number][speed]
        low_d, high_d = 0.0, float(self.ends_d[number]) - number * self._change_d
        for _ in range(ROUNDS):
            grid = np.linspace(low_d, high_d, GRID)
            above = amplitudes @ np.exp(-np.outer(self._fading_per_d[:, speed], grid)) > room
            last = min(int(above.sum()), GRID - 1)
            low_d, high_d = grid[max(last - 1, 0)], grid[last]
        return number * self._change_d + float(high_d)
