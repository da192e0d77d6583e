"""Holding a range against a limit: kept only where all of it keeps, broken only where all of it breaks."""

from math import isinf

from service.rules.checker import Code, RuleInForce, verdict_of
from service.rules.finding import Finding, judge

NEGLIGIBLE = 1e-6
"""Less than this is nothing, in any unit that rules are written in."""


class BandedFinding(Finding):
    """One figure, or the range that it lies in, held against one limit."""

    low: float | None
    """The least that the figure can be; the figure itself where it is exact; null when nothing is known."""
    high: float | None
    """The most that the figure can be; null where part of what it is made of is not known."""


def judge_band(
    rule: RuleInForce, span: tuple[float, float] | None, *, floor: float | None, unsettled: Code | None
) -> BandedFinding:
    """Hold a range against a rule.

    unsettled: why no range is enough for a verdict of met, where something that the figure depends on was not stated.
    """
    if span is None:
        return BandedFinding.of(**vars(judge(rule, None)), low=None, high=None)
    low, high = span
    if isinf(high):
        return _at_least(rule, low)
    if not rule.witnessed and not rule.plan_needed and rule.bound != "statement":
        return _recalled(rule, span)
    at_low, at_high = verdict_of(rule, low, floor=floor), verdict_of(rule, high, floor=floor)
    decisive = low if rule.bound == "minimum" else high
    finding = judge(rule, decisive, floor=floor)
    if at_low[0] != at_high[0] or (at_low[0] == "not_met" and at_low[1] != at_high[1]):
        return _open(rule, finding, span, "band_across_limit")
    if at_low[0] == "met" and unsettled and high > 0:
        return _open(rule, finding, span, unsettled)
    return BandedFinding.of(**vars(finding), low=_shown(low), high=high)


def _shown(low: float) -> float:
    """A low end, without the crumbs of a division by a weight that is not known."""
    return 0.0 if abs(low) < NEGLIGIBLE else low


def _at_least(rule: RuleInForce, low: float) -> BandedFinding:
    """What is known already may break a limit, whatever the rest is; it never keeps one."""
    is_over = verdict_of(rule, low)[1] == "over_limit"
    if is_over and low < NEGLIGIBLE:
        any_at_all = {"figure": None, "margin": None, "message": "None of it may go in, and some does."}
        return BandedFinding.of(**{**vars(judge(rule, low)), **any_at_all}, low=0.0, high=None)
    return BandedFinding.of(**vars(judge(rule, low if is_over else None)), low=_shown(low), high=None)


def _recalled(rule: RuleInForce, span: tuple[float, float]) -> BandedFinding:
    """A limit from memory, with what is held against it: it warns where the figure is past it."""
    low, high = span
    finding = judge(rule, low if rule.bound == "minimum" else high)
    if low != high:
        message = _between(rule, span) + "the limit is from memory: it warns, it proves nothing."
        return BandedFinding.of(
            **{**vars(finding), "message": message, "figure": None, "margin": None}, low=_shown(low), high=high
        )
    return BandedFinding.of(**vars(finding), low=_shown(low), high=high)


def _between(rule: RuleInForce, span: tuple[float, float]) -> str:
    low, high = span
    shown = f"{high:.6g}" if low == high else f"Between {_shown(low):.6g} and {high:.6g}"
    return f"{shown} {rule.unit} against {rule.bound} {rule.limit:.6g} {rule.unit}: "


def _open(rule: RuleInForce, finding: Finding, span: tuple[float, float], code: Code) -> BandedFinding:
    """A finding that cannot be told: the recipe leaves the figure open."""
    low, high = span
    message = _between(rule, span) + WHY_OPEN[code]
    undecided = {
        "verdict": "cannot_tell", "figure": None, "margin": None, "at_limit": False, "refuses": False,
        "code": code, "message": message, "cautions": (), "low": _shown(low), "high": high,
    }  # fmt: skip
    return BandedFinding.of(**{**vars(finding), **undecided})


WHY_OPEN: dict[Code, str] = {
    "band_across_limit": "it may be kept or broken.",
    "rest_not_stated": "the recipe does not say all that goes in, and what it leaves out dilutes.",
    "too_short_for_basis": "in so short a time meat and pickle do not come to one.",
    "basis_not_named": "the recipe does not say how much of its pickle the piece takes up.",
}
