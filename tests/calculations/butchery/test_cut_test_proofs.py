"""The proof of a cutting test finds what is wrong with an answer: each figure that is moved is named."""

import copy
import json
from typing import Any

import pytest

from service.calculations.butchery.cut_test import CutTestRequest, cut_test
from service.quantities.models import written
from service.rules.book import RuleBook
from tests.calculations.butchery.blocks import body_of, mass, part
from tests.calculations.butchery.cut_test_proofs import faults_of_answer, faults_of_refusal

BODY = body_of(
    "10 kg", part("neck", "cure", "4 kg", "9 lb", what="meat"), part("bone", "stock", "700 g", what="bone"),
    part("trim", "grind", "1 kg", what="trim"), part("skin", "waste"),
    cut="pork-butt", pieces=2, scale_step=mass("5 g"),
)  # fmt: skip
SLIPPED = body_of("5 kg", part("neck", "cure", "4 lb"), part("rest", "cook", "1 kg"))

MOVED: dict[str, tuple[tuple[Any, ...], Any]] = {
    "a weight": (("parts", 0, "weight", "value"), 8082.5),
    "a share": (("parts", 0, "of_purchased_percent"), 80.9),
    "a share of what was weighed": (("parts", 1, "of_weighed_percent"), 7.0),
    "a part that was not weighed": (("parts", 3, "at_most", "value"), 0.0),
    "a use": (("parts", 2, "use"), "cook"),
    "a total": (("by_use", 0, "total", "percent"), 81.0),
    "a yield": (("yields", "meat", "weight", "value"), 9000.0),
    "a range": (("yields", "waste", "at_most_percent"), 0.0),
    "one piece": (("each", "weight", "value"), 10_000.0),
    "where a piece lies": (("each", "lies"), "below"),
    "the balance": (("balance", "unaccounted_g"), 217.0),
    "the verdict": (("closure", "verdict"), "met"),
    "the resolution": (("closure", "resolution", "value"), 10.0),
    "the tolerance": (("closure", "tolerance", "value"), 500.0),
    "what is left over": (("closure", "left_over"), None),
    "how a weight is known": (("each", "from_memory"), False),
    "whose range it is": (("parts", 1, "published", 0, "spread"), "published"),
    "how a share is known": (("parts", 1, "published", 0, "from_memory"), True),
    "a published share": (("parts", 1, "published", 0, "high_percent"), 12.0),
    "where a share lies": (("parts", 1, "published", 0, "lies"), "above"),
    "no published share": (("parts", 1, "published"), []),
    "a call-out": (("call_outs",), [{"code": "part_stated_twice", "message": "", "parts": ["bone"]}]),
    "what follows": (("follows",), []),
    "no cautions": (("cautions",), []),
}


def told(book: RuleBook, body: dict[str, Any]) -> dict[str, Any]:
    """The answer as it is sent."""
    answer: dict[str, Any] = json.loads(written(cut_test(CutTestRequest.model_validate(body), book)))
    return answer


def moved(answer: dict[str, Any], way: tuple[Any, ...], value: Any) -> dict[str, Any]:
    """The same answer with another figure in one place."""
    other = copy.deepcopy(answer)
    place = other
    for step in way[:-1]:
        place = place[step]
    assert place[way[-1]] != value
    place[way[-1]] = value
    return other


@pytest.mark.parametrize("what", MOVED)
def test_a_figure_that_is_moved_is_found(book: RuleBook, what: str):
    """The true answer has no fault, the other has one."""
    answer = told(book, BODY)

    assert faults_of_answer(BODY, answer) == []
    assert faults_of_answer(BODY, moved(answer, *MOVED[what])) != []


def test_a_slip_that_is_kept_back_is_found(book: RuleBook):
    """So is one that would not close the test."""
    answer = told(book, SLIPPED)
    other = [{**answer["call_outs"][0], "parts": ["rest"]}]

    assert faults_of_answer(SLIPPED, answer) == []
    assert faults_of_answer(SLIPPED, moved(answer, ("call_outs",), [])) != []
    assert faults_of_answer(SLIPPED, moved(answer, ("call_outs",), other)) != []


def test_a_bound_of_a_test_that_does_not_close_is_found(book: RuleBook):
    """So is a weight that goes into a cure all the same, and a leftover of which nothing is said."""
    answer = told(book, SLIPPED)
    note = {"code": "meat_for_the_cure", "message": "", "parts": ["neck"]}
    nothing_left = body_of("5 kg", part("neck", "cure", "5 kg"), part("bone", "waste"))

    assert faults_of_answer(SLIPPED, moved(answer, ("yields", "loss", "at_most_percent"), 0.0)) == []
    assert faults_of_answer(SLIPPED, moved(answer, ("yields", "loss", "at_most"), {"value": 0.0, "unit": "g"})) != []
    assert faults_of_answer(SLIPPED, moved(answer, ("follows",), [note])) != []
    assert faults_of_answer(nothing_left, moved(told(book, nothing_left), ("call_outs",), [])) != []


def test_a_refusal_that_is_not_true_is_found():
    """Of a cut that there is, under another code, and with an offer that nobody can take up."""
    true = {"code": "unknown_cut", "nearest": "pork-butt, pork-loin. GET /v1/cuts lists every one."}

    assert faults_of_refusal({"cut": "pork-but"}, true) == []
    assert faults_of_refusal({"cut": "butt", "animal": "lamb"}, true) != []
    assert faults_of_refusal({"cut": "lamb butt"}, true) != []
    assert faults_of_refusal({"cut": "pork-butt"}, true) != []
    assert faults_of_refusal({"cut": "pork-but"}, {**true, "code": "unknown_ingredient"}) != []
    assert faults_of_refusal({"cut": "pork-but"}, {**true, "nearest": "pork-neck. GET /v1/cuts lists all."}) != []
