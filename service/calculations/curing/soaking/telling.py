"""What is told of a soak: hours with a low and a high side, what each time takes out, the least water."""

from typing import Literal

from service.calculations.curing.diffusing.relaxation import MEAN, MIDDLE
from service.calculations.curing.soaking.following import Waters
from service.calculations.curing.soaking.waters import LONGEST_H, Reached, Soak
from service.calculations.curing.timing.telling import DIGITS
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight, present_weight

TABLE_H = (1.0, 2.0, 6.0, 12.0, 24.0, 48.0, LONGEST_H)
HALF_AN_HOUR_H = 0.5
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


class SaltLeft(Answer):
    """Salt that is left, between two sides."""

    low: float
    """The least of the three readings."""
    typical: float
    """As is usual."""
    high: float
    """The most of the three readings."""
    unit: Literal["percent"]
    """Percent of the piece as it went into the first water, for a place in it: of the meat at that place."""


class SoakPoint(Answer):
    """The piece after so long in water."""

    after_h: float
    """Hours since it went into the first water."""
    removed: RemovedBand
    """Salt that is out."""
    mean: SaltLeft
    """Salt of the whole piece."""
    centre: SaltLeft
    """Salt at the place that is reached last."""


class LeastWater(Answer):
    """One single bath that would do, if the piece stayed until nothing moves any more."""

    weight: Weight
    """Water for all the meat; each water of several may be less."""
    to_meat_ratio: float
    """Weight of that water to the weight of the meat."""


class Soaked:
    """Reads a soak off at any hour."""

    def __init__(self, soak: Soak, waters: Waters) -> None:
        self._soak, self._waters = soak, waters

    def after(self, hours_h: float) -> SoakPoint:
        """The piece after so many hours."""
        return self.points((hours_h,))[0]

    def points(self, hours_h: tuple[float, ...]) -> tuple[SoakPoint, ...]:
        """The piece after each of these times."""
        import numpy as np

        left = self._waters.at(np.array(hours_h) / 24) * self._soak.contents.percent_per_ratio
        # Rounding in the sums of many modes must not make it saltier than it was.
        left = np.minimum(left, self._soak.salt_percent)
        removed = 100 * (1 - left[:, MEAN] / self._soak.salt_percent)
        rows = zip(hours_h, removed.tolist(), left[:, MEAN].tolist(), left[:, MIDDLE].tolist(), strict=True)
        return tuple(_point(*row) for row in rows)


def hours_of(reached: Reached) -> Hours:
    """Hours until the piece has come down to what is wanted."""
    return made(Hours, low=reached.quick_h, typical=reached.typical_h, high=reached.slow_h, unit="h")


def least_water_of(soak: Soak, units: Units) -> LeastWater:
    """Salt spreads over the water of meat and bath: had / wanted = 1 + bath / meat."""
    contents = soak.contents
    water_g = contents.water_g * (soak.salt_percent / soak.wanted_percent - 1)
    return made(
        LeastWater, weight=present_weight(water_g, units), to_meat_ratio=round(water_g / contents.meat_g, DIGITS)
    )


def told_hours_h(last_h: float) -> tuple[float, ...]:
    """Hours for a curve: a little beyond the slow reading, three days at most."""
    end_h = min(1.15 * last_h, LONGEST_H)
    shares = ((number / (POINTS - 1)) ** 1.5 for number in range(POINTS))
    return tuple(dict.fromkeys(round(end_h * share, DIGITS) for share in shares))


def _point(after_h: float, removed: list[float], mean: list[float], centre: list[float]) -> SoakPoint:
    return made(
        SoakPoint,
        after_h=after_h,
        removed=made(RemovedBand, **_band(removed)),
        mean=made(SaltLeft, **_band(mean)),
        centre=made(SaltLeft, **_band(centre)),
    )


def _band(three: list[float]) -> dict[str, float | str]:
    low, typical, high = (round(one, DIGITS) for one in (min(three), three[1], max(three)))
    return {"low": low, "typical": typical, "high": high, "unit": "percent"}
