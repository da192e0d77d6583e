"""Nuts, cereals, fish and crustaceans by their kind, and what exists although a list does not have it."""

import pytest

from service.rules.book import RuleBook
from tests.calculations.labels.asking import told, verdicts
from tests.calculations.labels.statement_bodies import line, parts, recipe, specified

PORK = line("pork shoulder", 5000, animal="pork")


@pytest.mark.parametrize(
    ("name", "place", "is_asked"),
    [
        ("fish", "US", True), ("fish", "EU", False), ("anchovies", "US", False), ("nuts", "US", True),
        ("nuts", "EU", True), ("hazelnuts", "EU", False), ("wheat flour", "EU", False), ("surimi", "US", True),
    ],
)  # fmt: skip
def test_without_its_kind_the_statement_is_not_final(name: str, place: str, is_asked: bool, book: RuleBook):
    """FALCPA, section 203: nuts, fish and crustaceans by kind; Annex II: the nut and the cereal."""
    answer = told(recipe(PORK, line(name, 30), place=place), book)

    assert ("kind_not_named" in [one.code for one in answer.open_ingredients]) == is_asked
    assert not is_asked or (answer.allergen_statement.verdict, answer.allergen_statement.text) == ("cannot_tell", None)


@pytest.mark.parametrize(
    ("declared", "place", "is_asked"),
    [
        (["tree_nuts"], "US", True), (["gluten_cereals"], "EU", True), (["gluten_cereals", "wheat"], "EU", False),
        (["milk"], "US", False), (["fish"], "EU", False),
    ],
)  # fmt: skip
def test_a_specification_that_names_no_kind_is_asked_for_it(
    declared: list[str], place: str, is_asked: bool, book: RuleBook
):
    """Its ids are groups; wheat is a kind."""
    by_list = "EU" if place == "EU" else "US"
    seasoning = line("seasoning", 30, specification=specified(*declared, by_list=by_list))

    answer = told(recipe(PORK, seasoning, place=place), book)

    assert ("kind_not_named" in [one.code for one in answer.open_ingredients]) == is_asked


def test_a_part_names_the_kind_of_the_whole(book: RuleBook):
    """Fish sauce is of fish; its anchovies say of which."""
    answer = told(recipe(PORK, line("fish sauce", 30, sub_ingredients=parts("anchovies", "salt"))), book)

    assert answer.allergen_statement.text == "Contains: fish (anchovy)."


def test_shellfish_may_be_clams_alone(book: RuleBook):
    """The word is used of both: neither is in, neither is excluded."""
    answer = told(recipe(PORK, line("shellfish powder", 30)), book)

    assert {verdicts(answer)[one] for one in ("crustaceans", "molluscs")} == {"cannot_tell"}
    assert answer.allergen_statement.text is None


@pytest.mark.parametrize(
    ("name", "place", "said"),
    [
        ("black walnuts", "EU", "tree nuts (black walnut)"), ("pine nuts", "EU", "tree nuts (pine nut)"),
        ("chestnuts", "US", "tree nuts (chestnut)"), ("hickory nuts", "US", "tree nuts (hickory nut)"),
        ("coconut", "US", "tree nuts (coconut)"),
    ],
)  # fmt: skip
def test_a_nut_that_a_list_does_not_have_is_told_beside_the_statement(name: str, place: str, said: str, book: RuleBook):
    """It is in, with the way it came; the law of the place does not ask for it; a caution says what to do."""
    answer = told(recipe(PORK, line(name, 30), place=place), book)

    nuts = next(one for one in answer.allergens if one.allergen == "tree_nuts")
    assert (nuts.verdict, nuts.to_be_named, [one.counts for one in nuts.came_from]) == ("contains", "no", [False])
    assert (answer.allergen_statement.verdict, answer.allergen_statement.not_listed) == ("does_not_contain", (said,))
    assert "found-not-listed" in [one.id for one in answer.cautions]


def test_a_listed_nut_is_told_apart_from_one_that_is_not(book: RuleBook):
    """Almonds are named, black walnuts are told beside them."""
    answer = told(recipe(PORK, line("almonds", 30), line("black walnuts", 20), place="EU"), book)

    assert answer.allergen_statement.found == ("tree nuts (almond)",)
    assert answer.allergen_statement.not_listed == ("tree nuts (black walnut)",)
    assert answer.ingredient_statement == "Ingredients: pork shoulder, ALMONDS, black walnuts."


def test_beside_an_open_ingredient_the_listed_nuts_stay_open(book: RuleBook):
    """Coconut excludes no almond."""
    answer = told(recipe(PORK, line("coconut", 30), line("seasoning", 20)), book)

    nuts = next(one for one in answer.allergens if one.allergen == "tree_nuts")
    assert (nuts.to_be_named, answer.allergen_statement.verdict) == ("cannot_tell", "cannot_tell")


def test_every_cereal_and_every_nut_of_the_lists_has_its_kind(book: RuleBook):
    """A word that brings in gluten says of which cereal."""
    rows = [one for one in book.substances.values() if "gluten_cereals" in one.carries]

    assert [one.id for one in rows if not one.says] == []
