"""When to take a piece out, and what happens to one that is forgotten."""

from math import inf
from typing import Literal

from service.calculations.curing.diffusing.course import Course
from service.calculations.curing.diffusing.relaxation import MEAN
from service.calculations.curing.timing.planning import Plan
from service.calculations.curing.timing.setting import whole_courses_of
from service.calculations.curing.timing.telling import DIGITS, Days, SaltBand, Teller
from service.quantities.models import Answer, made

FORGOTTEN_D = 7.0
"""A piece that is forgotten stays in for another week."""


class Pull(Answer):
    """Between which days to take it out."""

    earliest_d: float
    """By then the centre has arrived even by the slow reading."""
    latest_d: float | None
    """Then the whole piece may be saltier than the ceiling, by the saltiest reading; null where it never is from the
    earliest day on, or no ceiling was stated."""
    ceiling_percent: float | None
    """The ceiling that was stated, by green weight; null where none was."""
    forecast: Literal["expected", "at_risk"]
    """at_risk where the latest day comes before the earliest: then it is no window. Change the plan."""


class OverCure(Answer):
    """What happens to a forgotten piece."""

    possible: bool
    """Whether a brine of some stage keeps its strength: while the piece lies in it, no weighed amount sets an end."""
    why: str
    """In words."""
    a_week_later: SaltBand
    """Salt of the whole piece a week after the typical day."""


def pull_of(plan: Plan, days: Days, *, ceiling_percent: float | None) -> Pull:
    """The window, from the slowest reading of the centre to the saltiest of the whole."""
    latest_d = (
        _latest_d(plan, earliest_d=days.high, ceiling_percent=ceiling_percent) if ceiling_percent is not None else inf
    )
    return made(
        Pull,
        earliest_d=days.high,
        latest_d=round(latest_d, 2) if latest_d < inf else None,
        ceiling_percent=ceiling_percent,
        forecast="at_risk" if latest_d < days.high else "expected",
    )


def _latest_d(plan: Plan, *, earliest_d: float, ceiling_percent: float) -> float:
    """When any reading of the whole piece passes the ceiling on or after the earliest day; of one that is over it on
    that day, when it first was."""
    import numpy as np

    contents = plan.contents
    edged: tuple[Course, ...] = whole_courses_of(plan.piece, contents, plan.stages) if plan.piece.flat else ()
    courses = (*plan.courses, *edged)
    ceiling_ratio, earliest = ceiling_percent / contents.percent_per_ratio, np.array([earliest_d])
    over = [course for course in courses if course.at(earliest)[MEAN, 0] > ceiling_ratio]
    if over:
        return min(course.first_day_d(ceiling_ratio, row=MEAN) for course in over)
    rising = [course for course in courses if course.final_ratio > ceiling_ratio]
    return min((course.first_day_d(ceiling_ratio, row=MEAN, last=True) for course in rising), default=inf)


def over_cure_of(plan: Plan, teller: Teller, days: Days) -> OverCure:
    """Whether it grows too salty, and how it stands a week later."""
    import numpy as np

    ends = [round(course.final_ratio * plan.contents.percent_per_ratio, DIGITS) for course in plan.courses]
    low, high = f"{min(ends):g}", f"{max(ends):g}"
    return made(
        OverCure,
        possible=any(one.stage.kind == "endless_brine" for one in plan.stages),
        why=_WHY[plan.last.kind].format(end=low if low == high else f"{low} to {high}"),
        a_week_later=teller.points(np.array([days.typical + FORGOTTEN_D]))[0].mean,
    )


_WHY = {
    "endless_brine": "This brine keeps its strength: the piece goes on until its own water is as strong.",
    "brine": "The last brine is weighed: however long the piece stays, it comes to {end} percent of salt as a whole.",
    "dry": "The last rub is weighed: however long it stays, the piece comes to {end} percent of salt as a whole.",
    "rest": "Nothing goes in or out in the rest: the piece stays at {end} percent of salt as a whole.",
}
