"""What is told about a brine, in the units of the answer."""

from typing import Literal

from service.calculations.curing.brining.baume import baume_deg
from service.calculations.curing.brining.density import SATURATED_FRACTION, brine_density_kg_per_m3
from service.calculations.curing.brining.freezing import EUTECTIC_FRACTION, freezing_point_c
from service.calculations.curing.brining.root import plain
from service.calculations.curing.brining.scales import (
    salometer_deg,
    salt_per_gallon_of_water_lb,
    specific_gravity_ratio,
)
from service.quantities.bands import rounded
from service.quantities.models import Answer
from service.quantities.quantity import F_PER_C, FREEZING_F, G_PER_OZ, Units, Weight
from service.quantities.units import TemperatureUnit, factor

G_PER_LB, G_PER_KG = 16 * G_PER_OZ, 1000.0


class ToldTemperature(Answer):
    """A temperature."""

    value: float
    """How warm, in the unit beside it."""
    unit: TemperatureUnit
    """degC or degF."""


class ToldLevel(Answer):
    """A height above the floor of a vessel."""

    value: float
    """How high, in the unit beside it."""
    unit: Literal["cm", "in"]
    """Its unit."""


class BrineItem(Answer):
    """Something to put on the scale."""

    what: Literal["salt", "water", "ice", "brine", "concentrate"]
    """What it is. brine and concentrate are those at hand."""
    amount: Weight
    """How much, to four digits."""
    exact_g: float
    """The same in grams, to nine digits."""


class BrineFigures(Answer):
    """A brine on every scale of the trade."""

    mass: Weight | None
    """What it weighs; null where no amount was stated."""
    volume: Weight | None
    """How much that fills at the temperature below."""
    salt_percent: float
    """Salt by weight."""
    salometer_deg: float
    """Degrees of the standard salometer at 60 degF."""
    saturation_percent: float
    """Share of the salt that water of 60 degF dissolves; the same number, by definition of the scale."""
    salt_g_per_l: float
    """Salt in a litre of it at the temperature below."""
    specific_gravity_ratio: float
    """Specific gravity 60/60 degF."""
    baume_deg: float
    """Degrees Baume, American scale."""
    density_kg_per_l: float
    """Density at the temperature below."""
    temperature: ToldTemperature
    """The temperature that density, volume and grams per litre are for."""
    freezing_point: ToldTemperature | None
    """Where ice begins to form; null above 23.3 percent, out of which salt drops first."""
    salt_per_us_gallon_of_water_lb: float | None
    """Pounds of salt to a US gallon of water at 60 degF; null in metric."""


def figures_of(salt_fraction: float, *, temperature_c: float, mass_g: float | None, units: Units) -> BrineFigures:
    """A brine of this strength, at this temperature."""
    w = salt_fraction
    density_kg_per_l = brine_density_kg_per_m3(w, temperature_c=temperature_c) / 1000
    gravity = specific_gravity_ratio(w)
    return BrineFigures.of(
        mass=None if mass_g is None else told_weight(mass_g, units),
        volume=None if mass_g is None else told_volume(mass_g / density_kg_per_l, units),
        salt_percent=round(100 * w, 3),
        salometer_deg=round(salometer_deg(w), 2),
        saturation_percent=round(100 * w / SATURATED_FRACTION, 2),
        salt_g_per_l=round(1000 * w * density_kg_per_l, 2),
        specific_gravity_ratio=plain(gravity, 4),
        baume_deg=plain(baume_deg(gravity), 2),
        density_kg_per_l=round(density_kg_per_l, 4),
        temperature=told_temperature(temperature_c, units),
        freezing_point=told_temperature(freezing_point_c(w), units) if w <= EUTECTIC_FRACTION else None,
        salt_per_us_gallon_of_water_lb=round(salt_per_gallon_of_water_lb(w), 3) if units == "us" else None,
    )


def item(what: str, mass_g: float, units: Units) -> BrineItem:
    """Something to weigh."""
    return BrineItem.of(what=what, amount=told_weight(mass_g, units), exact_g=float(f"{mass_g:.9g}"))


def told_weight(mass_g: float, units: Units) -> Weight:
    """A weight to four digits: g or kg, oz or lb."""
    if units == "metric":
        heavy = mass_g >= G_PER_KG
        return Weight.of(value=rounded(mass_g / G_PER_KG if heavy else mass_g), unit="kg" if heavy else "g")
    heavy = mass_g >= G_PER_LB
    return Weight.of(value=rounded(mass_g / (G_PER_LB if heavy else G_PER_OZ)), unit="lb" if heavy else "oz")


def told_volume(volume_ml: float, units: Units) -> Weight:
    """A volume to four digits: litres or US gallons."""
    unit: Literal["l", "gal"] = "l" if units == "metric" else "gal"
    return Weight.of(value=rounded(volume_ml / factor(unit)), unit=unit)


def told_level(level_mm: float, units: Units) -> ToldLevel:
    """A level to four digits: centimetres or inches."""
    unit: Literal["cm", "in"] = "cm" if units == "metric" else "in"
    return ToldLevel.of(value=rounded(level_mm / factor(unit)), unit=unit)


def told_temperature(temperature_c: float, units: Units) -> ToldTemperature:
    """A temperature to a tenth of a degree."""
    if units == "metric":
        return ToldTemperature.of(value=plain(temperature_c, 1), unit="degC")
    return ToldTemperature.of(value=plain(F_PER_C * temperature_c + FREEZING_F, 1), unit="degF")
