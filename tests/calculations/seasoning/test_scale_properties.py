"""What holds of every scaled recipe."""

import json
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.refusals import Impossible
from service.calculations.seasoning.scale import ScaleRequest, _recipe, scale
from service.calculations.seasoning.scaling.reckoning import Recipe
from service.quantities.models import written
from service.rules.book import RuleBook
from tests.calculations.measures.pantry import TEASPOONS, published_teaspoons, rows
from tests.calculations.seasoning.scale_bodies import amount, lawful_body, line, meat_at_hand, recipe
from tests.calculations.seasoning.scale_proofs import faults_of_answer
from tests.calculations.seasoning.scale_refusals import faults_of_refusal

SEEDS = st.integers(min_value=0, max_value=2**32)
SPOONED = sorted(id for id, row in rows().items() if "readings" in row and row["kind"] != "curing_salt")


def reckoned(book: RuleBook, body: dict[str, Any]) -> Recipe:
    """The recipe before anything is rounded."""
    return _recipe(ScaleRequest.model_validate(body), book)


@settings(max_examples=150, deadline=None)
@given(seed=SEEDS)
def test_every_answer_is_proved(book: RuleBook, seed: int):
    """Factor, lines, totals, left-overs and kitchen measures follow from the request and the table as text."""
    body = lawful_body(Random(seed))

    told = json.loads(written(scale(ScaleRequest.model_validate(body), book)))

    assert faults_of_answer(body, told) == []


@settings(max_examples=80, deadline=None)
@given(seed=SEEDS)
def test_a_scaled_recipe_keeps_its_ratios(book: RuleBook, seed: int):
    """Each line and the meat by the same factor, to 1e-12."""
    recipe_g = reckoned(book, lawful_body(Random(seed)))

    ratios = [
        now / was for one in recipe_g.lines for now, was in zip(recipe_g.scaled(one.grams), one.grams, strict=True)
    ]

    assert ratios == pytest.approx([recipe_g.by_ratio] * len(ratios), rel=1e-12)


@settings(max_examples=80, deadline=None)
@given(seed=SEEDS, ratio=st.floats(min_value=1e-3, max_value=1e3))
def test_there_and_back_is_the_start(book: RuleBook, seed: int, ratio: float):
    """A recipe that is scaled, written down by what it weighs, and scaled back, is the recipe."""
    meat_kg, lines = 5.0, [line("salt", 90.0 + seed % 97, "g"), line("mace-ground", 3.3, "g"), line("water", 400, "g")]
    there = reckoned(book, recipe(*lines, at_hand=[meat_at_hand(meat_kg * ratio)]))

    scaled = [line(one.key, there.scaled(one.grams).typical_g, "g") for one in there.lines]
    body = {"meat": amount(meat_kg * ratio, "kg"), "lines": scaled, "at_hand": [meat_at_hand(meat_kg)]}
    back = reckoned(book, body)

    again = [back.scaled(one.grams).typical_g for one in back.lines]
    assert again == pytest.approx([one["amount"]["value"] for one in lines], rel=1e-12)


@pytest.mark.parametrize("id", SPOONED)
def test_a_band_holds_every_published_figure(book: RuleBook, id: str):
    """After scaling, rounding and all: a cup to a third, by every reading of the table."""
    body = recipe(line(id, 1, "cup"), at_hand=[meat_at_hand(5 / 3)])

    told = scale(ScaleRequest.model_validate(body), book).lines[0].weight

    for teaspoon_g in published_teaspoons(rows()[id]):
        third_g = teaspoon_g * TEASPOONS["cup"] / 3
        assert told.low * (1 - 1e-12) <= third_g <= told.high * (1 + 1e-12)


@settings(max_examples=60, deadline=None)
@given(seed=SEEDS)
def test_order_changes_nothing(book: RuleBook, seed: int):
    """Lines and limits in any order come to the same factor, the same tightest limit and totals, bit by bit."""
    random = Random(seed)
    body = lawful_body(random)
    mixed = {**body, "lines": random.sample(body["lines"], k=len(body["lines"]))}
    mixed["at_hand"] = random.sample(body["at_hand"], k=len(body["at_hand"]))

    first, second = reckoned(book, body), reckoned(book, mixed)

    assert first.by_ratio == second.by_ratio
    assert {one.what.lower() for one in first.held if one.governs(first.by_ratio)} == {
        one.what.lower() for one in second.held if one.governs(second.by_ratio)
    }
    assert first.weight == second.weight
    assert first.salting.every == second.salting.every


@settings(max_examples=60, deadline=None)
@given(seed=SEEDS)
def test_one_more_limit_never_makes_more(book: RuleBook, seed: int):
    """Meat on top of whatever else there is: the factor stays or falls, and every limit is enough."""
    body = lawful_body(Random(seed))
    more = [one for one in body["at_hand"] if one["kind"] != "meat"] + [meat_at_hand(1, "lb")]

    with_it, without = reckoned(book, {**body, "at_hand": more}), more[:-1]

    assert all(held.factor.typical_ratio >= with_it.by_ratio for held in with_it.held)
    if without:
        assert reckoned(book, {**body, "at_hand": without}).by_ratio >= with_it.by_ratio


@settings(max_examples=60, deadline=None)
@given(seed=SEEDS)
def test_every_refusal_of_a_broken_recipe_is_true(book: RuleBook, seed: int):
    """A recipe with one thing wrong is refused for that, and the proof agrees."""
    random = Random(seed)
    body = lawful_body(random)
    wrong = random.choice([line("cure #1", 5, "g"), line("Rye crumbs", 2, "cup"), line("bay-leaf", 2, "cup")])

    with pytest.raises(Impossible) as refused:
        scale(ScaleRequest.model_validate({**body, "lines": [*body["lines"][:59], wrong]}), book)

    problem = {"code": refused.value.code, "nearest": refused.value.nearest}
    assert faults_of_refusal({**body, "lines": [*body["lines"][:59], wrong]}, problem) == []
