"""What a scaled recipe tells, in the units of the answer."""

from typing import Literal

from service.calculations.measures.spoons import Grams, Number
from service.quantities.bands import WeightBand, rounded_sides, unit_of
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight
from service.quantities.units import MassUnit, VolumeUnit
from service.rules.ingredient import PieceUnit

DIGITS = 6
"""Of what was weighed, and so has no spread."""

AmountUnit = Literal[MassUnit, VolumeUnit, PieceUnit]


class ToldAmount(Answer):
    """So much by weight, by volume or in pieces."""

    value: float
    """How much, in the unit beside it."""
    unit: AmountUnit
    """A unit of weight or volume, or what one piece is called."""


class FactorBand(Answer):
    """By how much a recipe may be scaled."""

    low_ratio: float
    """Where the recipe means the heaviest, and what there is weighs the least."""
    typical_ratio: float
    """By typical weights. All three are one where both are measured alike."""
    high_ratio: float
    """The other way round."""


class LeftOver(Answer):
    """What is left, between two sides: one number where recipe and stock are measured alike."""

    low: float
    """The least that is left; 0 where it may not even be enough. Rounded down."""
    typical: float
    """What is left by typical weights; 0 where it governs."""
    high: float
    """The most that is left. Rounded up."""
    unit: AmountUnit
    """The unit that it was stated in."""


class LimitAtHand(Answer):
    """One limit, what it allows, and what is left over of it."""

    kind: Literal["meat", "limiting", "vessel"]
    """As it was stated."""
    what: str
    """What it is on: the meat, the vessel, or the ingredient as the limit calls it."""
    at_hand: ToldAmount
    """What there is of it; of a vessel, the room below the head-space."""
    factor: FactorBand
    """By how much it alone would let the recipe be scaled."""
    governs: bool
    """Whether it is the tightest. Several may be, where they are alike."""
    left_over: LeftOver
    """What is left of it, in its own unit; of a vessel, of the room below the head-space."""


class PercentBand(Answer):
    """A percentage between two sides. low is rounded down, high is rounded up."""

    low_percent: float
    """The least it may be."""
    typical_percent: float
    """What is usual."""
    high_percent: float
    """The most it may be."""


class OpenPercent(Answer):
    """A percentage that may be more than what is known."""

    low_percent: float
    """The least it may be, by what is known."""
    typical_percent: float
    """What the known lines usually come to."""
    high_percent: float | None
    """The most it may be; null where the salt of a line is not known."""


class OpenWeight(Answer):
    """A weight that may be more than what is known."""

    low: float
    """The least it may be, by what is known."""
    typical: float
    """What the known lines usually come to."""
    high: float | None
    """The most it may be; null where the salt of a line is not known."""
    unit: MassUnit
    """g, or oz, or lb from a pound on."""


class NearestMeasure(Answer):
    """A kitchen measure near a scaled line: rough, a courtesy to a kitchen without a scale."""

    value: float
    """How much, level, in the unit beside it."""
    unit: Literal[VolumeUnit, PieceUnit]
    """Its unit."""
    off_percent: float
    """How much more it is than the line, percent; below zero it is less. The spread of a spoon comes on top."""


class ScaledLine(Answer):
    """One line of the recipe, scaled."""

    line: int
    """Its number in the recipe, from 1."""
    ingredient: str
    """What the recipe calls it."""
    id: str | None
    """Its id in GET /v1/ingredients; null for a name of your own."""
    as_written: ToldAmount
    """What the recipe says."""
    weight: WeightBand
    """What to weigh. A weighed line has no spread, and all three sides are one; a spoon keeps its band."""
    to_weigh: Weight | None
    """The typical weight on your scale, to its nearest step; null without a step, or where it shows nothing."""
    percent_of_meat: PercentBand
    """The line by the weight of the meat, as in the recipe."""
    salt: WeightBand | None
    """Salt in it, reckoned from sodium; null where that is not known."""
    nearest_measure: NearestMeasure | None
    """For what was spooned or counted: the kitchen measure near it. Never for salt, nor for what is mostly salt."""


