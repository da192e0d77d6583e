"""The page on soaking tells what the service answers."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from service.calculations.curing.soak import SOAK, SoakAnswer, SoakRequest, soak
from service.calculations.curing.soaking.telling import RemovedBand
from service.rules.book import RuleBook
from service.rules.loader import load_book

PAGE = (Path(__file__).parents[2] / "docs/curing-soak.md").read_text("utf-8")
BODIES = [json.loads(body) for body in re.findall(r"-d '(\{.*?\})'", PAGE, re.DOTALL)]


@pytest.fixture(scope="module")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("pages")


def shown(band: RemovedBand) -> str:
    """A band as the page writes it."""
    return f"{band.typical:.1f} ({band.low:.1f} to {band.high:.1f})"


def slab(book: RuleBook, thick_mm: float) -> SoakAnswer:
    """The pieces of the table."""
    body: dict[str, Any] = {
        "meat": {"value": 1, "unit": "kg"}, "shape": {"kind": "slab", "thickness": {"value": thick_mm, "unit": "mm"}},
        "salt_percent": 4, "wanted_salt_percent": 3.9, "temperature": {"value": 4, "unit": "degC"},
        "water": {"value": 4, "unit": "l"},
    }  # fmt: skip
    return soak(SoakRequest.model_validate(body), book)


def test_the_table_has_what_half_an_hour_does(book: RuleBook):
    """Each thickness has its line, and no other."""
    lines = []
    for thick_mm in (20, 40, 60, 80):
        answer = slab(book, thick_mm)
        told = [answer.half_an_hour, *(one for one in answer.removed if one.after_h in (2, 12, 24))]
        lines.append(f"| {thick_mm} mm | " + " | ".join(shown(one.removed) for one in told) + " |")

    assert [line for line in PAGE.splitlines() if re.match(r"\| [0-9]+ mm", line)] == lines


def test_the_numbers_of_the_story_are_those_of_the_answers(book: RuleBook):
    """Hours of the neck as it is, cut once, and in water that is changed three times as often."""
    whole, cut, changed = (soak(SoakRequest.model_validate(body), book) for body in BODIES)

    for answer in (whole, cut):
        assert f"{answer.hours.typical}" in PAGE
        assert f"from {answer.hours.low} to {answer.hours.high}" in PAGE
    assert f"{changed.hours.typical} hours. The slow part" in PAGE
    assert f"in {whole.waters} waters of {whole.change_every_h:g} hours" in PAGE
    assert f"takes {whole.half_an_hour.removed.typical:.1f} percent of the salt out" in PAGE
    assert f"its centre still at {whole.at_end.centre.typical}" in PAGE


def test_every_field_and_refusal_is_on_the_page():
    """Each field of the request and of the answer, each code of a refusal and of an advice."""
    fields = {*SoakRequest.model_fields, *SoakAnswer.model_fields} - {"at_end", "course", "engine"}

    assert [word for word in sorted({*fields, *SOAK.reasons, *SOAK.codes}) if f"`{word}`" not in PAGE] == []
