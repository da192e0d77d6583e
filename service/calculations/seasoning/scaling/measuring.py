"""The kitchen measure nearest to a scaled line: a courtesy, and rough."""

from collections.abc import Sequence
from typing import NamedTuple

from service.calculations.measures.spoons import Number, teaspoons_in
from service.calculations.seasoning.scaling.lines import Line
from service.calculations.seasoning.scaling.recipe import Pieces
from service.quantities.units import factor

MOSTLY_SALT = 0.5
"""From this share of salt on, a spoon of it is a spoon of salt, and none is offered (own bound)."""


class Mark(NamedTuple):
    """A measure of the kitchen: from how many base measures on it is used, what it holds, how finely it is told."""

    least: Number
    unit: str
    holds: Number
    step: Number


US_MARKS = (
    Mark(192, "qt", 192, 0.25),
    Mark(12, "cup", 48, 0.25),
    Mark(3, "tbsp", 3, 0.5),
    Mark(0.25, "tsp", 1, 0.25),
    Mark(0.0625, "tsp", 1, 0.125),
)
"""In teaspoons: from a quart on in quarts, from a quarter cup on in cups (common practice, no source)."""
METRIC_MARKS = (Mark(1000, "l", 1000, 0.05), Mark(25, "ml", 1, 5), Mark(0.5, "ml", 1, 1))
"""In millilitres."""
PIECE_STEP = 0.5
CLOSE_RATIO, ROUGH_RATIO = 0.05, 0.25
"""So far off, a round measure is taken as it is, or no more at all (own bounds)."""


class Near(NamedTuple):
    """A round measure, and what the exact one is in its unit."""

    value: Number
    unit: str
    exact: Number

    @property
    def off_ratio(self) -> Number:
        """How far it is off, either way."""
        return abs(self.value / self.exact - 1)


def nearest_measure(line: Line, by_ratio: float) -> Near | None:
    """For what was spooned or counted and is no salt; None where nothing round is near."""
    amount, listed = line.written.amount, line.ingredient
    if listed is None or not line.by_measure or (line.salt_fraction or 0.0) > MOSTLY_SALT:
        return None
    if isinstance(amount, Pieces):
        return _to_step(amount.count * by_ratio, PIECE_STEP, listed.piece.unit) if listed.piece else None
    metric = amount.unit in ("ml", "l")
    base = amount.value * factor(amount.unit) if metric else teaspoons_in(amount)
    return _marked(base * by_ratio, METRIC_MARKS if metric else US_MARKS)


def _marked(base: Number, marks: Sequence[Mark]) -> Near | None:
    """The coarsest measure that is close, else the closest."""
    told = [_to_step(base / mark.holds, mark.step, mark.unit) for mark in marks if base >= mark.least]
    near = [one for one in told if one is not None]
    return next((one for one in near if one.off_ratio <= CLOSE_RATIO), min(near, key=_off_ratio, default=None))


def _to_step(exact: Number, step: Number, unit: str) -> Near | None:
    near = Near(round(round(exact / step) * step, 9), unit, exact)
    return near if near.off_ratio <= ROUGH_RATIO else None


def _off_ratio(near: Near) -> Number:
    return near.off_ratio
