"""A request as the model sees it: the piece, its water and salt, and the legs of its way at each speed."""

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple, assert_never

from service.calculations.curing.diffusing.axes import Modes, modes_of
from service.calculations.curing.diffusing.bodies import body_of
from service.calculations.curing.diffusing.bookkeeping import bath_ratio, meat_water_salt_percent
from service.calculations.curing.diffusing.course import Course, Leg
from service.calculations.curing.diffusing.diffusivity import (
    QUICK,
    SLOW,
    TYPICAL,
    Speed,
    salt_diffusivity_mm2_per_d,
)
from service.calculations.curing.diffusing.exchange import Endless, Limited
from service.calculations.curing.diffusing.relaxation import Relaxation
from service.calculations.curing.diffusing.resting import Rest
from service.calculations.curing.pieces import Axis, Piece
from service.calculations.curing.timing.stages import Injection, Stage

DISSOLVING_D = {QUICK: 0.0, TYPICAL: 1.0, SLOW: 2.0}
"""Days until a rub has drawn out water and dissolved (common practice, no source)."""
SHAPES_KEPT = 256

Exchange = Endless | Limited


class Contents(NamedTuple):
    """What all the pieces hold before the first stage."""

    meat_g: float
    """Raw meat as weighed."""
    water_g: float
    """Its water, pumped water counted."""
    salt_g: float
    """Salt pumped in."""
    pumped_g: float

    @property
    def even_ratio(self) -> float:
        return self.salt_g / self.water_g

    @property
    def percent_per_ratio(self) -> float:
        """Salt by green weight where the water of the meat holds as much salt as water: see meat_water_salt_percent."""
        return meat_water_salt_percent(strength_ratio=1.0, water_fraction=self.water_g / self.meat_g)


class TimedStage(NamedTuple):
    """A stage and its days; inf for the last."""

    stage: Stage
    lasts_d: float


def contents_of(meat_g: float, *, water_percent: float, injection: Injection | None) -> Contents:
    """What the meat holds at the start."""
    water_g = meat_g * water_percent / 100
    if injection is None:
        return Contents(meat_g, water_g, 0.0, 0.0)
    pumped_g = meat_g * injection.pump_percent / 100
    salt_g = pumped_g * injection.salt_percent / 100
    return Contents(meat_g, water_g + pumped_g - salt_g, salt_g, pumped_g)


@lru_cache(SHAPES_KEPT)
def modes_of_axes(axes: tuple[Axis, ...], *, profile: bool) -> Modes:
    """The modes of a piece; a kitchen has few shapes, so they are kept."""
    return body_of([modes_of(axis.plain, profile=profile).sized(axis.reach_mm) for axis in axes])


class Courses(NamedTuple):
    """The same way at the slow, the typical and the quick reading of what is published."""

    slow: Course
    typical: Course
    quick: Course


def courses_of(
    piece: Piece, contents: Contents, stages: tuple[TimedStage, ...], *, needles_mm: float | None, profile: bool
) -> Courses:
    """The way of the salt, three times."""
    modes = modes_of_axes(piece.axes, profile=profile)
    stitches = _stitches(needles_mm, contents) if needles_mm else None
    exchanges = list(_exchanges(stages, modes, piece.axes, contents))

    def course(speed: Speed, first: Relaxation | None) -> Course:
        legs = [_leg(*pair, contents, speed) for pair in zip(stages, exchanges, strict=True)]
        return Course(modes.weights, legs, even_ratio=contents.even_ratio, stitches=stitches, first=first)

    slow = course(SLOW, None)
    first = slow.followed[0].relaxation
    return Courses(slow, course(TYPICAL, first), course(QUICK, first))


def whole_courses_of(piece: Piece, contents: Contents, stages: tuple[TimedStage, ...]) -> Courses:
    """The same for the whole piece, its edges counted."""
    return courses_of(piece._replace(axes=piece.with_edges()), contents, stages, needles_mm=None, profile=False)


def _stitches(needles_mm: float, contents: Contents) -> Relaxation:
    """Half the way between two stitches: a rub on the faces of a slab as thin as their spacing."""
    import numpy as np

    modes = modes_of("slab", profile=False).sized(needles_mm / 2)
    return Limited(modes, 0.0).relaxation(np.zeros_like(modes.rates), salt_ratio=contents.even_ratio)


def _exchanges(
    stages: tuple[TimedStage, ...], modes: Modes, axes: tuple[Axis, ...], contents: Contents
) -> Iterator[Exchange]:
    """A rest right after a rub goes on as the rub did: what may still lie on the piece is shared by its faces."""
    under_rub = False
    for one in stages:
        under_rub = one.stage.kind == "dry" or (one.stage.kind == "rest" and under_rub)
        yield Limited(modes, 0.0) if under_rub else _exchange(one.stage, modes, axes, contents)


def _exchange(stage: Stage, modes: Modes, axes: tuple[Axis, ...], contents: Contents) -> Exchange:
    if stage.kind == "endless_brine":
        return Endless(modes)
    if stage.kind == "rest":
        return Rest(modes, axes)
    assert stage.kind == "brine"
    water_g = stage.brine_g * (1 - stage.salt_percent / 100)
    return Limited(modes, bath_ratio(bath_water_g=water_g, meat_water_g=contents.water_g))


def _leg(timed: TimedStage, exchange: Exchange, contents: Contents, speed: Speed) -> Leg:
    stage = timed.stage
    diffusivity_mm2_per_d = salt_diffusivity_mm2_per_d(speed, stage.temperature.c)
    delay_d = DISSOLVING_D[speed] if stage.kind == "dry" else 0.0
    return Leg(exchange, _salt_ratio(stage, contents), diffusivity_mm2_per_d, delay_d, timed.lasts_d)


def _salt_ratio(stage: Stage, contents: Contents) -> float:
    """Strength of an endless brine; for any other stage, its salt per water of the meat."""
    if stage.kind == "endless_brine":
        return stage.salt_percent / (100 - stage.salt_percent)
    return salt_of_stage_g(stage, contents.meat_g) / contents.water_g


def salt_of_stage_g(stage: Stage, meat_g: float) -> float:
    r"""The salt that a stage brings, in its brine or laid on.

    .. math:: salt = percent / 100 \times brine, \quad or \quad percent / 100 \times meat \text{ for a rub}

    Parameters
    ----------
    stage : Stage
        What surrounds the meat
    meat_g : float
        Raw meat as weighed [g]

    Returns
    -------
    salt : float
        Salt [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    Nothing for a rest, and for an endless brine, whose amount is not stated.

    Examples
    --------
    >>> from service.calculations.curing.timing.stages import DryStage
    >>> from service.quantities.quantity import Temperature
    >>> salt_of_stage_g(DryStage(kind="dry", salt_percent=2.5, temperature=Temperature(value=3, unit="degC")), 1800)
    45.0

    References
    ----------
    Percent by weight, of the brine or of the meat.
    """
    match stage.kind:
        case "brine":
            return stage.brine_g * stage.salt_percent / 100
        case "dry":
            return meat_g * stage.salt_percent / 100
        case "rest" | "endless_brine":
            return 0.0
    assert_never(stage.kind)
