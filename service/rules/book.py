"""The rule book: every rule, caution and list, and what is in force for a product on a day."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from typing import Any, NamedTuple

from service.quantities.models import Answer
from service.rules.allergen import Allergen
from service.rules.checker import RuleInForce, in_force
from service.rules.cure_name import CureName
from service.rules.cut import Cut
from service.rules.ingredient import Ingredient
from service.rules.label_rule import LabelRule
from service.rules.rule import Caution, CautionRow, Premix, Rule
from service.rules.substance import Substance
from service.rules.usual_yield import UsualYield
from service.rules.vocabulary import Fact, Jurisdiction, Measure, Operator


class RulesError(Exception):
    """Root of what the rules room raises."""


@dataclass
class UnknownRule(RulesError):
    """No rule has this id."""

    id: str


class DayNotStated(RulesError):
    """Rules are dated: a question without a day has no answer."""


class Engine(Answer):
    """What computed an answer. The same request and the same engine give the same bytes."""

    pellicle: str
    """Version of the code."""
    rules: str
    """Digest of the rule data."""


PARENTS: dict[str, tuple[str, ...]] = {"DK": ("EU",)}
"""Places where another place's rules bind as well as their own."""

CACHE_SIZE = 4096


class Question(NamedTuple):
    """What has to be known before it can be said which rules bind."""

    jurisdiction: Jurisdiction
    on: date | None
    operator: Operator
    facts: frozenset[Fact]
    measures: frozenset[Measure]


@dataclass(frozen=True, eq=False, slots=True)
class Binding:
    """The rules that bind one kind of product in one place on one day, sorted into what they do."""

    jurisdiction: Jurisdiction
    rules: tuple[RuleInForce, ...]
    ceilings: tuple[RuleInForce, ...]
    """Legal ceilings on what goes in, with a number that was read or reported: the rules that permit a dose."""

    def permits(self, measures: frozenset[Measure]) -> bool:
        """Whether the place itself has such a ceiling for one of these: a wider place's refuses, it does not permit."""
        return any(rule.measure in measures and rule.jurisdiction == self.jurisdiction for rule in self.ceilings)


@dataclass(frozen=True, eq=False, slots=True)
class RuleBook:
    """Everything in rules/data, frozen. Built by the loader, handed to every calculation."""

    engine: Engine
    rules: dict[str, Rule]
    cautions: dict[str, CautionRow]
    premixes: dict[str, Premix]
    cure_names: dict[str, CureName]
    ingredients: dict[str, Ingredient]
    cuts: dict[str, Cut]
    usual_yields: dict[str, UsualYield]
    allergens: dict[str, Allergen]
    substances: dict[str, Substance]
    label_rules: dict[str, LabelRule]
    _found: dict[Question, Binding] = field(default_factory=dict, repr=False, init=False)
    _told: dict[tuple[str, ...], tuple[Caution, ...]] = field(default_factory=dict, repr=False, init=False)

    def rule(self, id: str) -> Rule:
        """The rule of this id. Raises UnknownRule."""
        if id not in self.rules:
            raise UnknownRule(id)
        return self.rules[id]

    def binding(self, question: Question) -> Binding:
        """The rules that bind there on that day, sorted by id, own guards among them. Raises DayNotStated."""
        if question not in self._found:
            _make_room(self._found)
            self._found[question] = self._search(question)
        return self._found[question]

    def _search(self, question: Question) -> Binding:
        on = question.on
        if on is None:
            raise DayNotStated
        places = {"ANY", question.jurisdiction, *PARENTS.get(question.jurisdiction, ())}
        rules = tuple(
            in_force(rule, dated, on)
            for rule in self.rules.values()
            if rule.measure in question.measures
            and rule.jurisdiction in places
            and question.jurisdiction not in rule.except_in
            and rule.governs(question.facts, question.operator)
            for dated in rule.values
            if dated.in_force(on)
        )
        return Binding(question.jurisdiction, rules, tuple(rule for rule in rules if rule.is_legal_ceiling))

    def cautions_of(self, ids: Iterable[str]) -> tuple[Caution, ...]:
        """The cautions of these ids, each once, in the order asked."""
        asked = tuple(ids)
        if asked not in self._told:
            _make_room(self._told)
            self._told[asked] = tuple(self.cautions[id].told for id in dict.fromkeys(asked))
        return self._told[asked]


def _make_room(kept: dict[Any, Any]) -> None:
    if len(kept) >= CACHE_SIZE:
        kept.clear()
