"""The page on kitchen measures tells what the service answers."""

import json
import re
from pathlib import Path

import pytest

from service.calculations.measures.refusing import REASONS
from service.calculations.measures.table import list_ingredients
from service.calculations.measures.weigh import WeighRequest, weigh
from service.quantities.bands import WeightBand
from service.rules.book import RuleBook
from service.rules.loader import load_book

PAGE = (Path(__file__).parents[2] / "docs/kitchen-measures.md").read_text("utf-8")
BODIES = [json.loads(body) for body in re.findall(r"-d '(\{.*?\})'", PAGE, re.DOTALL)]


@pytest.fixture(scope="module")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("pages")


def shown(band: WeightBand | None) -> str:
    """A band as the page writes it."""
    assert band is not None
    return f"{band.typical:g} g ({band.low:g} to {band.high:g})"


def test_the_salts_stand_side_by_side(book: RuleBook):
    """Each salt has its line, as the table of ingredients has it, and no other."""
    salts = list_ingredients(book, "salt").items
    lines = [f"| `{one.id}` | {shown(one.teaspoon)} | {shown(one.tablespoon)} | {shown(one.cup)} |" for one in salts]

    assert [line for line in PAGE.splitlines() if line.startswith("| `") and "-salt` | " in line] == lines


def test_the_figure_has_the_cups(book: RuleBook):
    """A sign is 10 g: each bar ends its = at the lightest and its # at the heaviest cup, and tells the typical one."""
    cups = [one.cup for one in list_ingredients(book, "salt").items if one.cup and one.cup.typical]
    bars = {(round(cup.low / 10), round(cup.high / 10), round(cup.typical or 0)) for cup in cups}

    drawn = re.findall(r"\|(=+)(#+)\| +([0-9]+)$", PAGE, re.MULTILINE)

    assert len(drawn) == 6
    assert {(len(low), len(low + more), int(typical)) for low, more, typical in drawn} <= bars


def test_the_numbers_in_the_text_are_those_of_the_answers(book: RuleBook):
    """108 g and 53 percent, 27 g from 13.5 to 54, 10 to 17.4 g and 152 to 266 ppm."""
    salt, garlic, spoon = (weigh(WeighRequest.model_validate(body), book) for body in BODIES)

    assert salt.weight.typical == 108
    assert salt.swap is not None
    assert round(salt.swap.error.typical_percent) == -53
    assert shown(garlic.weight) == "27 g (13.5 to 54)"
    assert (spoon.weight.low, spoon.weight.high) == (10, 17.4)
    assert spoon.ingoing_nitrite is not None
    assert (int(spoon.ingoing_nitrite.low_ppm), round(spoon.ingoing_nitrite.high_ppm + 0.4)) == (152, 266)


def test_every_refusal_is_described():
    """Each code with which a measure is declined stands on the page."""
    assert [code for code in REASONS if f"`{code}`" not in PAGE] == []
