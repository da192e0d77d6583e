"""The page on checking a recipe tells what the service answers."""

import json
import re
from pathlib import Path
from typing import Any, get_args

import pytest

from service.calculations.curing.check import CheckAnswer, CheckRequest, check
from service.calculations.curing.checking.calling_out import CALL_OUTS
from service.calculations.curing.checking.figures import CheckFigures
from service.calculations.curing.checking.side_by_side import Reading
from service.rules.book import RuleBook
from service.rules.checker import Code
from service.rules.loader import load_book

PAGE = (Path(__file__).parents[2] / "docs/curing-check.md").read_text("utf-8")
BODIES = [json.loads(body) for body in re.findall(r"-d '(\{.*?\})'", PAGE, re.DOTALL)]
WITHIN = {"within_limit", "at_limit", "within_band", "over_limit", "under_limit"}
"""Codes of what is told; docs/curing-dose.md has them."""


@pytest.fixture(scope="module")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("pages")


def answered(book: RuleBook, body: dict[str, Any]) -> CheckAnswer:
    """The answer on a day that does not change."""
    return check(CheckRequest.model_validate({"on": "2026-12-01", **body}), book)


def section(title: str) -> list[str]:
    """The rows of the table below a heading."""
    text = PAGE.split(f"## {title}\n")[1].split("\n## ")[0]
    return [line for line in text.splitlines() if line.startswith("| `")]


def shown(reading: Reading) -> str:
    """A range of ppm as the page writes it."""
    ends = dict.fromkeys(f"{end:.1f}" for end in (reading.low, reading.high))
    return " to ".join(ends)


def test_every_call_out_is_described():
    """Each code has its line, in its words and in order, and nothing else has one."""
    assert section("What is called out") == [f"| `{code}` | {text} |" for code, text in CALL_OUTS.items()]


def test_the_bucket_is_read_as_the_page_says(book: RuleBook):
    """Each reading of the bucket as sodium nitrite has its line with its figure, and whether it decides."""
    readings = [one for one in answered(book, BODIES[1]).figures.readings if one.expressed_as == "sodium_nitrite"]

    rows = [
        [cell.strip() for cell in line.strip("|").split("|")] for line in section("The same bucket, read in five ways")
    ]

    assert [(name, ppm, decides) for name, _, ppm, decides in rows] == [
        (f"`{one.reading}`", shown(one), "yes" if one.decides else "no") for one in readings
    ]


def test_naming_the_basis_settles_the_bucket(book: RuleBook):
    """Open without a basis, met with equilibrium; its weights are those of the text."""
    method = {**BODIES[1]["method"], "basis": {"kind": "equilibrium"}}

    unnamed, named = answered(book, BODIES[1]), answered(book, {**BODIES[1], "method": method})

    assert (unnamed.verdicts.going_in, named.verdicts.going_in) == ("cannot_tell", "met")
    assert "3.6 kg of meat, 4,950 g of pickle, 1.25 g of nitrite" in PAGE
    assert named.figures.pickle_weight is not None
    assert named.figures.pickle_weight.high == 4950
    assert "= 1.25 g of nitrite" in " ".join(named.steps)


def test_the_five_recipes_come_out_as_told(book: RuleBook):
    """Verdicts, ranges and call-outs in the text are those of the answers."""
    sausage, bucket, bacon, brisket, strong = (answered(book, body) for body in BODIES[:5])

    assert [one.verdicts.going_in for one in (sausage, bucket, bacon, brisket, strong)] == [
        "cannot_tell", "cannot_tell", "met", "cannot_tell", "not_met",
    ]  # fmt: skip
    assert shown(sausage.figures.readings[0]) == "137.9 to 239.9"
    codes = {one.rule: (one.verdict, one.code) for one in sausage.findings}
    assert codes["us-nitrite-keeprefrigerated-min"][0] == "met"
    assert codes["us-nitrite-comminuted-max"] == ("cannot_tell", "band_across_limit")
    assert [one.field for one in sausage.needs] == ["#/curing_salts/0/amount"]
    assert all(one.low == one.high for one in bacon.findings)
    assert {one.verdict for one in brisket.findings} == {"cannot_tell"}
    assert [one.code for one in strong.call_outs] == ["do_not_eat", "strong_salt_at_weak_rate"]
    assert f"{strong.figures.readings[0].high:,.0f} ppm" in PAGE


def test_the_stay_comes_out_as_told(book: RuleBook):
    """The last recipe is met, with the two figures of the text."""
    told = answered(book, BODIES[5])

    readings = {one.reading: shown(one) for one in told.figures.readings if one.expressed_as == "sodium_nitrite"}
    assert (told.verdicts.going_in, len(BODIES)) == ("met", 6)
    assert f"with {readings['after_stay']} ppm when it comes out of the {readings['equilibrium']}" in PAGE


def test_every_field_and_code_is_on_the_page():
    """Each field of the request, each figure, each reason for a verdict that is open."""
    wanted = {*CheckRequest.model_fields, *CheckFigures.model_fields, *(set(get_args(Code)) - WITHIN)}

    assert [word for word in sorted(wanted) if not re.search(rf"`([a-z]+\.)?{word}`", PAGE)] == []
