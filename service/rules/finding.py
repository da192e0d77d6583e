"""One figure held against one limit, written out for a cook, an inspector and a program."""

from dataclasses import dataclass
from typing import Any

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
    return Gauge.of(rule, floor=floor).finding(figure)


@dataclass(frozen=True, eq=False, slots=True)
class Gauge:
    """A rule made ready to hold one figure after another against it: what never changes is written down once."""

    rule: RuleInForce
    floor: float | None
    told: dict[str, Any]
    """Every field of its findings, in order; those that hang on the figure are overwritten each time."""
    endings: dict[Code, str]
    """How the message goes on after the figure."""
    passing: tuple[str, ...]
    """Cautions on a figure that keeps the rule."""
    without_figure: Finding
    """The finding where no figure can be known."""

    @classmethod
    def of(cls, rule: RuleInForce, *, floor: float | None = None) -> "Gauge":
        """The gauge of a rule. ``floor`` is the design band of verdict_of."""
        told = _told(rule)
        return cls(rule, floor, told, _endings(rule, floor), _passing(rule), Finding.holding(told))

    def finding(self, figure: float | None) -> Finding:
        """The figure held against the rule."""
        if figure is None:
            return self.without_figure
        rule, floor = self.rule, self.floor
        verdict, code = verdict_of(rule, figure, floor=floor)
        return Finding.holding(
            {
                **self.told,
                "verdict": verdict,
                "figure": figure,
                "margin": _margin(rule, figure, floor=floor if code == "within_band" else rule.limit),
                "at_limit": code == "at_limit",
                "code": code,
                "message": f"{figure:.6g}{self.endings[code]}" if code in self.endings else _unknown(rule, code),
                "refuses": verdict == "not_met" and rule.may_refuse,
                "cautions": self._cautions(figure, verdict),
            }
        )

    def _cautions(self, figure: float, verdict: Verdict) -> tuple[str, ...]:
        """What must be printed: a pass on a second-hand or amended text, a figure past a guard's early warning."""
        rule = self.rule
        if not rule.witnessed and _is_past(rule, figure):
            return ("recalled-limit-passed",)
        passed = self.passing if verdict == "met" else ()
        return (*passed, "early-warning") if _past_warning(rule, figure) else passed


def _told(rule: RuleInForce) -> dict[str, Any]:
    """The fields of a finding without a figure, in the order in which they are declared."""
    verdict, code = verdict_of(rule, None)
    return {
        "rule": rule.id,
        "measure": rule.measure,
        "verdict": verdict,
        "figure": None,
        "limit": rule.limit,
        "bound": rule.bound,
        "unit": rule.unit,
        "basis": rule.basis,
        "expressed_as": rule.expressed_as,
        "margin": None,
        "at_limit": False,
        "evidence": rule.evidence,
        "force": rule.force,
        "citation": rule.citation,
        "text_as_of": rule.text_as_of,
        "code": code,
        "message": _unknown(rule, code),
        "refuses": False,
        "cautions": (),
    }


def _margin(rule: RuleInForce, figure: float, *, floor: float | None) -> float | None:
    """Room left on the side that matters, above the floor or under the ceiling; negative when the limit is broken."""
    if rule.limit is None or floor is None:
        return None
    if rule.bound == "level":
        return min(figure - floor, rule.limit - figure)
    return figure - floor if rule.bound == "minimum" else rule.limit - figure


def _against(rule: RuleInForce) -> str:
    limit = "no number of its own" if rule.limit is None else f"{rule.limit:.6g} {rule.unit}"
    return f"{rule.bound} {limit}"


def _unknown(rule: RuleInForce, code: Code) -> str:
    return UNKNOWN[code].format(against=_against(rule), rule=rule.id)


def _endings(rule: RuleInForce, floor: float | None) -> dict[Code, str]:
    unit, against = rule.unit, _against(rule)
    endings: dict[Code, str] = {code: f" {unit} against {against}: {words}" for code, words in OUTCOMES.items()}
    if floor is not None:
        band = f"kept within the design band from {floor:.6g}."
        endings["within_band"] = f" {unit} after rounding down, against {against}: {band}"
    return endings


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


def _passing(rule: RuleInForce) -> tuple[str, ...]:
    reported = ("reported-source",) if rule.evidence == "reported" else ()
    amended = ("amendment-not-read",) if rule.amended else ()
    return (*reported, *amended)


def _is_past(rule: RuleInForce, figure: float) -> bool:
    margin = _margin(rule, figure, floor=rule.limit)
    return margin is not None and margin < 0


def _past_warning(rule: RuleInForce, figure: float) -> bool:
    return rule.force == "guard" and rule.early_warning is not None and figure > rule.early_warning
