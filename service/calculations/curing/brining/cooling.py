"""Cooling a hot concentrate with cold water and ice: how much of each, or how cold it gets."""

from dataclasses import dataclass

from service.calculations.curing.brining.dissolving import coldest_of
from service.calculations.curing.brining.heat import brine_heat_kj_per_kg
from service.calculations.curing.brining.ice import ice_heat_kj_per_kg
from service.calculations.curing.brining.reckoning import COLD_ROOM_C, fraction_of, grams_of
from service.calculations.curing.brining.refusing import HOTTEST_C, require_liquid, require_temperature
from service.calculations.curing.brining.refusing_ice import require_ice, require_water
from service.calculations.curing.brining.root import Number, crossing
from service.calculations.curing.brining.tasks import Cool

SEARCHED_C = (-40.0, 110.0)
"""Where a temperature is searched for. What lies below the figures' own range is refused, not told."""


@dataclass(frozen=True, slots=True)
class Kettle:
    """What goes together, in kilograms and degrees Celsius."""

    concentrate_kg: Number
    concentrate_fraction: Number
    concentrate_c: Number
    wanted_fraction: Number
    water_c: Number
    ice_c: Number

    @property
    def finished_kg(self) -> Number:
        return self.concentrate_kg * self.concentrate_fraction / self.wanted_fraction

    @property
    def added_kg(self) -> Number:
        return max(0.0, self.finished_kg - self.concentrate_kg)

    @property
    def coldest_c(self) -> Number:
        """Where the figures end or ice or salt begins to fall out of the finished brine, whichever is warmer."""
        return coldest_of(self.wanted_fraction)

    @property
    def ice_takes_kj_per_kg(self) -> Number:
        """What a kilogram of ice takes up more than one of the cold water."""
        return brine_heat_kj_per_kg(0.0, temperature_c=self.water_c) - ice_heat_kj_per_kg(self.ice_c)

    @property
    def brought_kj(self) -> Number:
        """Heat above 25 degC that goes in, if all that is added were cold water."""
        hot_kj_per_kg = brine_heat_kj_per_kg(self.concentrate_fraction, temperature_c=self.concentrate_c)
        cold_kj_per_kg = brine_heat_kj_per_kg(0.0, temperature_c=self.water_c)
        return self.concentrate_kg * hot_kj_per_kg + self.added_kg * cold_kj_per_kg

    def held_kj(self, temperature_c: float) -> Number:
        """Heat above 25 degC that the finished brine holds at a temperature."""
        return self.finished_kg * brine_heat_kj_per_kg(self.wanted_fraction, temperature_c=temperature_c)

    @property
    def most_ice_kg(self) -> Number:
        """As much as there is room for and melts; negative where cold water alone is too cold."""
        return min(self.added_kg, self.ice_kg_for(self.coldest_c))

    def ice_kg_for(self, temperature_c: float) -> Number:
        """Ice that brings it down to a temperature; negative where cold water alone goes below it."""
        return (self.brought_kj - self.held_kj(temperature_c)) / self.ice_takes_kj_per_kg

    def temperature_with(self, ice_kg: float) -> Number:
        """Temperature, degC, once so much ice has melted in it."""
        left_kj = self.brought_kj - ice_kg * self.ice_takes_kj_per_kg
        found = crossing(lambda temperature_c: self.held_kj(temperature_c) - left_kj, SEARCHED_C)
        return SEARCHED_C[0] if found is None else found


def kettle_of(task: Cool) -> Kettle:
    """What is stated, with every part checked. Raises Impossible."""
    hot, how_much, hot_c = task.concentrate, task.how_much, task.concentrate.temperature.c
    strong, wanted = fraction_of(hot.strength, "The concentrate"), fraction_of(task.wanted, "The wanted strength")
    ice_c = task.ice_temperature.c if task.ice_temperature else 0.0
    require_temperature(hot_c, hottest_c=HOTTEST_C, what="The concentrate", salt_fraction=strong)
    require_water(task.water_temperature.c)
    require_liquid(strong, temperature_c=hot_c)
    require_ice(ice_c)
    if how_much.kind == "all_of_it":
        concentrate_g = grams_of(how_much.concentrate, strong, temperature_c=hot_c)
    else:
        concentrate_g = grams_of(how_much.amount, wanted, temperature_c=COLD_ROOM_C) * wanted / strong
    return Kettle(concentrate_g / 1000, strong, hot_c, wanted, task.water_temperature.c, ice_c)
