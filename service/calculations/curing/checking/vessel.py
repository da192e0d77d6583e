"""What lies in the vessel, and the parts per million that it comes to, at one end of what a recipe can mean."""

from collections.abc import Mapping
from dataclasses import dataclass

from service.calculations.curing.amounts import Amounts
from service.calculations.curing.bases import Bases, bases_of
from service.calculations.curing.checking.contents import NOTHING, Contents, CuringSaltLine, Role, Span
from service.calculations.curing.methods import Bath
from service.calculations.curing.readings import ACCELERATOR_KINDS, InRulesUnit
from service.calculations.curing.salts import NITRATE_EXPRESSIONS, NITRITE_EXPRESSIONS
from service.rules.checker import RuleInForce

OF_THE_MEAT = frozenset({"green_weight", "skin_free_green_weight", "any_reading"})
"""What is reckoned on the green weight alone."""

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
        if one_g_ppm is None or mass_g is None:
            return None
        # A piece takes up no more than there is, whatever share of a small pickle is assumed.
        most_ppm = 1e6 / self.amounts.green_g if basis in OF_THE_MEAT else one_g_ppm
        return mass_g * min(one_g_ppm, most_ppm)

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


def _at_end(line: CuringSaltLine, heavies: frozenset[int]) -> float:
    weight = line.weight or NOTHING
    return weight.high_g if line.place in heavies else weight.low_g


def _from_nothing(span: Span) -> Span:
    return Span(0.0, span.high_g)


def filled(pot: Pot, bath: Bath | None, high: frozenset[Role], heavy: frozenset[int] | None = None) -> Vessel:
    """The vessel with the named parts at their most and everything else at its least.

    heavy: which curing salts are at their most; without it, all or none, as the named parts say.
    """
    contents = pot.contents
    all_salts = frozenset(line.place for line in contents.curing_salts or ())
    heavies = heavy if heavy is not None else all_salts if "curing_salt" in high else frozenset()

    def end_g(role: Role, span: Span) -> float:
        return span.high_g if role in high else span.low_g

    cures = [(one.written.label, _at_end(one, heavies)) for one in contents.curing_salts or ()]
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
