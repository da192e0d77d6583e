"""The page on blends tells what the service answers."""

import json
import re
from pathlib import Path

import pytest

from service.calculations.butchery.blend import BLEND, BlendAnswer
from service.calculations.butchery.blending.asked import BlendRequest
from service.calculations.butchery.blending.batch import CureOfBlock, SausageBatch
from service.calculations.butchery.blending.materials import Material
from service.calculations.butchery.blending.told import LimitTold
from service.rules.book import RuleBook
from service.rules.loader import load_book
from tests.calculations.butchery.blends import answer_to, grams_of

PAGE = (Path(__file__).parents[2] / "docs/sausage-blend.md").read_text("utf-8")
BODIES = [json.loads(body) for body in re.findall(r"-d '(\{.*?\})'", PAGE, re.DOTALL)]


@pytest.fixture(scope="module")
def answers() -> list[BlendAnswer]:
    """The answers to the commands of the page, in order."""
    book: RuleBook = load_book("pages")
    return [answer_to(book, {name: value for name, value in body.items() if name != "on"}) for body in BODIES]


def test_the_weights_of_two_trims_are_told(answers: list[BlendAnswer]):
    """Of the square, and of the trim that has to go."""
    square, used_up, *_ = answers

    neck, leg = grams_of(square).values()
    assert f"{neck:.0f} g of neck and {leg:.0f} g of leg" in PAGE
    assert f"make {square.composition.fat_percent} percent of it" in PAGE
    assert f"{grams_of(used_up)['shoulder']:.0f} g of shoulder" in PAGE


def test_the_money_of_the_cheapest_blend_is_told(answers: list[BlendAnswer]):
    """What it costs, what the fat would save, when the cheek comes in, and what the next-best costs more."""
    cheapest = answers[2]
    (fat,) = (one for one in cheapest.limits if one.place == "fat.most_percent")
    dear = {one.name: one for one in cheapest.left_out}["cheek"].comes_in_below

    assert cheapest.total.cost
    assert cheapest.total.cost_of_one
    assert fat.saving
    assert dear
    assert cheapest.next_best
    assert f"{cheapest.total.cost.amount} EUR, {cheapest.total.cost_of_one.amount} a kilogram" in PAGE
    assert f"a percent more would save {fat.saving.for_one.amount} EUR on the block, at least as far as 31" in PAGE
    assert f"would be used under {dear.amount} EUR a kilogram" in PAGE
    assert f"the block costs {cheapest.next_best.costs_more.amount} EUR more" in PAGE


def test_the_batch_is_told(answers: list[BlendAnswer]):
    """Curing salt, salt, fat and added water of the smoked sausage."""
    batch = answers[3].batch

    assert batch
    added = {item.what: item.amount.value for item in batch.add}
    assert f"{added['curing_salt']} g of curing salt and {added['salt']} g of salt" in PAGE
    assert f"has {batch.fat_percent} percent fat against 50, and {batch.poured_water_percent} percent" in PAGE


def test_every_field_and_refusal_is_on_the_page():
    """Each field of the request and of the answer, each code of a refusal and of a call-out, each reason to be out."""
    models = (BlendRequest, Material, SausageBatch, CureOfBlock, BlendAnswer)
    fields = {name for model in models for name in model.model_fields}
    told = {"value", "figure", "tolerance", "binds", "saving", "rule"} & set(LimitTold.model_fields)

    words = sorted({*fields, *told, *BLEND.reasons, *BLEND.codes})

    assert [word for word in words if f"`{word}`" not in PAGE] == []
