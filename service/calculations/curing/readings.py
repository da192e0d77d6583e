"""The same nitrite on every basis that a rule may ask about."""

from collections.abc import Callable
from functools import cache
from operator import attrgetter
from typing import NamedTuple

from service.calculations.curing.amounts import Amounts, Recipe
from service.calculations.curing.bases import Bases, bases_of, name_of_basis
from service.calculations.curing.salts import (
    NITRATE_EXPRESSIONS,
    NITRITE_EXPRESSIONS,
    Accelerator,
    AcceleratorKind,
    CuringSalt,
    NitrateSalt,
    NitriteSalt,
)
from service.rules.checker import RuleInForce
from service.rules.vocabulary import Measure

InRulesUnit = float | None
"""A figure in the unit of the rule that it is held against; None when nothing stated gives it."""


class Readings(NamedTuple):
    """What the amounts come to: asked rule by rule for the figure on that rule's own basis and expression."""

    recipe: Recipe
    amounts: Amounts
    bases: Bases
    nitrite_g: float
    nitrate_g: float
    accelerator_g: float
    """Accelerator without its water of crystallisation."""

    def nitrite_ppm(self, *, basis: str, expressed_as: str, least: bool = False) -> float | None:
        """Nitrite on a basis, or None where the method or the salt does not have it."""
        one_g_ppm = self.bases.one_gram_ppm(basis, least=least)
        factor = NITRITE_EXPRESSIONS[self.recipe.cure.nitrite.salt].get(expressed_as)
        return None if one_g_ppm is None or factor is None else self.nitrite_g * factor * one_g_ppm

    def nitrate_ppm(self, *, basis: str, expressed_as: str) -> float | None:
        """Nitrate on a basis; 0 where the curing salt has none."""
        nitrate = self.recipe.cure.nitrate
        if nitrate is None:
            return 0.0
        one_g_ppm, factor = self.bases.one_gram_ppm(basis), NITRATE_EXPRESSIONS[nitrate.salt].get(expressed_as)
        return None if one_g_ppm is None or factor is None else self.nitrate_g * factor * one_g_ppm

    def weight_gain_percent(self, limit_percent: float) -> float | None:
        """Weight gained from the pickle. Where some has to be weighed: what is known, if that alone is too much."""
        bath = self.recipe.bath
        if bath is None:
            return None if self.recipe.comminuted else 0.0
        known_percent = 100 * bath.taken_up_g / self.amounts.meat_g
        return None if bath.equilibrium and known_percent <= limit_percent else known_percent


def read(recipe: Recipe, amounts: Amounts) -> Readings:
    """Every reading of these amounts."""
    accelerator, shares, cure_g = recipe.wanted.accelerator, recipe.shares, amounts.curing_salt_g
    return Readings(
        recipe,
        amounts,
        bases_of(amounts, recipe.bath, comminuted=recipe.comminuted),
        nitrite_g=cure_g * shares.nitrite_fraction,
        nitrate_g=cure_g * shares.nitrate_fraction,
        accelerator_g=amounts.accelerator_g / accelerator.weighed_per_anhydrous_ratio if accelerator else 0.0,
    )


class Substances(NamedTuple):
    """What is put in, by the names on the labels."""

    nitrite: NitriteSalt
    nitrate: NitrateSalt | None
    accelerator: AcceleratorKind | None


def substances_of(cure: CuringSalt, accelerator: Accelerator | None) -> Substances:
    """The names on the labels of a curing salt and an accelerator."""
    return Substances(
        cure.nitrite.salt, cure.nitrate.salt if cure.nitrate else None, accelerator.kind if accelerator else None
    )


Reading = Callable[[Readings], InRulesUnit]
"""Reads the figure that is held against one rule."""


Figures = dict[Reading, InRulesUnit]
"""Each figure that a kind of dose is asked for, by the way it is read: many rules share one."""


def _no_reading(_readings: Readings) -> InRulesUnit:
    return None


NO_READING: Reading = _no_reading
"""For a rule whose figure nothing that can be stated gives."""


def _none_of_it(_readings: Readings) -> InRulesUnit:
    return 0.0


