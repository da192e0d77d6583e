"""The same nitrite on every basis that a rule may ask about."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import cast

from service.calculations.curing.amounts import Amounts, Recipe
from service.calculations.curing.bases import Bases, bases_of
from service.calculations.curing.salts import NITRATE_EXPRESSIONS, NITRITE_EXPRESSIONS, Accelerator, CuringSalt
from service.rules.checker import RuleInForce
from service.rules.vocabulary import Measure

InRulesUnit = float | None
"""A figure in the unit of the rule that it is held against; None when nothing stated gives it."""


@dataclass(frozen=True, slots=True)
class Readings:
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

    def accelerator_ppm(self, *, basis: str, kinds: tuple[str, ...], least: bool) -> float | None:
        """Accelerator on a basis, where it is one of the kinds a rule names; otherwise none of it is there."""
        accelerator, one_g_ppm = self.recipe.wanted.accelerator, self.bases.one_gram_ppm(basis, least=least)
        if accelerator is None or accelerator.kind not in kinds:
            return 0.0
        return None if one_g_ppm is None else self.accelerator_g * one_g_ppm

    def weight_gain_percent(self, limit_percent: float) -> float | None:
        """Weight gained from the pickle. Where some has to be weighed: what is known, if that alone is too much."""
        bath = self.recipe.bath
        if bath is None:
            return None if self.recipe.comminuted else 0.0
        known_percent = 100 * bath.taken_up_g / self.amounts.meat_g
        return None if bath.equilibrium and known_percent <= limit_percent else known_percent

    def figure(self, rule: RuleInForce) -> InRulesUnit:
        """The figure to hold against a rule, or None when nothing stated gives it."""
        measure, basis, least = rule.measure, rule.basis, rule.bound == "minimum"
        if rule.stage == "residual" or basis is None:
            return None
        if measure == "nitrite":
            return self.nitrite_ppm(basis=basis, expressed_as=rule.expressed_as, least=least)
        if measure == "nitrate":
            return self.nitrate_ppm(basis=basis, expressed_as=rule.expressed_as)
        if measure == "weight_gain":
            return self.weight_gain_percent(rule.limit or 0.0)
        if measure == "label_strength":
            return self.recipe.cure.nitrite.percent
        return self.accelerator_ppm(basis=basis, kinds=ACCELERATOR_KINDS[measure], least=least)


def read(recipe: Recipe, amounts: Amounts) -> Readings:
    """Every reading of these amounts."""
    accelerator = recipe.wanted.accelerator
    return Readings(
        recipe,
        amounts,
        bases_of(recipe, amounts),
        nitrite_g=amounts.curing_salt_g * recipe.cure.nitrite_fraction,
        nitrate_g=amounts.curing_salt_g * recipe.cure.nitrate_fraction,
        accelerator_g=amounts.accelerator_g / accelerator.weighed_per_anhydrous_ratio if accelerator else 0.0,
    )


ACCELERATOR_KINDS: dict[str, tuple[str, ...]] = {
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

EVER_MEASURED: frozenset[Measure] = ALWAYS_MEASURED.union(["nitrate"], cast(Iterable[Measure], ACCELERATOR_KINDS))
"""What rules may measure in any dose."""


def accelerator_measures(accelerator: Accelerator) -> frozenset[Measure]:
    """What rules call this accelerator."""
    return frozenset(
        cast(Measure, measure) for measure, kinds in ACCELERATOR_KINDS.items() if accelerator.kind in kinds
    )


def measures_of(cure: CuringSalt, accelerator: Accelerator | None) -> frozenset[Measure]:
    """What rules may measure in a dose: its nitrite, label and weight gain, and nitrate and accelerator if any."""
    nitrate: frozenset[Measure] = frozenset({"nitrate"}) if cure.nitrate else frozenset()
    return ALWAYS_MEASURED | nitrate | (accelerator_measures(accelerator) if accelerator else frozenset())
