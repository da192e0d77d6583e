"""The closed list of units, with the factors pint defines for them.

Pint is asked once, on first use, and only ever sees the names written here: its parser must never
meet a caller's text.
"""

from dataclasses import dataclass
from decimal import Context, Decimal
from functools import cache
from typing import Any, Literal

Dimension = Literal["mass", "volume", "temperature", "length", "time"]

MassUnit = Literal["g", "kg", "oz", "lb"]
VolumeUnit = Literal["ml", "l", "tsp", "tbsp", "fl_oz", "cup", "pt", "qt", "gal"]
TemperatureUnit = Literal["degC", "degF"]
LengthUnit = Literal["mm", "cm", "in", "ft", "m"]
TimeUnit = Literal["s", "min", "h", "d"]
WaterUnit = Literal[MassUnit, VolumeUnit]

_DIGITS = Context(prec=24)

BASE_UNITS: dict[Dimension, str] = {"mass": "g", "volume": "ml", "temperature": "degC", "length": "mm", "time": "s"}


@dataclass(frozen=True, slots=True)
class Spelling:
    """How one of our symbols is written in pint, in UCUM and in UN/CEFACT Recommendation 20."""

    dimension: Dimension
    name: str
    pint: str
    ucum: str
    rec20: str


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: ``base = value * factor + offset``, exactly, in the base unit of its dimension."""

    symbol: str
    spelling: Spelling
    factor: Decimal
    offset: Decimal


# UCUM codes: The Unified Code for Units of Measure, version 2.2 (ucum-essence.xml).
# Rec 20 codes: UN/CEFACT Recommendation 20; KGM GRM LBR LTR GLL FAH INH CMT read, the others from memory.
SPELLINGS: dict[str, Spelling] = {
    "g": Spelling("mass", "gram", "gram", "g", "GRM"),
    "kg": Spelling("mass", "kilogram", "kilogram", "kg", "KGM"),
    "oz": Spelling("mass", "ounce (avoirdupois)", "ounce", "[oz_av]", "ONZ"),
    "lb": Spelling("mass", "pound (avoirdupois)", "pound", "[lb_av]", "LBR"),
    "ml": Spelling("volume", "millilitre", "milliliter", "mL", "MLT"),
    "l": Spelling("volume", "litre", "liter", "L", "LTR"),
    "tsp": Spelling("volume", "teaspoon (US)", "teaspoon", "[tsp_us]", "G25"),
    "tbsp": Spelling("volume", "tablespoon (US)", "tablespoon", "[tbs_us]", "G24"),
    "fl_oz": Spelling("volume", "fluid ounce (US)", "fluid_ounce", "[foz_us]", "OZA"),
    "cup": Spelling("volume", "cup (US)", "cup", "[cup_us]", "G21"),
    "pt": Spelling("volume", "liquid pint (US)", "pint", "[pt_us]", "PTL"),
    "qt": Spelling("volume", "liquid quart (US)", "quart", "[qt_us]", "QTL"),
    "gal": Spelling("volume", "gallon (US)", "gallon", "[gal_us]", "GLL"),
    "degC": Spelling("temperature", "degree Celsius", "degree_Celsius", "Cel", "CEL"),
    "degF": Spelling("temperature", "degree Fahrenheit", "degree_Fahrenheit", "[degF]", "FAH"),
    "mm": Spelling("length", "millimetre", "millimeter", "mm", "MMT"),
    "cm": Spelling("length", "centimetre", "centimeter", "cm", "CMT"),
    "in": Spelling("length", "inch", "inch", "[in_i]", "INH"),
    "ft": Spelling("length", "foot", "foot", "[ft_i]", "FOT"),
    "m": Spelling("length", "metre", "meter", "m", "MTR"),
    "s": Spelling("time", "second", "second", "s", "SEC"),
    "min": Spelling("time", "minute", "minute", "min", "MIN"),
    "h": Spelling("time", "hour", "hour", "h", "HUR"),
    "d": Spelling("time", "day", "day", "d", "DAY"),
}


SI_FACTORS: dict[str, float] = {
    "g": 1, "kg": 1000, "ml": 1, "l": 1000, "mm": 1, "cm": 10, "m": 1000, "s": 1, "min": 60, "h": 3600, "d": 86400,
}  # fmt: skip
"""What the SI itself fixes: known without asking, so that a metric request never waits for pint."""


@cache
def units() -> dict[str, Unit]:
    """Every unit by symbol, with exact decimal factors read from pint's definitions."""
    from pint import UnitRegistry  # 0.3 s to import: on first use, not at start

    registry: Any = UnitRegistry(non_int_type=Decimal, on_redefinition="raise")

    def in_base(spelling: Spelling, value: str) -> Decimal:
        base = SPELLINGS[BASE_UNITS[spelling.dimension]].pint
        return _DIGITS.create_decimal(registry.Quantity(Decimal(value), spelling.pint).to(base).magnitude)

    def unit(symbol: str, spelling: Spelling) -> Unit:
        if symbol == BASE_UNITS[spelling.dimension]:
            return Unit(symbol, spelling, Decimal(1), Decimal(0))
        offset = in_base(spelling, "0")
        return Unit(symbol, spelling, (in_base(spelling, "1") - offset).normalize(), offset.normalize())

    return {symbol: unit(symbol, spelling) for symbol, spelling in SPELLINGS.items()}


@cache
def factor(symbol: str) -> float:
    """How many base units (g, ml, mm, s) one of this unit is."""
    return SI_FACTORS[symbol] if symbol in SI_FACTORS else float(units()[symbol].factor)
