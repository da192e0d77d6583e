"""What else the label has to say: each statement with its words, its law, and whether the label in use has it."""

from collections.abc import Callable
from typing import Literal, NamedTuple

from service.calculations.labels.labelling.comparing import LabelDifference
from service.calculations.labels.labelling.composition import Contents
from service.calculations.labels.labelling.ordering import Entry
from service.calculations.labels.labelling.recipe import LabelInUse, LabelledLine, LabelledProduct
from service.calculations.labels.labelling.solution import Solution, designation_of
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
    "word_not_used", "barred_word", "not_all_compared", "meat_not_stated", "game_is_in",
    "nitrite_is_in",
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
    "not_all_compared": "What was stated of the label does not show all that the law asks for: see not_compared.",
    "meat_not_stated": "No line says which animal the meat is of, so that the share cannot be reckoned.",
    "nitrite_is_in": "Nitrite or nitrate is in: the label must not say so.",
    "game_is_in": "Game need not be inspected: the words hold only where all the meat was inspected and passed.",
}
"""What each code of a statement means."""


GAME, UNCURED = "game", "uncured"
NO_NITRITE = ("uncured", "no_nitrite_added", "not_preserved")
"""Words for what was made without nitrite."""
OF_KINDS = ("kinds_not_stated", "kind_not_found")
OF_ALLERGENS = (*OF_KINDS, "usual_not_in_parts", "not_read")
"""What keeps it from being told whether the label names every allergen, and nothing that is not in."""
OF_LIST = ("missing", "extra", "out_of_order", "allergens_not_named", "names_not_used")
"""Where a difference is one of the list itself."""
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
    sulphites: Certainty
    """Whether sulphites have to be named apart from any list of allergens."""
    solution: Solution | None
    """What was added to the meat; null where nothing was or it cannot be reckoned."""


def required_of(case: Case, rules: tuple[LabelRule, ...], *, full: bool) -> tuple[RequiredStatement, ...]:
    """Every statement that is asked for, or that may be."""
    told = []
    for rule in rules:
        if rule.item is not None:
            asked = ASKED[rule.item](case)
            if asked != "no":
                told.append(_told(rule, rule.item, asked, case, full=full))
    return tuple(told)


def with_required(difference: LabelDifference, required: tuple[RequiredStatement, ...]) -> LabelDifference:
    """What hangs on the ingredients and is wanted beside the list counts as a difference."""
    items = tuple(
        dict.fromkeys(one.item for one in required if one.item in OF_COMPOSITION and one.verdict == "not_met")
    )
    if not items:
        return difference
    return difference.model_copy(update={"required_items": items, "verdict": "not_met"})


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
    if item in NO_NITRITE and "nitrite" in case.contents.cures:
        return "not_met", "nitrite_is_in"
    if item == "added_solution" and case.solution is None:
        return "cannot_tell", "meat_not_stated"
    if item == "raw_handling" and _has_game(case):
        return "cannot_tell", "game_is_in"
    if case.label is None or case.difference is None:
        return "cannot_tell", "no_label_stated"
    if item == "ingredients":
        return _of_list(case.difference, case.contents)
    if item == "allergens":
        return _of_allergens(case.difference, case.allergens)
    if item == "allergens_emphasised" and case.difference.allergens_not_named:
        return "not_met", "allergen_left_off"
    if item == "additives_by_category":
        return _of_additives(case.difference, is_on_label=item in case.label.items)
    return ("met", "on_label") if item in case.label.items else ("not_met", "not_on_label")


def _of_list(difference: LabelDifference, contents: Contents) -> tuple[Verdict, RequiredCode]:
    if any(getattr(difference, name) for name in OF_LIST):
        return "not_met", "differs_from_recipe"
    if any(one.code not in OF_KINDS for one in difference.not_compared):
        return "cannot_tell", "not_all_compared"
    if contents.doubtful:
        return "cannot_tell", "composition_open"
    return "met", "same_as_recipe"


def _of_additives(difference: LabelDifference, *, is_on_label: bool) -> tuple[Verdict, RequiredCode]:
    if difference.names_not_used:
        return "not_met", "differs_from_recipe"
    if any(one.code == "other_function" for one in difference.not_compared):
        return "cannot_tell", "not_all_compared"
    return ("met", "on_label") if is_on_label else ("not_met", "not_on_label")


def _of_allergens(difference: LabelDifference, statement: AllergenStatement) -> tuple[Verdict, RequiredCode]:
    if difference.left_off or difference.kinds_left_off or difference.allergens_not_named:
        return "not_met", "allergen_left_off"
    if any(one.code in OF_ALLERGENS for one in difference.not_compared):
        return "cannot_tell", "not_all_compared"
    return ("cannot_tell", "composition_open") if statement.verdict == "cannot_tell" else ("met", "all_named")


def _words(rule: LabelRule, item: LabelItem, case: Case) -> tuple[str, ...]:
    if item == "added_solution":
        return (designation_of(case.solution, case.contents.place, case.lines),) if case.solution else ()
    if item in NO_NITRITE and "nitrite" in case.contents.cures:
        return ()
    if item == "uncured":
        has_it = folded(case.product.name).startswith(folded(rule.quoted[0]))
        return (case.product.name if has_it else f"{rule.quoted[0]} {case.product.name}",)
    if item == "no_nitrite_added":
        sources = list(dict.fromkeys(case.contents.natural_sources))
        return (
            rule.quoted[0] + (f" except for those naturally occurring in {' and '.join(sources)}" if sources else ""),
        )
    if item == "species":
        return _kinds_of_meat(case)
    if item == "raw_handling" and _has_game(case):
        return ()
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


def _says_uncured(case: Case) -> Certainty:
    """The name may say so as well."""
    is_said = UNCURED in folded(case.product.name).split() and "nitrite" in case.contents.cures
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


def _has_game(case: Case) -> bool:
    """By what is stated of it, or by its name: venison is game also where another animal is stated."""
    return any(line.animal == GAME for line in case.lines) or any(facts.is_game for facts in case.contents.facts)


def _kinds_of_meat(case: Case) -> tuple[str, ...]:
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
    if len(_kinds_of_meat(case)) < 2 or case.product.kind in ("whole_piece", "other"):
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
