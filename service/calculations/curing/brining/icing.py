"""How much ice goes into a hot concentrate, or how cold the ice at hand makes it."""

from collections.abc import Iterator

from service.calculations.curing.brining.cooling import Kettle, kettle_of
from service.calculations.curing.brining.offering import strongest_percent
from service.calculations.curing.brining.outcomes import CoolingResult, Outcome
from service.calculations.curing.brining.refusing import WARMEST_C, require_liquid, require_temperature
from service.calculations.curing.brining.refusing_ice import (
    cold_without_ice,
    ice_left_over,
    more_ice_than_water,
    too_weak,
)
from service.calculations.curing.brining.root import Number, plain
from service.calculations.curing.brining.strengths import PercentByWeight
from service.calculations.curing.brining.tasks import Cool
from service.calculations.curing.brining.told import told_temperature, told_weight
from service.calculations.curing.brining.warning import of_cooled
from service.calculations.refusals import Impossible
from service.quantities.quantity import Units

ROOM = 1 + 1e-9
A_LITTLE_C = 1e-6


def cooled(task: Cool, units: Units) -> Outcome:
    """Water and ice for a hot concentrate, and how cold it gets. Raises Impossible."""
    kettle = kettle_of(task)
    if kettle.concentrate_fraction < kettle.wanted_fraction:
        raise _too_weak(task, kettle)
    ice_kg = _ice_kg(task, kettle)
    reached_c = kettle.temperature_with(ice_kg)
    water_kg = max(0.0, kettle.added_kg - ice_kg)
    return Outcome(
        salt_fraction=kettle.wanted_fraction,
        temperature_c=reached_c,
        stated=True,
        mass_g=1000 * kettle.finished_kg,
        items=(("concentrate", 1000 * kettle.concentrate_kg), ("water", 1000 * water_kg), ("ice", 1000 * ice_kg)),
        steps=tuple(_steps(kettle, ice_kg=ice_kg, reached_c=reached_c)),
        cautions=of_cooled(),
        cooling=_result(kettle, ice_kg=ice_kg, reached_c=reached_c, units=units),
    )


def _too_weak(task: Cool, kettle: Kettle) -> Impossible:
    return too_weak(
        kettle.concentrate_fraction,
        wanted_fraction=kettle.wanted_fraction,
        offered_percent=strongest_percent(
            kettle.concentrate_fraction, lambda salt_percent: _is_cooled(task, salt_percent=salt_percent)
        ),
    )


def _is_cooled(task: Cool, *, salt_percent: Number) -> bool:
    """Whether the same concentrate can be cooled as asked while it is thinned to another strength."""
    wanted = PercentByWeight(kind="percent_by_weight", salt_percent=salt_percent)
    other = task.model_copy(update={"wanted": wanted})
    try:
        _ice_kg(other, kettle_of(other))
    except Impossible:
        return False
    return True


def _ice_kg(task: Cool, kettle: Kettle) -> Number:
    """Ice for which there is room, and which melts. Raises Impossible."""
    if task.cooling.kind == "with_ice":
        ice_kg = task.cooling.ice.g / 1000
    else:
        wanted_c = task.cooling.wanted.c
        require_temperature(
            wanted_c, hottest_c=WARMEST_C, what="The finished brine", salt_fraction=kettle.wanted_fraction
        )
        require_liquid(kettle.wanted_fraction, temperature_c=wanted_c)
        ice_kg = max(0.0, kettle.ice_kg_for(wanted_c))
    most_kg = max(0.0, kettle.most_ice_kg)
    reached_c = kettle.temperature_with(most_kg)
    if reached_c < kettle.coldest_c - A_LITTLE_C:
        raise cold_without_ice(reached_c, coldest_c=kettle.coldest_c, wanted_fraction=kettle.wanted_fraction)
    if ice_kg > kettle.added_kg * ROOM:
        raise more_ice_than_water(ice_kg, added_kg=kettle.added_kg, most_kg=most_kg, reached_c=reached_c)
    if ice_kg > most_kg * ROOM:
        raise ice_left_over(ice_kg, coldest_c=kettle.coldest_c, most_kg=most_kg, reached_c=reached_c)
    return min(ice_kg, kettle.added_kg)


def _result(kettle: Kettle, *, ice_kg: float, reached_c: float, units: Units) -> CoolingResult:
    most_kg, added_kg = max(0.0, kettle.most_ice_kg), kettle.added_kg
    return CoolingResult.of(
        temperature=told_temperature(reached_c, units),
        without_ice=told_temperature(kettle.temperature_with(0.0), units),
        coldest=told_temperature(kettle.temperature_with(most_kg), units),
        most_ice=told_weight(1000 * most_kg, units),
        ice_share_percent=round(100 * ice_kg / added_kg, 1) if added_kg else 0.0,
    )


def _steps(kettle: Kettle, *, ice_kg: float, reached_c: float) -> Iterator[str]:
    hot_kg, added_kg = kettle.concentrate_kg, kettle.added_kg
    yield (
        f"Finished brine: {hot_kg:,.6g} kg x {kettle.concentrate_fraction:.6g} / {kettle.wanted_fraction:.6g} "
        f"= {kettle.finished_kg:,.6g} kg, so {added_kg:,.6g} kg of water and ice are added."
    )
    without_c = plain(kettle.temperature_with(0.0), 3)
    yield (
        f"With cold water alone it would be at {without_c:.4g} degC. Heat for the ice to take away, "
        f"down to {plain(reached_c, 3):.4g} degC: {max(0.0, kettle.brought_kj - kettle.held_kj(reached_c)):,.6g} kJ."
    )
    yield (
        f"A kilogram of ice takes up {kettle.ice_takes_kj_per_kg:.5g} kJ more than one of cold water: "
        f"{ice_kg:,.6g} kg of ice and {max(0.0, added_kg - ice_kg):,.6g} kg of water."
    )
    yield "Vessel, room and water that clings to the ice are not counted: measure, and keep ice in hand."