def _label_strength(readings: Readings) -> InRulesUnit:
    return readings.recipe.cure.nitrite.percent


SELDOM_NEW: frozenset[Reading] = frozenset({_none_of_it, _label_strength})
"""What is the same in one dose after another."""


def reading_of(rule: RuleInForce, substances: Substances) -> Reading:
    """How to read the figure that is held against a rule when these substances are put in."""
    measure, basis, least, limit = rule.measure, rule.basis, rule.bound == "minimum", rule.limit or 0.0
    if rule.stage == "residual" or basis is None:
        return NO_READING
    if measure == "label_strength":
        return _label_strength
    if measure == "weight_gain":
        return lambda readings: readings.weight_gain_percent(limit)
    if measure == "nitrite":
        return nitrite_on(basis, substances, expressed_as=rule.expressed_as, least=least)
    if measure == "nitrate" and substances.nitrate:
        factor = NITRATE_EXPRESSIONS[substances.nitrate].get(rule.expressed_as)
        return _amount_on("nitrate_g", factor, name_of_basis(basis))
    if measure == "nitrate" or substances.accelerator not in ACCELERATOR_KINDS[measure]:
        return _none_of_it
    return _amount_on("accelerator_g", 1.0, name_of_basis(basis, least=least), least=least)


def nitrite_on(basis: str, substances: Substances, *, expressed_as: str, least: bool = False) -> Reading:
    """How to read the nitrite on a basis, as the substance named."""
    factor = NITRITE_EXPRESSIONS[substances.nitrite].get(expressed_as)
    return _amount_on("nitrite_g", factor, name_of_basis(basis, least=least), least=least)


@cache
def _amount_on(substance: str, factor_ratio: float | None, name: str | None, *, least: bool = False) -> Reading:
    """Reads a substance by a name in Bases; None where the method does not have it, or the label not the substance."""
    if factor_ratio is None or name is None:
        return NO_READING
    mass_of: Callable[[Readings], float] = attrgetter(substance)
    basis_at = Bases._fields.index(name)

    def read_amount(readings: Readings) -> InRulesUnit:
        one_g_ppm = readings.bases[basis_at]
        return None if one_g_ppm is None else mass_of(readings) * factor_ratio * one_g_ppm

    def read_least(readings: Readings) -> InRulesUnit:
        bases = readings.bases
        least_ppm = bases.at_most_system_ppm(bases[basis_at])
        return None if least_ppm is None else mass_of(readings) * factor_ratio * least_ppm

    return read_least if least else read_amount


ACCELERATOR_KINDS: dict[Measure, tuple[str, ...]] = {
    "ascorbate_or_erythorbate": ("sodium_ascorbate", "sodium_erythorbate", "sodium_erythorbate_monohydrate"),
    "ascorbic_acid": ("ascorbic_acid",),
    "erythorbic_acid": ("erythorbic_acid",),
    "sodium_ascorbate": ("sodium_ascorbate",),
    "sodium_erythorbate": ("sodium_erythorbate", "sodium_erythorbate_monohydrate"),
}
"""Which accelerators a rule speaks of, by what it measures."""

ALWAYS_MEASURED: frozenset[Measure] = frozenset(
    {"nitrite", "label_strength", "weight_gain", "ascorbate_or_erythorbate"}
)

EVER_MEASURED: frozenset[Measure] = ALWAYS_MEASURED.union({"nitrate"}, ACCELERATOR_KINDS)
"""What rules may measure in any dose."""


def accelerator_measures(accelerator: str) -> frozenset[Measure]:
    """What rules call this kind of accelerator."""
    return frozenset(measure for measure, kinds in ACCELERATOR_KINDS.items() if accelerator in kinds)


def measured(substances: Substances) -> frozenset[Measure]:
    """What rules may measure in a dose: its nitrite, label and weight gain, and nitrate and accelerator if any."""
    nitrate: frozenset[Measure] = frozenset({"nitrate"}) if substances.nitrate else frozenset()
    accelerator = substances.accelerator
    return ALWAYS_MEASURED | nitrate | (accelerator_measures(accelerator) if accelerator else frozenset())
