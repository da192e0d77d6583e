"""The rule book told to a reader: each rule with what is in force on a day, its history and its sources."""

from collections.abc import Iterator
from datetime import date

from service.quantities.models import Answer
from service.rules.book import PARENTS, Engine, RuleBook
from service.rules.rule import DatedValue, Rule
from service.rules.vocabulary import (
    Basis,
    Bound,
    Circumstance,
    Evidence,
    Expression,
    Force,
    Jurisdiction,
    Measure,
    Operator,
    ProductClass,
    RuleJurisdiction,
    RuleUnit,
    Stage,
)


class DatedLimit(Answer):
    """What a limit was from one day until another, and how that is known."""

    since: date | None
    """First day in force; null where its age is not known and it holds for any earlier day."""
    until: date | None
    """First day no longer in force; null while it stands."""
    value: float | None
    """The number; null for a rule in words, or for a guard that borrows the ceilings of the product class."""
    early_warning: float | None
    """A caution is printed from here on, before the limit itself is reached."""
    design_floor: float | None
    """How far a dose that was rounded down may fall below a level that must be reached (this service's own band)."""
    unit: RuleUnit | None
    """Unit of the number, in the spelling of the source."""
    expressed_as: Expression
    """As which substance the number is written."""
    basis: Basis | None
    """The weight that it is divided by."""
    as_printed: str | None
    """The form in which the source prints the number, where it is another."""
    evidence: Evidence
    """read: the primary text was read. reported: a secondary source. recalled: from memory. own: a guard of this
    service."""
    force: Force
    """law and guard refuse; policy refuses unless it is stated not to apply; advice never refuses."""
    text_as_of: str | None
    """Date of the text that was read."""
    amended_unread_since: date | None
    """First day of an amendment whose wording was not read; from then on a pass carries a caution."""
    citation: str
    """Where it is written."""
    note: str
    """What else an inspector should know about it."""


class RuleSummary(Answer):
    """A rule, and what it says on one day."""

    id: str
    """Stable id, as findings name it."""
    title: str
    """What it limits, in a few words."""
    jurisdiction: RuleJurisdiction
    """The place that set it; ANY is a guard of this service, kept everywhere."""
    applies_to: tuple[ProductClass, ...]
    """Product classes that it governs, any one of them; empty means every product."""
    when: tuple[Circumstance, ...]
    """Circumstances that must all hold."""
    unless: tuple[Circumstance, ...]
    """Circumstances of which none may hold."""
    audience: tuple[Operator, ...]
    """Who is bound by it; empty means everybody."""
    except_in: tuple[Jurisdiction, ...]
    """For a guard of this service: places where it is not held, because their own law says the same."""
    measure: Measure
    """What is measured."""
    stage: Stage
    """When it is measured."""
    bound: Bound
    """Whether the number is a maximum, a minimum or a level to be met; statement: a rule in words."""
    plan_needed: bool
    """An option open only under a written plan or a variance."""
    in_force: DatedLimit | None
    """What stands on the day asked about; null when nothing does."""


class RuleDetail(RuleSummary):
    """A rule with its whole history."""

    history: tuple[DatedLimit, ...]
    """Every dated value, oldest first."""


class RuleList(Answer):
    """The rules that a question selects, sorted by id."""

    engine: Engine
    """What answered."""
    items: tuple[RuleDetail, ...]
    """The rules."""


def list_rules(
    book: RuleBook, *, jurisdiction: Jurisdiction | None = None, measure: Measure | None = None, on: date
) -> RuleList:
    """Every rule that binds in a place and limits a measure; without them, every rule that is held.

    A place is bound by its own rules, by those of the union it belongs to, and by the guards of this service.
    """
    chosen = _chosen(book, jurisdiction, measure)
    return RuleList.of(engine=book.engine, items=tuple(_detail(rule, on) for rule in chosen))


def describe_rule(book: RuleBook, id: str, on: date) -> RuleDetail:
    """One rule as it stands on a day, with its history. Raises UnknownRule."""
    return _detail(book.rule(id), on)


def _chosen(book: RuleBook, jurisdiction: Jurisdiction | None, measure: Measure | None) -> Iterator[Rule]:
    places = {"ANY", jurisdiction, *PARENTS.get(jurisdiction or "", ())}
    for rule in book.rules.values():
        binds = jurisdiction is None or (rule.jurisdiction in places and jurisdiction not in rule.except_in)
        if binds and measure in (None, rule.measure):
            yield rule


def _detail(rule: Rule, on: date) -> RuleDetail:
    history = tuple((dated, _limit(dated)) for dated in rule.values)
    return RuleDetail.of(
        id=rule.id, title=rule.title, jurisdiction=rule.jurisdiction, applies_to=rule.applies_to,
        when=rule.when, unless=rule.unless, audience=rule.audience, except_in=rule.except_in,
        measure=rule.measure, stage=rule.stage, bound=rule.bound, plan_needed=rule.plan_needed,
        in_force=next((limit for dated, limit in history if dated.in_force(on)), None),
        history=tuple(limit for _, limit in history),
    )  # fmt: skip


def _limit(dated: DatedValue) -> DatedLimit:
    return DatedLimit.of(**dict(dated))
