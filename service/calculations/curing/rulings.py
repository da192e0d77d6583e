"""What the law has to say to one kind of dose, worked out once for all doses of that kind."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache, partial
from typing import NamedTuple

from service.calculations.curing.classes import ProductKind, facts_of
from service.calculations.curing.makeable import require_one_step_to_a_level
from service.calculations.curing.methods import Way
from service.calculations.curing.permission import require_rules
from service.calculations.curing.readings import (
    NO_READING,
    SELDOM_NEW,
    Figures,
    InRulesUnit,
    Reading,
    Readings,
    Substances,
    measured,
    reading_of,
)
from service.calculations.curing.salts import NITRITE_EXPRESSIONS
from service.calculations.curing.warning import Watch, watch_for
from service.rules.book import Binding, Question, RuleBook
from service.rules.checker import RuleInForce
from service.rules.finding import Finding, Gauge, gauge_of
from service.rules.vocabulary import Fact, Jurisdiction, Operator

KINDS_KEPT = 4096


class DoseKind(NamedTuple):
    """All that decides which rules bind a dose and how each is read, in words of closed lists."""

    jurisdiction: Jurisdiction
    on: date | None
    operator: Operator
    product: ProductKind
    way: Way
    substances: Substances
    strength_on_label: bool


@dataclass(frozen=True, eq=False, slots=True)
class Yardstick:
    """A rule that binds, with the way to read its figure."""

    figure: Reading
    asked: Gauge
    """For what was asked for."""
    finding: Callable[[InRulesUnit], Finding]
    """The finding on what will be weighed: rounded down it may fall into a design band."""


@lru_cache(maxsize=KINDS_KEPT)
def _kept_finding(gauge: Gauge, figure: InRulesUnit) -> Finding:
    return gauge.finding(figure)


@dataclass(frozen=True, eq=False, slots=True)
class Ruling:
    """What the law has to say to one kind of dose."""

    facts: tuple[Fact, ...]
    """What the product is to the law, sorted."""
    yardsticks: tuple[Yardstick, ...]
    refusing: tuple[Yardstick, ...]
    """Those that have a figure, and whose rules may refuse."""
    watch: Watch
    readings: frozenset[Reading]
    """Every way of reading that rules or cautions ask for, each once."""

    def figures(self, readings: Readings) -> Figures:
        """All that is asked of these amounts."""
        return {reading: reading(readings) for reading in self.readings}


@lru_cache(maxsize=KINDS_KEPT)
def ruling_on(kind: DoseKind, book: RuleBook) -> Ruling:
    """The ruling on a kind of dose. Raises Impossible where no rule permits it."""
    facts = frozenset(_facts(kind))
    measures = measured(kind.substances)
    binding = book.binding(Question(kind.jurisdiction, kind.on, kind.operator, facts, measures))
    require_rules(binding, kind.substances, kind.product.finish)
    require_one_step_to_a_level(kind.way, binding)
    yardsticks = tuple(_yardstick(_with_number(rule, binding, kind), binding, kind) for rule in binding.rules)
    refusing = tuple(each for each in yardsticks if each.asked.rule.may_refuse and each.figure is not NO_READING)
    watch = watch_for(kind.product, kind.way, kind.substances, binding, book)
    readings = frozenset({each.figure for each in yardsticks} | {watch.least_ppm, watch.most_ppm})
    return Ruling(tuple(sorted(facts)), yardsticks, refusing, watch, readings)


def _facts(kind: DoseKind) -> tuple[Fact, ...]:
    """What the law asks to know of this dose."""
    wet: tuple[Fact, ...] = ("pickle",) if kind.way.in_pickle else ()
    lying: tuple[Fact, ...] = ("immersed",) if kind.way.immersed else ()
    stated: tuple[Fact, ...] = ("strength_on_label",) if kind.strength_on_label else ()
    return (*facts_of(kind.product, kind.way.method), kind.substances.nitrite, *wet, *lying, *stated)


def _yardstick(rule: RuleInForce, binding: Binding, kind: DoseKind) -> Yardstick:
    asked, floor = gauge_of(rule), band_floor(rule, binding)
    weighed = asked if floor is None else gauge_of(rule, floor)
    reading = reading_of(rule, kind.substances)
    return Yardstick(reading, asked, partial(_kept_finding, weighed) if reading in SELDOM_NEW else weighed.finding)


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


def _with_number(rule: RuleInForce, binding: Binding, kind: DoseKind) -> RuleInForce:
    """The rule with a number to hold a figure against, on the basis on which the figure is read."""
    numbered = rule if rule.limit is not None else _borrowing(rule, binding, kind)
    if kind.way.stays:
        return after_stay(numbered)
    return at_equilibrium(numbered) if kind.way.only_equilibrium else numbered


@lru_cache(maxsize=KINDS_KEPT)
def at_equilibrium(rule: RuleInForce) -> RuleInForce:
    """A limit on the green weight is held against the whole system then: the handbook's second method (p. 22)."""
    return replace(rule, basis="whole_system") if rule.basis in ("green_weight", "skin_free_green_weight") else rule


@lru_cache(maxsize=KINDS_KEPT)
def after_stay(rule: RuleInForce) -> RuleInForce:
    """The guard on the whole system holds what can be in the piece when it comes out, where that is stated."""
    return replace(rule, basis="whole_system_after_stay") if rule.basis == "whole_system" else rule


def _borrowing(rule: RuleInForce, binding: Binding, kind: DoseKind) -> RuleInForce:
    """The guard on the whole system borrows the ceiling of the product class that is nearest to being broken."""
    nitrite = [ceiling for ceiling in binding.ceilings if ceiling.measure == "nitrite"]
    if rule.basis != "whole_system" or not nitrite:
        return rule
    return borrowed(rule, max(nitrite, key=lambda ceiling: _strictness(ceiling, kind)))


@lru_cache(maxsize=KINDS_KEPT)
def borrowed(guard: RuleInForce, ceiling: RuleInForce) -> RuleInForce:
    """A guard without a number of its own, with that of a ceiling."""
    return replace(guard, limit=ceiling.limit, unit=ceiling.unit, expressed_as=ceiling.expressed_as)


def _strictness(ceiling: RuleInForce, kind: DoseKind) -> float:
    """How much of a ceiling each gram of nitrite takes: which one is nearest hangs on nothing else."""
    figure = NITRITE_EXPRESSIONS[kind.substances.nitrite].get(ceiling.expressed_as, 0.0) if kind.way.immersed else 0.0
    return figure / ceiling.limit if ceiling.limit else float("inf")
