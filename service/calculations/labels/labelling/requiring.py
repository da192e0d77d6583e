"""What else the label has to say: each statement with its words, its law, and whether the label in use has it."""

from typing import Literal

from service.calculations.labels.labelling.comparing import LabelDifference
from service.calculations.labels.labelling.composition import Contents
from service.calculations.labels.labelling.solution import designation_of
from service.calculations.labels.labelling.telling import AllergenStatement
from service.calculations.labels.labelling.wanting import (
    ASKED,
    OF_COMPOSITION,
    Case,
    Certainty,
    has_game,
    kinds_of_meat,
)
from service.quantities.models import Answer, made
from service.rules.checker import Verdict
from service.rules.label_rule import LabelRule
from service.rules.spelling import folded
from service.rules.vocabulary import Evidence, LabelItem

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
    return made(LabelDifference, **{**vars(difference), "required_items": items, "verdict": "not_met"})


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
    if item == "raw_handling" and has_game(case):
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
        return kinds_of_meat(case)
    if item == "raw_handling" and has_game(case):
        return ()
    if item == "keep_cold" and case.product.kept is not None:
        return tuple(one for one in rule.quoted if case.product.kept in one.lower())
    if item == "allergens" and case.allergens.text and rule.id == US_ALLERGENS:
        return (case.allergens.text,)
    return rule.quoted


def _is_enhanced(case: Case) -> bool:
    return "enhanced" in folded(case.product.name).split()
