"""What is waited for in the centre, and the days until it is there."""

from typing import Annotated, Literal, NamedTuple

from pydantic import Field

from service.calculations.curing.diffusing.course import Course
from service.calculations.curing.timing.planning import LONGEST_D
from service.calculations.curing.timing.setting import Contents, Courses
from service.calculations.curing.timing.telling import SATURATED_RATIO
from service.calculations.refusals import Impossible
from service.quantities.bands import rounded_down, rounded_up
from service.quantities.models import Request

LEAST_PERCENT = 0.3
FAINTEST_SHARE = 0.05
"""A target below this share of what everything comes to is refused: the outside would be twenty times as salty."""

NEARLY_ALL = 0.98
"""The last hundredths of what everything comes to take longest; so much can be waited for."""

REASONS = {
    "no_salt": "Nothing in the stages brings salt.",
    "target_above_bath": "The centre never gets so salty in what surrounds it.",
    "undissolved_salt": "More salt is stated than the water of the piece dissolves.",
    "longer_than_curing": "By the slow reading it takes longer than anything is cured.",
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
    percent: float = Field(ge=LEAST_PERCENT, le=15)
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
    """The days of all three courses. Raises Impossible where one of them does not come to stay at the target."""
    _require_salt(courses)
    _require_dissolved(courses, contents)
    ratios = [_target_ratio(target, course, contents) for course in courses]
    if not all(ratio < course.final_ratio for ratio, course in zip(ratios, courses, strict=True)):
        raise _never(courses, contents, ratios[1])
    _require_fit(courses, contents, ratios[1])
    pairs = zip(courses, ratios, strict=True)
    arrivals = Arrivals(*(Arrival(course.first_day_d(ratio, last=True), ratio) for course, ratio in pairs))
    _require_sooner(max(arrival.day_d for arrival in arrivals))
    return arrivals


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


def _require_dissolved(courses: Courses, contents: Contents) -> None:
    if not max(course.final_ratio for course in courses) <= SATURATED_RATIO:
        raise Impossible(
            code="undissolved_salt",
            reason=f"Everything comes to more than {SATURATED_RATIO * contents.percent_per_ratio:.4g} percent salt, "
            "all that the water in the meat dissolves.",
            nearest="Use less salt.",
        )


def _never(courses: Courses, contents: Contents, target_ratio: float) -> Impossible:
    most_percent = min(course.final_ratio for course in courses) * contents.percent_per_ratio
    offer_percent = rounded_down(NEARLY_ALL * most_percent)
    less = f"Wait for at most {offer_percent:g} percent, or use" if offer_percent >= LEAST_PERCENT else "Use"
    return Impossible(
        code="target_above_bath",
        reason=f"In the last stage everything comes to {most_percent:.4g} percent salt by green weight; the centre "
        f"does not come to stay at {target_ratio * contents.percent_per_ratio:.4g} percent.",
        nearest=f"{less} more salt or more brine.",
    )


def _require_fit(courses: Courses, contents: Contents, target_ratio: float) -> None:
    final_ratio = max(course.final_ratio for course in courses)
    if not target_ratio >= FAINTEST_SHARE * final_ratio:
        weakest_percent = rounded_up(1.01 * final_ratio * FAINTEST_SHARE * contents.percent_per_ratio)
        raise Impossible(
            code="bath_too_strong",
            reason="What surrounds the meat is more than twenty times as strong as the target: the outside would be "
            "far too salty when the centre has a trace.",
            nearest=f"Wait for at least {weakest_percent:g} percent, or use a weaker brine.",
        )


def _require_sooner(latest_d: float) -> None:
    if not latest_d <= LONGEST_D:
        thinner = rounded_down(100 * (LONGEST_D / latest_d) ** 0.5)
        raise Impossible(
            code="longer_than_curing",
            reason=f"By the slow reading it takes {latest_d:,.0f} days, longer than anything is cured.",
            nearest=f"Cut it to less than {thinner:g} percent of its thickness, open more of its faces, or inject it.",
        )
