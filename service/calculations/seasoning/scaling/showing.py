"""A reckoned recipe as its answer tells it."""

from service.calculations.measures.spoons import Grams, Number
from service.calculations.seasoning.scaling.limiting import Factor, Held
from service.calculations.seasoning.scaling.lines import Line
from service.calculations.seasoning.scaling.measuring import nearest_measure
from service.calculations.seasoning.scaling.recipe import Counted
from service.calculations.seasoning.scaling.reckoning import Recipe
from service.calculations.seasoning.scaling.salting import SODIUM_OF_SALT
from service.calculations.seasoning.scaling.telling import (
    NO_WEIGHT,
    FactorBand,
    LeftOver,
    LimitAtHand,
    LineName,
    LiquidTold,
    NearestMeasure,
    PercentBand,
    SaltTold,
    ScaledLine,
    ToldAmount,
    exactly,
    opened,
    told_band,
    told_open,
    told_percent,
)
from service.quantities.bands import WeightBand, rounded_sides
from service.quantities.models import holding, made
from service.quantities.quantity import Units
from service.quantities.units import factor


def limits_told(recipe: Recipe, units: Units) -> tuple[LimitAtHand, ...]:
    """Every limit, in the order stated."""
    return tuple(_limit(held, recipe, units) for held in recipe.held)


def _limit(held: Held, recipe: Recipe, units: Units) -> LimitAtHand:
    governs, band = held.governs(recipe.by_ratio), held.factor
    at_hand, unit = held.at_hand, held.unit
    if held.asked.kind == "vessel" and units == "us":
        at_hand, unit = 1000 * at_hand / factor("gal"), "gal"
    return made(
        LimitAtHand,
        kind=held.asked.kind,
        what=held.what,
        at_hand=made(ToldAmount, value=exactly(at_hand), unit=unit),
        factor=made(FactorBand, low_ratio=band.low_ratio, typical_ratio=band.typical_ratio, high_ratio=band.high_ratio),
        governs=governs,
        left_over=_left(at_hand, unit, held.factor, recipe.by_ratio),
    )


def _left(at_hand: Number, unit: str, band: Factor, by_ratio: float) -> LeftOver:
    """Nothing on a side on which it may not be enough."""
    low, typical, high = (max(0.0, at_hand * (1 - by_ratio / ratio)) for ratio in band)
    if band.is_one:
        low = typical = high = exactly(typical)
    else:
        low, typical, high = rounded_sides(low, typical=typical, high=high)
    return made(LeftOver, low=low, typical=typical, high=high, unit=unit)


def lines_told(recipe: Recipe, units: Units) -> tuple[ScaledLine, ...]:
    """Every line, in the order of the recipe."""
    return tuple(_line(line, recipe, units) for line in recipe.lines)


def _line(line: Line, recipe: Recipe, units: Units) -> ScaledLine:
    weight, listed = told_band(line.grams, recipe.by_ratio, units), line.ingredient
    fields = {
        "line": line.place,
        "ingredient": line.written.ingredient,
        "id": None if listed is None else listed.id,
        "as_written": _written(line),
        "weight": weight,
        "to_weigh": recipe.to_weigh(line),
        "percent_of_meat": _percent(line.grams, recipe),
        "salt": _salt(line, weight, recipe, units),
        "nearest_measure": _near(line, recipe),
    }
    return holding(ScaledLine, fields)


def _salt(line: Line, weight: WeightBand, recipe: Recipe, units: Units) -> WeightBand | None:
    share = line.salt_fraction
    if share is None or share == 1:
        return None if share is None else weight
    return told_band(line.grams, recipe.by_ratio * share, units) if share else NO_WEIGHT[units]


def _written(line: Line) -> ToldAmount:
    amount, listed = line.written.amount, line.ingredient
    if not isinstance(amount, Counted):
        return made(ToldAmount, value=amount.value, unit=amount.unit)
    return made(ToldAmount, value=amount.count, unit=listed.piece.unit if listed and listed.piece else "piece")


def _percent(grams: Grams, recipe: Recipe) -> PercentBand:
    per_g = 100 / recipe.meat_g
    return told_percent(grams.low_g * per_g, typical=grams.typical_g * per_g, high=grams.high_g * per_g)


def _near(line: Line, recipe: Recipe) -> NearestMeasure | None:
    near = nearest_measure(line, recipe.by_ratio)
    if near is None:
        return None
    value, unit, off_ratio = near
    return made(NearestMeasure, value=round(value, 9), unit=unit, off_percent=round(100 * off_ratio, 1) + 0.0)


def salt_told(recipe: Recipe, units: Units) -> SaltTold:
    """All salt and sodium, and the lines of which nobody knows it."""
    salting, is_known, by_ratio = recipe.salting, recipe.salting.is_known, recipe.by_ratio
    return made(
        SaltTold,
        verdict="known" if is_known else "cannot_tell",
        not_known=tuple(
            made(LineName, line=line.place, ingredient=line.written.ingredient) for line in salting.unknown
        ),
        weight=told_open(salting.every, by_ratio, units, is_known=is_known),
        percent_of_meat=opened(_percent(salting.every, recipe), is_known=is_known),
        of_salts=told_band(salting.own, by_ratio, units),
        of_others=told_open(salting.brought, by_ratio, units, is_known=is_known),
        sodium=told_open(salting.every, by_ratio * SODIUM_OF_SALT, units, is_known=is_known),
    )


def liquid_told(recipe: Recipe, units: Units) -> LiquidTold | None:
    """The liquids that salt dissolves in; None where there are none."""
    salting = recipe.salting
    if salting.water is None:
        return None
    strength = recipe.strength
    return made(
        LiquidTold,
        weight=told_band(salting.water, recipe.by_ratio, units),
        brine_strength=opened(_told(strength), is_known=salting.is_known) if strength else None,
    )


def _told(percent: Grams) -> PercentBand:
    low_percent, typical_percent, high_percent = percent
    return told_percent(low_percent, typical=typical_percent, high=high_percent)
