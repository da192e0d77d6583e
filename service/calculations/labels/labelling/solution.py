"""Solution that was added to raw meat, and how its name says so."""

from collections.abc import Sequence
from math import ceil, fsum
from typing import NamedTuple

from service.calculations.labels.labelling.ordering import entries_of
from service.calculations.labels.labelling.place import Place
from service.calculations.labels.labelling.recipe import LabelledLine
from service.calculations.labels.labelling.shares import added_solution_percent

NOISE_DECIMALS = 6


class Solution(NamedTuple):
    """What was added, and to how much meat."""

    solution_g: float
    meat_g: float
    percent: float
    """Rounded up to a tenth: no label says less than went in."""


def solution_of(lines: Sequence[LabelledLine]) -> Solution | None:
    """Everything that went in with the solution; None without one, or where no line says what meat it went into."""
    added = [line for line in lines if line.in_solution]
    if not added:
        return None
    meat_g = fsum(line.weight.g for line in lines if line.animal is not None and not line.in_solution)
    if not meat_g:
        return None
    solution_g = fsum(line.weight.g for line in added)
    percent = _to_a_tenth_percent(added_solution_percent(solution_g, meat_g=meat_g))
    return Solution(solution_g, meat_g, percent)


def designation_of(solution: Solution, place: Place, lines: Sequence[LabelledLine]) -> str:
    """What the name says of it, with everything that the solution consists of."""
    added = [line for line in lines if line.in_solution]
    facts = [place.facts(line.name, line.ingredient) for line in added]
    names = ", ".join(one.text for one in entries_of(place, added, facts, spices=False))
    return f"containing {solution.percent:g}% added solution of {names}"


def _to_a_tenth_percent(percent: float) -> float:
    """Rounded up; floating-point noise is no tenth."""
    return ceil(round(10 * percent, NOISE_DECIMALS)) / 10
