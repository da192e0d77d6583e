"""What everything comes to in the last stage, in both bookkeepings."""

from service.calculations.curing.diffusing.bookkeeping import whole_system_salt_percent
from service.calculations.curing.diffusing.relaxation import MEAN
from service.calculations.curing.timing.setting import Contents, Courses, TimedStage, salt_of_stage_g
from service.calculations.curing.timing.stages import Stage
from service.calculations.curing.timing.telling import DIGITS, SaltBand, band_of
from service.quantities.models import Answer, made


class FinalSalt(Answer):
    """Salt once nothing moves any more in the last stage. Two ways to reckon it are in use: both, by their names."""

    meat_water: SaltBand
    """Over the water of meat and bath, as salt by green weight of the meat. What days are told for."""
    whole_system_percent: float
    """Over meat and bath by weight, as inspectors reckon a cover pickle: some tenth higher."""
    bath_to_meat_ratio: float | None
    """Water of the bath to water of the meat; null where the bath never weakens."""


def final_of(courses: Courses, contents: Contents, stages: tuple[TimedStage, ...]) -> FinalSalt:
    """Both readings of the last stage."""
    last = stages[-1].stage
    bath_water_g = last.brine_g * (1 - last.salt_percent / 100) if last.kind == "brine" else 0.0
    return made(
        FinalSalt,
        meat_water=band_of(course.final_ratio * contents.percent_per_ratio for course in courses),
        whole_system_percent=round(_whole_system_percent(courses, contents, stages), DIGITS),
        bath_to_meat_ratio=None if last.kind == "endless_brine" else round(bath_water_g / contents.water_g, 4),
    )


def _whole_system_percent(courses: Courses, contents: Contents, stages: tuple[TimedStage, ...]) -> float:
    last = stages[-1].stage
    if last.kind == "endless_brine":
        return last.salt_percent
    added_g = salt_of_stage_g(last, contents.meat_g)
    held_g = _held_g(courses, contents, last)
    bath_g = last.brine_g if last.kind == "brine" else added_g
    # Pumped brine and the salt of earlier stages lie in the meat when the last stage begins.
    meat_g = contents.meat_g + contents.pumped_g + max(held_g - contents.salt_g, 0.0)
    return whole_system_salt_percent(salt_g=held_g + added_g, meat_g=meat_g, bath_g=bath_g)


def _held_g(courses: Courses, contents: Contents, last: Stage) -> float:
    """Salt that the meat holds when the last stage begins; a rub counts from its start, and is left out here."""
    followed = courses.typical.followed[-1]
    rub_ratio = followed.leg.salt_ratio if last.kind == "dry" else 0.0
    return (float(followed.before[MEAN]) - rub_ratio) * contents.water_g
