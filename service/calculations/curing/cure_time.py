"""POST /v1/curing/time: how many days until the cure has reached the centre."""

from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from service.calculations.curing.pieces import REASONS as PIECE_REASONS
from service.calculations.curing.pieces import Shape, piece_of
from service.calculations.curing.timing.advising import CODES, advice_for
from service.calculations.curing.timing.explaining import SOURCES, steps_of
from service.calculations.curing.timing.final import FinalSalt, final_of
from service.calculations.curing.timing.picturing import drawing_of
from service.calculations.curing.timing.planning import Plan, days_d, plan_of, stages_of
from service.calculations.curing.timing.pulling import OverCure, Pull, over_cure_of, pull_of
from service.calculations.curing.timing.scheduling import StageSpan, schedule_of, spans_of, turn_days
from service.calculations.curing.timing.setting import contents_of
from service.calculations.curing.timing.stages import REASONS as STAGE_REASONS
from service.calculations.curing.timing.stages import EarlierStage, Injection, Stage
from service.calculations.curing.timing.targets import REASONS as TARGET_REASONS
from service.calculations.curing.timing.targets import USUAL, Target, arrivals_of
from service.calculations.curing.timing.telling import (
    BEYOND_SHARE,
    CoursePoint,
    Days,
    ProfilePoint,
    SaltBand,
    Teller,
    band_of,
    curve_days_d,
    days_of,
)
from service.calculations.curing.timing.thumb import ThumbRule, beside, rules_for
from service.calculations.curing.timing.validity import VALIDITY, Validity
from service.calculations.curing.timing.warning import caution_ids
from service.calculations.declaration import Calculation
from service.calculations.remarks import Advice
from service.quantities.models import Answer, HowMany, IfStated, Moment, Name, Request, made
from service.quantities.quantity import Duration, Mass, Units
from service.rules.book import Engine, RuleBook
from service.rules.rule import Caution

WaterPercent = Annotated[float, Field(ge=50, le=80)]
CeilingPercent = Annotated[float, Field(ge=0.3, le=20)]


class CureTimeRequest(Request):
    """The meat, what surrounds it, and what is waited for."""

    meat: Mass
    """All the raw meat that is cured together, as weighed."""
    pieces: HowMany = 1
    """How many pieces of about this size it is."""
    shape: Shape
    """Of the thickest piece. Measure it; days go by the square of its thickness."""
    water_percent: WaterPercent = 70.0
    """Water in the raw meat: 70 to 75 where it is lean, 55 to 65 with its fat."""
    injection: IfStated[Injection] = None
    """Brine that is pumped in before the first stage."""
    earlier: list[EarlierStage] = Field(default=[], max_length=8)
    """Stages before the last, in their order: a change of brine, a rest, another temperature."""
    stage: Stage
    """The last stage: its end is what is asked."""
    target: Target = USUAL
    """What to wait for in the centre; left out, 80 percent of the final salt."""
    salt_ceiling_percent: IfStated[CeilingPercent] = None
    """The most salt that the whole piece may have, by green weight: it sets the last day to take it out."""
    look_after: list[Duration] = Field(default=[], max_length=20)
    """How the piece stands after each of these times since the first stage began."""
    starts_at: IfStated[Moment] = None
    """When the first stage begins. A calendar needs it; left out there, it is now."""
    name: IfStated[Name] = None
    """What you call the piece: on its chart and in its calendar."""
    units: Units = "metric"
    """Units for lengths in the answer; arithmetic is in millimetres."""
    detail: Literal["full", "brief"] = "full"
    """brief leaves out curves, profile, rules of thumb, arithmetic and sources."""


