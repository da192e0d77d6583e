"""Requests at and beyond the edges: what is answered is proved, what is not is refused by the schema."""

import json
from typing import Any

import pytest
from pydantic import ValidationError

from service.calculations.butchery.cut_test import CutTestRequest, cut_test
from service.quantities.models import written
from service.rules.book import RuleBook
from tests.calculations.butchery.blocks import body_of, mass, part
from tests.calculations.butchery.cut_test_proofs import faults_of_answer

LEAST, MOST = "0.001 g", "1e6 lb"
NECK = part("neck", "cure", "1 kg")

ODD: dict[str, dict[str, Any]] = {
    "the least of all": body_of(LEAST, part("a", "waste", LEAST)),
    "the most of all": body_of(MOST, *[part(f"p{n}", "cook", *[MOST] * 50) for n in range(40)]),
    "a crumb of a mountain": body_of(MOST, part("a", "waste", LEAST)),
    "a mountain of a crumb": body_of(LEAST, part("a", "waste", MOST)),
    "nothing weighed": body_of("1 kg", *[part("a", use) for use in ("cure", "waste", "loss")]),
    "forty times the same": body_of("1 kg", *[part("a", "cook", "25 g")] * 40, cut="pork-butt"),
    "only losses": body_of("1 kg", part("drip", "loss", "1 kg")),
    "a step as large as the piece": body_of("1 kg", part("a", "cook", "1 kg"), scale_step=mass("1 kg")),
    "the largest step": body_of("1 kg", part("a", "cook"), scale_step=mass(MOST)),
    "ten thousand pieces": body_of("1 g", part("a", "cook", "1 g"), pieces=10_000, cut="pork-leg"),
    "any script": body_of("1 kg", part("Шейка / 首 / عنق 🥩", "cure", "1 kg"), units="us"),
    "looks like a format": body_of("1 kg", part("{name} %s \\n <b>", "cure", "1 kg")),
    "2 000 equal weighings with a slip": body_of("1 kg", *[part(f"p{n}", "cook", *["0.5 oz"] * 50) for n in range(40)]),
    "every kind at once": body_of(
        "10 kg", *[part(kind, "sell", "1 kg", what=kind) for kind in ("bone", "skin", "fat", "meat", "trim")],
        cut="duck-whole", animal="game", tolerance_percent=20, pieces=2.0,
    ),
}  # fmt: skip


@pytest.mark.parametrize("odd", ODD)
@pytest.mark.parametrize("detail", ["full", "brief"])
def test_what_keeps_the_schema_is_answered_and_proved(book: RuleBook, odd: str, detail: str):
    """No extreme is refused, and every figure of its answer follows from it."""
    body = ODD[odd] | {"detail": detail}

    told = json.loads(written(cut_test(CutTestRequest.model_validate(body), book)))

    assert faults_of_answer(body, told) == []
    assert all(len(line) < 8000 for line in told["steps"])


OUTSIDE: dict[str, dict[str, Any]] = {
    "no parts": body_of("1 kg"),
    "too many parts": body_of("1 kg", *[NECK] * 41),
    "too many weighings": body_of("1 kg", part("a", "cook", *["1 g"] * 51)),
    "weightless": body_of("1 kg", {**NECK, "weights": [{"value": 0, "unit": "kg"}]}),
    "less than nothing": body_of("1 kg", {**NECK, "weights": [{"value": -1, "unit": "kg"}]}),
    "not a number": body_of("1 kg", {**NECK, "weights": [{"value": float("nan"), "unit": "kg"}]}),
    "endless": {**body_of("1 kg", NECK), "purchased": {"value": float("inf"), "unit": "kg"}},
    "a volume": body_of("1 kg", {**NECK, "weights": [{"value": 1, "unit": "l"}]}),
    "one weight, not a list": body_of("1 kg", {**NECK, "weights": mass("1 kg")}),
    "null for weights": body_of("1 kg", {**NECK, "weights": None}),
    "null for a cut": body_of("1 kg", NECK, cut=None),
    "a use that there is not": body_of("1 kg", {**NECK, "use": "eat"}),
    "a kind that there is not": body_of("1 kg", {**NECK, "what": "offal"}),
    "an animal that there is not": body_of("1 kg", NECK, animal="horse"),
    "an empty name": body_of("1 kg", {**NECK, "name": ""}),
    "a line break in a name": body_of("1 kg", {**NECK, "name": "a\nb"}),
    "a name that turns around": body_of("1 kg", {**NECK, "name": "a\u202eb"}),
    "a long name": body_of("1 kg", {**NECK, "name": "a" * 81}),
    "no tolerance": body_of("1 kg", NECK, tolerance_percent=0),
    "all tolerance": body_of("1 kg", NECK, tolerance_percent=20.1),
    "half a piece": body_of("1 kg", NECK, pieces=0.5),
    "no pieces": body_of("1 kg", NECK, pieces=0),
    "a price": body_of("1 kg", NECK, price=3),
    "a number as text": body_of("1 kg", {**NECK, "weights": [{"value": "1", "unit": "kg"}]}),
    "yes for a number": body_of("1 kg", NECK, pieces=True),
}


@pytest.mark.parametrize("outside", OUTSIDE)
def test_what_does_not_keep_the_schema_is_not_taken(outside: str):
    """Unknown fields, wrong types, what is out of bounds."""
    with pytest.raises(ValidationError):
        CutTestRequest.model_validate(OUTSIDE[outside])


def test_the_bounds_themselves_are_taken():
    """Forty parts, fifty weighings, the least and the greatest tolerance."""
    parts = [part("a", "cook", *["1 g"] * 50)] * 40

    for percent in (0.01, 20):
        asked = CutTestRequest.model_validate(body_of("1 kg", *parts, tolerance_percent=percent))

        assert (len(asked.parts), asked.tolerance_percent) == (40, percent)
