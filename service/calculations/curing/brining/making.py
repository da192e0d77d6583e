"""Making a brine."""

from service.calculations.curing.brining.covering import covered
from service.calculations.curing.brining.outcomes import Outcome
from service.calculations.curing.brining.reckoning import fraction_of, grams_of, temperature_of
from service.calculations.curing.brining.refusing import (
    WARMEST_C,
    require_liquid,
    require_temperature,
)
from service.calculations.curing.brining.tasks import Make
from service.calculations.curing.brining.warning import of_made
from service.quantities.quantity import MASS_SYMBOLS, Units


def made(task: Make, units: Units) -> Outcome:
    """Salt and water for a brine. Raises Impossible."""
    w, at_c = fraction_of(task.strength, "The strength"), temperature_of(task.temperature)
    require_temperature(at_c, hottest_c=WARMEST_C, what="The brine", salt_fraction=w)
    require_liquid(w, temperature_c=at_c)
    how_much, vessel = task.how_much, None
    steps: tuple[str, ...] = ()
    if how_much.kind == "finished_brine":
        mass_g = grams_of(how_much.amount, w, temperature_c=at_c)
    elif how_much.kind == "water_at_hand":
        mass_g = how_much.water.g / (1 - w)
    else:
        mass_g, vessel, steps = covered(how_much, w, temperature_c=at_c, units=units)
    by_volume = how_much.kind == "water_at_hand" and how_much.water.unit not in MASS_SYMBOLS
    return Outcome(
        salt_fraction=w,
        temperature_c=at_c,
        stated=task.temperature is not None,
        mass_g=mass_g,
        items=(("salt", mass_g * w), ("water", mass_g * (1 - w))),
        steps=(*steps, *_parts(w, mass_g=mass_g)),
        cautions=of_made(vessel, water_by_volume=by_volume),
        vessel=vessel,
    )


def _parts(salt_fraction: float, *, mass_g: float) -> tuple[str, ...]:
    share, salt_g = f"{salt_fraction:.6g}", mass_g * salt_fraction
    return (
        f"Salt: {mass_g:,.6g} g of brine x {share} = {salt_g:,.6g} g.",
        f"Water: {mass_g:,.6g} g - {salt_g:,.6g} g = {mass_g - salt_g:,.6g} g.",
    )
