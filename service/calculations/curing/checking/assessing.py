"""Every rule that binds, with the range that a recipe as written leaves for its figure."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import chain, combinations

from service.calculations.curing.checking.as_written import Weights
from service.calculations.curing.checking.contents import Role
from service.calculations.curing.checking.uptakes import Uptake
from service.calculations.curing.checking.vessel import (
    HEAVIEST,
    LEAST_NITRITE,
    LIGHTEST,
    MOST_NITRITE,
    Pot,
    Vessel,
    filled,
)
from service.calculations.curing.on_green import finished_percent, gained_percent
from service.calculations.curing.readings import ACCELERATOR_KINDS
from service.calculations.curing.rulings import after_stay, at_equilibrium, band_floor, borrowed
from service.quantities.units import factor
from service.rules.banding import BandedFinding, judge_band
from service.rules.book import Binding
from service.rules.checker import Code, RuleInForce, Verdict
from service.rules.vocabulary import Basis

INDEPENDENT_OF_BASIS = frozenset({"whole_system", "pickle", "curing_salt"})
"""What a figure may be divided by without knowing how the piece is taken out of the pickle."""

Span = tuple[float, float]
TRACE = 1e-9
"""Stands for a little of something, of which it is not known how much: more than nothing, and shown as nothing."""
OPEN_CODES: frozenset[Code] = frozenset(
    {"not_computed", "band_across_limit", "basis_not_named", "rest_not_stated", "too_short_for_basis"}
)
"""Why a finding may wait for something to be stated."""


@dataclass(frozen=True, slots=True)
class Case:
    """A recipe ready to be held against rules."""

    pot: Pot | None
    """None where the meat is not known."""
    uptake: Uptake
    weights: Weights
    label_percent: float | None
    """The strongest nitrite on a label; None where a label is not known."""
    nitrite_known: bool
    accelerators_stated: bool
    on_labels: frozenset[str]
    """Which of nitrite and nitrate some label names."""
    too_short: bool
    """Whether the piece lay in its pickle for so short a time that equilibrium is not to be believed."""

    @property
    def can_be_worked_out(self) -> bool:
        """Whether there is any reading of its nitrite."""
        return self.pot is not None and self.uptake.known and self.nitrite_known

    def vessels(self, ends: tuple[frozenset[Role], ...] = (LEAST_NITRITE, MOST_NITRITE)) -> tuple[Vessel, ...]:
        """Every way in which the recipe may have been made: both ends, for each way of reckoning."""
        if self.pot is None:
            return ()
        mixes = self._mixes() if ends == (LEAST_NITRITE, MOST_NITRITE) else (None,)
        return tuple(
            filled(self.pot, bath, high, heavy) for bath in self.uptake.baths for high in ends for heavy in mixes
        )

    def _mixes(self) -> tuple[frozenset[int] | None, ...]:
        """Which of several spooned curing salts are heavy: one that only dilutes is heavy where nitrite is least."""
        salts = self.pot.contents.curing_salts or () if self.pot else ()
        spooned = [one.place for one in salts if one.weight and one.weight.low_g < one.weight.high_g]
        if len(spooned) < 2 and len(salts) < 2:
            return (None,)
        chosen = (combinations(spooned, count) for count in range(len(spooned) + 1))
        return tuple(frozenset(each) for each in chain.from_iterable(chosen))


def findings_of_check(case: Case, binding: Binding) -> tuple[BandedFinding, ...]:
    """A finding for every rule that binds."""
    vessels = case.vessels()
    rules = [rule if rule.limit is not None else _borrowing(rule, binding, vessels) for rule in binding.rules]
    if case.uptake.only_equilibrium:
        rules = [rule if rule.measure in WEIGHED else at_equilibrium(rule) for rule in rules]
    if case.uptake.stays:
        rules = [after_stay(rule) for rule in rules]
    return tuple(_finding(rule, case, binding, vessels) for rule in rules)


def _finding(rule: RuleInForce, case: Case, binding: Binding, vessels: tuple[Vessel, ...]) -> BandedFinding:
    span = _span(rule, case, vessels)
    return judge_band(rule, span, floor=band_floor(rule, binding), unsettled=_unsettled(rule, case))


def _unsettled(rule: RuleInForce, case: Case) -> Code | None:
    """Why the range of a figure, wherever it lies, is not enough for a verdict of met."""
    if rule.measure in WEIGHED or case.pot is None:
        return None
    if not case.uptake.basis_named and rule.basis not in INDEPENDENT_OF_BASIS:
        return "basis_not_named"
    dilutes = rule.basis in ON_THE_BATCH or any(bath is not None for bath in case.uptake.baths)
    if rule.bound == "minimum" and dilutes and not case.pot.contents.is_weighed:
        return "rest_not_stated"
    if rule.bound == "minimum" and case.too_short:
        return "too_short_for_basis"
    return None


ON_THE_BATCH: frozenset[Basis] = frozenset({"whole_batch", "product_at_addition"})
"""Weights that everything counts in."""


WEIGHED = frozenset({"weight_gain", "finished_weight", "piece_weight", "label_strength"})
"""What is read off a scale or a label."""


def _span(rule: RuleInForce, case: Case, vessels: tuple[Vessel, ...]) -> Span | None:
    """The range of the figure that a rule asks for, open above where not all of it is known; None for nothing."""
    if rule.measure in WEIGHED:
        figure = _weighed(rule, case)
        return None if figure is None else (figure, figure)
    is_accelerator = rule.measure in ACCELERATOR_KINDS
    read = case.vessels((HEAVIEST, LIGHTEST)) if is_accelerator else vessels
    span = _any_at_all(rule, case) if rule.limit == 0 and not case.can_be_worked_out else None
    span = span or span_of(vessel.figure(rule) for vessel in read)
    if span is None or _is_nitrate_only(rule, vessels):
        return None
    is_whole = case.accelerators_stated if is_accelerator else case.nitrite_known
    return (span[0], span[1] if is_whole else float("inf"))


def _any_at_all(rule: RuleInForce, case: Case) -> Span | None:
    """What is not allowed at all is broken by any of it, however it gets in: told as if all of it went in."""
    if rule.limit != 0 or rule.measure not in ("nitrite", "nitrate"):
        return None
    named = rule.measure in case.on_labels
    if case.pot is None:
        return (TRACE, float("inf")) if named else None
    vessel = filled(case.pot, None, LEAST_NITRITE)
    figure = vessel.ppm(rule.measure, basis="green_weight", expressed_as=rule.expressed_as)
    if figure:
        return TRACE, figure
    return (TRACE, float("inf")) if named and not case.nitrite_known else None


def _is_nitrate_only(rule: RuleInForce, vessels: tuple[Vessel, ...]) -> bool:
    """A minimum of nitrite where the recipe has nitrate alone: the meat makes nitrite of it, nobody knows how much."""
    no_nitrite = all(sum(mass_g for _, mass_g in vessel.nitrite) == 0 for vessel in vessels)
    return rule.measure == "nitrite" and rule.bound == "minimum" and no_nitrite


def span_of(figures: Iterable[float | None]) -> Span | None:
    """From the least to the most; None as soon as one cannot be known."""
    known = list(figures)
    numbers = [figure for figure in known if figure is not None]
    return (min(numbers), max(numbers)) if numbers and len(numbers) == len(known) else None


def _weighed(rule: RuleInForce, case: Case) -> float | None:
    if rule.measure == "label_strength":
        return case.label_percent
    if rule.measure == "piece_weight":
        piece = case.weights.smallest_piece
        return piece.g / factor(rule.unit) if piece and rule.unit else None
    if case.pot is None:
        return None
    if rule.measure == "weight_gain":
        return weight_gain_percent(case, limit_percent=rule.limit or 0.0)
    finished = case.weights.finished
    return finished_percent(case.pot.meat_g, finished_g=finished.g) if finished else None


def weight_gain_percent(case: Case, *, limit_percent: float) -> float | None:
    r"""Weight that the piece gained in the cure.

    .. math:: gain = 100 \times (cured - raw) / raw

    Parameters
    ----------
    case : Case
        The recipe, with the weight out of the cure or a stated pump and pick-up
    limit_percent : float
        What the product may gain [percent]

    Returns
    -------
    gain : float or None
        Weight gained; None where it has to be weighed [percent]

    Raises
    ------
    Nothing.

    Notes
    -----
    A weight out of the cure decides. Without it, a stated pump or pick-up is the gain; a cover at equilibrium adds an
    unknown part, so that such a gain is told only when the pump alone is too much. What a rub adds or draws out is
    not known without weighing.

    Examples
    --------
    >>> from service.calculations.curing.checking.as_written import Weights
    >>> from service.calculations.curing.checking.contents import NOTHING, Contents
    >>> from service.calculations.curing.checking.uptakes import NOT_KNOWN
    >>> weights = Weights.model_validate({"cured": {"value": 12.0, "unit": "lb"}})
    >>> pot = Pot(4535.9237, 4535.9237, 0.0, False, Contents((), ()), NOTHING, ())
    >>> case = Case(pot, NOT_KNOWN, weights, None, True, True, frozenset(), False)
    >>> round(weight_gain_percent(case, limit_percent=20.0), 6)
    20.0

    References
    ----------
    9 CFR 319.100 to 319.103 (read): gain by the weight of the fresh uncured piece.
    """
    if case.pot is None:
        return None
    meat_g = case.pot.meat_g
    if case.weights.cured is not None:
        return gained_percent(meat_g, cured_g=case.weights.cured.g)
    if not case.uptake.known or not case.uptake.basis_named or case.pot.comminuted:
        return None
    bath = case.uptake.baths[0]
    if bath is None:
        return None
    known_percent = 100 * bath.taken_up_g / meat_g
    return None if bath.equilibrium and known_percent <= limit_percent else known_percent


def _borrowing(rule: RuleInForce, binding: Binding, vessels: tuple[Vessel, ...]) -> RuleInForce:
    """The guard on the whole system borrows the ceiling that is nearest to being broken."""
    ceilings = [ceiling for ceiling in binding.ceilings if ceiling.measure == "nitrite" and ceiling.limit]
    if not ceilings:
        return rule

    def exhausted_fraction(ceiling: RuleInForce) -> float:
        read = (vessel.ppm("nitrite", basis="whole_system", expressed_as=ceiling.expressed_as) for vessel in vessels)
        return max((ppm or 0.0 for ppm in read), default=0.0) / (ceiling.limit or 1.0)

    return borrowed(rule, max(ceilings, key=exhausted_fraction))


def verdict_on(findings: tuple[BandedFinding, ...], *, permitted: bool) -> Verdict:
    """All findings together: broken if one that may refuse is; kept only if each of them is, and a rule permits."""
    if any(finding.refuses for finding in findings):
        return "not_met"
    return "cannot_tell" if any(is_open(finding) for finding in findings) or not permitted else "met"


def is_open(finding: BandedFinding) -> bool:
    """Whether this finding waits for something that may be stated, and is not advice."""
    return finding.code in OPEN_CODES and finding.force in ("law", "policy", "guard")
