"""What else the label has to say: each statement with its words, its law, and whether the label in use has it."""

from collections.abc import Callable
from typing import Literal, NamedTuple

from service.calculations.labels.labelling.comparing import LabelDifference
from service.calculations.labels.labelling.composition import Contents
from service.calculations.labels.labelling.ordering import Entry
from service.calculations.labels.labelling.recipe import LabelInUse, LabelledLine, LabelledProduct
from service.calculations.labels.labelling.telling import AllergenStatement
from service.quantities.models import Answer, made
from service.rules.checker import Verdict
from service.rules.label_rule import LabelRule
from service.rules.spelling import folded
from service.rules.vocabulary import Evidence, LabelItem, Operator

Certainty = Literal["yes", "no", "cannot_tell"]
RequiredCode = Literal[
    "on_label", "not_on_label", "no_label_stated", "recalled_only", "not_known_whether_asked",
    "same_as_recipe", "differs_from_recipe", "all_named", "allergen_left_off", "composition_open",
    "word_not_used", "barred_word",
]  # fmt: skip

MESSAGES: dict[str, str] = {
    "on_label": "The label in use has it, as stated.",
    "not_on_label": "The label in use has it not, as stated.",
    "no_label_stated": "No label in use was stated to hold it against.",
    "recalled_only": "The law is known from memory alone: read it before you rely on it.",
    "not_known_whether_asked": "Too little was stated to tell whether it is asked for.",
    "same_as_recipe": "The label in use lists what the recipe has, in its order.",
    "differs_from_recipe": "The list on the label in use differs from the recipe.",
    "all_named": "The label in use names every listed allergen that was found.",
    "allergen_left_off": "The label in use leaves an allergen off that the recipe brings in.",
    "composition_open": "It cannot be told what some ingredient consists of.",
    "word_not_used": "The name does not have the word.",
    "barred_word": "The name has the word, which is barred.",
}
"""What each code of a statement means."""


US_ALLERGENS = "us-allergens"
"""Only this law knows a statement beside the list."""


class RequiredStatement(Answer):
    """One statement that the law asks for."""

    rule: str
    """Id of the rule in this project's data."""
    item: LabelItem
    """The word for it, as label_in_use has it."""
    verdict: Verdict
    """Whether the label in use, as stated, has it."""
    asked_for: Literal["yes", "cannot_tell"]
    """Whether it is asked for of this product."""
    binds: Certainty
    """Whether the law binds this operator."""
    text: str
    """What is asked for."""
    words: tuple[str, ...]
    """The words to be printed, where the law or the recipe sets them."""
    where: str
    """Where it goes."""
    citation: str
    """Where that is printed."""
    evidence: Evidence
    """How that is known."""
    text_as_of: str | None
    """Date of the text that was read."""
    code: RequiredCode
    """Stable code of the verdict."""
    message: str
    """The same in a sentence."""
    note: str
    """What else should be known; empty in brief."""


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
    solution: tuple[str, ...]
    """The name with its added solution; empty where there is none or it cannot be reckoned."""


def required_of(case: Case, rules: tuple[LabelRule, ...], *, full: bool) -> tuple[RequiredStatement, ...]:
    """Every statement that is asked for, or that may be."""
    told = []
    for rule in rules:
        if rule.item is not None:
            asked = ASKED[rule.item](case)
            if asked != "no":
                told.append(_told(rule, rule.item, asked, case, full=full))
    return tuple(told)


def _told(rule: LabelRule, item: LabelItem, asked: Certainty, case: Case, *, full: bool) -> RequiredStatement:
    verdict, code = _verdict(rule, item, asked, case)
    return made(
        RequiredStatement,
        rule=rule.id,
        item=item,
        verdict=verdict,
        asked_for=asked,
        binds="no" if case.operator == "home" else "yes" if case.operator in rule.audience else "cannot_tell",
        text=rule.text,
        words=_words(rule, item, case),
        where=rule.where,
        citation=rule.citation,
        evidence=rule.evidence,
        text_as_of=rule.text_as_of,
        code=code,
        message=MESSAGES[code],
        note=rule.note if full else "",
    )


