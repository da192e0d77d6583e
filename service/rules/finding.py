"""One figure held against one limit, written out for a cook, an inspector and a program."""

from service.quantities.models import Answer
from service.rules.checker import Code, RuleInForce, Verdict, verdict_of
from service.rules.vocabulary import Bound, Evidence, Force, Measure


class Finding(Answer):
    """One figure held against one limit."""

    rule: str
    """Rule id; the rule's history and sources are at GET /v1/rules/{id}."""
    measure: Measure
    """What the rule measures."""
    verdict: Verdict
    """met, not_met, or cannot_tell: never more than was stated or read."""
    figure: float | None
    """The figure that was held against the limit, in the limit's unit; null when it cannot be known here."""
    limit: float | None
    """The limit, in the source's unit; null where the rule has no number of its own."""
    bound: Bound
    """maximum, minimum, level (must be equal) or statement (words without a number)."""
    unit: str | None
    """Unit of figure, limit and margin."""
    basis: str | None
    """The weight that the figure is divided by, and the limit with it."""
    expressed_as: str
    """The substance that figure and limit are written as."""
    margin: float | None
    """Room before the limit, in the same unit; negative when it is broken; within a design band, above its floor."""
    at_limit: bool
    """The figure equals the limit."""
    evidence: Evidence
    """read, reported (a secondary source), recalled (from memory), own (this project's guard)."""
    force: Force
    """law, policy, advice or guard."""
    citation: str
    """Where the limit is written."""
    text_as_of: str | None
    """Date of the text that was read."""
    code: Code
    """Stable code of the message, for translation."""
    message: str
    """The same in a sentence."""
    refuses: bool
    """Whether this finding alone is enough to refuse a dose."""
    cautions: tuple[str, ...] = ()
    """Cautions that a pass carries: a reported source, an amendment not read."""


def judge(rule: RuleInForce, figure: float | None, *, floor: float | None = None) -> Finding:
    """Hold a figure against a rule. ``floor`` is the design band of verdict_of."""
    verdict, code = verdict_of(rule, figure, floor=floor)
    lowest = floor if code == "within_band" else rule.limit
    return Finding.of(
        rule=rule.id,
        measure=rule.measure,
        verdict=verdict,
        figure=figure,
        limit=rule.limit,
        bound=rule.bound,
        unit=rule.unit,
        basis=rule.basis,
        expressed_as=rule.expressed_as,
        margin=_margin(rule, figure, floor=lowest),
        at_limit=code == "at_limit",
        evidence=rule.evidence,
        force=rule.force,
        citation=rule.citation,
        text_as_of=rule.text_as_of,
        code=code,
        message=_message(rule, code, figure=figure, floor=floor),
        refuses=verdict == "not_met" and rule.may_refuse,
        cautions=_cautions(rule, figure, verdict),
    )


def _margin(rule: RuleInForce, figure: float | None, *, floor: float | None) -> float | None:
    """Room left on the side that matters, above the floor or under the ceiling; negative when the limit is broken."""
    if figure is None or rule.limit is None or floor is None:
        return None
    above, under = figure - floor, rule.limit - figure
    if rule.bound == "level":
        return min(above, under)
    return above if rule.bound == "minimum" else under


def _message(rule: RuleInForce, code: Code, *, figure: float | None, floor: float | None) -> str:
    limit = "no number of its own" if rule.limit is None else f"{rule.limit:.6g} {rule.unit}"
    against = f"{rule.bound} {limit}"
    if figure is None or code in UNKNOWN:
        return UNKNOWN[code].format(against=against, rule=rule.id)
    shown = f"{figure:.6g} {rule.unit}"
    if code == "within_band":
        return f"{shown} after rounding down, against {against}: kept within the design band from {floor:.6g}."
    return f"{shown} against {against}: {OUTCOMES[code]}"


OUTCOMES: dict[Code, str] = {
    "within_limit": "kept.",
    "at_limit": "kept, exactly at the limit.",
    "over_limit": "over it.",
    "under_limit": "under it.",
}
UNKNOWN: dict[Code, str] = {
    "laboratory_only": "Only a laboratory can measure this ({against}); it is not asked for here.",
    "not_computed": "Nothing stated lets this be worked out ({against}).",
    "plan_needed": "An option ({against}) that needs a written plan or a variance; not judged here.",
    "recalled_only": "The limit ({against}) is from memory: it warns, it proves nothing.",
    "statement": "The rule is written in words: read it at GET /v1/rules/{rule}.",
}


def _cautions(rule: RuleInForce, figure: float | None, verdict: Verdict) -> tuple[str, ...]:
    """What must be printed: a pass on a second-hand or amended text, a figure past a guard's early warning."""
    if figure is None:
        return ()
    warned = ("early-warning",) if _past_warning(rule, figure) else ()
    if not rule.witnessed and _is_past(rule, figure):
        return ("recalled-limit-passed",)
    if verdict != "met":
        return warned
    reported = ("reported-source",) if rule.evidence == "reported" else ()
    amended = ("amendment-not-read",) if rule.amended else ()
    return (*reported, *amended, *warned)


def _is_past(rule: RuleInForce, figure: float) -> bool:
    margin = _margin(rule, figure, floor=rule.limit)
    return margin is not None and margin < 0


def _past_warning(rule: RuleInForce, figure: float) -> bool:
    return rule.force == "guard" and rule.early_warning is not None and figure > rule.early_warning
