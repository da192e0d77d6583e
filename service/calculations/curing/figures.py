"""What a dose comes to, on every lawful basis."""

from collections.abc import Callable
from typing import Literal

from service.calculations.curing.amounts import Amounts, Recipe, Steps
from service.calculations.curing.ingoing import salometer_deg
from service.calculations.curing.readings import Readings
from service.calculations.curing.salts import AcceleratorKind
from service.quantities.models import Answer
from service.quantities.quantity import Mass, Units, Water, Weight, present_weight
from service.quantities.scale import Scale
from service.rules.vocabulary import Basis, Expression

What = Literal[
    "meat", "water", "curing_salt", "salt", "sugar", "stock_powder", "other_ingredients",
    AcceleratorKind,
]  # fmt: skip


class WeighedItem(Answer):
    """One thing to put on the scale."""

    what: What
    """Stable code of the ingredient."""
    amount: Weight
    """What the scale must show, in the unit of its step; meat, water and what you stated as you stated them."""
    rounded: str
    """How it was rounded: down to the step (what has a legal ceiling), to the nearest step, or as stated."""
    exact_g: float
    """The same in grams before rounding."""


class Figure(Answer):
    """An amount per million parts of a named weight, as a named substance."""

    value: float
    """The amount, to four decimals."""
    unit: Literal["ppm"]
    """Parts per million by weight (mg/kg)."""
    basis: Basis
    """The weight it is divided by."""
    expressed_as: Expression
    """The substance it is written as."""


class PickleFigures(Answer):
    """The pickle as weighed."""

    weight: Weight
    """All of it, everything counted."""
    nitrite_ppm: float
    """Nitrite salt in the pickle, parts per million: not the figure in the meat."""
    salt_percent: float
    """Salt by weight of the whole pickle."""
    salometer_deg: float
    """Strength of its salt and water in degrees salometer at 60 degF; a hydrometer also feels sugar."""
    left_over: Weight
    """What is not pumped into the meat and, unless it covers the meat, is thrown away."""


class DoseFigures(Answer):
    """Ingoing amounts and salt, from the weights after rounding."""

    ingoing_nitrite: Figure
    """The reading that the target speaks of, as the nitrite salt on the label."""
    nitrite_on_every_basis: tuple[Figure, ...]
    """The same nitrite on each basis and in each expression that some rule uses; empty in brief."""
    nitrate_on_every_basis: tuple[Figure, ...]
    """Likewise for nitrate; empty in brief, and when the curing salt has none."""
    salt_in_piece_percent: float
    """Salt in the cured piece before it loses water in drying or cooking."""
    sugar_in_piece_percent: float
    """Sugar, likewise."""
    pickle: PickleFigures | None
    """The pickle; null for a dry or comminuted cure."""


NITRITE_BASES: tuple[tuple[Basis, Expression], ...] = (
    ("green_weight", "sodium_nitrite"),
    ("green_weight", "potassium_nitrite"),
    ("green_weight", "nitrite_ion"),
    ("skin_on_green_weight", "nitrite_salt_by_weight"),
    ("whole_batch", "sodium_nitrite"),
    ("product_at_addition", "nitrite_ion"),
    ("whole_system", "nitrite_salt_by_weight"),
    ("pickle", "nitrite_salt_by_weight"),
)
NITRATE_BASES: tuple[tuple[Basis, Expression], ...] = (
    ("green_weight", "sodium_nitrate"),
    ("whole_batch", "nitrate_salt_by_weight"),
    ("product_at_addition", "nitrate_ion"),
    ("whole_system", "nitrate_salt_by_weight"),
)


def figures_of(readings: Readings, units: Units, *, every_basis: bool) -> DoseFigures:
    """Every figure of a dose as weighed."""
    recipe, amounts = readings.recipe, readings.amounts
    basis: Basis = "whole_system" if recipe.bath and recipe.bath.only_equilibrium else "green_weight"
    decisive = readings.nitrite_g * readings.bases.green_ppm
    cure = recipe.cure
    return DoseFigures.of(
        ingoing_nitrite=_figure(decisive, basis, recipe.cure.nitrite.salt),
        nitrite_on_every_basis=_on_every(NITRITE_BASES, readings.nitrite_ppm) if every_basis else (),
        nitrate_on_every_basis=_on_every(NITRATE_BASES, readings.nitrate_ppm) if cure.nitrate and every_basis else (),
        salt_in_piece_percent=_in_piece_percent(readings, _all_salt_g(recipe, amounts)),
        sugar_in_piece_percent=_in_piece_percent(
            readings, amounts.sugar_g + amounts.curing_salt_g * cure.sugar_fraction
        ),
        pickle=_pickle(readings, units) if recipe.bath else None,
    )


def _on_every(bases: tuple[tuple[Basis, Expression], ...], reading: Callable[..., float | None]) -> tuple[Figure, ...]:
    values = [(reading(basis=basis, expressed_as=expression), basis, expression) for basis, expression in bases]
    return tuple(_figure(value, basis, expression) for value, basis, expression in values if value is not None)


def _figure(value_ppm: float, basis: Basis, expression: Expression) -> Figure:
    return Figure.of(value=round(value_ppm, 4), unit="ppm", basis=basis, expressed_as=expression)


def _all_salt_g(recipe: Recipe, amounts: Amounts) -> float:
    return amounts.salt_g + amounts.curing_salt_g * recipe.cure.salt_fraction + recipe.stock_salt_g


def _in_piece_percent(readings: Readings, solute_g: float) -> float:
    """Of the piece after it took everything up; the whole batch is that piece for a dry or comminuted cure."""
    return round(solute_g * readings.bases.batch_ppm / 1e4, 3)


def _pickle(readings: Readings, units: Units) -> PickleFigures:
    recipe, amounts = readings.recipe, readings.amounts
    salt_g, pickle_g = _all_salt_g(recipe, amounts), amounts.pickle_g
    injected_g = recipe.bath.injected_g if recipe.bath else 0.0
    return PickleFigures.of(
        weight=present_weight(pickle_g, units),
        nitrite_ppm=round(readings.nitrite_g * 1e6 / pickle_g, 4),
        salt_percent=round(100 * salt_g / pickle_g, 3),
        salometer_deg=round(salometer_deg(salt_g=salt_g, water_g=amounts.water_g), 1),
        left_over=present_weight(max(pickle_g - injected_g, 0.0), units),
    )


def scaled_items(recipe: Recipe, exact: Amounts, steps: Steps, scale: Scale) -> tuple[WeighedItem, ...]:
    """What is rounded to the scale: what has a ceiling down, salt and sugar to the nearest step."""
    down, nearest = f"down to {scale.name}", f"to the nearest {scale.name}"
    accelerator = recipe.wanted.accelerator
    rows: list[tuple[What, int, str, float]] = [
        ("curing_salt", steps.curing_salt, down, exact.curing_salt_g),
        ("salt", steps.salt, nearest, exact.salt_g),
        ("sugar", steps.sugar, nearest, exact.sugar_g),
    ]
    if accelerator:
        rows.append((accelerator.kind, steps.accelerator, down, exact.accelerator_g))
    return tuple(
        WeighedItem.of(what=what, amount=scale.shown(count), rounded=rounded, exact_g=exact_g)
        for what, count, rounded, exact_g in rows
        if exact_g > 0
    )


def stated_item(what: What, stated: Mass | Water) -> WeighedItem:
    """What the caller stated, as it was stated."""
    amount = Weight.of(value=stated.value, unit=stated.unit)
    return WeighedItem.of(what=what, amount=amount, rounded="as stated", exact_g=stated.g)
