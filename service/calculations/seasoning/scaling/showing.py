"""A reckoned recipe as its answer tells it."""

from service.calculations.measures.spoons import Grams
from service.calculations.seasoning.scaling.limiting import Held
from service.calculations.seasoning.scaling.lines import Line
from service.calculations.seasoning.scaling.measuring import nearest_measure
from service.calculations.seasoning.scaling.recipe import Pieces
from service.calculations.seasoning.scaling.reckoning import Recipe
from service.calculations.seasoning.scaling.salting import brine_strength_percent, sodium_of
from service.calculations.seasoning.scaling.telling import (
    FactorBand,
    LimitTold,
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
from service.quantities.models import made
from service.quantities.quantity import Units
from service.quantities.units import factor


def limits_told(recipe: Recipe, units: Units) -> tuple[LimitTold, ...]:
    """Every limit, in the order stated."""
    return tuple(_limit(held, recipe, units) for held in recipe.held)


def _limit(held: Held, recipe: Recipe, units: Units) -> LimitTold:
    governs, band = held.governs(recipe.by_ratio), held.factor
    at_hand, unit = held.at_hand, held.unit
    if held.asked.kind == "vessel" and units == "us":
        at_hand, unit = 1000 * at_hand / factor("gal"), "gal"
    left = 0.0 if governs else at_hand * (1 - recipe.by_ratio / band.typical_ratio)
    return made(
        LimitTold,
        kind=held.asked.kind,
        what=held.what,
        at_hand=made(ToldAmount, value=exactly(at_hand), unit=unit),
        factor=made(FactorBand, low_ratio=band.low_ratio, typical_ratio=band.typical_ratio, high_ratio=band.high_ratio),
        governs=governs,
        left_over=made(ToldAmount, value=exactly(left), unit=unit),
    )


def lines_told(recipe: Recipe, units: Units) -> tuple[ScaledLine, ...]:
    """Every line, in the order of the recipe."""
    return tuple(_line(line, recipe, units) for line in recipe.lines)


def _line(line: Line, recipe: Recipe, units: Units) -> ScaledLine:
    salt = line.salt
    return made(
        ScaledLine,
        line=line.place,
        ingredient=line.written.ingredient,
        id=None if line.ingredient is None else line.ingredient.id,
        as_written=_written(line),
        weight=told_band(recipe.scaled(line.grams), units),
        to_weigh=recipe.shown(line),
        percent_of_meat=_percent(line.grams, recipe),
        salt=None if salt is None else told_band(recipe.scaled(salt), units),
        nearest_measure=_near(line, recipe),
    )


def _written(line: Line) -> ToldAmount:
    amount, listed = line.written.amount, line.ingredient
    if not isinstance(amount, Pieces):
        return made(ToldAmount, value=amount.value, unit=amount.unit)
    return made(ToldAmount, value=amount.count, unit=listed.piece.unit if listed and listed.piece else "piece")


def _percent(grams: Grams, recipe: Recipe) -> PercentBand:
    meat_g = recipe.meat_g
    return told_percent(100 * grams.low_g / meat_g, 100 * grams.typical_g / meat_g, 100 * grams.high_g / meat_g)


def _near(line: Line, recipe: Recipe) -> NearestMeasure | None:
    near = nearest_measure(line, recipe.by_ratio)
    if near is None:
        return None
    off_percent = round(100 * (near.value / near.exact - 1), 1)
    return made(NearestMeasure, value=near.value, unit=near.unit, off_percent=off_percent)


def salt_told(recipe: Recipe, units: Units) -> SaltTold:
    """All salt and sodium, and the lines of which nobody knows it."""
    salting, is_known = recipe.salting, recipe.salting.is_known
    every = recipe.scaled(salting.every)
    percent = _percent(salting.every, recipe)
    return made(
        SaltTold,
        verdict="known" if is_known else "cannot_tell",
        not_known=tuple(
            made(LineName, line=line.place, ingredient=line.written.ingredient) for line in salting.unknown
        ),
        weight=told_open(every, units, is_known=is_known),
        percent_of_meat=opened(percent, is_known=is_known),
        of_salts=told_band(recipe.scaled(salting.own), units),
        of_others=told_open(recipe.scaled(salting.brought), units, is_known=is_known),
        sodium=told_open(sodium_of(every), units, is_known=is_known),
    )


def liquid_told(recipe: Recipe, units: Units) -> LiquidTold | None:
    """The liquids that salt dissolves in; None where there are none."""
    water, salt = recipe.salting.water, recipe.salting.every
    if water is None:
        return None
    strength = told_percent(
        brine_strength_percent(salt.low_g, water_g=water.high_g),
        brine_strength_percent(salt.typical_g, water_g=water.typical_g),
        brine_strength_percent(salt.high_g, water_g=water.low_g),
    )
    return made(
        LiquidTold,
        weight=told_band(recipe.scaled(water), units),
        brine_strength=opened(strength, is_known=recipe.salting.is_known),
    )
