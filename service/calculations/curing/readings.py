"""The same nitrite on every basis that a rule may ask about."""

from dataclasses import dataclass
from typing import cast

from service.calculations.curing.amounts import Amounts, Recipe
from service.calculations.curing.methods import Bath
from service.calculations.curing.salts import NITRATE_EXPRESSIONS, NITRITE_EXPRESSIONS, Accelerator, CuringSalt
from service.rules.checker import RuleInForce
from service.rules.vocabulary import Measure

G_PER_LB = 453.59237
"""International avoirdupois pound, exact by definition."""

InRulesUnit = float | None
"""A figure in the unit of the rule that it is held against; None when nothing stated gives it."""


@dataclass(frozen=True, slots=True)
class Bases:
    """Parts per million of one gram of additive, for each basis. None where the method does not have the basis."""

    green_ppm: float
    skin_on_ppm: float
    batch_ppm: float
    system_ppm: float | None
    pickle_ppm: float | None
    least_batch_ppm: float
    """On everything that goes in; batch_ppm does not credit a dry cure with what only lies on the meat."""

    @property
    def highest_ppm(self) -> float:
        """The highest reading of what is in the meat."""
        return max(self.green_ppm, self.system_ppm or 0.0)

    def one_gram_ppm(self, basis: str, *, least: bool = False) -> float | None:
        """Parts per million of one gram on a basis by the name that rules give it; None for an unknown one.

        least: for a floor. A cover counted as a step of its own overstates what the vessel holds, and a pick-up may
        be stated too high, so a piece that lies in its pickle is credited with no more than the whole system has.
        """
        attribute = BASIS_NAMES.get(basis)
        if least and attribute == "batch_ppm":
            attribute = "least_batch_ppm"
        one_g_ppm: float | None = None if attribute is None else getattr(self, attribute)
        if least and one_g_ppm is not None and self.system_ppm is not None:
            return min(one_g_ppm, self.system_ppm)
        return one_g_ppm


BASIS_NAMES = {
    "green_weight": "green_ppm",
    "skin_free_green_weight": "green_ppm",
    "skin_on_green_weight": "skin_on_ppm",
    "whole_batch": "batch_ppm",
    "product_at_addition": "batch_ppm",
    "whole_system": "system_ppm",
    "pickle": "pickle_ppm",
    "any_reading": "highest_ppm",
}


def bases_of(recipe: Recipe, amounts: Amounts) -> Bases:
    """Every denominator at once."""
    if recipe.bath is not None:
        return _in_pickle(recipe.bath, amounts)
    everything_ppm = 1e6 / (amounts.meat_g + amounts.pickle_g)
    return Bases(
        green_ppm=1e6 / amounts.green_g,
        skin_on_ppm=1e6 / amounts.meat_g,
        batch_ppm=everything_ppm if recipe.comminuted else 1e6 / amounts.meat_g,
        system_ppm=None,
        pickle_ppm=None,
        least_batch_ppm=everything_ppm,
    )


def _in_pickle(bath: Bath, amounts: Amounts) -> Bases:
    meat_g, green_g, pickle_g = amounts.meat_g, amounts.green_g, amounts.pickle_g
    green_ppm = 1e6 * bath.uptake_fraction(pickle_g) / pickle_g
    whole_g = meat_g + (bath.taken_up_g or pickle_g)
    entered_ppm = green_ppm * green_g if bath.taken_up_g else 1e6
    return Bases(
        green_ppm=green_ppm,
        skin_on_ppm=entered_ppm / (meat_g if bath.taken_up_g else whole_g),
        batch_ppm=entered_ppm / whole_g,
        system_ppm=1e6 / (green_g + pickle_g) if bath.immersed else None,
        pickle_ppm=1e6 / pickle_g,
        least_batch_ppm=entered_ppm / whole_g,
    )


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

    def piece_weight_lb(self, limit_lb: float) -> float | None:
        """Weight of a piece: the whole lot, if even that is too light; how many pieces it is was not stated."""
        whole_lb = (self.amounts.meat_g + (self.recipe.bath.taken_up_g if self.recipe.bath else 0)) / G_PER_LB
        return whole_lb if whole_lb < limit_lb else None

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
        if measure == "piece_weight":
            return self.piece_weight_lb(rule.limit or 0.0)
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
    {"nitrite", "label_strength", "weight_gain", "piece_weight", "ascorbate_or_erythorbate"}
)


def accelerator_measures(accelerator: Accelerator) -> frozenset[Measure]:
    """What rules call this accelerator."""
    return frozenset(
        cast(Measure, measure) for measure, kinds in ACCELERATOR_KINDS.items() if accelerator.kind in kinds
    )


def measures_of(cure: CuringSalt, accelerator: Accelerator | None) -> frozenset[Measure]:
    """What rules may measure in a dose: its nitrite, label and weights, and nitrate and accelerator if any."""
    nitrate: frozenset[Measure] = frozenset({"nitrate"}) if cure.nitrate else frozenset()
    return ALWAYS_MEASURED | nitrate | (accelerator_measures(accelerator) if accelerator else frozenset())
