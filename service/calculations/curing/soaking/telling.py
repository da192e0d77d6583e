"""What is told of a soak: hours with a low and a high side, what each time takes out, the least water."""

from typing import TYPE_CHECKING, Literal

from service.calculations.curing.diffusing.relaxation import MEAN, MIDDLE
from service.calculations.curing.soaking.waters import LONGEST_H, Soak
from service.calculations.curing.timing.telling import DIGITS, SaltBand, band_of
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight, present_weight

if TYPE_CHECKING:
    from service.calculations.curing.diffusing.axes import Array

TABLE_H = (1.0, 2.0, 6.0, 12.0, 24.0, 48.0, LONGEST_H)
POINTS = 25


class Hours(Answer):
    """Hours between two sides: from the quick to the slow reading of published diffusivities."""

    low: float
    """If salt moves quickly."""
    typical: float
    """As is usual."""
    high: float
    """If salt moves slowly."""
    unit: Literal["h"]
    """Hours."""


class RemovedBand(Answer):
    """Share of the salt that is out, between two sides."""

    low: float
    """The least of the three readings."""
    typical: float
    """As is usual."""
    high: float
    """The most of the three readings."""
    unit: Literal["percent"]
    """Percent of the salt that was in the piece."""


class SoakPoint(Answer):
    """The piece after so long in water."""

    after_h: float
    """Hours since it went into the first water."""
    removed: RemovedBand
    """Salt that is out."""
    mean: SaltBand
    """Salt of the whole piece."""
    centre: SaltBand
    """Salt at the place that is reached last."""


class LeastWater(Answer):
    """One single bath that would do, if the piece stayed until nothing moves any more."""

    weight: Weight
    """Water for all the meat; each water of several may be less."""
    to_meat_ratio: float
    """Weight of that water to the weight of the meat."""


class Soaked:
    """Reads a soak off at any hour."""

    def __init__(self, soak: Soak) -> None:
        self._soak = soak

    def after(self, hours_h: float) -> SoakPoint:
        """The piece after so many hours."""
        import numpy as np

        return self.points(np.array([hours_h]))[0]

    def table(self) -> tuple[SoakPoint, ...]:
        """The piece after the hours that are asked for most."""
        import numpy as np

        return self.points(np.array(TABLE_H))

    def points(self, hours_h: "Array") -> tuple[SoakPoint, ...]:
        """The piece after each of these times."""
        contents = self._soak.contents
        slow, typical, quick = (
            (course.at(hours_h / 24) * contents.percent_per_ratio).T.tolist() for course in self._soak.courses
        )
        had_percent = contents.even_ratio * contents.percent_per_ratio
        return tuple(
            made(
                SoakPoint,
                after_h=round(hour_h, DIGITS),
                removed=_removed([100 * (1 - one[MEAN] / had_percent) for one in three]),
                mean=band_of(one[MEAN] for one in three),
                centre=band_of(one[MIDDLE] for one in three),
            )
            for hour_h, *three in zip(hours_h.tolist(), slow, typical, quick, strict=True)
        )


def hours_of(soak: Soak) -> Hours:
    """Hours until the piece has come down to what is wanted."""
    slow, typical, quick = (round(soak.hours_of(course), 2) for course in soak.courses)
    return made(Hours, low=quick, typical=typical, high=slow, unit="h")


def least_water_of(soak: Soak, units: Units) -> LeastWater:
    """Salt spreads over the water of meat and bath: had / wanted = 1 + bath / meat."""
    contents = soak.contents
    water_g = contents.water_g * (contents.even_ratio / soak.wanted_ratio - 1)
    return made(
        LeastWater, weight=present_weight(water_g, units), to_meat_ratio=round(water_g / contents.meat_g, DIGITS)
    )


def told_hours_h(last_h: float) -> "Array":
    """Hours for a curve: a little beyond the slow reading, three days at most."""
    import numpy as np

    return min(1.15 * last_h, LONGEST_H) * np.linspace(0.0, 1.0, POINTS) ** 1.5


def _removed(percents: list[float]) -> RemovedBand:
    return made(
        RemovedBand, low=round(min(percents), 2), typical=round(percents[1], 2), high=round(max(percents), 2),
        unit="percent",
    )  # fmt: skip
