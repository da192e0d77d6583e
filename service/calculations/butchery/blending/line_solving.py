"""The solver for two materials: what is left free is a point on a line, so the best lies at one of its ends."""

from collections.abc import Iterator
from math import inf, isfinite

from service.calculations.butchery.blending.limits import PerMaterial, Scaled
from service.calculations.butchery.blending.programme import Programme, Solver, Span
from service.calculations.butchery.blending.solving import DUST, FEASIBLE, MOVES_COST, SimplexSolver

Point = tuple[Scaled, Scaled]


def lies_on_a_line(programme: Programme) -> bool:
    """Whether there are two materials, and the weight of the block or of one of them is settled."""
    if len(programme.columns) != 2:
        return False
    return any(low == high for low, high in (programme.sides[0], *programme.columns))


def solver_of(programme: Programme) -> Solver:
    """The quickest solver that there is for it."""
    return LineSolver(programme) if lies_on_a_line(programme) else SimplexSolver(programme)


class LineSolver:
    """Both amounts hang on one number: the first amount where the block is settled, else the one that is free."""

    def __init__(self, programme: Programme) -> None:
        self._programme = programme
        self._best: PerMaterial | None = None
        self._slope: Scaled = 0.0
        self.restore()

    def restore(self) -> None:
        """All bounds as they were in the beginning."""
        self._columns, self._sides = list(self._programme.columns), list(self._programme.sides)
        self._pinned: PerMaterial | None = None

    def set_column(self, number: int, span: Span) -> None:
        """Move the bounds of an amount."""
        self._columns[number] = span

    def set_row(self, number: int, span: Span) -> None:
        """Move the bounds of a row."""
        self._sides[number] = span

    def least(self, weights: PerMaterial) -> PerMaterial | None:
        """The amounts with the least weighted sum."""
        if self._pinned:
            return self._pinned
        base, way = self._line()
        low, high = self._ends(base, way)
        if low > high:
            near = [along for along in (low, high) if self._is_kept(along, base, way)]
            if not near:
                return None
            low = high = near[0]
        self._slope = weights[0] * way[0] + weights[1] * way[1]
        at = low if self._slope >= 0 else high
        self._best = tuple([value if (value := b + at * w) > DUST else 0.0 for b, w in zip(base, way, strict=True)])
        return self._best

    def keep_best(self) -> None:
        """From now on only amounts that are as good as the last ones found."""
        if abs(self._slope) > MOVES_COST:
            self._pinned = self._best

    def _line(self) -> tuple[Point, Point]:
        """A point, and the way along the line."""
        low, high = self._sides[0]
        if low == high:
            return (0.0, low), (1.0, -1.0)
        (first, top), (second, _) = self._columns
        return ((first, 0.0), (0.0, 1.0)) if first == top else ((0.0, second), (1.0, 0.0))

    def _ends(self, base: Point, way: Point) -> Span:
        """How far along the line every bound is kept."""
        low, high = -inf, inf
        for (least, most), at, step in self._bounds(base, way):
            if abs(step) > DUST:
                first, last = (least, most) if step > 0 else (most, least)
                first, last = (first - at) / step, (last - at) / step
                low, high = max(low, first), min(high, last)
            elif not least - FEASIBLE <= at <= most + FEASIBLE:
                return inf, -inf
        return low, high

    def _is_kept(self, along: Scaled, base: Point, way: Point) -> bool:
        """Whether a point keeps every bound, but for what HiGHS leaves open as well."""
        return isfinite(along) and all(
            least - FEASIBLE <= at + along * step <= most + FEASIBLE
            for (least, most), at, step in self._bounds(base, way)
        )

    def _bounds(self, base: Point, way: Point) -> Iterator[tuple[Span, Scaled, Scaled]]:
        """Each bound, where the line begins under it, and how it goes on."""
        for number, span in enumerate(self._columns):
            yield span, base[number], way[number]
        for row, span in zip(self._programme.rows, self._sides, strict=True):
            yield span, row[0] * base[0] + row[1] * base[1], row[0] * way[0] + row[1] * way[1]
