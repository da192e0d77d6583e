"""The solver for any blend: HiGHS, by its dual simplex method, on one thread, without a word."""

from functools import cache
from typing import Any

from service.calculations.butchery.blending.limits import PerMaterial
from service.calculations.butchery.blending.programme import Programme, Span

FEASIBLE = 1e-10
"""How far a scaled row may lie outside its bounds: the least that HiGHS takes."""
MOVES_COST = 1e-9
"""A reduced cost or a dual over this holds its bound in every best blend."""
DUST = 1e-12
"""A scaled amount under this is none."""


class SimplexSolver:
    """Keeps its basis from one question to the next, so that a moved bound costs a step or two."""

    def __init__(self, programme: Programme) -> None:
        self._programme = programme
        self._many = len(programme.columns)
        self._moved: tuple[set[int], set[int]] = (set(), set())
        self._highs = _silent()
        self._highs.passModel(_model(programme))

    def least(self, weights: PerMaterial) -> PerMaterial | None:
        """The amounts with the least weighted sum."""
        import highspy

        highs, many = self._highs, self._many
        highs.changeColsCost(many, _numbers(many), _floats(weights))
        highs.run()
        status = highs.getModelStatus()
        if status not in (highspy.HighsModelStatus.kOptimal, highspy.HighsModelStatus.kInfeasible):
            highs.clearSolver()  # from a basis that it lost itself in, it is asked once more without one
            highs.run()
            status = highs.getModelStatus()
        if status != highspy.HighsModelStatus.kOptimal:
            return None
        return tuple([value if value > DUST else 0.0 for value in highs.getSolution().col_value])

    def keep_best(self) -> None:
        """Whatever would cost something to move stays where it is (complementary slackness)."""
        found = self._highs.getSolution()
        for number, (dual, value) in enumerate(zip(found.col_dual, found.col_value, strict=True)):
            if abs(dual) > MOVES_COST:
                self.set_column(number, (value, value))
        for number, (dual, value) in enumerate(zip(found.row_dual, found.row_value, strict=True)):
            if abs(dual) > MOVES_COST:
                self.set_row(number, (value, value))

    def pressing(self) -> list[bool]:
        """Which rows hold the last weighted sum up: without them it would be less."""
        return [abs(dual) > MOVES_COST for dual in self._highs.getSolution().row_dual]

    def set_column(self, number: int, span: Span) -> None:
        """Move the bounds of an amount."""
        self._moved[0].add(number)
        self._highs.changeColBounds(number, *span)

    def set_row(self, number: int, span: Span) -> None:
        """Move the bounds of a row."""
        self._moved[1].add(number)
        self._highs.changeRowBounds(number, *span)

    def restore(self) -> None:
        """All bounds as they were in the beginning."""
        columns, rows = self._moved
        for number in columns:
            self._highs.changeColBounds(number, *self._programme.columns[number])
        for number in rows:
            self._highs.changeRowBounds(number, *self._programme.sides[number])
        self._moved = (set(), set())


def _silent() -> Any:
    """HiGHS without its callbacks: with them it greets on standard output while it is made, before it can be hushed."""
    import highspy

    bare: Any = highspy.Highs.__base__
    highs = bare()
    highs.passOptions(_options())
    return highs


@cache
def _options() -> Any:
    import highspy

    options = highspy.HighsOptions()
    options.output_flag, options.log_to_console = False, False
    options.threads, options.random_seed, options.parallel = 1, 0, "off"
    options.solver, options.presolve = "simplex", "off"
    options.primal_feasibility_tolerance = options.dual_feasibility_tolerance = FEASIBLE
    options.small_matrix_value = DUST
    return options


def _model(programme: Programme) -> Any:
    import highspy
    import numpy as np

    many, rows = len(programme.columns), len(programme.rows)
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = many, rows
    model.col_cost_ = np.zeros(many)
    model.col_lower_, model.col_upper_ = _bounds(programme.columns)
    model.row_lower_, model.row_upper_ = _bounds(programme.sides)
    matrix = model.a_matrix_
    matrix.format_ = highspy.MatrixFormat.kRowwise
    matrix.start_ = np.arange(0, many * rows + 1, many)
    matrix.index_ = np.tile(np.arange(many), rows)
    matrix.value_ = np.array(programme.rows).ravel()
    return model


def _bounds(spans: tuple[Span, ...]) -> Any:
    import numpy as np

    return np.array(spans).T


@cache
def _numbers(many: int) -> Any:
    import numpy as np

    return np.arange(many, dtype=np.int32)


def _floats(weights: PerMaterial) -> Any:
    import numpy as np

    return np.array(weights)
