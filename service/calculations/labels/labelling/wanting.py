"""Which statements are asked for of a product, and which may be."""

from collections.abc import Callable
from typing import Literal, NamedTuple

from service.calculations.labels.labelling.comparing import LabelDifference
from service.calculations.labels.labelling.composition import Contents
from service.calculations.labels.labelling.ordering import Entry
from service.calculations.labels.labelling.recipe import LabelInUse, LabelledLine, LabelledProduct
from service.calculations.labels.labelling.solution import Solution
from service.calculations.labels.labelling.telling import AllergenStatement
from service.rules.vocabulary import LabelItem, Operator

Certainty = Literal["yes", "no", "cannot_tell"]
GAME, UNCURED = "game", "uncured"


class Case(NamedTuple):
    """Everything that decides what a label has to say."""

    product: LabelledProduct
    lines: list[LabelledLine]
    entries: tuple[Entry, ...]
    contents: Contents
    allergens: AllergenStatement
    label: LabelInUse | None
    difference: LabelDifference | None
    operator: Operator
    sulphites: Certainty
    """Whether sulphites have to be named apart from any list of allergens."""
    solution: Solution | None
    """What was added to the meat; null where nothing was or it cannot be reckoned."""


def _ingredients(case: Case) -> Certainty:
    return "yes" if len(case.entries) > 1 else "no"


def _allergens(case: Case) -> Certainty:
    if case.allergens.found:
        return "yes"
    return "cannot_tell" if case.allergens.verdict == "cannot_tell" else "no"


def _solution(case: Case) -> Certainty:
    product = case.product
    if product.state == "ready_to_eat" or product.standard in ("with_nitrite", "without_nitrite"):
        return "no"
    if not any(line.in_solution for line in case.lines):
        return "no"
    return "yes" if product.state == "raw" and product.standard == "none" else "cannot_tell"


def _says_uncured(case: Case) -> Certainty:
    """The name may say so as well."""
    is_said = "nitrite" in case.contents.cures and UNCURED in case.product.name.casefold()
    return "yes" if is_said else _without_nitrite(case, "uncured")


def _without_nitrite(case: Case, item: LabelItem) -> Certainty:
    """Where nitrite is in, the words are told of only because the label has them, and they are untrue."""
    if "nitrite" in case.contents.cures:
        return "yes" if case.label is not None and item in case.label.items else "no"
    return _uncured(case)


def _uncured(case: Case) -> Certainty:
    """A product that is usually made with nitrite, without any: only where nothing may bring it in unseen."""
    if case.product.standard in ("none", "without_nitrite"):
        return "no"
    return "yes" if case.product.standard == "with_nitrite" and not case.contents.doubtful else "cannot_tell"


def _cold(case: Case) -> Certainty:
    kept = case.product.kept
    return "cannot_tell" if kept is None else "no" if kept == "shelf_stable" else "yes"


def _raw(case: Case) -> Certainty:
    """Of meat alone: a rub has no such words, and what no line calls meat may hold some."""
    state = case.product.state
    if state == "ready_to_eat":
        return "no"
    has_meat = any(facts.meats for facts in case.contents.facts) or any(line.animal is not None for line in case.lines)
    if not has_meat and not case.contents.doubtful:
        return "no"
    return "cannot_tell" if state is None or not has_meat else "yes"


def has_game(case: Case) -> bool:
    """By what is stated of it, or by its name: venison is game also where another animal is stated."""
    return any(line.animal == GAME for line in case.lines) or any(facts.is_game for facts in case.contents.facts)


def kinds_of_meat(case: Case) -> tuple[str, ...]:
    """Each animal once: game by the word of its line, because the law wants venison and boar told apart."""
    stated = (
        (facts.meats[0] if facts.meats else line.name) if line.animal == GAME else line.animal
        for line, facts in zip(case.lines, case.contents.facts, strict=True)
        if line.animal is not None
    )
    return tuple(dict.fromkeys(stated))


def _sulphites(case: Case) -> Certainty:
    return case.sulphites


def _species(case: Case) -> Certainty:
    if len(kinds_of_meat(case)) < 2 or case.product.kind in ("whole_piece", "other"):
        return "no"
    return "yes" if case.product.kind == "sausage" else "cannot_tell"


def _additives(case: Case) -> Certainty:
    return "yes" if case.contents.with_additive else "cannot_tell" if case.contents.doubtful else "no"


OF_COMPOSITION = frozenset(("allergens", "sulphites", "allergens_emphasised", "additives_by_category"))
"""Whether these are asked for hangs on what is in it."""

ASKED: dict[LabelItem, Callable[[Case], Certainty]] = {
    "ingredients": _ingredients,
    "allergens": _allergens,
    "allergens_emphasised": _allergens,
    "added_solution": _solution,
    "no_word_enhanced": _solution,
    "uncured": _says_uncured,
    "no_nitrite_added": lambda case: _without_nitrite(case, "no_nitrite_added"),
    "not_preserved": lambda case: _without_nitrite(case, "not_preserved"),
    "keep_cold": _cold,
    "raw_handling": _raw,
    "species": _species,
    "additives_by_category": _additives,
    "sulphites": _sulphites,
}
"""When each is asked for."""
