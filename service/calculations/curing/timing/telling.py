"""What is told of a course: days and salt with a low and a high side, and the points of its curves."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, Literal

from service.calculations.curing.diffusing.axes import DEPTHS
from service.calculations.curing.diffusing.relaxation import MEAN, MIDDLE, PROFILE, SURFACE
from service.calculations.curing.pieces import Piece
from service.calculations.curing.salts import SATURATED_BRINE_SALT_PERCENT
from service.calculations.curing.timing.setting import Contents, Courses
from service.calculations.curing.timing.wording import DepthUnit, told_length, unit_of_length
from service.quantities.models import Answer, holding, made
from service.quantities.quantity import Units

if TYPE_CHECKING:
    from service.calculations.curing.diffusing.axes import Array

POINTS = 33
"""Points of a curve, close together at first."""
BEYOND_SHARE = 1.15
"""Curves run on for a while after the slow reading has arrived."""
SATURATED_RATIO = SATURATED_BRINE_SALT_PERCENT / (100 - SATURATED_BRINE_SALT_PERCENT)
DIGITS = 3


class Days(Answer):
    """Days between two sides: the least and the most of three readings of published diffusivities."""

    low: float
    """The least of them: as a rule if salt moves quickly."""
    typical: float
    """As is usual."""
    high: float
    """The most of them: as a rule if salt moves slowly."""
    unit: Literal["d"]
    """Days of 24 hours."""


class SaltBand(Answer):
    """Salt by green weight between two sides."""

    low: float
    """The least of the three readings."""
    typical: float
    """As is usual."""
    high: float
    """The most of the three readings."""
    unit: Literal["percent"]
    """Percent of the meat as weighed before curing, for a place in it: of the meat at that place."""


class CoursePoint(Answer):
    """The piece after so long."""

    after_d: float
    """Days since the first stage began."""
    mean: SaltBand
    """Of the whole piece; of a rub, what still lies on it is counted."""
    centre: SaltBand
    """At the place that salt reaches last."""
    surface_percent: float
    """Where the piece meets its surroundings, as is usual; saturated at most. A rub shows there once it dissolves."""


class ProfilePoint(Answer):
    """A place in the piece."""

    depth: float
    """Below the nearest open face, on the shortest way to the centre, in the unit beside it."""
    unit: DepthUnit
    """mm or in."""
    salt: SaltBand
    """The salt there."""


class Teller:
    """Reads salt by green weight off three courses."""

    def __init__(self, courses: Courses, contents: Contents) -> None:
        self._courses = courses
        self._percent_per_ratio = contents.percent_per_ratio

    def points(self, days_d: "Array") -> tuple[CoursePoint, ...]:
        """The piece on each of these days."""
        import numpy as np

        slow, typical, quick = self._read(days_d)
        means, centres = (_bands(slow[row], typical[row], quick[row]) for row in (MEAN, MIDDLE))
        most = SATURATED_RATIO * self._percent_per_ratio
        surfaces = np.minimum(typical[SURFACE], most).round(DIGITS).tolist()
        rows = zip(days_d.round(DIGITS).tolist(), means, centres, surfaces, strict=True)
        return tuple(
            made(CoursePoint, after_d=day, mean=mean, centre=centre, surface_percent=surface)
            for day, mean, centre, surface in rows
        )

    def profile(self, day_d: float, piece: Piece, units: Units) -> tuple[ProfilePoint, ...]:
        """The salt from the open face to the centre on a day."""
        import numpy as np

        slow, typical, quick = (read[PROFILE, 0][::-1] for read in self._read(np.array([day_d])))
        unit, reach = unit_of_length(units), told_length(piece.axes[0].reach_mm, units)
        depths = np.linspace(0.0, reach, DEPTHS).round(DIGITS).tolist()
        bands = _bands(slow, typical, quick)
        return tuple(
            made(ProfilePoint, depth=depth, unit=unit, salt=band) for depth, band in zip(depths, bands, strict=True)
        )

    def _read(self, days_d: "Array") -> tuple["Array", "Array", "Array"]:
        import numpy as np

        # In the first hours a sum of modes may lie a hair below nothing.
        slow, typical, quick = (np.maximum(course.at(days_d), 0) * self._percent_per_ratio for course in self._courses)
        return slow, typical, quick


def days_of(slow_typical_quick: Iterable[float]) -> Days:
    """Days, to a hundredth, from the least to the most of three readings."""
    three = [round(day_d, 2) for day_d in slow_typical_quick]
    return made(Days, low=min(three), typical=three[1], high=max(three), unit="d")


def curve_days_d(last_d: float, changes_d: Iterable[float]) -> "Array":
    """Days for a curve to this one, those of a change of stage among them."""
    import numpy as np

    days = last_d * np.linspace(0.0, 1.0, POINTS) ** 1.5
    return np.union1d(days, [day for day in changes_d if day < last_d])


def band_of(slow_typical_quick: Iterable[float]) -> SaltBand:
    """One band of three readings."""
    three = tuple(slow_typical_quick)
    return made(
        SaltBand, low=round(min(three), DIGITS), typical=round(three[1], DIGITS), high=round(max(three), DIGITS),
        unit="percent",
    )  # fmt: skip


def _bands(slow: "Array", typical: "Array", quick: "Array") -> list[SaltBand]:
    """The same for many at once."""
    import numpy as np

    lows = np.minimum(np.minimum(slow, typical), quick).round(DIGITS).tolist()
    highs = np.maximum(np.maximum(slow, typical), quick).round(DIGITS).tolist()
    return [
        holding(SaltBand, {"low": low, "typical": middle, "high": high, "unit": "percent"})
        for low, middle, high in zip(lows, typical.round(DIGITS).tolist(), highs, strict=True)
    ]
