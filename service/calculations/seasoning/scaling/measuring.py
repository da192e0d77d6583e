"""The kitchen measure nearest to a scaled line: a courtesy, and rough."""

from collections.abc import Sequence
from typing import NamedTuple

from service.calculations.measures.spoons import Number, teaspoons_in
from service.calculations.seasoning.scaling.lines import Line
from service.calculations.seasoning.scaling.recipe import Counted
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
METRIC_MARKS = (Mark(1000, "l", 1000, 0.05), Mark(25, "ml", 1, 5.0), Mark(0.5, "ml", 1, 1.0))
"""In millilitres."""
PIECE_STEP = 0.5
CLOSE_RATIO, ROUGH_RATIO = 0.05, 0.25
"""So far off, a round measure is taken as it is, or no more at all (own bounds)."""


class Near(NamedTuple):
    """A round measure, and what the exact one is in its unit."""

    value: Number
    unit: str
    off_ratio: float
    """How much more it is than the exact one; below zero it is less."""


def nearest_measure(line: Line, by_ratio: float) -> Near | None:
    """For what was spooned or counted and is no salt; None where nothing round is near."""
    amount, listed = line.written.amount, line.ingredient
    if listed is None or not line.by_measure or listed.kind == "salt" or (line.salt_fraction or 0.0) > MOSTLY_SALT:
        return None
    if isinstance(amount, Counted):
        return _to_step(amount.count * by_ratio, PIECE_STEP, listed.piece.unit) if listed.piece else None
    metric = amount.unit in ("ml", "l")
    base = amount.value * factor(amount.unit) if metric else teaspoons_in(amount)
    return _marked(base * by_ratio, METRIC_MARKS if metric else US_MARKS)


def _marked(base: Number, marks: Sequence[Mark]) -> Near | None:
    """The coarsest measure that is close, else the closest."""
    best: Near | None = None
    for mark in marks:
        if base < mark.least:
            continue
        near = _to_step(base / mark.holds, mark.step, mark.unit)
        if near is not None and abs(near.off_ratio) <= CLOSE_RATIO:
            return near
        if near is not None and (best is None or abs(near.off_ratio) < abs(best.off_ratio)):
            best = near
    return best


def _to_step(exact: Number, step: Number, unit: str) -> Near | None:
    value = round(exact / step) * step
    off_ratio = value / exact - 1
    return Near(value, unit, off_ratio) if -ROUGH_RATIO <= off_ratio <= ROUGH_RATIO else None
