"""The proof itself: an answer with one thing changed is found out."""

import json
from collections.abc import Callable
from typing import Any

import pytest

from service.quantities.models import written
from service.rules.book import RuleBook
from tests.calculations.labels.asking import told
from tests.calculations.labels.statement_bodies import line, parts, recipe
from tests.calculations.labels.statement_proofs import faults_of_refusal, faults_of_statement

LABEL = {"version": "1", "ingredients": ["pork", "binder"], "allergens": [], "items": []}
BODY = recipe(
    line("pork", 900, animal="pork"), line("binder", 80, sub_ingredients=parts("whey", "spices")), line("salt", 15),
    clause_percent="2", label_in_use=LABEL,
)  # fmt: skip


def turn_a_verdict(answer: dict[str, Any]) -> None:
    answer["allergens"][0]["verdict"] = "does_not_contain"


def close_what_is_open(answer: dict[str, Any]) -> None:
    answer["allergens"][1]["verdict"] = "does_not_contain"


def complete_the_statement(answer: dict[str, Any]) -> None:
    answer["allergen_statement"]["verdict"] = "contains"


def change_places(answer: dict[str, Any]) -> None:
    answer["ingredients"].reverse()


def drop_a_line(answer: dict[str, Any]) -> None:
    answer["ingredients"].pop()


def change_a_share(answer: dict[str, Any]) -> None:
    answer["ingredients"][0]["percent"] += 0.01


def put_too_much_in_the_clause(answer: dict[str, Any]) -> None:
    answer["ingredients"][1]["in_clause"] = True


def change_the_text(answer: dict[str, Any]) -> None:
    answer["ingredient_statement"] = "Ingredients: pork."


def forgive_what_was_left_off(answer: dict[str, Any]) -> None:
    answer["difference"]["left_off"] = []


def take_it_off_the_list(answer: dict[str, Any]) -> None:
    answer["allergens"][0]["listed"] = "no"


def pass_from_memory(answer: dict[str, Any]) -> None:
    answer["required"][0] |= {"evidence": "recalled", "verdict": "met"}


CHANGES = (
    turn_a_verdict, close_what_is_open, complete_the_statement, change_places, drop_a_line, change_a_share,
    put_too_much_in_the_clause, change_the_text, forgive_what_was_left_off, take_it_off_the_list, pass_from_memory,
)  # fmt: skip


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.__name__)
def test_a_changed_answer_is_found_out(change: Callable[[dict[str, Any]], None], book: RuleBook):
    """The answer is proved as it is, and no longer once it is changed."""
    answer = json.loads(written(told(BODY, book)))
    assert faults_of_statement(BODY, answer) == []

    change(answer)

    assert faults_of_statement(BODY, answer) != []


@pytest.mark.parametrize(
    "code",
    [
        "unknown_ingredient",
        "percents_over_whole",
        "too_many_parts",
        "united_states_only",
        "meats_not_joined",
        "too_warm",
    ],
)
def test_an_untrue_refusal_is_found_out(code: str):
    """Nothing is wrong with the recipe."""
    assert faults_of_refusal(BODY, {"code": code}) != []
