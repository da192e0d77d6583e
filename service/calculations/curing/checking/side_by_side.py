"""Every reading of the same nitrite, side by side, with what each one divides by and whether it decides."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from service.calculations.curing.checking.assessing import Case, Span, span_of
from service.calculations.curing.checking.vessel import Vessel
from service.calculations.curing.ingoing import ingoing_at_equilibrium_ppm
from service.quantities.models import Answer
from service.rules.vocabulary import Expression

ReadingName = Literal[
    "on_the_meat", "in_the_batch", "pumped", "pick_up", "pumped_and_covered", "after_stay", "equilibrium",
    "meat_and_water", "pickle",
]  # fmt: skip

MEANS: dict[ReadingName, str] = {
    "on_the_meat": "All that goes on or in, over the green weight. In a pickle: if the meat took up all of it.",
    "in_the_batch": "What goes in, over meat and everything that goes in with it.",
    "pumped": "Strength of the pickle x pump (official, as for pumped meat).",
    "pick_up": "Strength of the pickle x pick-up (official, method one): for a piece that is taken out.",
    "pumped_and_covered": "Pump and cover added.",
    "after_stay": "As much of the whole system as can be in the piece when it comes out.",
    "equilibrium": "All of it over meat plus pickle (official, method two): for a piece that stays in.",
    "meat_and_water": "All of it over meat plus water, nothing else counted: how many recipes are written.",
    "pickle": "In the pickle itself. It is not the figure in the meat.",
}
"""The readings, in the order in which they are shown."""


class Reading(Answer):
    """Nitrite or nitrate by one way of reckoning."""

    substance: Literal["nitrite", "nitrate"]
    """What is reckoned."""
    reading: ReadingName
    """The way of reckoning."""
    expressed_as: Expression
    """The substance it is written as."""
    low: float
    """The least that the recipe as written can come to, ppm."""
    high: float
    """The most that it can come to, ppm; the same as low where everything was weighed."""
    unit: Literal["ppm"]
    """Parts per million by weight (mg/kg)."""
    decides: bool
    """Whether limits on what goes into the meat are held against this reading."""
    means: str
    """What is divided by what."""


@dataclass(frozen=True, slots=True)
class Way:
    """One way of reckoning, with the vessels that it is read from."""

    name: ReadingName
    basis: str
    vessels: tuple[Vessel, ...]
    decides: bool


def readings_of(case: Case) -> tuple[Reading, ...]:
    """Every reading of nitrite, and of nitrate where there is any; none where it cannot be worked out."""
    if not case.can_be_worked_out:
        return ()
    return tuple(reading for way in _ways(case) for reading in _read(way))


def _ways(case: Case) -> Iterator[Way]:
    vessels, named = case.vessels(), case.uptake.basis_named
    bath, each = case.uptake.baths[0], len(vessels) // len(case.uptake.baths)
    if bath is None:
        yield Way("on_the_meat", "green_weight", vessels, decides=True)
        yield Way("in_the_batch", "everything", vessels, decides=False)
        return
    if bath.injected_g and not bath.immersed:
        yield Way("pumped", "green_weight", vessels, decides=True)
    elif bath.injected_g:
        yield Way("pumped_and_covered", "green_weight", vessels, decides=True)
    elif not named:
        yield Way("pick_up", "green_weight", vessels[each:], decides=True)
    elif not bath.equilibrium:
        yield Way("pick_up", "green_weight", vessels, decides=True)
    if bath.stayed:
        yield Way("after_stay", "whole_system_after_stay", vessels, decides=True)
    if bath.immersed:
        yield Way("equilibrium", "whole_system", vessels[:each], decides=not bath.stayed)
        yield Way("meat_and_water", "meat_and_water", vessels[:each], decides=False)
    yield Way("on_the_meat", "all_over_green", vessels[:each], decides=False)
    yield Way("pickle", "pickle", vessels[:each], decides=False)


WHOLE_SALT = ("sodium_nitrite", "nitrite_salt_by_weight")
"""Nitrite written as the salt that goes in."""
EXPRESSIONS: dict[str, tuple[Expression, ...]] = {
    "nitrite": ("nitrite_salt_by_weight", "sodium_nitrite", "nitrite_ion"),
    "nitrate": ("nitrate_salt_by_weight", "sodium_nitrate", "nitrate_ion"),
}
"""As what each substance is written: as the salt of the label, as the sodium salt, as the ion."""


def _read(way: Way) -> Iterator[Reading]:
    for substance in ("nitrite", "nitrate"):
        by_weight, sodium, ion = EXPRESSIONS[substance]
        salts = {salt for vessel in way.vessels for salt, _ in getattr(vessel, substance)}
        if not salts and (substance == "nitrate" or any(vessel.nitrate for vessel in way.vessels)):
            continue
        expressions = (sodium, ion) if salts <= {sodium} else (by_weight, sodium, ion)
        for expression in expressions:
            span = span_of(_ppm(way, vessel, substance, expression) for vessel in way.vessels)
            if span is not None:
                yield _reading(way, substance, expression, span)


def _ppm(way: Way, vessel: Vessel, substance: str, expression: Expression) -> float | None:
    if way.basis == "everything":
        return vessel.ppm(substance, basis="whole_batch", expressed_as=expression, least=True)
    if way.basis not in ("meat_and_water", "all_over_green"):
        return vessel.ppm(substance, basis=way.basis, expressed_as=expression)
    water_g = vessel.amounts.water_g if way.basis == "meat_and_water" else 0.0
    mass_g = vessel.substance_g(substance, expression)
    if mass_g is None:
        return None
    return ingoing_at_equilibrium_ppm(additive_g=mass_g, green_g=vessel.amounts.green_g, pickle_g=water_g)


def _reading(way: Way, substance: str, expression: Expression, span: Span) -> Reading:
    low, high = span
    return Reading.of(
        substance=substance,
        reading=way.name,
        expressed_as=expression,
        low=round(low, 4),
        high=round(high, 4),
        unit="ppm",
        decides=way.decides,
        means=MEANS[way.name],
    )
