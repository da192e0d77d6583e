"""Holding a figure against a rule: the verdict, and what follows from evidence and force."""

from dataclasses import dataclass
from datetime import date
from math import inf
from typing import Literal

from service.rules.rule import DatedValue, Rule
from service.rules.vocabulary import Basis, Bound, Evidence, Expression, Force, Measure, RuleJurisdiction, Stage

Verdict = Literal["met", "not_met", "cannot_tell"]

Code = Literal[
    "within_limit", "at_limit", "within_band", "over_limit", "under_limit",
    "laboratory_only", "not_computed", "plan_needed", "recalled_only", "statement",
    "band_across_limit", "basis_not_named", "rest_not_stated", "too_short_for_basis",
]  # fmt: skip
"""Why a verdict is what it is."""

LEGAL_FORCES = frozenset({"law", "policy"})
REFUSING_FORCES = frozenset({"law", "policy", "guard"})
WITNESSED = frozenset({"read", "reported", "own"})

ROUNDING_SLACK = 1e-12
"""Relative room for the last bits of floating-point arithmetic when a figure equals its limit."""


@dataclass(frozen=True, eq=False, slots=True)
class RuleInForce:
    """A rule with the value that stands on one day: what a calculation holds its figures against."""

    id: str
    jurisdiction: RuleJurisdiction
    measure: Measure
    stage: Stage
    bound: Bound
    limit: float | None
    early_warning: float | None
    design_floor: float | None
    unit: str | None
    expressed_as: Expression
    basis: Basis | None
    evidence: Evidence
    force: Force
    plan_needed: bool
    citation: str
    text_as_of: str | None
    amended: bool
    """Amended by a text that nobody here has read, on or before the day asked about."""

    witnessed: bool
    """Its text was read or reported, so that it may refuse and, if need be with a caution, pass."""
    may_refuse: bool

    @property
    def sets_level(self) -> bool:
        """Whether it sets a level, whole or as the minimum that a design band belongs to."""
        return self.bound == "level" or (
            self.force == "law" and self.bound == "minimum" and self.design_floor is not None
        )

    @property
    def is_legal_ceiling(self) -> bool:
        """Whether it is a number of law or policy that bounds what goes in from above, and may refuse."""
        bounds = self.stage == "ingoing" and self.bound in ("maximum", "level") and self.limit is not None
        return bounds and self.may_refuse and self.force in LEGAL_FORCES


def in_force(rule: Rule, dated: DatedValue, on: date) -> RuleInForce:
    """The rule as it stands on a day."""
    witnessed = dated.evidence in WITNESSED
    return RuleInForce(
        id=rule.id,
        jurisdiction=rule.jurisdiction,
        measure=rule.measure,
        stage=rule.stage,
        bound=rule.bound,
        limit=dated.value,
        early_warning=dated.early_warning,
        design_floor=dated.design_floor,
        unit=dated.unit,
        expressed_as=dated.expressed_as,
        basis=dated.basis,
        evidence=dated.evidence,
        force=dated.force,
        plan_needed=rule.plan_needed,
        citation=dated.citation,
        text_as_of=dated.text_as_of,
        amended=dated.amended_unread_since is not None and dated.amended_unread_since <= on,
        witnessed=witnessed,
        may_refuse=witnessed and dated.force in REFUSING_FORCES and not rule.plan_needed,
    )


def verdict_of(rule: RuleInForce, figure: float | None, *, floor: float | None = None) -> tuple[Verdict, Code]:
    """What a figure comes to under a rule, and why.

    ``floor`` is the design band that a dose may fall into after it was rounded down, where a floor and a ceiling
    meet. A comparison with a figure that is not a number never holds.
    """
    limit = rule.limit
    if figure is None or limit is None or rule.plan_needed or not rule.witnessed or rule.bound == "statement":
        return "cannot_tell", why_unknown(rule, figure)
    slack = ROUNDING_SLACK * limit
    if rule.bound != "minimum" and not figure <= limit + slack:
        return "not_met", "over_limit"
    if rule.bound == "maximum" or figure >= limit - slack:
        return "met", "at_limit" if abs(figure - limit) <= slack else "within_limit"
    if floor is not None and figure >= floor - slack:
        return "met", "within_band"
    return "not_met", "under_limit"


def clear_of(rule: RuleInForce) -> tuple[float, float]:
    """Between which figures a rule is kept beyond doubt, its limit not touched; nothing lies between inf and inf."""
    limit, judged = rule.limit, rule.witnessed and not rule.plan_needed
    if limit is None or not judged or rule.bound not in ("maximum", "minimum"):
        return inf, inf
    doubt = 2 * ROUNDING_SLACK * limit
    return (limit + doubt, inf) if rule.bound == "minimum" else (-inf, limit - doubt)


def why_unknown(rule: RuleInForce, figure: float | None) -> Code:
    """Why nothing can be said."""
    if rule.bound == "statement":
        return "statement"
    if rule.stage == "residual" and figure is None:
        return "laboratory_only"
    if rule.plan_needed:
        return "plan_needed"
    return "not_computed" if rule.witnessed else "recalled_only"


def breaks(rule: RuleInForce, figure: float | None) -> bool:
    """Whether a figure breaks a rule that may refuse."""
    return rule.may_refuse and verdict_of(rule, figure)[0] == "not_met"
