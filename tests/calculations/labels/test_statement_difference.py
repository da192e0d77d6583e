"""The recipe against the label in use: what is left off first."""

from typing import Any

import pytest

from service.calculations.labels.labelling.comparing import LabelDifference
from service.rules.book import RuleBook
from tests.calculations.labels.asking import required, told
from tests.calculations.labels.statement_bodies import line, parts, recipe

LINES = (
    line("pork shoulder", 5000, animal="pork"),
    line("water", 400),
    line("binder", 200, sub_ingredients=parts("wheat flour", "whey")),
    line("salt", 90),
    line("garlic", 30),
)
RIGHT = {
    "version": "7",
    "ingredients": ["Pork shoulder", "water", "binder (wheat flour, whey)", "Salt", "garlic"],
    "allergens": ["wheat", "milk"],
    "items": [],
}


def difference(book: RuleBook, *lines: dict[str, Any], place: str = "US", **label: Any) -> LabelDifference:
    """The difference of a label that is right but for what is stated."""
    answer = told(recipe(*(lines or LINES), place=place, label_in_use={**RIGHT, **label}), book)
    assert answer.difference is not None
    return answer.difference


def test_a_label_that_says_the_same_is_met(book: RuleBook):
    """In whatever letters, with or without what stands in parentheses."""
    told_of = difference(book)

    assert (told_of.verdict, told_of.missing, told_of.extra, told_of.out_of_order) == ("met", (), (), ())


def test_an_allergen_that_is_left_off_is_not_met(book: RuleBook):
    """It is named with the way it came in, and the law on allergens is not met."""
    answer = told(recipe(*LINES, label_in_use={**RIGHT, "allergens": ["wheat"]}), book)

    assert answer.difference is not None
    assert [(one.allergen, one.came_from[0].path) for one in answer.difference.left_off] == [
        ("milk", ("binder", "whey"))
    ]
    assert required(answer, "allergens").code == "allergen_left_off"


def test_an_allergen_that_was_not_found_is_said_carefully(book: RuleBook):
    """Not in what was stated is no reason to take it off; and it does not make the label wrong."""
    told_of = difference(book, allergens=["wheat", "milk", "soybeans"])

    assert [(one.allergen, one.code) for one in told_of.not_found] == [("soybeans", "not_in_what_was_stated")]
    assert told_of.verdict == "met"


def test_what_stays_open_cannot_be_excluded(book: RuleBook):
    """With a seasoning of unknown composition the label is neither right nor wrong."""
    told_of = difference(
        book, *LINES, line("seasoning", 20), allergens=["wheat", "milk", "soybeans"],
        ingredients=[*RIGHT["ingredients"], "seasoning"],
    )  # fmt: skip

    assert [one.code for one in told_of.not_found] == ["cannot_be_excluded"]
    assert told_of.verdict == "cannot_tell"


def test_what_is_missing_and_what_is_extra_is_named(book: RuleBook):
    """As the recipe has it, and as the label has it."""
    told_of = difference(book, ingredients=["pork shoulder", "water", "binder", "salt", "Black pepper"])

    assert (told_of.missing, told_of.extra) == (("garlic",), ("Black pepper",))
    assert told_of.verdict == "not_met"


def test_what_stands_before_a_heavier_one_is_named(book: RuleBook):
    """Garlic before salt; what is free to stand anywhere is not counted."""
    mixed = ["pork shoulder", "water", "binder", "garlic", "salt"]
    with_clause = told(recipe(*LINES, clause_percent="2", label_in_use={**RIGHT, "ingredients": mixed}), book)

    assert difference(book, ingredients=mixed).out_of_order == ("garlic",)
    assert with_clause.difference is not None
    assert with_clause.difference.out_of_order == ()


def test_equal_weights_are_never_out_of_order(book: RuleBook):
    """Either may come first."""
    lines = (line("salt", 30), line("garlic", 30))

    assert difference(book, *lines, ingredients=["garlic", "salt"]).out_of_order == ()


def test_joined_meats_are_read_one_by_one(book: RuleBook):
    """In the order that the label has them."""
    lines = (line("lamb", 400, animal="lamb"), line("pork", 500, animal="pork"), line("water", 10))
    label = {**RIGHT, "ingredients": ["Lamb and pork", "water"], "allergens": []}

    answer = told(recipe(*lines, join_meats=True, label_in_use=label), book)

    assert answer.difference is not None
    assert answer.difference.verdict == "met"


def test_europe_wants_its_own_allergens(book: RuleBook):
    """A label that names wheat and milk names no cereal with gluten by the European list: it is left off."""
    told_of = difference(book, place="EU")

    assert [one.allergen for one in told_of.left_off] == ["gluten_cereals"]


@pytest.mark.parametrize("place", ["CA", "CODEX", "AU-NZ"])
def test_without_a_list_everything_found_is_held_against_the_label(place: str, book: RuleBook):
    """An allergen that is in and not on the label is told, whatever law there is."""
    told_of = difference(book, place=place, allergens=["wheat", "gluten_cereals"])

    assert [one.allergen for one in told_of.left_off] == ["milk"]


def test_additives_are_found_by_their_name(book: RuleBook):
    """A label writes the category before the name and the number after it."""
    lines = (line("pork", 900), line("sodium ascorbate", 4))

    told_of = difference(
        book, *lines, place="EU", ingredients=["pork", "antioxidant: sodium ascorbate (E 301)"], allergens=[]
    )

    assert told_of.verdict == "met"