class CureTimeAnswer(Answer):
    """How long, how sure, and what the piece looks like meanwhile. A forecast: days are for salt."""

    starts_at: datetime | None
    """When the first stage begins; null where it was not stated."""
    name: str | None
    """What the piece is called; null where it was not stated."""
    target: Target
    """What is waited for."""
    target_salt: SaltBand
    """The salt in the centre that is waited for."""
    stages: tuple[StageSpan, ...]
    """The stages with their days."""
    days: Days
    """Until the centre has it, since the first stage began."""
    pull: Pull
    """When to take it out."""
    final_salt: FinalSalt
    """What everything comes to."""
    over_cure: OverCure
    """Whether it grows too salty when it is forgotten."""
    turn_after_d: tuple[int, ...]
    """Days after which to turn the pieces."""
    advice: tuple[Advice, ...]
    """What a cook may do about it."""
    looks: tuple[CoursePoint, ...]
    """The piece after each time that was asked for, in the order asked."""
    course: tuple[CoursePoint, ...]
    """The piece from the first day on; empty in brief."""
    profile: tuple[ProfilePoint, ...]
    """Salt from the open face to the centre on the typical day; empty in brief."""
    rules_of_thumb: tuple[ThumbRule, ...]
    """What each usual rule says, and how it stands to the model; empty in brief."""
    nitrite_at_centre: Literal["not_told"]
    """Nothing is claimed of nitrite: it reacts on the way, and no minimum is met because salt has arrived."""
    validity: Validity
    """Bounds of the model, and how sure it is."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    cautions: tuple[Caution, ...]
    """Read them before you cure."""
    sources: tuple[str, ...]
    """Where the model and its values are printed; empty in brief."""
    engine: Engine
    """What computed this."""


def cure_time(request: CureTimeRequest, book: RuleBook) -> CureTimeAnswer:
    """How many days until the centre has its salt: from the shape, the cold and the bath, with a low and a high side.

    Salt is followed through the water of the meat, stage after stage, in a weighed dry cure, a weighed brine, a brine
    that keeps its strength, after an injection, and through a rest. Days grow with the **square** of the thickness,
    and a face closed by skin or fat makes them four times as many. Low and high come from the spread of published
    diffusivities: test a piece.

    **Days are for salt.** Nothing is claimed of nitrite at the centre. Days are told from -1 to 5 degC alone; any
    other temperature is refused with 422 `impossible`, and so is a target that the bath cannot give. What you weigh
    comes from `POST /v1/curing/dose`. Your local code and your inspector come before this answer.
    """
    full = request.detail == "full"
    plan = _plan(request)
    arrivals = arrivals_of(request.target, plan.courses, plan.contents)
    days = days_of(arrival.day_d for arrival in arrivals)
    teller = Teller(plan.courses, plan.contents)
    final = final_of(plan.courses, plan.contents, plan.stages)
    pull = pull_of(plan, days, ceiling_percent=request.salt_ceiling_percent)
    return made(
        CureTimeAnswer,
        starts_at=request.starts_at,
        name=request.name,
        target=request.target,
        target_salt=band_of(one.target_ratio * plan.contents.percent_per_ratio for one in arrivals),
        stages=spans_of(plan.stages, plan.injection),
        days=days,
        pull=pull,
        final_salt=final,
        over_cure=over_cure_of(plan, teller, days),
        turn_after_d=turn_days(plan.stages, last_d=days.high),
        advice=advice_for(plan, request.target, days, request.units, window_closed=pull.forecast == "at_risk"),
        looks=_looks(request, teller),
        course=_course(plan, teller, days) if full else (),
        profile=teller.profile(days.typical, plan.piece, request.units) if full else (),
        rules_of_thumb=_rules(plan, teller, days) if full else (),
        nitrite_at_centre="not_told",
        validity=VALIDITY,
        steps=steps_of(plan, arrivals, days) if full else (),
        cautions=book.cautions_of(
            caution_ids(plan.stages, plan.injection, final_percent=final.meat_water.low, longest_d=days.high)
        ),
        sources=SOURCES if full else (),
        engine=book.engine,
    )


def _plan(request: CureTimeRequest) -> Plan:
    meat_g, injection = request.meat.g, request.injection
    return plan_of(
        piece_of(request.shape, meat_g / request.pieces),
        contents_of(meat_g, water_percent=request.water_percent, injection=injection),
        injection,
        stages_of(request.earlier, request.stage),
        profile=request.detail == "full",
    )


def _looks(request: CureTimeRequest, teller: Teller) -> tuple[CoursePoint, ...]:
    import numpy as np

    if not request.look_after:
        return ()
    return teller.points(np.array([days_d(one) for one in request.look_after]))


def _course(plan: Plan, teller: Teller, days: Days) -> tuple[CoursePoint, ...]:
    changes = (one.start_d for one in plan.courses.typical.followed[1:])
    return teller.points(curve_days_d(days.high * BEYOND_SHARE, changes))


def _rules(plan: Plan, teller: Teller, days: Days) -> tuple[ThumbRule, ...]:
    import numpy as np

    rules = rules_for(injected=plan.injection is not None)
    then = teller.points(np.array([rule.days(plan.piece)[1] for rule in rules]))
    return tuple(beside(rule, plan.piece, days, point.centre) for rule, point in zip(rules, then, strict=True))


TIME = Calculation(
    name="curing/time",
    summary="Time a cure",
    request=CureTimeRequest,
    answer=CureTimeAnswer,
    run=cure_time,
    drawing=drawing_of,
    schedule=schedule_of,
    reasons=PIECE_REASONS | STAGE_REASONS | TARGET_REASONS,
    codes=CODES,
)
