"""The page on labels tells what the service answers."""

import json
import re
from pathlib import Path

import pytest

from service.calculations.labels.labelling.requiring import MESSAGES
from service.calculations.labels.statement import STATEMENT, StatementAnswer, StatementRequest, statement
from service.rules.book import RuleBook
from service.rules.loader import load_book

PAGE = (Path(__file__).parents[2] / "docs/label-statement.md").read_text("utf-8")
BODIES = [json.loads(body) for body in re.findall(r"-d '(\{.*?\})'", PAGE, re.DOTALL)]


@pytest.fixture(scope="module")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("pages")


@pytest.fixture(scope="module")
def answers(book: RuleBook) -> list[StatementAnswer]:
    """The answers to the three commands."""
    return [statement(StatementRequest.model_validate(body), book) for body in BODIES]


def test_a_bought_seasoning_keeps_the_statement_from_being_told(answers: list[StatementAnswer]):
    """Milk is found, wheat is asked for first, and the list can be told."""
    bag = answers[0]

    assert (bag.allergen_statement.verdict, bag.allergen_statement.found) == ("cannot_tell", ("milk",))
    assert [(one.path, one.usually_brings_in[0]) for one in bag.open_ingredients] == [(("seasoning",), "wheat")]
    assert bag.ingredient_statement.removeprefix("Ingredients: ").lower() in PAGE.lower()


def test_the_label_in_use_leaves_wheat_off(answers: list[StatementAnswer]):
    """Wheat with its way, soybeans carefully, tree nuts open, and no fault of order in the clause."""
    label = answers[1]
    assert label.difference is not None

    assert label.allergen_statement.found == ("milk", "wheat")
    assert label.open_ingredients[0].may_bring_in == ("tree_nuts",)
    assert "seasoning > rusk > wheat flour" in [" > ".join(one.path) for one in label.difference.left_off[0].came_from]
    assert [one.code for one in label.difference.not_found] == ["not_in_what_was_stated"]
    assert label.difference.out_of_order == ()
    assert [one.code for one in label.difference.not_compared] == ["parts_not_on_label", "usual_not_in_parts"]
    assert label.ingredient_statement.partition("water. ")[2] in PAGE


def test_what_venison_may_not_say_is_left_to_ask(answers: list[StatementAnswer]):
    """And the words on cold are on the label."""
    said = {one.item: one.code for one in answers[1].required}

    assert (said["raw_handling"], said["keep_cold"]) == ("game_is_in", "on_label")
    assert answers[1].allergen_statement.not_listed == ("celery", "mustard")


def test_the_european_list_is_printed_as_it_is_told(answers: list[StatementAnswer]):
    """Letter by letter, and complete."""
    assert f"> {answers[2].ingredient_statement}" in PAGE
    assert answers[2].allergen_statement.verdict == "contains"


def test_every_reason_is_on_the_page():
    """Each way in which there is no answer has its line, and no other."""
    assert set(re.findall(r"^- `(\w+)`: ", PAGE.partition("## When there is no answer")[2], re.MULTILINE)) == set(
        STATEMENT.reasons
    )


def test_every_code_is_published():
    """GET /v1/calculations tells what each code means, of open ingredients and of statements."""
    assert MESSAGES.keys() <= STATEMENT.codes.keys()
    assert {"unknown_word", "rest_not_stated"} <= STATEMENT.codes.keys()
