"""Quantities as callers write them, ``{"value": 4.5, "unit": "lb"}``, converted once."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities.models import Answer, Request, made
from service.quantities.units import LengthUnit, MassUnit, TemperatureUnit, TimeUnit, VolumeUnit, WaterUnit, factor

WATER_G_PER_ML = 0.9982
"""Density of water at 20 degC, g/ml (CRC Handbook, from memory; 8.33 lb per US gallon is the same, rounded)."""

Amount = Annotated[float, Field(ge=0.001, le=1e6)]
"""A JSON number from 0.001 to 1,000,000, in the unit beside it."""


class Mass(Request):
    """A weight."""

    value: Amount
    """How much, in the unit beside it."""
    unit: MassUnit
    """g, kg, oz (avoirdupois) or lb (avoirdupois)."""

    @property
    def g(self) -> float:
        return self.value * factor(self.unit)


class Water(Request):
    """Water, by weight or by volume (US customary measures; 1 l weighs 998.2 g). Ice by weight only."""

    value: Amount
    """How much, in the unit beside it."""
    unit: WaterUnit
    """A unit of mass (g kg oz lb) or of volume (ml l tsp tbsp fl_oz cup pt qt gal)."""

    @property
    def g(self) -> float:
        return self.value * factor(self.unit) * (1.0 if self.unit in MASS_SYMBOLS else WATER_G_PER_ML)


class Volume(Request):
    """A level volume in US customary or metric measures."""

    value: Amount
    """How much, in the unit beside it."""
    unit: VolumeUnit
    """ml, l, or a US customary measure: tsp, tbsp, fl_oz, cup, pt, qt, gal."""

    @property
    def ml(self) -> float:
        return self.value * factor(self.unit)


class Measure(Request):
    """An amount as a recipe writes it: a weight or a level volume."""

    value: Amount
    """How much, in the unit beside it."""
    unit: WaterUnit
    """A unit of mass (g kg oz lb) or of volume (ml l tsp tbsp fl_oz cup pt qt gal, US customary)."""

    @property
    def is_volume(self) -> bool:
        return self.unit not in MASS_SYMBOLS

    @property
    def g(self) -> float:
        """Grams of a weight; a volume has none of its own and raises ValueError."""
        if self.is_volume:
            raise ValueError(f"{self.unit} is a volume: what it weighs hangs on what it holds")
        return self.value * factor(self.unit)

    @property
    def ml(self) -> float:
        """Millilitres of a volume; a weight has none of its own and raises ValueError."""
        if not self.is_volume:
            raise ValueError(f"{self.unit} is a weight: what it fills hangs on what it is")
        return self.value * factor(self.unit)


class Duration(Request):
    """A length of time."""

    value: Amount
    """How much, in the unit beside it."""
    unit: TimeUnit
    """s, min, h or d (24 hours)."""

    @property
    def d(self) -> float:
        return self.value * factor(self.unit) / factor("d")

    @property
    def s(self) -> float:
        return self.value * factor(self.unit)


class Length(Request):
    """A length."""

    value: Amount
    """How much, in the unit beside it."""
    unit: LengthUnit
    """mm, cm, in, ft or m."""

    @property
    def mm(self) -> float:
        return self.value * factor(self.unit)


class Temperature(Request):
    """A temperature."""

    value: float = Field(ge=-100, le=1000)
    """How warm, in the unit beside it."""
    unit: TemperatureUnit
    """degC or degF."""

    @property
    def c(self) -> float:
        return self.value if self.unit == "degC" else round((self.value - FREEZING_F) / F_PER_C, DIGITS_OF_C)


FREEZING_F, F_PER_C = 32.0, 1.8
"""The scale of Fahrenheit: 32 degF is 0 degC, and 1.8 of its degrees are one of Celsius (exact by definition)."""

DIGITS_OF_C = 9
"""So that 30.2 degF is -1 degC, and not a hair less."""

MASS_SYMBOLS = frozenset({"g", "kg", "oz", "lb"})


class Weight(Answer):
    """A weight to read off a scale, or one that was worked out."""

    value: float
    """How much, in the unit beside it."""
    unit: Literal[MassUnit, VolumeUnit]
    """Its unit."""


Units = Literal["metric", "us"]
"""Which units an answer is written in. Weights to be weighed are always in the unit of the scale's step."""

G_PER_OZ = 28.349523125
"""International avoirdupois ounce, exact by definition."""


def present_weight(mass_g: float, units: Units) -> Weight:
    """A worked-out weight in kitchen units, rounded for display only."""
    if units == "metric":
        return made(Weight, value=round(mass_g, 1), unit="g")
    ounces = mass_g / G_PER_OZ
    return (
        made(Weight, value=round(ounces / 16, 3), unit="lb")
        if ounces >= 16
        else made(Weight, value=round(ounces, 2), unit="oz")
    )
