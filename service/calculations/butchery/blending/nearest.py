"""Why there is no blend, and the nearest thing that can be asked for: found by solving, and tried before it is told."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from math import ceil, floor, inf

from service.calculations.butchery.blending.limits import InItsUnit, Limit, PerMaterial, Scaled
from service.calculations.butchery.blending.line_solving import solver_of
from service.calculations.butchery.blending.programme import (
    MOST_BLOCK,
    block_span,
    column_span,
    programme_of,
    row_of,
    side_of,
)
from service.calculations.butchery.blending.solving import SimplexSolver
from service.calculations.butchery.blending.stretching import stretched
from service.calculations.refusals import Impossible

REASONS = {"no_such_blend": "No blend of these materials keeps every limit that is stated."}
FIXED = ("block_weight", "use_up")
"""What the other limits are held against."""
STOCK = ("use_up", "on_hand")
"""What there is: no number of the request makes it more."""
ORDER = (
    "fat", "protein", "moisture", "group_share", "group_ratio", "group_weight", "most_share", "least_share",
    "block_weight", "most", "least", "on_hand",
)  # fmt: skip
"""Which limit is offered to be moved before which."""
MOST_ROUNDS, MOST_OFFERS, MOST_TOLD = 30, 8, 12
"""Steps to the end of a ratio, limits that are tried, and limits of a conflict that are named."""
BETTER: Scaled = 1e-12
LEAST_MASS: InItsUnit = 0.001
MOST_STATED: InItsUnit = 1e6
MOST_TIMES: InItsUnit = 1000.0
"""What a request may state of a weight and of a ratio."""
DECIMALS = (2, 3, 4, 6, 8)
"""How finely a limit that can be kept is written: as coarsely as is true."""
FINEST_TOGETHER = 4
"""Decimals of several that are moved at once: what has to be met more finely than that, nobody can weigh."""


def refusal_of(limits: tuple[Limit, ...], many: int) -> Impossible:
    """What is told where no blend keeps every limit."""
    search = _Search(limits, many)
    conflict = search.conflict()
    nearest, other = search.nearest(conflict)
    fixed = [each for each in limits if each.code in FIXED]
    told = [_told(limit) for limit in dict.fromkeys((*conflict[:MOST_TOLD], *fixed, *other))]
    more = f"; and {len(conflict) - MOST_TOLD} more" if len(conflict) > MOST_TOLD else ""
    return Impossible(
        code="no_such_blend",
        reason=f"No blend keeps all of these: {'; '.join(told)}{more}.",
        nearest=nearest,
    )


def _told(limit: Limit) -> str:
    return f"{limit.words} {limit.bound.replace('_', ' ')} {limit.value:.6g} {limit.unit}"


class _Search:
    """Asks one solver again and again, with limits taken away."""

    def __init__(self, limits: tuple[Limit, ...], many: int) -> None:
        self._limits, self._many = limits, many
        self._solver = SimplexSolver(programme_of(limits, many))
        self._nothing: PerMaterial = (0.0,) * many
        self._fixed = [limit for limit in limits if limit.code in FIXED]
        self._movable = [limit for limit in limits if limit.code not in FIXED]
        self._rows = {id(limit): row_of(limit, limits) for limit in self._movable if limit.column is None}
        self._kept = {id(limit): limit for limit in self._movable}
        self._guilty, self._strained, _ = stretched(self._fixed, self._movable, many)

    def conflict(self) -> tuple[Limit, ...]:
        """Limits that cannot all be kept, while any of them left out lets the others be kept."""
        guilty = self._movable if self._holds(self._guilty) else self._guilty
        return tuple(self._narrowed([], [], guilty)) if guilty else ()

    def nearest(self, conflict: tuple[Limit, ...]) -> tuple[str, list[Limit]]:
        """One number that need only be moved; else several, with what else stands in the way; else what to drop.

        What is on hand is what there is: it is the last to be moved.
        """
        stated = self._offered(conflict)
        stock = [limit for limit in stated if limit.code == "on_hand"]
        return (
            self._one_of([limit for limit in stated if limit not in stock])
            or self._together((*FIXED, *STOCK))
            or self._together(STOCK)
            or self._one_of(stock)
            or (f"Leave out {', '.join(dict.fromkeys(_droppable(limit) for limit in self._strained))}.", [])
        )

    def _offered(self, conflict: tuple[Limit, ...]) -> list[Limit]:
        blocks = [limit for limit in self._limits if limit.code == "block_weight"]
        stated = [limit for limit in (*conflict, *blocks) if limit.place]
        return sorted(stated, key=lambda limit: ORDER.index(limit.code))[:MOST_OFFERS]

    def _one_of(self, offered: list[Limit]) -> tuple[str, list[Limit]] | None:
        for limit in offered:
            value = self._reachable(limit)
            if value is not None:
                return f"Set {_set(limit, value)}.", []
        return None

    def _together(self, held: tuple[str, ...]) -> tuple[str, list[Limit]] | None:
        """Every limit that has to give way beside what is held and the law, as little as need be."""
        firm: list[Limit] = []
        rest: list[Limit] = []
        for limit in self._limits:
            (firm if limit.code in held or not limit.place else rest).append(limit)
        _, passed, amounts = stretched(firm, rest, self._many)
        figures = [limit.figure(amounts) for limit in passed] if amounts else []
        if amounts is None or not passed or len(passed) > MOST_OFFERS or None in figures:
            return None
        written = [_outward(limit, figure or 0.0) for limit, figure in zip(passed, figures, strict=True)]
        for values in islice(zip(*written, strict=True), DECIMALS.index(FINEST_TOGETHER) + 1):
            lawful = all(map(_is_lawful, passed, values))
            if lawful and self._can(dict(zip(map(id, passed), values, strict=True))):
                stock = [limit for limit in firm if limit.code == "on_hand" and limit.is_tight(amounts)]
                return f"Set {' and '.join(map(_set, passed, values))}.", [*passed, *stock][:MOST_TOLD]
        return None

    def _narrowed(self, kept: list[Limit], new: list[Limit], open_: list[Limit]) -> list[Limit]:
        """Halve what may be to blame until what is left is to blame (the conflict is found in few questions)."""
        if new and not self._holds(kept):
            return []
        if len(open_) == 1:
            return open_
        first, second = open_[: len(open_) // 2], open_[len(open_) // 2 :]
        of_second = self._narrowed([*kept, *first], first, second)
        return [*self._narrowed([*kept, *of_second], of_second, first), *of_second]

    def _holds(self, kept: list[Limit]) -> bool:
        """Whether some blend keeps these."""
        self._keep(kept)
        return self._solver.least(self._nothing) is not None

    def _keep(self, kept: list[Limit]) -> None:
        """These limits and no others, beside those that are fixed."""
        before, self._kept = self._kept, {id(limit): limit for limit in kept}
        changed = [limit for limit in self._movable if (id(limit) in before) != (id(limit) in self._kept)]
        for limit in changed:
            if limit.column is None:
                side = side_of(limit) if id(limit) in self._kept else (-inf, inf)
                self._solver.set_row(self._rows[id(limit)], side)
        for number in {limit.column for limit in changed if limit.column is not None}:
            self._solver.set_column(number, column_span([*self._fixed, *kept], number))

    def _reachable(self, limit: Limit) -> InItsUnit | None:
        """The value nearest to a limit's own that some blend can keep beside all the others; None where none can."""
        self._keep([each for each in self._movable if each is not limit])
        if limit.code == "block_weight":
            low, _ = side_of(limit)
            self._solver.set_row(0, (0.0, low if limit.bound == "exactly" else MOST_BLOCK))
        ends = [end for end in (self._end(limit, +1.0), self._end(limit, -1.0)) if end is not None]
        self._solver.set_row(0, block_span(self._limits))
        if not ends:
            return None
        value = min(ends, key=lambda end: abs(end - limit.value))
        tries = (tried for tried in _outward(limit, value) if _is_lawful(limit, tried))
        return next((tried for tried in tries if self._can({id(limit): tried})), None)

    def _end(self, limit: Limit, sign: Scaled) -> InItsUnit | None:
        """The least (sign +1) or the most (sign -1) that a figure comes to: a ratio, so step by step (Dinkelbach)."""
        found = self._solver.least(tuple([sign * of for of in limit.of]))
        figure = limit.figure(found) if found else None
        for _ in range(MOST_ROUNDS):
            if figure is None or limit.per is None:
                return figure
            row = replace(limit, value=figure).row
            found = self._solver.least(tuple([sign * each for each in row]))
            better = limit.figure(found) if found else None
            if better is None or sign * (figure - better) <= BETTER * max(1.0, abs(figure)):
                return figure
            figure = better
        return figure

    def _can(self, values: dict[int, InItsUnit]) -> bool:
        """Whether some blend keeps every limit, with these elsewhere."""
        moved = tuple([replace(each, value=values.get(id(each), each.value)) for each in self._limits])
        return solver_of(programme_of(moved, self._many)).least(self._nothing) is not None


