"""What moving a limit saves, at which price a material comes in, what the next-best blend costs: by solving again."""

from dataclasses import replace
from typing import NamedTuple

from service.calculations.butchery.blending.limits import InItsUnit, Limit, PerMaterial, Scaled, dot
from service.calculations.butchery.blending.line_solving import solver_of
from service.calculations.butchery.blending.programme import (
    Solver,
    block_span,
    column_span,
    programme_of,
    row_of,
    side_of,
)

A_LITTLE: Scaled = 1e-6
"""How far a side is moved to see what it does: over the solver's tolerance, under what a kitchen weighs."""
WORTH: Scaled = 1e-7
"""A saving per scaled weight under this, where the dearest material costs 1, is none."""
PARTS: PerMaterial = (1.0, 0.5, 0.25, 0.125)
"""Of one unit: how far a saving is followed."""
MOST_SAVINGS = 60
"""Limits whose saving is worked out; a blend is seldom held by more than it has materials."""

Cost = float
"""Money, as a share of what a block's worth of the dearest material costs."""


class Saving(NamedTuple):
    """What moving one limit saves."""

    limit: Limit
    higher: bool
    """Whether the limit is raised or lowered."""
    for_one: Cost
    """Per one of the limit's unit."""
    holds_to: InItsUnit | None
    """The saving grows evenly at least until the limit is there; None where that was not asked or cannot be told."""


class Entry(NamedTuple):
    """A material that is not used."""

    number: int
    penalty: Cost | None
    """How much less it would have to cost per scaled weight to come in; None where no price brings it in."""


class NextBest(NamedTuple):
    """The best blend without one of the materials that are used."""

    without: int
    amounts: PerMaterial
    cost: Cost


class Prices(NamedTuple):
    """A solved programme, ready to be asked what would be otherwise."""

    solver: Solver
    limits: tuple[Limit, ...]
    costs: PerMaterial
    amounts: PerMaterial

    @property
    def cost(self) -> Cost:
        return dot(self.costs, self.amounts)

    def savings(self, *, holding: bool) -> list[Saving]:
        """What each limit that binds saves when it is moved a little, the most telling direction first."""
        tight = [limit for limit in self.limits if limit.code != "use_up" and limit.is_tight(self.amounts)]
        found = [self._saving(limit, holding) for limit in tight[:MOST_SAVINGS]]
        return [saving for saving in found if saving]

    def entries(self) -> list[Entry]:
        """Every material that is not used."""
        return [self._entry(number) for number, amount in enumerate(self.amounts) if not amount]

    def next_best(self) -> NextBest | None:
        """The cheapest blend that leaves out one of the materials used; None where there is none."""
        best: NextBest | None = None
        for number, amount in enumerate(self.amounts):
            low, high = column_span(self.limits, number)
            if not amount or low > 0:
                continue
            self.solver.set_column(number, (0.0, 0.0))
            found = self.solver.least(self.costs)
            self.solver.set_column(number, (low, high))
            if found and (best is None or dot(self.costs, found) < best.cost - WORTH):
                best = NextBest(number, found, dot(self.costs, found))
        return best

    def _saving(self, limit: Limit, holding: bool) -> Saving | None:
        signs = {"at_most": (1.0,), "at_least": (-1.0,), "exactly": (1.0, -1.0)}[limit.bound]
        rates = {sign: rate for sign in signs if (rate := self._rate(limit, sign * A_LITTLE)) is not None}
        sign = max(rates, key=lambda sign: rates[sign], default=1.0)
        one = limit.shift(self.amounts) if self._stays_linear(limit) else limit.one
        if rates.get(sign, 0.0) <= WORTH:
            return None
        holds_to = self._holds_to(limit, sign, rates[sign]) if holding else None
        return Saving(limit, sign > 0, rates[sign] * one, holds_to)

    def _rate(self, limit: Limit, moved: Scaled) -> Cost | None:
        """Saved per scaled weight by which the side of a limit moves; of a share of what is not settled, per share."""
        if not self._stays_linear(limit):
            return self._anew(limit, moved)
        if limit.column is not None:
            self.solver.set_column(limit.column, column_span(self.limits, limit.column, (limit, moved)))
        elif limit.code == "block_weight":
            self.solver.set_row(0, block_span(self.limits, (limit, moved)))
        else:
            self.solver.set_row(row_of(limit, self.limits), side_of(limit, moved))
        found = self.solver.least(self.costs)
        self.solver.restore()
        return (self.cost - dot(self.costs, found)) / abs(moved) if found else None

    def _anew(self, limit: Limit, moved: Scaled) -> Cost | None:
        """The same where a moved limit is another row: its programme is solved from the beginning."""
        further = replace(limit, value=limit.value + moved / limit.one)
        limits = tuple([further if each is limit else each for each in self.limits])
        found = solver_of(programme_of(limits, len(self.amounts))).least(self.costs)
        return (self.cost - dot(self.costs, found)) / abs(moved) if found else None

    def _holds_to(self, limit: Limit, sign: Scaled, rate: Cost) -> InItsUnit | None:
        """One unit further, or half, a quarter of one: as far as the saving is seen to grow evenly."""
        if not self._stays_linear(limit):
            return None
        for part in PARTS:
            step = sign * part
            further = self._rate(limit, step * limit.shift(self.amounts))
            if further is not None and abs(further - rate) <= WORTH:
                return limit.value + step
        return None

    def _stays_linear(self, limit: Limit) -> bool:
        """Whether it is on a weight, or a share of a block whose weight is settled."""
        low, high = block_span(self.limits)
        return limit.per is None or (low == high and limit.per == (1.0,) * len(self.amounts))

    def _entry(self, number: int) -> Entry:
        low, high = column_span(self.limits, number)
        forced = min(A_LITTLE, high)
        if forced <= 0:
            return Entry(number, None)
        self.solver.set_column(number, (forced, high))
        found = self.solver.least(self.costs)
        self.solver.set_column(number, (low, high))
        return Entry(number, (dot(self.costs, found) - self.cost) / forced if found else None)