class LineName(Answer):
    """A line of the recipe."""

    line: int
    """Its number, from 1."""
    ingredient: str
    """What the recipe calls it."""


class SaltTold(Answer):
    """All the salt of the scaled recipe: its own, and what stock powders, blends and sauces bring."""

    verdict: Literal["known", "cannot_tell"]
    """cannot_tell where the salt of a line is not known: every figure below is then an at least."""
    not_known: tuple[LineName, ...]
    """Those lines. State a label for each, salt_percent or sodium_mg_per_100g."""
    weight: OpenWeight
    """Salt with the same sodium as everything in the recipe: sodium x 58.44 / 22.99. The meat's own is not counted."""
    percent_of_meat: OpenPercent
    """The same by the weight of the meat."""
    of_salts: WeightBand
    """The part of lines that are salt; a salt counts as all salt."""
    of_others: OpenWeight
    """The part that comes with everything else."""
    sodium: OpenWeight
    """The sodium of all of it."""


class LiquidTold(Answer):
    """Water, beer and vinegar of the scaled recipe, and how strong a brine its salt makes with them."""

    weight: WeightBand
    """What they weigh together."""
    brine_strength: OpenPercent | None
    """Salt by weight of salt and these liquids, as in the recipe, before anything goes into the meat; low is with all
    that may be water. Null where less than a quarter of the meat is poured, or other wet lines may make it weaker."""


NO_WEIGHT: dict[Units, WeightBand] = {
    "metric": WeightBand.of(low=0.0, typical=0.0, high=0.0, unit="g"),
    "us": WeightBand.of(low=0.0, typical=0.0, high=0.0, unit="oz"),
}


def told_band(grams: Grams, by_ratio: float, units: Units) -> WeightBand:
    """A weight with its band, scaled; six digits where it has none."""
    low_g, typical_g, high_g = grams
    if high_g == 0:
        return NO_WEIGHT[units]
    unit, unit_g = unit_of(high_g * by_ratio, units)
    per_ratio = by_ratio / unit_g
    if low_g == high_g:
        low = typical = high = exactly(typical_g * per_ratio)
    else:
        low, typical, high = rounded_sides(low_g * per_ratio, typical=typical_g * per_ratio, high=high_g * per_ratio)
    return made(WeightBand, low=low, typical=typical, high=high, unit=unit)


def told_weight(mass_g: Number, by_ratio: float, units: Units) -> Weight:
    """A weight without a spread, scaled."""
    band = told_band(Grams(mass_g, mass_g, mass_g), by_ratio, units)
    return made(Weight, value=band.high, unit=band.unit)


def told_open(grams: Grams, by_ratio: float, units: Units, *, is_known: bool) -> OpenWeight:
    """A weight whose high side is open where something is not known."""
    band = told_band(grams, by_ratio, units)
    high = band.high if is_known else None
    return made(OpenWeight, low=band.low, typical=band.typical, high=high, unit=band.unit)


def told_percent(low: Number, *, typical: Number, high: Number) -> PercentBand:
    """A percentage with its band."""
    if low == high:
        low = typical = high = exactly(typical)
    else:
        low, typical, high = rounded_sides(low, typical=typical, high=high)
    return made(PercentBand, low_percent=low, typical_percent=typical, high_percent=high)


def opened(percent: PercentBand, *, is_known: bool) -> OpenPercent:
    """The same with its high side open where something is not known."""
    return made(
        OpenPercent,
        low_percent=percent.low_percent,
        typical_percent=percent.typical_percent,
        high_percent=percent.high_percent if is_known else None,
    )


def exactly(value: Number) -> Number:
    """To six digits."""
    return float(f"{value:.{DIGITS}g}")
