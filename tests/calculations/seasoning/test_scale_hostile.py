"""Extremes, doubles and strange letters; and proofs that can fail."""

import json
from copy import deepcopy
from typing import Any

import pytest
from pydantic import ValidationError

from service.calculations.seasoning.scale import ScaleRequest, scale
from service.quantities.models import written
from service.rules.book import RuleBook
from tests.calculations.seasoning.scale_bodies import amount, limiting, line, meat_at_hand, recipe, vessel
from tests.calculations.seasoning.scale_proofs import faults_of_answer
from tests.calculations.seasoning.scale_refusals import PROOFS, faults_of_refusal

SALT = line("table-salt", 90, "g")


def told(book: RuleBook, body: dict[str, Any]) -> dict[str, Any]:
    """The answer as it is sent."""
    return dict(json.loads(written(scale(ScaleRequest.model_validate(body), book))))


@pytest.mark.parametrize(
    "body",
    [
        recipe(line("table-salt", 1e6, "gal"), at_hand=[meat_at_hand(0.001, "g")], meat=amount(1e6, "lb")),
        recipe(line("table-salt", 0.001, "ml"), at_hand=[meat_at_hand(1e6, "lb")], meat=amount(0.001, "g")),
        recipe(line("garlic-clove", 100_000), at_hand=[limiting("garlic-clove", 0.01)]),
        recipe(line("water", 0.001, "g"), at_hand=[vessel(1e6, headspace_percent=50)], scale_step=amount(1e6, "lb")),
        recipe(*[SALT] * 60, at_hand=[limiting("table-salt", 1, "cup")], scale_step=amount(0.001, "g")),
        recipe(
            line("\u00dcberrub \U0001f336 \u8fa3", 9, "g"), at_hand=[limiting("\u00fcberrub \U0001f336 \u8fa3", 3, "g")]
        ),
        recipe(line("the meat", 9, "g"), at_hand=[limiting("the meat", 3, "g"), meat_at_hand(9)]),
        recipe(line("x", 9, "g", label={"salt_percent": 0}), at_hand=[meat_at_hand(5)]),
        recipe(line("water", 1, "l", label={"sodium_mg_per_100g": 40_000}), at_hand=[meat_at_hand(5)]),
    ],
)
def test_the_edges_are_answered_and_proved(book: RuleBook, body: dict[str, Any]):
    """Least and most of everything, sixty times one line, letters of all kinds, an ingredient called the meat."""
    assert faults_of_answer(body, told(book, body)) == []


@pytest.mark.parametrize(
    "change",
    [
        {"lines": []},
        {"lines": [SALT] * 61},
        {"at_hand": []},
        {"at_hand": [meat_at_hand(1)] * 21},
        {"meat": amount(0, "kg")},
        {"meat": amount(float("nan"), "kg")},
        {"meat": amount(1, "cup")},
        {"lines": [line("table-salt", -1, "g")]},
        {"lines": [line("table-salt", 0)]},
        {"lines": [line("table-salt", 1, "pinch")]},
        {"lines": [{**SALT, "label": {"salt_percent": 101}}]},
        {"lines": [{**SALT, "label": {"salt_percent": 1, "sodium_mg_per_100g": 1}}]},
        {"lines": [{**SALT, "label": {}}]},
        {"lines": [{**SALT, "label": None}]},
        {"lines": [{**SALT, "nitrite": 6.25}]},
        {"lines": [{**SALT, "ingredient": "table\u200bsalt"}]},
        {"lines": [{**SALT, "ingredient": ""}]},
        {"at_hand": [{"kind": "meat", "weight": amount(1, "kg"), "ingredient": "salt"}]},
        {"at_hand": [{"kind": "oven", "weight": amount(1, "kg")}]},
        {"at_hand": [vessel(1, headspace_percent=51)]},
        {"scale_step": None},
    ],
)
def test_what_is_outside_the_contract_is_no_request(change: dict[str, Any]):
    """The schema says it."""
    with pytest.raises(ValidationError):
        ScaleRequest.model_validate(recipe(SALT, at_hand=[meat_at_hand(1)]) | change)


@pytest.mark.parametrize(
    ("way", "value"),
    [
        (["factor_ratio"], 0.41),
        (["lines", 0, "weight", "high"], 37.0),
        (["lines", 0, "weight", "low"], 35.5),
        (["lines", 0, "percent_of_meat", "typical_percent"], 0.8),
        (["lines", 1, "salt"], None),
        (["lines", 1, "salt", "high"], 9.0),
        (["lines", 2, "nearest_measure", "value"], 3.0),
        (["lines", 0, "nearest_measure"], {"value": 2.0, "unit": "tbsp", "off_percent": 0.0}),
        (["lines", 2, "to_weigh", "value"], 0.3),
        (["lines", 2, "to_weigh"], None),
        (["meat", "value"], 2001.0),
        (["weight", "high"], 2100.0),
        (["salt", "weight", "low"], 42.0),
        (["salt", "weight", "high"], None),
        (["salt", "of_others", "typical"], 3.0),
        (["salt", "sodium", "typical"], 30.0),
        (["salt", "verdict"], "cannot_tell"),
        (["limits", 0, "governs"], False),
        (["limits", 1, "left_over", "high"], 0.1),
        (["limits", 1, "factor", "high_ratio"], 1.0),
    ],
)
def test_a_false_figure_is_found(book: RuleBook, way: list[Any], value: Any):
    """Every kind of figure, wrong once, is named."""
    lines = [line("table-salt", 5, "tbsp"), line("bouillon", 24, "g"), line("mace-ground", 3, "tsp")]
    body = recipe(*lines, at_hand=[meat_at_hand(2), limiting("bouillon", 18, "g")], scale_step=amount(0.1, "g"))
    true = told(book, body)
    false = deepcopy(true)
    below = false
    for part in way[:-1]:
        below = below[part]
    below[way[-1]] = value

    assert faults_of_answer(body, true) == []
    assert faults_of_answer(body, false) != []


@pytest.mark.parametrize("code", [*PROOFS, "because"])
def test_a_refusal_that_is_not_true_is_found(code: str):
    """The proof fails for a plain recipe, whatever the code."""
    body = recipe(line("mace-ground", 5, "g"), at_hand=[meat_at_hand(2)])

    assert faults_of_refusal(body, {"code": code, "nearest": "Something."}) != []
