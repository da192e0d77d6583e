"""What a dose comes to, on every lawful basis."""

from collections.abc import Callable, Sequence
from typing import Literal

from service.calculations.curing.bases import Bases
from service.calculations.curing.brining.scales import salometer_deg
from service.calculations.curing.methods import Bath
from service.calculations.curing.readings import Readings
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight, present_weight
from service.rules.vocabulary import Basis, Expression


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
    to_pump: Weight | None
    """What has to end in the meat by pumping; null without a pump."""
    weight_after_pump: Weight | None
    """What the piece must weigh then."""
    left_over: Weight | None
    """What is not pumped: thrown away, or the cover; null without a pump."""


class DoseFigures(Answer):
    """Ingoing amounts and salt, from the weights after rounding."""

    ingoing_nitrite: Figure
    """The reading that the target speaks of, as the nitrite salt on the label."""
    short_of_asked_percent: float
    """How far rounding to the scale left that reading under what was asked."""
    nitrite_on_every_basis: tuple[Figure, ...]
    """The same nitrite on each basis and in each expression that some rule uses; empty in brief."""
    nitrate_on_every_basis: tuple[Figure, ...]
    """Likewise for nitrate; empty in brief, and when the curing salt has none."""
    salt_in_piece_percent: float
    """Salt in the cured piece before it loses water in drying or cooking; the lesser, where two readings differ."""
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
    ("whole_system", "nitrite_ion"),
    ("whole_system_after_stay", "nitrite_salt_by_weight"),
    ("pickle", "nitrite_salt_by_weight"),
)
NITRATE_BASES: tuple[tuple[Basis, Expression], ...] = (
    ("green_weight", "nitrate_salt_by_weight"),
    ("green_weight", "sodium_nitrate"),
    ("whole_batch", "nitrate_salt_by_weight"),
    ("product_at_addition", "nitrate_ion"),
    ("whole_system", "nitrate_salt_by_weight"),
)


def figures_of(asked: Readings, readings: Readings, units: Units, *, every_basis: bool) -> DoseFigures:
    """Every figure of a dose as weighed, and how far it is from what was asked."""
    recipe, amounts, bath = readings.recipe, readings.amounts, readings.recipe.bath
    basis: Basis = "whole_system" if bath and bath.only_equilibrium else "green_weight"
    decisive_ppm = readings.nitrite_g * readings.bases.green_ppm
    asked_ppm = asked.nitrite_g * asked.bases.green_ppm
    cure_g, share_ppm = amounts.curing_salt_g, _in_piece_ppm(readings.bases)
    salt_g, sugar_g = amounts.salt_g + recipe.salt_inside_g(cure_g), amounts.sugar_g + recipe.sugar_inside_g(cure_g)
    return made(
        DoseFigures,
        ingoing_nitrite=_figure(decisive_ppm, basis, recipe.cure.nitrite.salt),
        short_of_asked_percent=round(max(100 * (1 - decisive_ppm / asked_ppm), 0.0), 2),
        nitrite_on_every_basis=_nitrite_figures(readings) if every_basis else (),
        nitrate_on_every_basis=_nitrate_figures(readings) if recipe.cure.nitrate and every_basis else (),
        salt_in_piece_percent=round(salt_g * share_ppm / 1e4, 3),
        sugar_in_piece_percent=round(sugar_g * share_ppm / 1e4, 3),
        pickle=_pickle(readings, bath, units, salt_g=salt_g) if bath else None,
    )


def _nitrite_figures(readings: Readings) -> tuple[Figure, ...]:
    bath, recipe = readings.recipe.bath, readings.recipe
    left_out = {"green_weight"} if bath and bath.only_equilibrium else set()
    left_out |= {"skin_on_green_weight"} if recipe.green_g == recipe.meat_g else set()
    return _on_every([row for row in NITRITE_BASES if row[0] not in left_out], readings.nitrite_ppm)


def _nitrate_figures(readings: Readings) -> tuple[Figure, ...]:
    bath = readings.recipe.bath
    left_out = "green_weight" if bath and bath.only_equilibrium else ""
    return _on_every([row for row in NITRATE_BASES if row[0] != left_out], readings.nitrate_ppm)


def _on_every(bases: Sequence[tuple[Basis, Expression]], reading: Callable[..., float | None]) -> tuple[Figure, ...]:
    values = [(reading(basis=basis, expressed_as=expression), basis, expression) for basis, expression in bases]
    return tuple(_figure(value, basis, expression) for value, basis, expression in values if value is not None)


def _figure(value_ppm: float, basis: Basis, expression: Expression) -> Figure:
    return made(Figure, value=round(value_ppm, 4), unit="ppm", basis=basis, expressed_as=expression)


def _in_piece_ppm(bases: Bases) -> float:
    """Of the piece after it took everything up; the whole batch is that piece for a dry or comminuted cure."""
    batch_ppm, system_ppm = bases.least_batch_ppm, bases.system_ppm
    return min(batch_ppm, system_ppm) if system_ppm else batch_ppm


def _pickle(readings: Readings, bath: Bath, units: Units, *, salt_g: float) -> PickleFigures:
    amounts, pickle_g, pumped_g = readings.amounts, readings.bases.pickle_g, bath.injected_g
    return made(
        PickleFigures,
        weight=present_weight(pickle_g, units),
        nitrite_ppm=round(readings.nitrite_g * 1e6 / pickle_g, 4),
        salt_percent=round(100 * salt_g / pickle_g, 3),
        salometer_deg=round(salometer_deg(salt_g / (salt_g + amounts.water_g)), 1),
        to_pump=present_weight(pumped_g, units) if pumped_g else None,
        weight_after_pump=present_weight(amounts.meat_g + pumped_g, units) if pumped_g else None,
        left_over=present_weight(max(pickle_g - pumped_g, 0.0), units) if pumped_g else None,
    )
