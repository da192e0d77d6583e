"""The page on cutting tests tells what the service answers."""

import json
import re
from pathlib import Path

import pytest

from service.calculations.butchery.cut_test import CUT_TEST, CutTestAnswer, CutTestRequest, cut_test
from service.calculations.butchery.cutting.parts import StatedPart
from service.rules.book import RuleBook
from service.rules.loader import load_book

PAGE = (Path(__file__).parents[2] / "docs/cut-test.md").read_text("utf-8")
BODIES = [json.loads(body) for body in re.findall(r"-d '(\{.*?\})'", PAGE, re.DOTALL)]


@pytest.fixture(scope="module")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("pages")


@pytest.fixture(scope="module")
def answers(book: RuleBook) -> list[CutTestAnswer]:
    """The answers to the commands of the page."""
    return [cut_test(CutTestRequest.model_validate(body), book) for body in BODIES]


def test_the_shoulders_are_as_the_page_says(answers: list[CutTestAnswer]):
    """35 g and 0.47 percent, 22.5 g of nine weighings, 81.6, 95.1 and 3.6 percent, 8.15 of bone, 3,150 g."""
    coppa, yields = answers[0].closure, answers[0].yields
    assert coppa.resolution is not None

    assert f"{coppa.difference.value:g} g, {coppa.difference_percent:.2f} percent, are not accounted for" in PAGE
    assert f"{coppa.weighings} weighings on that scale may be off by {coppa.resolution.value} g together" in PAGE
    assert f"{yields.meat.percent:.1f} percent meat and {yields.usable.percent:.1f} percent usable" in PAGE
    assert f"{yields.waste.percent:.1f} percent are waste" in PAGE
    assert "3,150 g" in answers[0].follows[0].message
    assert (coppa.verdict, coppa.code) == ("met", "closes")
    assert answers[0].each is not None
    assert f"`each`, {answers[0].each.weight.value / 1000:g} kg, is `{answers[0].each.lies}`" in PAGE


def test_the_shares_are_as_the_page_says(answers: list[CutTestAnswer]):
    """Bone within, meat below what is published."""
    (bone,), (meat,) = answers[0].parts[2].published, answers[0].parts[0].published
    assert bone.your_percent
    assert meat.your_percent

    assert f"{bone.your_percent:.2f} percent, `{bone.lies}` the {bone.low_percent:g} to {bone.high_percent:g}" in PAGE
    assert (
        f"together are {meat.your_percent:.1f}, `{meat.lies}` the {meat.low_percent:g} to {meat.high_percent:g}" in PAGE
    )


def test_belly_and_breast_are_as_the_page_says(answers: list[CutTestAnswer]):
    """1.306 lb and 9.97 percent at most; 42 percent missing, and 0.4167 left when the unit is put right."""
    belly, breast = answers[1:3]
    assert belly.closure.left_over is not None

    assert f"what is left over, {belly.closure.left_over.value} {belly.closure.left_over.unit}" in PAGE
    assert f"from 0 to {belly.yields.waste.at_most_percent:.2f} percent" in PAGE
    assert f"{breast.closure.difference_percent:.0f} percent are missing" in PAGE
    assert breast.call_outs[0].message.partition(": ")[2].rstrip(".") in PAGE
    assert [one.code for one in breast.follows] == ["weight_not_told", "grinding_record_house_rule"]


def test_the_leg_is_as_the_page_says(answers: list[CutTestAnswer]):
    """Both readings close to 1.111 percent; one leg of 18 lb is sold, one of 39.68 lb is not."""
    heavy, sheet, bought = answers[3].call_outs

    assert heavy.code == "part_heavier_than_whole"
    assert "the test closes to 1.111 percent; one piece then weighs 18 lb, within what is published" in sheet.message
    assert "the test closes to 1.111 percent; one piece then weighs 39.68 lb, above" in bought.message
    assert [one for one in ("1.111 percent", "18 lb", "39.68 lb") if one not in PAGE] == []
    assert [one.code for one in answers[3].follows] == ["weight_not_told"]


def test_every_field_code_and_refusal_is_on_the_page():
    """Each field of the request and of the answer, each code of a refusal and of a note."""
    fields = {*CutTestRequest.model_fields, *CutTestAnswer.model_fields} - {"engine"}
    words = {*fields, *CUT_TEST.reasons, *CUT_TEST.codes, *(f"parts.{one}" for one in ("use", "weights", "what"))}

    assert [word for word in sorted(words) if f"`{word}`" not in PAGE] == []
    assert {"name", "use", "weights", "what"} == StatedPart.model_fields.keys()
