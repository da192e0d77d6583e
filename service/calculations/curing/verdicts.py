"""Holding a dose against the rules that bind it: refused before it is weighed, checked again after."""

from dataclasses import replace

from service.calculations.curing.advice import advice_on
from service.calculations.curing.amounts import Recipe
from service.calculations.curing.readings import InRulesUnit, Readings, accelerator_measures
from service.calculations.refusals import Impossible, LimitExceeded
from service.quantities.scale import Scale
from service.rules.book import Binding
from service.rules.checker import RuleInForce, breaks
from service.rules.finding import Finding, judge
from service.rules.vocabulary import Measure


def require_rules(binding: Binding, recipe: Recipe, finish: str | None) -> None:
    """No rule is not a pass: what has no ceiling there, read or reported, is not dosed. Raises Impossible."""
    _require_ceiling(binding, frozenset({"nitrite"}), "nitrite", _why_no_nitrite(binding, finish))
    if recipe.cure.nitrate:
        _require_ceiling(binding, frozenset({"nitrate"}), "nitrate", "Take a curing salt without nitrate.")
    accelerator = recipe.wanted.accelerator
    if accelerator:
        salts = binding.permits(frozenset({"ascorbate_or_erythorbate"}))
        instead = "Take sodium_erythorbate or sodium_ascorbate." if salts else "Leave the accelerator out."
        _require_ceiling(binding, accelerator_measures(accelerator), accelerator.kind.replace("_", " "), instead)


def _require_ceiling(binding: Binding, measures: frozenset[Measure], substance: str, nearest: str) -> None:
    if binding.permits(measures):
        return
    known = [rule for rule in binding.rules if rule.measure in measures and rule.jurisdiction == binding.jurisdiction]
    recalled = any(not rule.witnessed and rule.limit is not None for rule in known)
    held = "is known from memory only" if recalled else "is not held here"
    raise Impossible(
        code="no_rule_in_force",
        reason=f"What {binding.jurisdiction} allows of {substance} in this product, by this method and on this day, "
        f"{held}. The absence of a rule is not permission.",
        nearest=nearest,
        findings=tuple(judge(rule, None) for rule in known),
    )


NEEDS_FINISH = ("EU", "DK")
"""Places whose ceilings were read or reported by how the product is finished."""


def _why_no_nitrite(binding: Binding, finish: str | None) -> str:
    if finish is None and binding.jurisdiction in NEEDS_FINISH:
        return "State product.finish: rules there depend on it (fresh, matured, cooked, sterilised)."
    return "Check product, method and on; otherwise ask the authority of the place for its text."


def refuse_over_limits(binding: Binding, exact: Readings, scale: Scale) -> None:
    """Refuse what was asked for when it breaks a limit before any rounding. Raises LimitExceeded."""
    rules = _with_numbers(binding, exact)
    if any(breaks(rule, exact.figure(rule)) for rule in rules):
        findings = tuple(judge(rule, exact.figure(rule)) for rule in rules)
        raise LimitExceeded(findings, advice_on(findings, exact, scale))


def findings_of_dose(binding: Binding, weighed: Readings, scale: Scale) -> tuple[Finding, ...]:
    """The findings on what will be weighed. Raises LimitExceeded when rounding down left a required range."""
    findings = tuple(
        judge(rule, weighed.figure(rule), floor=band_floor(rule, binding)) for rule in _with_numbers(binding, weighed)
    )
    if any(finding.refuses for finding in findings):
        raise LimitExceeded(findings, advice_on(findings, weighed, scale))
    return findings


def band_floor(rule: RuleInForce, binding: Binding) -> InRulesUnit:
    """How far a dose that was rounded down may fall, where a ceiling leaves no room above the floor."""
    if rule.design_floor is None or rule.limit is None:
        return None
    return rule.design_floor if any(_leaves_no_room(ceiling, rule) for ceiling in binding.ceilings) else None


def _leaves_no_room(ceiling: RuleInForce, floor: RuleInForce) -> bool:
    """Whether a ceiling on the same substance is not above a floor (of skin-on weight it is always below)."""
    if ceiling.measure != floor.measure or ceiling.expressed_as not in (floor.expressed_as, "nitrite_salt_by_weight"):
        return False
    return ceiling.limit is not None and floor.limit is not None and ceiling.limit <= floor.limit


def _with_numbers(binding: Binding, readings: Readings) -> list[RuleInForce]:
    """The rules, each with a number to hold a figure against, on the basis on which the figure is read."""
    rules = [rule if rule.limit is not None else _borrowing(rule, binding, readings) for rule in binding.rules]
    bath = readings.recipe.bath
    return [at_equilibrium(rule) for rule in rules] if bath and bath.only_equilibrium else rules


def at_equilibrium(rule: RuleInForce) -> RuleInForce:
    """A limit on the green weight is held against the whole system then: the handbook's second method (p. 22)."""
    return replace(rule, basis="whole_system") if rule.basis in ("green_weight", "skin_free_green_weight") else rule


def _borrowing(rule: RuleInForce, binding: Binding, readings: Readings) -> RuleInForce:
    """The guard on the whole system borrows the ceiling of the product class that is nearest to being broken."""
    nitrite = [ceiling for ceiling in binding.ceilings if ceiling.measure == "nitrite"]
    if rule.basis != "whole_system" or not nitrite:
        return rule
    strictest = max(nitrite, key=lambda ceiling: _strictness(ceiling, readings))
    return replace(rule, limit=strictest.limit, unit=strictest.unit, expressed_as=strictest.expressed_as)


def _strictness(ceiling: RuleInForce, readings: Readings) -> float:
    figure = readings.nitrite_ppm(basis="whole_system", expressed_as=ceiling.expressed_as)
    return (figure or 0.0) / ceiling.limit if ceiling.limit else float("inf")
