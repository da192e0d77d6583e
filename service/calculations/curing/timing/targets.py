"""What is waited for in the centre, and the days until it is there."""

from math import inf
from typing import Annotated, Literal, NamedTuple

from pydantic import Field

from service.calculations.curing.diffusing.course import Course
from service.calculations.curing.timing.setting import Contents, Courses
from service.calculations.refusals import Impossible
from service.quantities.bands import rounded_down
from service.quantities.models import Request

FAINTEST_SHARE = 0.05
"""A target below this share of what everything comes to is refused: the outside would be twenty times as salty."""

NEARLY_ALL = 0.98
"""The last hundredths of what everything comes to take longest; so much can be waited for."""

REASONS = {
    "no_salt": "Nothing in the stages brings salt.",
    "target_above_bath": "The centre never gets so salty in what surrounds it.",
    "bath_too_strong": "What surrounds the meat is more than twenty times as strong as the target.",
}


class ShareOfFinal(Request):
    """Wait until the centre has a share of the salt that everything comes to in the last stage."""

    kind: Literal["share_of_final"]
    """The kind of target."""
    percent: float = Field(ge=50, le=99)
    """Percent of the final salt: 80, not 0.8."""


class CentreSalt(Request):
    """Wait until the centre has this much salt."""

    kind: Literal["centre_salt"]
    """The kind of target."""
    percent: float = Field(ge=0.3, le=15)
    """Percent of the meat there, by green weight: 2.2, not 0.022."""


Target = Annotated[ShareOfFinal | CentreSalt, Field(discriminator="kind")]
USUAL = ShareOfFinal(kind="share_of_final", percent=80)


class Arrival(NamedTuple):
    """When a course has the target in its centre, and how strong that is."""

    day_d: float
    target_ratio: float


class Arrivals(NamedTuple):
    """At each reading of the published diffusivities."""

    slow: Arrival
    typical: Arrival
    quick: Arrival


def arrivals_of(target: Target, courses: Courses, contents: Contents) -> Arrivals:
    """The days of all three courses. Raises Impossible where one of them never arrives."""
    _require_salt(courses)
    arrivals = Arrivals(*(_arrival(target, course, contents) for course in courses))
    if not all(arrival.day_d < inf for arrival in arrivals):
        raise _never(courses, contents, arrivals.typical.target_ratio)
    _require_fit(courses, contents, arrivals)
    return arrivals


def _arrival(target: Target, course: Course, contents: Contents) -> Arrival:
    target_ratio = _target_ratio(target, course, contents)
    return Arrival(course.first_day_d(target_ratio), target_ratio)


def _target_ratio(target: Target, course: Course, contents: Contents) -> float:
    if target.kind == "share_of_final":
        return course.final_ratio * target.percent / 100
    return target.percent / contents.percent_per_ratio


def _require_salt(courses: Courses) -> None:
    if not courses.typical.final_ratio > 0:
        raise Impossible(
            code="no_salt",
            reason="There is no salt in any stage, and none is pumped in.",
            nearest="State a dry cure, a brine or an injection; a rest alone moves only what is there.",
        )


def _never(courses: Courses, contents: Contents, target_ratio: float) -> Impossible:
    most_percent = min(course.final_ratio for course in courses) * contents.percent_per_ratio
    wanted_percent = target_ratio * contents.percent_per_ratio
    return Impossible(
        code="target_above_bath",
        reason=f"Everything together comes to {most_percent:.4g} percent salt by green weight; the centre does not "
        f"reach {wanted_percent:.4g} percent.",
        nearest=f"Wait for at most {rounded_down(NEARLY_ALL * most_percent):g} percent, or use more salt or brine.",
    )


def _require_fit(courses: Courses, contents: Contents, arrivals: Arrivals) -> None:
    final_ratio = max(course.final_ratio for course in courses)
    if not arrivals.typical.target_ratio >= FAINTEST_SHARE * final_ratio:
        weakest_percent = final_ratio * FAINTEST_SHARE * contents.percent_per_ratio
        raise Impossible(
            code="bath_too_strong",
            reason="What surrounds the meat is more than twenty times as strong as the target: the outside would be "
            "far too salty when the centre has a trace.",
            nearest=f"Wait for at least {weakest_percent:.4g} percent, or use a weaker brine.",
        )
