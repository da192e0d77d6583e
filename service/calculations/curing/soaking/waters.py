"""A request for a soak, checked and followed: everything that its answer is told from."""

from math import ceil, inf
from typing import NamedTuple

from service.calculations.curing.diffusing.bookkeeping import bath_ratio
from service.calculations.curing.diffusing.diffusivity import QUICK, SLOW, TYPICAL, salt_diffusivity_mm2_per_d
from service.calculations.curing.diffusing.exchange import LARGEST_RATIO
from service.calculations.curing.pieces import Axis, Piece
from service.calculations.curing.soaking.following import Waters
from service.calculations.curing.timing.setting import Contents, modes_of_axes

LONGEST_H = 72.0
"""Longer than three days nothing is soaked (own bound): the hours count against what a kitchen may keep cold."""


class Reached(NamedTuple):
    """Hours to the salt that is wanted, at each reading of the published diffusivities; inf for never."""

    slow_h: float
    typical_h: float
    quick_h: float


class Soak(NamedTuple):
    """A piece and its waters. Told hours are rounded up to a hundredth, so that what is wanted is reached by then."""

    piece: Piece
    contents: Contents
    salt_percent: float
    wanted_percent: float
    bath_g: float
    change_every_h: float
    temperature_c: float

    @property
    def wanted_ratio(self) -> float:
        """Salt per water that is wanted."""
        return self.wanted_percent / self.contents.percent_per_ratio

    def waters(self) -> Waters:
        """Follow the salt, slow, typical and quick."""
        return Waters(
            modes_of_axes(self.piece.axes, profile=False),
            min(bath_ratio(bath_water_g=self.bath_g, meat_water_g=self.contents.water_g), LARGEST_RATIO),
            [salt_diffusivity_mm2_per_d(speed, self.temperature_c) for speed in (SLOW, TYPICAL, QUICK)],
            even_ratio=self.contents.even_ratio,
            change_every_d=self.change_every_h / 24,
            longest_d=LONGEST_H / 24,
        )

    def reached(self, waters: Waters) -> Reached:
        """When the whole piece has come down to what is wanted."""
        return Reached(*(_up(24 * day_d) for day_d in waters.days_to(self.wanted_ratio)))

    def waters_until(self, after_h: float) -> int:
        """How many waters that takes."""
        return max(1, ceil(after_h / self.change_every_h - 1e-9))

    def as_slab(self, reach_mm: float) -> "Soak":
        """The same meat cut so that no place lies deeper than this. Of all such pieces a slab is the slowest."""
        axes = (Axis("slab", reach_mm),)
        return self._replace(piece=Piece(axes, 2 * reach_mm, self.piece.weight_g))


def contents_of(*, meat_g: float, water_percent: float, salt_percent: float) -> Contents:
    """What the cured meat holds when it goes into the first water."""
    return Contents(meat_g, meat_g * water_percent / 100, meat_g * salt_percent / 100, 0.0)


def _up(hours_h: float) -> float:
    return ceil(hours_h * 100 - 1e-6) / 100 if hours_h < inf else inf
