"""One figure held against one limit, written out for a cook, an inspector and a program."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

from service.quantities.models import Answer, holding
from service.rules.checker import Code, RuleInForce, Verdict, breaks, clear_of, verdict_of, why_unknown
from service.rules.vocabulary import Bound, Evidence, Force, Measure
from service.rules.wording import endings_of, remembered, told_apart, why_not_judged, why_open

GAUGES_KEPT = 4096

Room = Callable[[float], float | None]
"""Reads the room that a figure leaves."""


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
    return gauge_of(rule, floor).finding(figure)


def unreckoned(rule: RuleInForce, why: str) -> Finding:
    """A finding that cannot be told, for a reason of its own, whatever else is stated."""
    return holding(Finding, {**vars(gauge_of(rule).without_figure), "message": why})


class Outcome(NamedTuple):
    """What a finding says whenever it comes to one code."""

    told: dict[str, Any]
    """Every field in the order of the model; figure, margin and message are put in."""
    ending: str | None
    """How the message goes on after the figure; None where it does not name the figure."""
    room: Room


@dataclass(frozen=True, eq=False, slots=True)
class Gauge:
    """A rule made ready to hold one figure after another against it: what never changes is written down once."""

    rule: RuleInForce
    floor: float | None
    without_figure: Finding
    """The finding where no figure can be known."""
    outcomes: dict[Code, Outcome]
    """What it may come to with a figure."""
    clear: Outcome
    """What a clear figure comes to."""
    unjudged: Outcome | None
    """What every figure comes to, where none is judged."""
    clear_above: float
    clear_under: float
    """Between these it takes no second look to see that a figure keeps the limit, and is not at it."""
    watched: bool
    """Whether some figures are to be warned of, although they pass or prove nothing."""

    def breaks(self, figure: float | None) -> bool:
        """Whether a figure breaks the rule, and the rule may refuse."""
        if figure is None or self.clear_above < figure < self.clear_under:
            return False
        return breaks(self.rule, figure)

    def finding(self, figure: float | None) -> Finding:
        """The figure held against the rule."""
        if figure is None:
            return self.without_figure
        if self.clear_above < figure < self.clear_under:
            blank, ending, room = self.clear
            shown = f"{figure:.6g}"
        else:
            blank, ending, room = self.unjudged or self._outcome(figure)
            shown = told_apart(figure, limit=self.rule.limit)
        told = blank.copy()
        told["figure"] = figure
        told["margin"] = room(figure)
        if ending is not None:
            told["message"] = f"{shown}{ending}"
        elif told["code"] == "recalled_only" and self.rule.limit is not None:
            told["message"] = remembered(self.rule, figure)
        if self.watched:
            told["cautions"] = _warnings(self.rule, figure, told)
        return holding(Finding, told)

    def untold(self, what_to_state: str, span: tuple[float, float] | None = None) -> Finding:
        """Nothing can be said before more is stated. span: all that the figure may be, on both sides of the limit."""
        if span is None:
            return _untold(self, what_to_state)
        across = {"code": "band_across_limit", "message": f"{why_open(self.rule, span)} {what_to_state}"}
        return holding(Finding, {**vars(self.without_figure), **across})

    def _outcome(self, figure: float) -> Outcome:
        return self.outcomes[verdict_of(self.rule, figure, floor=self.floor)[1]]


@lru_cache(maxsize=GAUGES_KEPT)
def gauge_of(rule: RuleInForce, floor: float | None = None) -> Gauge:
    """The gauge of a rule. ``floor`` is the design band of verdict_of."""
    outcomes, (verdict, code) = _outcomes(rule, floor), verdict_of(rule, 0.0)
    unjudged = outcomes[code] if verdict == "cannot_tell" else None
    watched = not rule.witnessed or (rule.force == "guard" and rule.early_warning is not None)
    without_figure = holding(Finding, _told(rule))
    return Gauge(
        rule, floor, without_figure, outcomes, outcomes["within_limit"], unjudged, *clear_of(rule), watched=watched
    )


@lru_cache(maxsize=GAUGES_KEPT)
def _untold(gauge: Gauge, what_to_state: str) -> Finding:
    blank = gauge.without_figure
    return holding(Finding, {**vars(blank), "message": f"{blank.message} {what_to_state}"})


def _outcomes(rule: RuleInForce, floor: float | None) -> dict[Code, Outcome]:
    """All that a figure may come to."""
    blank, unjudged, room = _told(rule), why_unknown(rule, 0.0), _room(rule, rule.limit)
    outcomes = {
        code: Outcome({**blank, **_judged(rule, code)}, ending, _room(rule, floor) if code == "within_band" else room)
        for code, ending in endings_of(rule, floor).items()
    }
    untold = {**blank, "code": unjudged, "message": why_not_judged(rule, unjudged)}
    return {**outcomes, unjudged: Outcome(untold, None, room)}


def _judged(rule: RuleInForce, code: Code) -> dict[str, Any]:
    """The fields that hang on the code alone, once a figure is judged."""
    met = code not in ("over_limit", "under_limit")
    return {
        "verdict": "met" if met else "not_met",
        "at_limit": code == "at_limit",
        "code": code,
        "refuses": not met and rule.may_refuse,
        "cautions": _passing(rule) if met else (),
    }


def _told(rule: RuleInForce) -> dict[str, Any]:
    """The fields of a finding without a figure, in the order in which they are declared."""
    code = why_unknown(rule, None)
    return {
        "rule": rule.id,
        "measure": rule.measure,
        "verdict": "cannot_tell",
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
        "message": why_not_judged(rule, code),
        "refuses": False,
        "cautions": (),
    }


def _room(rule: RuleInForce, floor: float | None) -> Room:
    """Room left on the side that matters, above the floor or under the ceiling; negative when the limit is broken."""
    limit = rule.limit
    if limit is None or floor is None:
        return lambda _: None
    if rule.bound == "level":
        return lambda figure: min(figure - floor, limit - figure)
    return (lambda figure: figure - floor) if rule.bound == "minimum" else (lambda figure: limit - figure)


def _passing(rule: RuleInForce) -> tuple[str, ...]:
    """What must be printed with a pass: that its text is second-hand, or was amended and not read again."""
    reported = ("reported-source",) if rule.evidence == "reported" else ()
    amended = ("amendment-not-read",) if rule.amended else ()
    return (*reported, *amended)


def _warnings(rule: RuleInForce, figure: float, told: dict[str, Any]) -> tuple[str, ...]:
    """What must be printed with the figure as well: a guard's early warning, a limit from memory that is passed."""
    margin, cautions = told["margin"], told["cautions"]
    if not rule.witnessed:
        return ("recalled-limit-passed",) if margin is not None and margin < 0 else cautions
    return (*cautions, "early-warning") if figure > (rule.early_warning or 0.0) else cautions
