"""Solution that was added to raw meat, and how its name says so."""

from collections.abc import Sequence
from math import fsum
from typing import NamedTuple

from service.calculations.labels.labelling.ordering import entries_of
from service.calculations.labels.labelling.place import Place
from service.calculations.labels.labelling.recipe import LabelledLine
from service.calculations.labels.labelling.shares import added_solution_percent
from service.quantities.bands import rounded_up


class Solution(NamedTuple):
    """What was added, and to how much meat."""

    solution_g: float
    meat_g: float
    percent: float
    """Rounded up to four digits: no label says less than went in."""
    designation: str
    """What the name says of it."""


def solution_of(place: Place, lines: Sequence[LabelledLine]) -> Solution | None:
    """Everything that went in with the solution; None without one, or where no line says what meat it went into."""
    added = [line for line in lines if line.in_solution]
    if not added:
        return None
    meat_g = fsum(line.weight.g for line in lines if line.animal is not None and not line.in_solution)
    if not meat_g:
        return None
    solution_g = fsum(line.weight.g for line in added)
    percent = rounded_up(added_solution_percent(solution_g, meat_g=meat_g))
    names = ", ".join(one.name for one in entries_of(place, added, spices=False))
    return Solution(solution_g, meat_g, percent, f"containing {percent:g}% added solution of {names}")
