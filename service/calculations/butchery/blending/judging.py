"""Each rule on the class of sausage, held against the batch as it is weighed."""

from service.calculations.butchery.blending.batch import SausageBatch
from service.calculations.butchery.blending.finishing import Mixed
from service.calculations.butchery.blending.lawful import (
    batch_of,
    by_analysis,
    counted_of,
    finished_share,
    rendered_share,
)
from service.calculations.butchery.blending.limits import Scaled, dot
from service.rules.checker import RuleInForce
from service.rules.finding import Finding, gauge_of, judge, unreckoned
from service.rules.vocabulary import BIRDS

AT_LIMIT: Scaled = 1e-9
"""A figure that differs from its limit by less than this share of it is at its limit: the solver goes no further."""
OF_POULTRY = (
    "Added water is moisture less four times the protein, except in poultry, and there is poultry in it. No pass: ask "
    "your inspector, or a laboratory."
)
STATE_YIELD = "State batch.cook_yield_percent."
STATE_RENDERED = "How much of the loss is fat decides: state batch.rendered_fat_percent."

Span = tuple[Scaled, Scaled]


def findings_of(rules: tuple[RuleInForce, ...], mixed: Mixed) -> tuple[Finding, ...]:
    """Each rule with its verdict: met only where it is kept whatever is not stated."""
    used = mixed.of_used()
    return tuple(_finding(rule, used) for rule in rules)


def _finding(rule: RuleInForce, mixed: Mixed) -> Finding:
    if by_analysis(rule) and mixed.animals & BIRDS:
        return unreckoned(rule, OF_POULTRY)
    lacking = _lacking(rule, mixed)
    if lacking is None:
        return _held(rule, _span(rule, mixed))
    surely = None if by_analysis(rule) else _span(rule, mixed)[0]
    finding = judge(rule, surely)
    return finding if finding.refuses else gauge_of(rule).untold(lacking)


def _lacking(rule: RuleInForce, mixed: Mixed) -> str | None:
    """What is to be stated before the rule can be held against anything."""
    if rule.basis != "finished_product":
        return None
    asked = [STATE_YIELD] if mixed.finished_g is None else []
    unknown = [each.name for each in mixed.materials if each.moisture_percent is None or each.protein_percent is None]
    if by_analysis(rule) and unknown:
        asked.append(f"State moisture_percent and protein_percent of {', '.join(unknown)}.")
    return " ".join(asked) or None


def _held(rule: RuleInForce, span: Span) -> Finding:
    """A figure or a range held against a maximum, or a figure against a minimum."""
    low, high = (_at_limit(end, rule) for end in span)
    least, most = judge(rule, low), judge(rule, high)
    if least.verdict == most.verdict:
        return least if least.refuses else most
    return gauge_of(rule).untold(STATE_RENDERED, (low, high))


def _span(rule: RuleInForce, mixed: Mixed) -> Span:
    """Between which percents what the rule is on may lie.

    The blend was chosen by salt as it is wanted; what is held against the rule is the batch as it is weighed. A batch
    drier than its meat by nature has no added water, not less than none. Fat is taken to stay in, unless it is stated
    how much runs out: for the fat, and the fat with the water, that is the most that it can be; for the water alone the
    least.
    """
    counted = counted_of(rule, mixed.batch, mixed.materials)
    assert counted is not None
    counted_g, by_g = (dot(each, mixed.amounts_g) for each in counted)
    drift_g = mixed.whole_g - dot(tuple([batch_of(one, mixed.batch) for one in mixed.materials]), mixed.amounts_g)
    if rule.basis == "finished_product":
        by_g = mixed.finished_g or by_g
    elif rule.basis != "green_weight":
        by_g += drift_g
    fat_g = mixed.fat_g - mixed.rendered_g
    if not by_analysis(rule):
        return (100 * (fat_g if rule.measure == "fat" else counted_g) / by_g,) * 2
    counted_g -= (1 - finished_share(mixed.batch) - rendered_share(mixed.batch)) * drift_g
    if rule.measure == "fat_plus_added_water":
        return (100 * max(counted_g, fat_g) / by_g,) * 2
    return 100 * max(counted_g, 0.0) / by_g, 100 * max(counted_g + mixed.may_render_g, 0.0) / by_g


def _at_limit(figure: Scaled, rule: RuleInForce) -> Scaled:
    limit = rule.limit
    return limit if limit is not None and abs(figure - limit) <= AT_LIMIT * limit else figure


AT_HOME = "That binds what is sold under the name: for your own table leave batch.sausage_class out."
ADVICE = {
    "fat": "Ask for less fat in the block, or state leaner materials.",
    "added_water": "Set batch.water_percent lower.",
    "fat_plus_added_water": "Ask for less fat in the block, or set batch.water_percent lower.",
    "poultry": "Use less poultry, or leave batch.sausage_class out: it is another product then.",
}


def advice_on(findings: tuple[Finding, ...], batch: SausageBatch, nearest: str | None = None) -> str:
    """What to change where the law refuses; nearest: a number of the request that need only be moved."""
    broken = dict.fromkeys(_advice(finding, batch) for finding in findings if finding.refuses)
    to_set = [nearest] if nearest and nearest.startswith("Set ") else []
    return " ".join([*broken, *to_set, *([AT_HOME] if batch.operator == "home" else [])])


def _advice(finding: Finding, batch: SausageBatch) -> str:
    """Only what is there can be lowered."""
    if finding.measure == "added_water" and not finding.limit:
        return "Set batch.water_percent to 0."
    if finding.measure != "meat":
        return ADVICE[finding.measure]
    added = [f"{part}_percent" for part in ("water", "seasoning", "sugar", "salt") if getattr(batch, f"{part}_percent")]
    return f"Set {' or '.join(f'batch.{field}' for field in added)} lower."
