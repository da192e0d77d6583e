"""The arithmetic of a cure time in lines a person can follow, and where it is printed."""

from collections.abc import Iterator

from service.calculations.curing.diffusing.diffusivity import (
    MM2_PER_D,
    QUICK,
    SLOW,
    TYPICAL,
    Speed,
    salt_diffusivity_mm2_per_d,
)
from service.calculations.curing.pieces import Axis
from service.calculations.curing.timing.planning import Plan
from service.calculations.curing.timing.setting import TimedStage, salt_of_stage_g
from service.calculations.curing.timing.targets import Arrivals
from service.calculations.curing.timing.telling import Days

SOURCES = (
    "Crank, The Mathematics of Diffusion, 2nd ed. 1975, chapters 4 to 6 (from memory; held against published values)",
    "Food Engineering Series 2015, ch. 47: salt in pork loin at 5 degC, 1.9e-10 m2/s (abstract)",
    "Hansen 2008, Meat Science 80:851: salt in pork, 3 to 7e-10 m2/s (abstract)",
    "Polish Journal of Food and Nutrition Sciences 48(1):59, 1998: salt in beef, 1.4 to 9.4e-10 m2/s (abstract)",
    "FSIS Directive 7620.3, Processing Inspectors' Calculations Handbook, 1995, p. 22: the whole system (reported)",
)


def steps_of(plan: Plan, arrivals: Arrivals, days: Days) -> tuple[str, ...]:
    """A line each: the way in, the water, each stage, the target, the days."""
    return (*_of_piece(plan), *_of_stages(plan), *_of_days(plan, arrivals, days))


def _of_piece(plan: Plan) -> Iterator[str]:
    for axis in plan.piece.axes:
        yield way(axis)
    contents = plan.contents
    pumped = f", {contents.pumped_g:,.4g} g of it pumped in" if contents.pumped_g else ""
    yield f"{contents.water_g:,.5g} g of water in {contents.meat_g:,.5g} g of meat{pumped}."


def way(axis: Axis) -> str:
    """How far salt has to go along an axis."""
    if axis.plain == "slab":
        return f"Salt has to go {axis.reach_mm:.4g} mm from an open face to the place it reaches last."
    return f"Salt has to go {axis.reach_mm:.4g} mm, the radius, from the round side."


def _of_stages(plan: Plan) -> Iterator[str]:
    for number, one in enumerate(plan.stages, 1):
        at_c = one.stage.temperature.c
        yield f"Stage {number}, {_surrounds(one, plan)}; at {at_c:.3g} degC {speeds_at(at_c)}."


def _surrounds(one: TimedStage, plan: Plan) -> str:
    stage = one.stage
    if stage.kind == "rest":
        return "rest: nothing goes in or out"
    if stage.kind == "endless_brine":
        strength = stage.salt_percent / (100 - stage.salt_percent)
        return f"brine that keeps {stage.salt_percent:.4g} percent: {strength:.4g} g of salt per g of water"
    salt_g = salt_of_stage_g(stage, plan.contents.meat_g)
    if stage.kind == "dry":
        return f"dry: {salt_g:,.4g} g of salt over {plan.contents.water_g:,.5g} g of water in the meat"
    water_g = stage.brine_g - salt_g
    return (
        f"brine: {salt_g:,.4g} g of salt in {water_g:,.5g} g of water, {water_g / plan.contents.water_g:.3g} times the "
        "water in the meat"
    )


def speeds_at(at_c: float) -> str:
    """How quickly salt moves at a temperature."""
    low, typical, high = (_m2_per_s(speed, at_c) for speed in (SLOW, TYPICAL, QUICK))
    return f"salt moves at {typical} ({low} to {high}) m2/s"


def _m2_per_s(speed: Speed, at_c: float) -> str:
    return f"{salt_diffusivity_mm2_per_d(speed, at_c) / MM2_PER_D:.2e}"


def _of_days(plan: Plan, arrivals: Arrivals, days: Days) -> Iterator[str]:
    percent = plan.contents.percent_per_ratio
    final = plan.courses.typical.final_ratio * percent
    wanted = arrivals.typical.target_ratio * percent
    yield f"Everything comes to {final:.4g} percent salt by green weight; the centre waits for {wanted:.4g} percent."
    yield f"After {days.typical:.4g} days ({days.low:.4g} to {days.high:.4g}); twice the way, four times the days."
