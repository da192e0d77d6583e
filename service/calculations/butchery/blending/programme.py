"""The programme: amounts between bounds, rows between bounds, and what solves it."""

from collections.abc import Iterable
from math import inf
from typing import NamedTuple, Protocol

from service.calculations.butchery.blending.limits import Limit, PerMaterial, Scaled

Span = tuple[Scaled, Scaled]
Moved = tuple[Limit | None, Scaled]
"""A limit that stands elsewhere, and how far its right side has moved."""
NOTHING_MOVED: Moved = (None, 0.0)
MOST_BLOCK: Scaled = 1e6
"""No block is heavier than so many times the weight that the programme is scaled by."""


class Programme(NamedTuple):
    """Bounds of each amount, and rows. The first row is the weight of the block."""

    columns: tuple[Span, ...]
    rows: tuple[PerMaterial, ...]
    sides: tuple[Span, ...]


class Solver(Protocol):
    """Finds the amounts that make a weighted sum least, again and again, with bounds that may be moved."""

    def least(self, weights: PerMaterial) -> PerMaterial | None:
        """The amounts with the least weighted sum; None where no amounts keep every bound."""

    def keep_best(self) -> None:
        """From now on only amounts that are as good as the last ones found."""

    def set_column(self, number: int, span: Span) -> None:
        """Move the bounds of an amount."""

    def set_row(self, number: int, span: Span) -> None:
        """Move the bounds of a row."""

    def restore(self) -> None:
        """All bounds as they were in the beginning."""


def programme_of(limits: tuple[Limit, ...], materials: int) -> Programme:
    """Limits on the weight of one material bound its amount, the others are rows."""
    rows = [limit for limit in limits if limit.column is None and limit.code != "block_weight"]
    return Programme(
        tuple(column_span(limits, number) for number in range(materials)),
        ((1.0,) * materials, *(limit.row for limit in rows)),
        (block_span(limits), *(side_of(limit) for limit in rows)),
    )


def row_of(limit: Limit, limits: tuple[Limit, ...]) -> int:
    """The number of the row of a limit."""
    if limit.code == "block_weight":
        return 0
    return 1 + [each for each in limits if each.column is None and each.code != "block_weight"].index(limit)


def block_span(limits: Iterable[Limit], moved: Moved = NOTHING_MOVED) -> Span:
    """Between what the block may weigh."""
    return _meet((0.0, MOST_BLOCK), [limit for limit in limits if limit.code == "block_weight"], moved)


def column_span(limits: Iterable[Limit], number: int, moved: Moved = NOTHING_MOVED) -> Span:
    """Between what the weight of one material may lie."""
    return _meet((0.0, inf), [limit for limit in limits if limit.column == number], moved)


def side_of(limit: Limit, moved: Scaled = 0.0) -> Span:
    """The bounds of a row; moved, with its limit elsewhere."""
    right = limit.right + moved
    return (-inf if limit.bound == "at_most" else right, inf if limit.bound == "at_least" else right)


def _meet(span: Span, limits: list[Limit], moved: Moved) -> Span:
    further, by = moved
    for limit in limits:
        low, high = side_of(limit, by if limit is further else 0.0)
        span = max(span[0], low), min(span[1], high)
    return span