def _set(limit: Limit, value: InItsUnit) -> str:
    unit = "" if limit.unit in ("percent", "ratio") else f" {limit.unit}"
    return f"{limit.place} to {value:.12g}{unit}"


def _droppable(limit: Limit) -> str:
    """What of a request can be left out, so that the limit is not stated: a whole range, a whole rule."""
    whole, _, _ = limit.place.partition(".")
    return limit.place if whole.startswith("materials") else whole or limit.words


def _outward(limit: Limit, value: InItsUnit) -> Iterator[InItsUnit]:
    return _written(value, upward=value > limit.value)


def _is_lawful(limit: Limit, value: InItsUnit) -> bool:
    """Whether a request may state it."""
    if limit.code in ("block_weight", "most", "least", "group_weight"):
        return LEAST_MASS <= value <= MOST_STATED
    return 0 <= value <= (MOST_TIMES if limit.unit == "ratio" else MOST_STATED)


def _written(value: InItsUnit, *, upward: bool) -> Iterator[InItsUnit]:
    """A value with ever more decimals, never short of it; at last as it is."""
    for decimals in DECIMALS:
        many = 10**decimals
        yield (ceil(value * many - 1e-9) if upward else floor(value * many + 1e-9)) / many
    yield float(f"{value:.12g}")