def _verdict(rule: LabelRule, item: LabelItem, asked: Certainty, case: Case) -> tuple[Verdict, RequiredCode]:
    if asked == "cannot_tell":
        return ("cannot_tell", "composition_open" if item in OF_COMPOSITION else "not_known_whether_asked")
    if rule.evidence == "recalled":
        return "cannot_tell", "recalled_only"
    if item == "no_word_enhanced":
        return ("not_met", "barred_word") if _is_enhanced(case) else ("met", "word_not_used")
    if case.label is None or case.difference is None:
        return "cannot_tell", "no_label_stated"
    if item == "ingredients":
        return _of_list(case.difference)
    if item == "allergens":
        return _of_allergens(case.difference, case.allergens)
    return ("met", "on_label") if item in case.label.items else ("not_met", "not_on_label")


def _of_list(difference: LabelDifference) -> tuple[Verdict, RequiredCode]:
    if difference.missing or difference.extra or difference.out_of_order:
        return "not_met", "differs_from_recipe"
    return "met", "same_as_recipe"


def _of_allergens(difference: LabelDifference, statement: AllergenStatement) -> tuple[Verdict, RequiredCode]:
    if difference.left_off:
        return "not_met", "allergen_left_off"
    return ("cannot_tell", "composition_open") if statement.verdict == "cannot_tell" else ("met", "all_named")


def _words(rule: LabelRule, item: LabelItem, case: Case) -> tuple[str, ...]:
    if item == "added_solution":
        return case.solution
    if item == "uncured":
        return (f"{rule.quoted[0]} {case.product.name}",)
    if item == "no_nitrite_added":
        sources = list(dict.fromkeys(case.contents.natural_sources))
        return (
            rule.quoted[0] + (f" except for those naturally occurring in {' and '.join(sources)}" if sources else ""),
        )
    if item == "species":
        return tuple(dict.fromkeys(line.animal for line in case.lines if line.animal is not None))
    if item == "keep_cold" and case.product.kept is not None:
        return tuple(one for one in rule.quoted if case.product.kept in one.lower())
    if item == "allergens" and case.allergens.text and rule.id == US_ALLERGENS:
        return (case.allergens.text,)
    return rule.quoted


def _is_enhanced(case: Case) -> bool:
    return "enhanced" in folded(case.product.name).split()


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


def _uncured(case: Case) -> Certainty:
    """A product that is usually made with nitrite, without any: only where nothing may bring it in unseen."""
    if "nitrite" in case.contents.cures or case.product.standard in ("none", "without_nitrite"):
        return "no"
    return "yes" if case.product.standard == "with_nitrite" and not case.contents.doubtful else "cannot_tell"


def _cold(case: Case) -> Certainty:
    kept = case.product.kept
    return "cannot_tell" if kept is None else "no" if kept == "shelf_stable" else "yes"


def _raw(case: Case) -> Certainty:
    state = case.product.state
    return "cannot_tell" if state is None else "no" if state == "ready_to_eat" else "yes"


def _species(case: Case) -> Certainty:
    animals = {line.animal for line in case.lines if line.animal is not None}
    if len(animals) < 2 or case.product.kind in ("whole_piece", "other"):
        return "no"
    return "yes" if case.product.kind == "sausage" else "cannot_tell"


def _additives(case: Case) -> Certainty:
    return "yes" if case.contents.with_additive else "cannot_tell" if case.contents.doubtful else "no"


OF_COMPOSITION = frozenset(("allergens", "allergens_emphasised", "additives_by_category"))
"""Whether these are asked for hangs on what is in it."""

ASKED: dict[LabelItem, Callable[[Case], Certainty]] = {
    "ingredients": _ingredients,
    "allergens": _allergens,
    "allergens_emphasised": _allergens,
    "added_solution": _solution,
    "no_word_enhanced": _solution,
    "uncured": _uncured,
    "no_nitrite_added": _uncured,
    "not_preserved": _uncured,
    "keep_cold": _cold,
    "raw_handling": _raw,
    "species": _species,
    "additives_by_category": _additives,
}
"""When each is asked for."""
