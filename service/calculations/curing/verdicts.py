"""Holding a dose against the rules that bind it: refused before it is weighed, checked again after."""

from dataclasses import replace

from service.calculations.curing.amounts import Recipe
from service.calculations.curing.readings import Readings, accelerator_measures
from service.calculations.refusals import Impossible, LimitExceeded
from service.rules.book import Binding
from service.rules.checker import RuleInForce, breaks
from service.rules.finding import Finding, judge
from service.rules.vocabulary import Measure


def require_rules(binding: Binding, recipe: Recipe) -> None:
    """No rule is not a pass: what has no ceiling there, read or reported, is not dosed. Raises Impossible."""
    _require_ceiling(binding, "nitrite", frozenset({"nitrite"}))
    if recipe.cure.nitrate:
        _require_ceiling(binding, "nitrate", frozenset({"nitrate"}))
    accelerator = recipe.wanted.accelerator
    if accelerator:
        _require_ceiling(binding, accelerator.kind.replace("_", " "), accelerator_measures(accelerator))


def _require_ceiling(binding: Binding, substance: str, measures: frozenset[Measure]) -> None:
    if binding.permits(measures):
        return
    raise Impossible(
        code="no_rule_in_force",
        reason=f"No ceiling for {substance} whose text was read or reported is in force for this product, method, "
        "place and day. The absence of a rule is not permission.",
        nearest="State product.finish where the rules depend on it; leave out what has no rule; otherwise ask the "
        "authority of your place.",
        findings=tuple(judge(rule, None) for rule in binding.rules if rule.measure in measures),
    )


def refuse_over_limits(binding: Binding, exact: Readings) -> None:
    """Refuse what was asked for when it breaks a limit before any rounding. Raises LimitExceeded."""
    rules = _with_numbers(binding, exact)
    if any(breaks(rule, exact.figure(rule)) for rule in rules):
        findings = tuple(judge(rule, exact.figure(rule)) for rule in rules)
        raise LimitExceeded(findings, _advice(findings))


def findings_of_dose(binding: Binding, weighed: Readings) -> tuple[Finding, ...]:
    """The findings on what will be weighed. Raises LimitExceeded when rounding down left a required range."""
    findings = tuple(
        judge(rule, weighed.figure(rule), floor=_band_floor(rule, binding)) for rule in _with_numbers(binding, weighed)
    )
    if any(finding.refuses for finding in findings):
        raise LimitExceeded(findings, "Use a scale with a finer step, or make a bigger batch.")
    return findings


def _band_floor(rule: RuleInForce, binding: Binding) -> float | None:
    """How far a dose that was rounded down may fall, where a ceiling leaves no room above the floor."""
    floor = rule.limit
    if rule.design_floor is None or floor is None:
        return None
    meets = any(c.measure == rule.measure and c.limit is not None and c.limit <= floor for c in binding.ceilings)
    return rule.design_floor if meets else None


def _with_numbers(binding: Binding, readings: Readings) -> list[RuleInForce]:
    """The rules, each with a number to hold a figure against."""
    return [rule if rule.limit is not None else _borrowing(rule, binding, readings) for rule in binding.rules]


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


def _advice(findings: tuple[Finding, ...]) -> str:
    """What to change, from the findings that refuse."""
    over = [f for f in findings if f.refuses and f.code == "over_limit"]
    under = [f for f in findings if f.refuses and f.code == "under_limit"]
    if over and under:
        return "No target keeps every limit with this method and basis: the ceilings and the floors do not meet."
    if over:
        worst = min(over, key=lambda f: (f.limit or 0.0) / (f.figure or 1.0))
        return f"Lower what leads to {worst.rule}: it is {worst.figure:.6g} {worst.unit} against {worst.limit:.6g}."
    lacking = ", ".join(f.rule for f in under)
    return f"Raise what falls short of {lacking}, or state that it does not apply to this product."
