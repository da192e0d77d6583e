"""Which of all lawful blends is taken: the cheapest, then the lightest, the oldest stock, what is listed first."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from service.calculations.butchery.blending.limits import PerMaterial, Scaled
from service.calculations.butchery.blending.programme import Solver

ChosenBy = Literal["least_cost", "only_blend", "least_weight", "oldest_stock", "listed_first"]

GOLDEN: Scaled = 0.6180339887498949
"""Multiples of it never repeat after the point: weights that no two blends share by accident."""
SAME: Scaled = 1e-9
"""Scaled amounts that differ by no more are the same."""


class Wishes(NamedTuple):
    """What decides between blends, a number for each material."""

    costs: PerMaterial | None
    """What it costs; None where no prices are stated."""
    ages: PerMaterial | None
    """How old it is; None where that is not stated of all."""
    free_weight: bool
    """Whether the block may weigh more or less."""


class Choice(NamedTuple):
    """The blend that is taken."""

    amounts: PerMaterial
    by: ChosenBy
    only_one: bool
    """Whether no other blend is as good: as cheap, or without prices lawful at all."""


def choose(solver: Solver, wishes: Wishes, many: int) -> Choice | None:
    """The blend to take; None where none keeps every limit."""
    if wishes.costs:
        if solver.least(wishes.costs) is None:
            return None
        solver.keep_best()
    one, other = (solver.least(weights) for weights in _telling_apart(many))
    if one is None or other is None:
        return None
    by: ChosenBy = "least_cost" if wishes.costs else "only_blend"
    if max(abs(a - b) for a, b in zip(one, other, strict=True)) <= SAME:
        return Choice(one, by, only_one=True)
    for weights in _tie_breaks(wishes, many):
        one = solver.least(weights) or one
        solver.keep_best()
    return Choice(one, by if wishes.costs else _decided_by(wishes), only_one=False)


def _decided_by(wishes: Wishes) -> ChosenBy:
    """What decides first where no prices are stated."""
    if wishes.free_weight:
        return "least_weight"
    return "oldest_stock" if wishes.ages else "listed_first"


def _telling_apart(many: int) -> tuple[PerMaterial, PerMaterial]:
    weights = [0.5 + (number * GOLDEN) % 1 for number in range(many)]
    return tuple(weights), tuple([-weight for weight in weights])


def _tie_breaks(wishes: Wishes, many: int) -> Iterator[PerMaterial]:
    if wishes.free_weight:
        yield (1.0,) * many
    if wishes.ages:
        oldest = max(wishes.ages) or 1.0
        yield tuple([-age / oldest for age in wishes.ages])
    yield tuple([(number + 1) / many for number in range(many)])
