"""Recipes that nobody writes: very long, very deep, very small, very large, and in any letters."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from service.calculations.refusals import Impossible
from service.quantities.models import PRINTABLE, written
from service.rules.book import RuleBook
from tests.calculations.labels.asking import told, verdicts
from tests.calculations.labels.statement_bodies import line, parts, recipe, specified
from tests.calculations.labels.statement_proofs import faults_of_statement
from tests.calculations.labels.test_statement_properties import BOOK


def refused(body: dict[str, Any], book: RuleBook) -> bool:
    """Whether the contract refuses a body."""
    try:
        told(body, book)
    except ValidationError:
        return True
    return False


@settings(max_examples=80, deadline=None)
@given(st.from_regex(PRINTABLE, fullmatch=True), st.sampled_from(["US", "EU", "CA"]))
def test_any_letters_are_answered(name: str, place: str):
    """Signs, other scripts, hidden letters: told in the list, and never none where they are not known."""
    answer = told(recipe(line(name, 10), place=place), BOOK)

    assert len(answer.ingredients) == 1
    assert answer.ingredient_statement.startswith("Ingredients: ")
    assert answer.lines[0].composition in ("known", "cannot_tell")
    json.loads(written(answer))


@pytest.mark.parametrize(
    "names", [("!!", "??"), ("()", "(x)"), ("小麦", "大豆"), ("pepper", "peppers"), ("E 250", "E 252")]
)
def test_two_names_stay_two(names: tuple[str, str], book: RuleBook):
    """However little is left of them once they are compared."""
    answer = told(recipe(*(line(name, 10) for name in names), place="EU"), book)

    assert [one.name for one in answer.ingredients] == list(names)


def test_eighty_lines_of_the_least_and_the_most(book: RuleBook):
    """A thousandth of a gram beside a thousand tonnes: in order, and every line once."""
    lines = [line(f"salt {number}", 0.001 if number % 2 else 1e6) for number in range(80)]
    body = recipe(*lines, clause_percent="0.5")

    answer = json.loads(written(told(body, book)))

    assert faults_of_statement(body, answer) == []


def test_everything_under_the_threshold_is_in_the_clause(book: RuleBook):
    """Sixty equal lines are 1.67 percent each: nothing stands before the clause."""
    answer = told(recipe(*(line(f"paprika {number}", 10) for number in range(10, 70)), clause_percent="2"), book)

    assert answer.ingredient_statement.startswith("Ingredients: Contains 2% or less of: paprika 10, ")


def test_a_label_as_long_as_may_be_is_compared(book: RuleBook):
    """A thousand letters of parentheses and commas, one hundred and twenty times, against a premix of nine hundred."""
    wide = [{"name": f"mix {number}", "sub_ingredients": parts(*["salt"] * 29, "whey")} for number in range(30)]
    written = ["premix (" + "a," * 400 + ")" + "(" * 190, *("(" * 500 + ")" * 500 for _ in range(119))]
    label = {"version": "1", "ingredients": written, "allergens": [], "items": []}

    answer = told(recipe(line("premix", 10, sub_ingredients=wide), label_in_use=label), book)

    assert answer.difference is not None
    assert answer.difference.verdict == "not_met"


def test_a_recipe_as_wide_and_as_deep_as_may_be(book: RuleBook):
    """Thirty parts of thirty parts in one line: each leaf is looked at."""
    wide = [{"name": f"mix {number}", "sub_ingredients": parts(*(["salt"] * 29), "whey")} for number in range(30)]

    answer = told(recipe(line("premix", 10, sub_ingredients=wide)), book)

    assert len(next(one for one in answer.allergens if one.allergen == "milk").came_from) == 30


def test_more_parts_than_are_read_are_refused(book: RuleBook):
    """1,500 ingredients in all are read, one more is refused: work is bounded whatever the body holds."""
    wide = [{"name": f"mix {number}", "sub_ingredients": parts(*["salt"] * 30)} for number in range(30)]
    full = [line("a", 1, sub_ingredients=wide), line("b", 1, sub_ingredients=wide[:18])]
    rest = 1500 - 2 - 30 * 31 - 18 * 31
    last = [{"name": "last", "sub_ingredients": parts(*["salt"] * (rest - 2))}]

    told(recipe(*full, line("c", 1, sub_ingredients=last)), book)

    with pytest.raises(Impossible) as over:
        told(recipe(*full, line("c", 1, sub_ingredients=last), line("rub", 1, sub_ingredients=parts("salt"))), book)
    assert over.value.code == "too_many_parts"


@pytest.mark.parametrize(
    "change",
    [
        {"lines": []},
        {"lines": [line("salt", 1)] * 81},
        {"lines": [line("salt", 0)]},
        {"lines": [line("salt", 1, sub_ingredients=[])]},
        {"lines": [line("salt", 1, animal="fish")]},
        {"lines": [line("salt", 1, specification=specified("nuts"))]},
        {"lines": [line("", 1)]},
        {"lines": [line("a\u202eb", 1)]},
        {"clause_percent": "3"},
        {"clause_percent": 2},
        {"sulphites_mg_per_kg": -1},
        {"label_in_use": {"version": "1"}},
        {"approved": True},
    ],
)
def test_what_is_outside_the_contract_is_refused(change: dict[str, Any], book: RuleBook):
    """Bounds on every list and number, closed words, no unknown field."""
    assert not refused(recipe(line("salt", 1)), book)
    assert refused(recipe(line("salt", 1)) | change, book)


def test_four_steps_deep_is_outside_the_contract(book: RuleBook):
    """Three steps below a line are the deepest."""
    leaf: list[dict[str, Any]] = parts("salt")
    for name in ("c", "b", "a"):
        leaf = [{"name": name, "sub_ingredients": leaf}]

    assert refused(recipe(line("rub", 1, sub_ingredients=leaf)), book)
    assert not refused(recipe(line("rub", 1, sub_ingredients=leaf[0]["sub_ingredients"])), book)


def test_the_same_allergen_twice_is_once(book: RuleBook):
    """In a specification, on a label, on the equipment."""
    answer = told(recipe(line("rub", 1, specification=specified("milk", "milk")), shared_equipment=["milk"] * 3), book)

    assert len(next(one for one in answer.allergens if one.allergen == "milk").came_from) == 1
    assert len(answer.shared_equipment or ()) == 1


def test_a_book_of_another_day_is_not_mixed_up(book: RuleBook):
    """Sesame of 2022 and of 2023, asked in turns."""
    body = recipe(line("tahini", 10))

    days = [told({**body, "on": on}, book) for on in ("2022-12-31", "2023-01-01", "2022-12-31")]

    assert [one.allergen_statement.verdict for one in days] == ["does_not_contain", "contains", "does_not_contain"]
    assert {verdicts(one)["sesame"] for one in days} == {"contains"}
