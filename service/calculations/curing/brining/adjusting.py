"""Bringing a brine to another strength, with water or with salt."""

from service.calculations.curing.brining.dissolving import coldest_of
from service.calculations.curing.brining.outcomes import Outcome, What
from service.calculations.curing.brining.reckoning import fraction_of, grams_of, temperature_of
from service.calculations.curing.brining.refusing import (
    WARMEST_C,
    require_liquid,
    require_temperature,
    touched_meat,
)
from service.calculations.curing.brining.root import Number
from service.calculations.curing.brining.strengths import Baume, SpecificGravity
from service.calculations.curing.brining.tasks import Adjust
from service.calculations.curing.brining.warning import of_adjusted

SAME_STRENGTH = 1e-6
"""Two strengths nearer to each other than this are one."""


def adjusted(task: Adjust) -> Outcome:
    """Water or salt to add to a brine at hand. Raises Impossible."""
    if task.touched_meat:
        raise touched_meat()
    has, wanted = fraction_of(task.strength, "The strength"), fraction_of(task.wanted, "The wanted strength")
    at_c = temperature_of(task.temperature)
    warm = max(has, wanted, key=coldest_of)
    require_temperature(at_c, hottest_c=WARMEST_C, what="The brine", salt_fraction=warm)
    for salt_fraction in (has, wanted):
        require_liquid(salt_fraction, temperature_c=at_c)
    brine_g = grams_of(task.amount, has, temperature_c=_measured_c(task))
    added, line = _to_add(has, wanted_fraction=wanted, brine_g=brine_g)
    return Outcome(
        salt_fraction=wanted if added else has,
        temperature_c=at_c,
        stated=task.temperature is not None,
        mass_g=brine_g + sum(mass_g for _, mass_g in added),
        items=(*added, ("brine", brine_g)),
        steps=(line,),
        cautions=of_adjusted(),
    )


def _measured_c(task: Adjust) -> Number:
    """Where its volume was measured: at the stated temperature, else at the one its strength was read at."""
    if task.temperature is None and isinstance(task.strength, SpecificGravity | Baume):
        return task.strength.read_at.c
    return temperature_of(task.temperature)


def _to_add(
    has_fraction: float, *, wanted_fraction: float, brine_g: float
) -> tuple[tuple[tuple[What, Number], ...], str]:
    has, wanted = has_fraction, wanted_fraction
    if abs(has - wanted) < SAME_STRENGTH:
        return (), f"The brine has {100 * has:.5g} percent already: nothing is added."
    if wanted < has:
        water_g = brine_g * (has / wanted - 1)
        return (("water", water_g),), f"Water: {brine_g:,.6g} g x ({has:.6g} / {wanted:.6g} - 1) = {water_g:,.6g} g."
    salt_g = brine_g * (wanted - has) / (1 - wanted)
    line = f"Salt: {brine_g:,.6g} g x ({wanted:.6g} - {has:.6g}) / (1 - {wanted:.6g}) = {salt_g:,.6g} g."
    return (("salt", salt_g),), line
