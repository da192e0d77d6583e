"""Limits that no blend keeps, stretched as little as need be: which of them give way, and which of them press."""

from typing import NamedTuple

from service.calculations.butchery.blending.limits import Limit, PerMaterial, Scaled
from service.calculations.butchery.blending.programme import Programme, Span, side_of
from service.calculations.butchery.blending.solving import SimplexSolver

GIVES: Scaled = 1e-9
"""A stretch under this is none."""
DEARER: Scaled = 1.001
"""A limit from below gives way last among equals: without any, nothing would be asked for."""
FREE: Span = (0.0, float("inf"))


class Stretched(NamedTuple):
    """What gives way where not every limit can be kept."""

    guilty: list[Limit]
    """Limits that contradict each other, maybe some that need not be among them."""
    passed: list[Limit]
    """Limits that had to be stretched."""
    amounts: PerMaterial | None
    """A blend that keeps all the others; None where even what is fixed cannot be kept."""


def stretched(fixed: list[Limit], movable: list[Limit], many: int) -> Stretched:
    """Which limits give way.

    Every limit may be passed at a price, and the least price is asked for. Limits that hold that price up are a proof
    that they cannot all be kept (Farkas); without those that were passed the others are kept.
    """
    rows = [*fixed, *movable]
    ways = [(number, sign) for number, limit in enumerate(rows) if number >= len(fixed) for sign in _signs(limit)]
    blank: PerMaterial = (0.0,) * len(ways)
    matrix = [list(limit.row + blank) for limit in rows]
    for place, (number, sign) in enumerate(ways):
        matrix[number][many + place] = sign
    columns = (FREE,) * (many + len(ways))
    solver = SimplexSolver(
        Programme(columns, tuple(tuple(row) for row in matrix), tuple(side_of(limit) for limit in rows))
    )
    found = solver.least((0.0,) * many + tuple([DEARER if sign > 0 else 1.0 for _, sign in ways]))
    if found is None:
        return Stretched(movable, movable, None)
    pressing = solver.pressing()
    passed = {number for place, (number, _) in enumerate(ways) if found[many + place] > GIVES}
    guilty = [limit for number, limit in enumerate(rows) if pressing[number] and number >= len(fixed)]
    return Stretched(guilty, [rows[number] for number in sorted(passed)], found[:many])


def _signs(limit: Limit) -> tuple[Scaled, ...]:
    """Which way a limit can be passed."""
    return {"at_most": (-1.0,), "at_least": (1.0,), "exactly": (-1.0, 1.0)}[limit.bound]
