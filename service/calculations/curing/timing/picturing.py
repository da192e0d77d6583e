"""What a cure time looks like: salt over the days, and over the depth."""

from math import ceil
from typing import TYPE_CHECKING

from service.calculations.declaration import Band, Drawing, Mark, Panel, Series

if TYPE_CHECKING:
    from service.calculations.curing.cure_time import CureTimeAnswer

SALT = "Salt, % of green weight"
NOTE = (
    "Bands: from the slow to the quick reading of published diffusivities. A forecast for salt; "
    "nothing is claimed of nitrite at the centre."
)


def drawing_of(answer: "CureTimeAnswer") -> Drawing:
    """Centre and mean over the days; the piece from its face to its centre on the typical day."""
    called = f"{answer.name}: salt on its way to the centre" if answer.name else "Salt on its way to the centre"
    return Drawing(called, (_over_days(answer), _over_depth(answer)), NOTE)


def _over_days(answer: "CureTimeAnswer") -> Panel:
    days, course = answer.days, answer.course
    wanted = answer.target_salt.typical
    return Panel(
        title="Over the days",
        x_label="Days since the first stage began",
        y_label=SALT,
        series=(
            Series("whole piece", tuple((point.after_d, point.mean.typical) for point in course)),
            Series("centre", tuple((point.after_d, point.centre.typical) for point in course)),
            *_ceiling(answer),
        ),
        bands=(Band("centre, slow to quick", tuple((one.after_d, one.centre.low, one.centre.high) for one in course)),),
        marks=(
            Mark(f"quick, {days.low:,.1f} d", (days.low, answer.target_salt.high)),
            Mark(f"typical, {days.typical:,.1f} d", (days.typical, wanted)),
            Mark(f"slow, {ceil(10 * days.high) / 10:,.1f} d", (days.high, answer.target_salt.low)),
        ),
    )


def _ceiling(answer: "CureTimeAnswer") -> tuple[Series, ...]:
    """The most salt that the whole piece may have, where it was stated."""
    most, last_d = answer.pull.ceiling_percent, answer.course[-1].after_d
    return (Series("ceiling", ((0.0, most), (last_d, most))),) if most is not None else ()


def _over_depth(answer: "CureTimeAnswer") -> Panel:
    profile = answer.profile
    return Panel(
        title=f"From the face to the centre after {answer.days.typical:,.1f} days",
        x_label=f"Depth below the open face, {profile[0].unit}",
        y_label=SALT,
        series=(Series("typical", tuple((one.depth, one.salt.typical) for one in profile)),),
        bands=(Band("slow to quick", tuple((one.depth, one.salt.low, one.salt.high) for one in profile)),),
    )
