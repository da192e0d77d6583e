"""Water after water: a piece that gives its salt to each of them."""

from math import ceil, inf
from typing import NamedTuple

from service.calculations.curing.diffusing.bookkeeping import bath_ratio
from service.calculations.curing.diffusing.course import Course, Leg
from service.calculations.curing.diffusing.diffusivity import QUICK, SLOW, TYPICAL, Speed, salt_diffusivity_mm2_per_d
from service.calculations.curing.diffusing.exchange import Limited
from service.calculations.curing.diffusing.relaxation import MEAN
from service.calculations.curing.pieces import Piece
from service.calculations.curing.timing.setting import Contents, Courses, modes_of_axes
from service.calculations.curing.timing.stages import require_cold_c
from service.calculations.refusals import Impossible

LONGEST_H = 72.0
"""Longer than three days nothing is soaked (own bound): the hours count against what a kitchen may keep cold."""
SHORTEST_CHANGE_H = 2.0

REASONS = {
    "too_warm": "The water is warmer than the cold in which soaking is told.",
    "too_cold": "So cold that the meat freezes and salt stands still.",
    "cooked_piece": "A cooked piece is not soaked.",
    "nothing_to_remove": "The piece is no saltier than it is to be.",
    "change_out_of_range": "Water changed so often or so seldom is not reckoned with.",
    "takes_too_long": "It takes more than 72 hours, or more water than is stated.",
}


class Soak(NamedTuple):
    """A piece and its waters, followed at each reading of the published diffusivities."""

    piece: Piece
    contents: Contents
    wanted_percent: float
    bath_g: float
    change_every_h: float
    temperature_c: float
    courses: Courses

    @property
    def wanted_ratio(self) -> float:
        """Salt per water that is wanted."""
        return self.wanted_percent / self.contents.percent_per_ratio

    def hours_of(self, course: Course) -> float:
        """Hours until the whole piece has come down to what is wanted; inf for never."""
        return 24 * course.first_day_d(self.wanted_ratio, row=MEAN, rising=False)

    def waters_until(self, after_h: float) -> int:
        """How many waters that takes."""
        return max(1, ceil(after_h / self.change_every_h - 1e-9))


def soak_of(
    piece: Piece, *, meat_g: float, water_percent: float, salt_percent: float, wanted_percent: float, bath_g: float,
    change_every_h: float, temperature_c: float, cooked: bool,
) -> Soak:  # fmt: skip
    """Follow the salt out. Raises Impossible for what is not soaked, or not within three days."""
    _require_raw(cooked)
    require_cold_c(temperature_c)
    _require_saltier(salt_percent, wanted_percent=wanted_percent)
    _require_change(change_every_h)
    contents = Contents(meat_g, meat_g * water_percent / 100, meat_g * salt_percent / 100, 0.0)
    exchange = Limited(
        modes_of_axes(piece.axes, profile=False), bath_ratio(bath_water_g=bath_g, meat_water_g=contents.water_g)
    )

    def course(speed: Speed) -> Course:
        return _course(exchange, piece, contents, speed, change_every_h=change_every_h, temperature_c=temperature_c)

    courses = Courses(course(SLOW), course(TYPICAL), course(QUICK))
    followed = Soak(piece, contents, wanted_percent, bath_g, change_every_h, temperature_c, courses)
    _require_reached(followed)
    return followed


def _course(
    exchange: Limited, piece: Piece, contents: Contents, speed: Speed, *, change_every_h: float, temperature_c: float
) -> Course:
    diffusivity_mm2_per_d = salt_diffusivity_mm2_per_d(speed, temperature_c)
    waters = ceil(LONGEST_H / change_every_h - 1e-9)
    lasts_d = [change_every_h / 24] * (waters - 1) + [(LONGEST_H - change_every_h * (waters - 1)) / 24]
    legs = [Leg(exchange, 0.0, diffusivity_mm2_per_d, 0.0, one_d) for one_d in lasts_d]
    return Course(modes_of_axes(piece.axes, profile=False).weights, legs, even_ratio=contents.even_ratio)


def _require_raw(cooked: bool) -> None:
    if cooked:
        raise Impossible(
            code="cooked_piece",
            reason="How salt leaves cooked meat is not known well enough to tell hours; water takes its taste as well.",
            nearest="Slice it thinner, serve it with something unsalted, or simmer it in fresh water and taste.",
        )


def _require_saltier(salt_percent: float, *, wanted_percent: float) -> None:
    if not wanted_percent < salt_percent:
        raise Impossible(
            code="nothing_to_remove",
            reason=f"The piece has {salt_percent:.4g} percent salt, and {wanted_percent:.4g} percent are wanted.",
            nearest=f"State a wanted salt below {salt_percent:.4g} percent, or do not soak it.",
        )


def _require_change(change_every_h: float) -> None:
    if not SHORTEST_CHANGE_H <= change_every_h <= LONGEST_H:
        raise Impossible(
            code="change_out_of_range",
            reason=f"Water changed every {change_every_h:.4g} hours is not reckoned with.",
            nearest=f"Change it every {SHORTEST_CHANGE_H:g} to {LONGEST_H:g} hours; oftener helps little.",
        )


def _require_reached(one: Soak) -> None:
    import numpy as np

    if all(one.hours_of(course) < inf for course in one.courses):
        return
    least = [course.at(np.array([LONGEST_H / 24]))[MEAN, 0] * one.contents.percent_per_ratio for course in one.courses]
    raise Impossible(
        code="takes_too_long",
        reason=f"After {LONGEST_H:g} hours in these waters the piece still has {min(least):.3g} to {max(least):.3g} "
        f"percent salt; {one.wanted_percent:.4g} percent are wanted.",
        nearest=f"Want at least {_up(max(least)):.4g} percent, cut the piece thinner, or take more water.",
    )


def _up(percent: float) -> float:
    return ceil(percent * 100 + 1e-6) / 100
