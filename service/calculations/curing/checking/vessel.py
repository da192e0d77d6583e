"""What lies in the vessel, and the parts per million that it comes to, at one end of what a recipe can mean."""

from collections.abc import Mapping
from dataclasses import dataclass

from service.calculations.curing.amounts import Amounts
from service.calculations.curing.bases import Bases, bases_of
from service.calculations.curing.checking.contents import NOTHING, Contents, Role, Span
from service.calculations.curing.methods import Bath
from service.calculations.curing.readings import ACCELERATOR_KINDS, InRulesUnit
from service.calculations.curing.salts import NITRATE_EXPRESSIONS, NITRITE_EXPRESSIONS
from service.rules.checker import RuleInForce

Grams = tuple[tuple[str, float], ...]
"""Weights in grams, each with the name of the substance."""


@dataclass(frozen=True, slots=True)
class Vessel:
    """One way in which the recipe may have been made."""

    amounts: Amounts
    bases: Bases
    nitrite: Grams
    nitrate: Grams
    accelerators: Grams
    """Accelerators without water of crystallisation."""
    salt_g: float
    """All salt, that in curing salts and seasonings included."""

    def ppm(self, substance: str, *, basis: str, expressed_as: str, least: bool = False) -> float | None:
        """Nitrite or nitrate on a basis, or None where the method does not have it."""
        one_g_ppm, mass_g = self.bases.one_gram_ppm(basis, least=least), self.substance_g(substance, expressed_as)
        return None if one_g_ppm is None or mass_g is None else mass_g * one_g_ppm

    def substance_g(self, substance: str, expressed_as: str) -> float | None:
        """All the nitrite or nitrate, as one substance; None where a salt of the recipe is never written so."""
        if substance == "nitrite":
            return _as(self.nitrite, NITRITE_EXPRESSIONS, expressed_as)
        return _as(self.nitrate, NITRATE_EXPRESSIONS, expressed_as)

    def figure(self, rule: RuleInForce) -> InRulesUnit:
        """The figure of nitrite, nitrate or accelerator to hold against a rule."""
        least = rule.bound == "minimum"
        if rule.stage == "residual" or rule.basis is None:
            return None
        if rule.measure in ("nitrite", "nitrate"):
            return self.ppm(rule.measure, basis=rule.basis, expressed_as=rule.expressed_as, least=least)
        one_g_ppm = self.bases.one_gram_ppm(rule.basis, least=least)
        kinds = ACCELERATOR_KINDS.get(rule.measure)
        if kinds is None or one_g_ppm is None:
            return None
        return sum(mass_g for kind, mass_g in self.accelerators if kind in kinds) * one_g_ppm


def _as(grams: Grams, expressions: Mapping[str, Mapping[str, float]], expressed_as: str) -> float | None:
    """Weights of salts together, as one substance; None where one of them is never written so."""
    factors = [(mass_g, expressions[salt].get(expressed_as)) for salt, mass_g in grams]
    if any(factor is None for _, factor in factors):
        return None
    return sum(mass_g * (factor or 0.0) for mass_g, factor in factors)


MOST_NITRITE: frozenset[Role] = frozenset({"curing_salt"})
LEAST_NITRITE: frozenset[Role] = frozenset({"salt", "sugar", "seasoning", "dissolved", "solid", "either"})
MOST_SALT: frozenset[Role] = frozenset({"curing_salt", "salt", "seasoning"})
LEAST_SALT: frozenset[Role] = frozenset({"sugar", "dissolved", "solid", "either"})
LIGHTEST: frozenset[Role] = frozenset()
HEAVIEST: frozenset[Role] = MOST_NITRITE | LEAST_NITRITE
"""Which parts are at their most at each end; everything else is then at its least."""


@dataclass(frozen=True, slots=True)
class Pot:
    """What the recipe fixes, however it is read."""

    meat_g: float
    green_g: float
    water_g: float
    comminuted: bool
    contents: Contents
    accelerator: Span
    """Accelerators as weighed; up to a twentieth of the water where the recipe does not say."""
    accelerators: Grams
    """The same without water of crystallisation."""

    @property
    def perhaps_dissolved(self) -> Span:
        """What may dissolve or not; all of it counts in a batch that is mixed."""
        either = self.contents.of("either")
        known = either if self.comminuted and self.contents.lines is not None else _from_nothing(either)
        return known + self.contents.unknown_cure


def _from_nothing(span: Span) -> Span:
    return Span(0.0, span.high_g)


def filled(pot: Pot, bath: Bath | None, high: frozenset[Role]) -> Vessel:
    """The vessel with the named parts at their most and everything else at its least."""
    contents = pot.contents

    def end_g(role: Role, span: Span) -> float:
        return span.high_g if role in high else span.low_g

    cures = [(one.written.label, end_g("curing_salt", one.weight or NOTHING)) for one in contents.curing_salts or ()]
    parts_g = {role: end_g(role, contents.of(role)) for role in sorted(HEAVIEST - {"either"})}
    amounts = Amounts(
        meat_g=pot.meat_g,
        green_g=pot.green_g,
        water_g=pot.water_g,
        stock_powder_g=parts_g["seasoning"],
        dissolved_g=parts_g["dissolved"] + end_g("either", pot.perhaps_dissolved),
        other_g=parts_g["solid"],
        curing_salt_g=sum(cure_g for _, cure_g in cures),
        salt_g=parts_g["salt"],
        sugar_g=parts_g["sugar"],
        accelerator_g=end_g("either", pot.accelerator),
    )
    return Vessel(
        amounts=amounts,
        bases=bases_of(amounts, bath, comminuted=pot.comminuted),
        nitrite=tuple((one.nitrite.salt, g * one.nitrite_fraction) for one, g in cures if one and one.nitrite),
        nitrate=tuple((one.nitrate.salt, g * one.nitrate_fraction) for one, g in cures if one and one.nitrate),
        accelerators=pot.accelerators,
        salt_g=end_g("salt", contents.salt) + sum(g * one.salt_fraction for one, g in cures if one),
    )
