"""POST /v1/curing/soak: how long a piece that is too salty has to lie in water."""

from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.pieces import REASONS as PIECE_REASONS
from service.calculations.curing.pieces import Shape, piece_of
from service.calculations.curing.soaking.advising import CODES, advice_for
from service.calculations.curing.soaking.explaining import SOURCES, steps_of
from service.calculations.curing.soaking.picturing import drawing_of
from service.calculations.curing.soaking.refusing import REASONS, VALIDITY, require_lawful, require_reached
from service.calculations.curing.soaking.scheduling import schedule_of
from service.calculations.curing.soaking.telling import (
    HALF_AN_HOUR_H,
    TABLE_H,
    Hours,
    LeastWater,
    Soaked,
    SoakPoint,
    hours_of,
    least_water_of,
    told_hours_h,
)
from service.calculations.curing.soaking.waters import Soak, contents_of
from service.calculations.curing.timing.validity import Validity
from service.calculations.declaration import Calculation
from service.calculations.remarks import Advice
from service.quantities.models import Answer, HowMany, IfStated, Moment, Request, made
from service.quantities.quantity import Duration, Mass, Temperature, Units, Water
from service.rules.book import Engine, RuleBook
from service.rules.rule import Caution

SaltNow = Annotated[float, Field(ge=0.5, le=20)]
WantedSalt = Annotated[float, Field(ge=0.1, le=20)]
WaterPercent = Annotated[float, Field(ge=50, le=80)]
HALF_A_DAY = Duration(value=12, unit="h")


class SoakRequest(Request):
    """The piece, how salty it is and is to be, and the water."""

    meat: Mass
    """All the cured meat that is soaked together, as it lies on the scale."""
    pieces: HowMany = 1
    """How many pieces of about this size it is."""
    shape: Shape
    """Of the thickest piece."""
    water_percent: WaterPercent = 70.0
    """Water in the cured piece: about 70 where it is lean and undried, less where it has dried or is fat."""
    cooked: bool = False
    """Whether it is cooked already: then no hours are told, but what else helps."""
    salt_percent: SaltNow
    """Salt in the whole piece now, percent of its weight: 3.5, not 0.035. A slice from edge to edge tells it best."""
    wanted_salt_percent: WantedSalt
    """Salt to come to, percent of the same weight."""
    temperature: Temperature
    """Of meat and water, from 0 to 5 degC."""
    water: Water
    """Fresh water each time, for all the meat."""
    change_every: Duration = HALF_A_DAY
    """Water is changed after so long, from 2 to 72 hours; left out, 12 hours."""
    starts_at: IfStated[Moment] = None
    """When the piece goes into the first water. A calendar needs it; left out there, it is now."""
    units: Units = "metric"
    """Units for weights in the answer; arithmetic is in grams."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out the curve, the arithmetic and the sources."""


class SoakAnswer(Answer):
    """How long, in how many waters, and what any shorter time does. A forecast."""

    starts_at: datetime | None
    """When the piece goes in; null where it was not stated."""
    hours: Hours
    """Until the whole piece has come down to the salt that is wanted. Count them as hours in the cold."""
    waters: int
    """How many waters that takes by the typical reading, the first counted."""
    change_every_h: float
    """Hours in each."""
    at_end: SoakPoint
    """The piece after the typical hours."""
    half_an_hour: SoakPoint
    """What a soak of half an hour does: a rinse of the surface."""
    least_water: LeastWater
    """What one single bath would have to hold, however long the piece stayed in it."""
    removed: tuple[SoakPoint, ...]
    """What 1, 2, 6, 12, 24, 48 and 72 hours do."""
    course: tuple[SoakPoint, ...]
    """The piece hour by hour; empty in brief."""
    advice: tuple[Advice, ...]
    """What else helps."""
    nitrite_left: Literal["unknown"]
    """Soaking takes nitrite out with the salt; how much is left is not known, and no minimum can be shown after it."""
    validity: Validity
    """Bounds of the model, and how sure it is."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you soak."""
    sources: tuple[str, ...]
    """Where the model and its values are printed; empty in brief."""
    engine: Engine
    """What computed this."""


def soak(request: SoakRequest, book: RuleBook) -> SoakAnswer:
    """How long a piece that is too salty has to lie in fresh cold water, and in how many waters.

    Salt leaves as slowly as it came: half an hour rinses the surface, and hours go by the square of the thickness. The
    piece is taken to be salted evenly; one fresh from the cure is saltier outside and loses a little more at first.
    Everything happens in the cold, and the hours count.

    What cannot be reached in 72 hours is refused with 422 `impossible` and what can be. **How much nitrite is left
    after soaking is unknown.** Cooked meat is not soaked: the refusal says what helps. Your local code and your
    inspector come before this answer.
    """
    full = request.detail == "full"
    one = _soak(request)
    require_lawful(one, cooked=request.cooked)
    waters = one.waters()
    reached = one.reached(waters)
    require_reached(one, waters, reached)
    hours = hours_of(reached)
    told = Soaked(one, waters)
    return made(
        SoakAnswer,
        starts_at=request.starts_at,
        hours=hours,
        waters=one.waters_until(hours.typical),
        change_every_h=round(one.change_every_h, 4),
        at_end=told.after(hours.typical),
        half_an_hour=told.after(HALF_AN_HOUR_H),
        least_water=least_water_of(one, request.units),
        removed=told.points(TABLE_H),
        course=told.points(told_hours_h(hours.high)) if full else (),
        advice=advice_for(one, hours, request.units),
        nitrite_left="unknown",
        validity=VALIDITY,
        steps=steps_of(one, hours) if full else (),
        cautions=book.cautions_of(CAUTIONS),
        sources=SOURCES if full else (),
        engine=book.engine,
    )


CAUTIONS = ["soak-cold", "model-not-licence", "raw-meat-hygiene", "local-code"]


def _soak(request: SoakRequest) -> Soak:
    meat_g, salt_percent = request.meat.g, request.salt_percent
    return Soak(
        piece_of(request.shape, meat_g / request.pieces),
        contents_of(meat_g=meat_g, water_percent=request.water_percent, salt_percent=salt_percent),
        salt_percent=salt_percent,
        wanted_percent=request.wanted_salt_percent,
        bath_g=request.water.g,
        change_every_h=request.change_every.s / 3600,
        temperature_c=request.temperature.c,
    )


SOAK = Calculation(
    name="curing/soak",
    summary="Soak out salt",
    request=SoakRequest,
    answer=SoakAnswer,
    run=soak,
    drawing=drawing_of,
    schedule=schedule_of,
    reasons=PIECE_REASONS | REASONS,
    codes=CODES,
)
