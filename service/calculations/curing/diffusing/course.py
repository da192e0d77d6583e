"""The salt of a piece over several stages, each with its own bath and temperature."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from math import inf
from typing import TYPE_CHECKING, Literal, NamedTuple

from service.calculations.curing.diffusing.exchange import Endless, Limited
from service.calculations.curing.diffusing.relaxation import MEAN, MIDDLE, PROFILE, SURFACE, Relaxation

if TYPE_CHECKING:
    from service.calculations.curing.diffusing.axes import Array

UNDISSOLVED_RATIO = 1.0
"""Salt per water at a surface under a rub that has not dissolved: told as saturated."""
GRID = 16
ROUNDS = 3
"""A first day is sought on a grid, on a finer one between two of its points, and so on, then along the last chord."""
SEARCHES_KEPT = 8
EARLIEST_SHARE = 1e-4
"""The grid begins at this share of its end."""


class Leg(NamedTuple):
    """One stage: with what the piece exchanges salt, how quickly, and how long."""

    exchange: Endless | Limited
    salt_ratio: float
    """Strength of an endless bath [g/g]; for any other, its salt per water of the meat [g/g]."""
    diffusivity_mm2_per_d: float
    delay_d: float
    """Days until a rub has dissolved: nothing moves before."""
    lasts_d: float
    """inf for the stage whose end is asked."""


@dataclass(frozen=True, slots=True, eq=False)
class Followed:
    """A leg that was followed, from the state it began with."""

    leg: Leg
    start_d: float
    before: "Array"
    """Mean, middle, profile and surface before anything has moved."""
    relaxation: Relaxation

    def reach_mm2(self, day_d: float) -> float:
        """Diffusivity times time."""
        return max(day_d - self.start_d - self.leg.delay_d, 0.0) * self.leg.diffusivity_mm2_per_d

    def day_d(self, reach_mm2: float) -> float:
        """The day on which so much diffusivity times time is reached; the first of the stage for none of it."""
        if not reach_mm2:
            return self.start_d
        return self.start_d + self.leg.delay_d + reach_mm2 / self.leg.diffusivity_mm2_per_d

    @property
    def end_d(self) -> float:
        return self.start_d + self.leg.lasts_d

    def at(self, days_d: "Array") -> "Array":
        """Mean, middle, profile and surface on these days."""
        import numpy as np

        reaches = (days_d - self.start_d - self.leg.delay_d) * self.leg.diffusivity_mm2_per_d
        moved = self.relaxation.at(np.maximum(reaches, 0.0))
        return np.where(reaches > 0, moved, self.before[:, None])


class Course:
    """Stage after stage, from unsalted meat or from salt that was pumped in.

    Pumped salt is even over the piece from the start, and uneven between the stitches: ``stitches`` is how the place
    that is farthest from any stitch comes to rest.
    """

    def __init__(
        self, weights: "Array", legs: Sequence[Leg], *, even_ratio: float, stitches: Relaxation | None = None,
        first: Relaxation | None = None,
    ) -> None:  # fmt: skip
        """first: how the first leg comes to rest, where another course has worked it out; speeds do not change it."""
        import numpy as np

        state = np.full(weights.shape[1], even_ratio)
        self.followed: list[Followed] = []
        start_d = reached_mm2 = 0.0
        for leg in legs:
            known = first if first and not self.followed else None
            relaxation = known or _relaxation(leg, state)
            before = np.append(weights @ state, _surface_ratio(leg, relaxation))
            before[MEAN] = relaxation.final_ratio + relaxation.told[MEAN].sum()  # a rub counts from the start
            if stitches:
                missing = stitches.told[MIDDLE] * np.exp(-stitches.rates * reached_mm2)
                before[MIDDLE] += missing.sum()
                before[PROFILE] += missing.sum()
                relaxation = known or relaxation.uneven(stitches.rates, missing)
            self.followed.append(Followed(leg, start_d, before, relaxation))
            start_d += leg.lasts_d
            if start_d < inf:
                reach_mm2 = self.followed[-1].reach_mm2(start_d)
                state, reached_mm2 = relaxation.state(reach_mm2), reached_mm2 + reach_mm2

    def at(self, days_d: "Array") -> "Array":
        """Mean, middle, profile and surface on these days: a column each."""
        import numpy as np

        if len(self.followed) == 1:
            return self.followed[0].at(days_d)
        which = np.searchsorted([one.end_d for one in self.followed[:-1]], days_d)
        told = np.empty((len(self.followed[0].before), len(days_d)))
        for number, one in enumerate(self.followed):
            told[:, which == number] = one.at(days_d[which == number])
        return told

    @property
    def final_ratio(self) -> float:
        """What everything comes to in the last stage [g/g]."""
        return self.followed[-1].relaxation.final_ratio

    def first_day_d(self, target_ratio: float, *, row: int = MIDDLE, rising: bool = True, last: bool = False) -> float:
        """The first day on which the middle, or another row, has risen or fallen to this strength; inf for never.

        last: of the last stage, whose first day it is where the strength is there already.
        """
        sought = Sought(row, target_ratio, 1 if rising else -1)
        reaches = ((one, _first_reach_mm2(one, sought)) for one in self.followed[-1 if last else 0 :])
        return next((one.day_d(reach_mm2) for one, reach_mm2 in reaches if reach_mm2 < inf), inf)


def _surface_ratio(leg: Leg, relaxation: Relaxation) -> float:
    """What the surface meets before anything has moved: a bath as it is; a rub is as strong as may be."""
    return UNDISSOLVED_RATIO if leg.delay_d else relaxation.final_ratio + float(relaxation.told[SURFACE].sum())


def _relaxation(leg: Leg, state: "Array") -> Relaxation:
    if isinstance(leg.exchange, Endless):
        return leg.exchange.relaxation(state, strength_ratio=leg.salt_ratio)
    return leg.exchange.relaxation(state, salt_ratio=leg.salt_ratio)


class Sought(NamedTuple):
    """A strength that a row is to come to, from below (1) or from above (-1)."""

    row: int
    target_ratio: float
    way: Literal[1, -1]

    def over(self, ratios: "Array") -> "Array":
        """How far beyond it these are; negative before."""
        return self.way * (ratios - self.target_ratio)


def _first_reach_mm2(one: Followed, sought: Sought) -> float:
    """Where the row first comes to what is sought; inf for nowhere in this leg."""
    return _within_mm2(one.relaxation, sought, one.reach_mm2(one.end_d))


@lru_cache(SEARCHES_KEPT)
def _within_mm2(relaxation: Relaxation, sought: Sought, end_mm2: float) -> float:
    """The same up to an end, which may be inf. Courses that differ in speed alone ask it of one relaxation."""
    low = high = under = over = 0.0
    wide, fine = _grids()
    grid = wide * (end_mm2 if end_mm2 < inf else _rest_mm2(relaxation, sought))
    for _ in range(ROUNDS):
        values = sought.over(relaxation.row_at(sought.row, grid))
        first = int((values >= 0).argmax())
        if not values[first] >= 0:
            return inf
        if first == 0:
            return float(grid[0])
        low, high, under, over = grid[first - 1], grid[first], values[first - 1], values[first]
        grid = low + (high - low) * fine
    return float(low + (high - low) * under / (under - over))


@cache
def _grids() -> tuple["Array", "Array"]:
    """From nothing to all of it: closer and closer to nothing, and evenly."""
    import numpy as np

    return np.append(0.0, np.geomspace(EARLIEST_SHARE, 1.0, GRID)), np.linspace(0.0, 1.0, GRID)


def _rest_mm2(relaxation: Relaxation, sought: Sought) -> float:
    """By then less is left to fade than to go; nothing where what is sought is never come to."""
    import numpy as np

    room = sought.way * (relaxation.final_ratio - sought.target_ratio)
    fading = np.abs(relaxation.told[sought.row]).sum()
    return float(np.log1p(fading / room) / relaxation.rates.min()) if room > 0 else 0.0
