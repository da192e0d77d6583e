"""The page on scaling tells what the service answers."""

import json
import re
from pathlib import Path

import pytest

from service.calculations.seasoning.scale import SCALE, ScaleAnswer, ScaleRequest, scale
from service.calculations.seasoning.scaling.at_hand import IngredientAtHand, MeatAtHand, VesselAtHand
from service.calculations.seasoning.scaling.recipe import SeasoningLine
from service.rules.book import RuleBook
from service.rules.loader import load_book

PAGE = (Path(__file__).parents[2] / "docs/seasoning-scale.md").read_text("utf-8")
BODIES = [json.loads(body) for body in re.findall(r"-d '(\{.*?\})'", PAGE, re.DOTALL)]


@pytest.fixture(scope="module")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("pages")


@pytest.fixture(scope="module")
def answers(book: RuleBook) -> list[ScaleAnswer]:
    """The answers to the commands of the page."""
    return [scale(ScaleRequest.model_validate(body), book) for body in BODIES]


def test_the_links_have_the_salt_that_is_told(answers: list[ScaleAnswer]):
    """The factor, the salt with its band, the spoon of coriander, and the salt of the powder."""
    links = answers[0]
    salt, near = links.lines[0].weight, links.lines[2].nearest_measure

    assert f"`factor_ratio` is {links.factor_ratio:.4g}." in PAGE
    assert f"`weight` says {salt.typical:g} g, up to {salt.high:g}" in PAGE
    assert links.lines[0].to_weigh is not None
    assert f"Weigh {links.lines[0].to_weigh.value:g} g" in PAGE
    assert near is not None
    assert f"{near.value:g} {near.unit})" in PAGE
    told = links.salt
    assert f"{told.weight.typical:g} g, of which {told.of_others.typical:g} g" in PAGE
    assert f"{told.percent_of_meat.typical_percent:g} percent of the meat." in PAGE
    assert f"the links read {links.lines[0].percent_of_meat.typical_percent:g}." in PAGE


def test_the_tub_governs_as_is_told(answers: list[ScaleAnswer]):
    """What it allows, what is left over, and the brine of the card."""
    hocks = answers[1]
    meat, tub, juniper = hocks.limits

    assert tub.governs
    assert f"{hocks.factor_ratio:.4g} times the recipe, for {hocks.meat.value:g} g of hocks" in PAGE
    assert f"{meat.left_over.typical:.4g} kg of meat" in PAGE
    assert f"{juniper.left_over.typical:.2f} tablespoons" in PAGE
    assert f"allow {meat.factor.typical_ratio:g} times" in PAGE
    assert hocks.liquid is not None
    assert hocks.liquid.brine_strength is not None
    assert f"is {hocks.liquid.brine_strength.typical_percent:g} percent, as on the card" in PAGE


def test_the_rub_leaves_the_salt_open(answers: list[ScaleAnswer]):
    """An at least, and nothing on the high side."""
    salt = answers[2].salt

    assert (salt.verdict, salt.weight.high) == ("cannot_tell", None)
    at_least = f"an at least: {salt.weight.low:g} g, {salt.percent_of_meat.low_percent:g} percent of the meat"
    assert at_least in PAGE


def test_every_field_and_code_is_on_the_page():
    """Each field of the request and of the answer, each code of a refusal and of an advice."""
    limits = {*MeatAtHand.model_fields, *IngredientAtHand.model_fields, *VesselAtHand.model_fields}
    fields = {*ScaleRequest.model_fields, *ScaleAnswer.model_fields} - {"engine"}
    lines = {f"lines.{name}" for name in SeasoningLine.model_fields}

    told = {*fields, *lines, *(limits - {"kind"}), *SCALE.reasons, *SCALE.codes}
    assert [word for word in sorted(told) if f"`{word}`" not in PAGE] == []
