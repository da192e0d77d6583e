"""What a cure time looks like: salt over the days, and over the depth."""

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
    return Drawing("Salt on its way to the centre", (_over_days(answer), _over_depth(answer)), NOTE)


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
        ),
        bands=(Band("centre, slow to quick", tuple((one.after_d, one.centre.low, one.centre.high) for one in course)),),
        marks=(
            Mark(f"{days.low:.3g} d", (days.low, answer.target_salt.high)),
            Mark(f"{days.typical:.3g} d", (days.typical, wanted)),
            Mark(f"{days.high:.3g} d", (days.high, answer.target_salt.low)),
        ),
    )


def _over_depth(answer: "CureTimeAnswer") -> Panel:
    profile = answer.profile
    return Panel(
        title=f"From the face to the centre after {answer.days.typical:.3g} days",
        x_label="Depth below the open face, mm",
        y_label=SALT,
        series=(Series("typical", tuple((one.depth_mm, one.salt.typical) for one in profile)),),
        bands=(Band("slow to quick", tuple((one.depth_mm, one.salt.low, one.salt.high) for one in profile)),),
    )
