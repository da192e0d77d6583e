"""No rule is not a pass: what has to be in force before anything is dosed."""

from service.calculations.curing.readings import Substances, accelerator_measures
from service.calculations.refusals import Impossible
from service.rules.book import Binding
from service.rules.finding import judge
from service.rules.vocabulary import Measure


def require_rules(binding: Binding, substances: Substances, finish: str | None) -> None:
    """No rule is not a pass: what has no ceiling there, read or reported, is not dosed. Raises Impossible."""
    _require_ceiling(binding, frozenset({"nitrite"}), "nitrite", _why_no_nitrite(binding, finish))
    if substances.nitrate:
        _require_ceiling(binding, frozenset({"nitrate"}), "nitrate", "Take a curing salt without nitrate.")
    accelerator = substances.accelerator
    if accelerator:
        salts = binding.permits(frozenset({"ascorbate_or_erythorbate"}))
        instead = "Take sodium_erythorbate or sodium_ascorbate." if salts else "Leave the accelerator out."
        _require_ceiling(binding, accelerator_measures(accelerator), accelerator.replace("_", " "), instead)


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
