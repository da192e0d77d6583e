"""Drawn recipes are checked and proved, and the proof finds an answer that is wrong."""

from collections.abc import Callable
from copy import deepcopy
from random import Random
from typing import Any

import pytest

from service.calculations.curing.checking.assessing import OPEN_CODES
from service.rules.book import RuleBook
from tests.calculations.curing.check_proofs import balance_ppm, faults_of_check, is_spooned
from tests.calculations.curing.kitchen import STRONG_SALT
from tests.calculations.curing.written import amount, pumped, recipe, salt_of, told
from tests.calculations.curing.written_bodies import written_body

Body = dict[str, Any]
BODIES = [written_body(Random(seed)) for seed in range(600)]


def answered(book: RuleBook, body: Body) -> Body:
    """The answer as it is sent."""
    return told(book, body).model_dump(mode="json")


def test_drawn_recipes_are_proved(book: RuleBook) -> None:
    """Of six hundred recipes each answer is proved: by weighing, against the texts of the law, for its gaps."""
    faults = [(fault, body) for body in BODIES for fault in faults_of_check(body, answered(book, body))]

    assert faults == []


def test_the_draw_is_worth_proving(book: RuleBook) -> None:
    """More than a third of the recipes can be weighed again, some by spoon; every verdict is among the answers."""
    weighed = [body for body in BODIES if balance_ppm(body) is not None]
    verdicts = {answered(book, body)["verdicts"]["going_in"] for body in BODIES}

    assert len(weighed) > len(BODIES) / 3
    assert sum(is_spooned(body) for body in weighed) > 10
    assert verdicts == {"met", "not_met", "cannot_tell"}


def nitrites_of(body: Body) -> set[str]:
    """The nitrite salts of a recipe: a limit written for one of them has no figure where both go in."""
    labels = [salt.get("label", {}) for salt in body.get("curing_salts", [])]
    return {label["nitrite"]["salt"] for label in labels if "nitrite" in label}


def test_every_open_finding_has_its_need(book: RuleBook) -> None:
    """Whatever a recipe leaves open of a limit that has a number, something is named that would settle it."""
    answers = [told(book, body) for body in BODIES if len(nitrites_of(body)) < 2]

    orphans = [
        (one.rule, answer.needs)
        for answer in answers
        for one in answer.findings
        if one.code in OPEN_CODES
        and one.limit is not None
        and not any(one.rule in need.settles for need in answer.needs)
    ]

    assert orphans == []


def _lower(told: Body) -> None:
    for one in told["figures"]["readings"]:
        one["high"] *= 0.99


def _meet(told: Body) -> None:
    told["verdicts"]["going_in"] = "met"


def _keep(told: Body) -> None:
    for one in told["findings"]:
        one["verdict"] = "met" if one["verdict"] == "not_met" else one["verdict"]


def _calm(told: Body) -> None:
    told["call_outs"] = []


def _break(told: Body) -> None:
    for one in told["findings"]:
        one["verdict"] = "not_met" if one["verdict"] == "met" else one["verdict"]


def _pass_over(told: Body) -> None:
    for one in told["findings"]:
        one.update(verdict="met", low=one["limit"], high=one["limit"])


PUMPED = recipe(method=pumped(amount(1000), 12), curing_salts=[salt_of(STRONG_SALT, 24)])
PLANTED: list[tuple[str, Callable[[Body], None], Body]] = [
    ("a reading that is not that of the vessel", _lower, recipe()),
    ("met above the ceiling", _meet, recipe(curing_salts=[salt_of(STRONG_SALT, 23)])),
    ("met under the floor", _meet, recipe(curing_salts=[salt_of(STRONG_SALT, 4)])),
    ("met where nothing was read", _meet, recipe(jurisdiction="GB")),
    ("met without a cure", _meet, recipe(curing_salts=[])),
    ("a broken limit that is kept", _keep, recipe(curing_salts=[salt_of(STRONG_SALT, 23)])),
    ("a kept limit that is broken", _break, recipe()),
    ("no alarm", _calm, recipe(curing_salts=[salt_of(STRONG_SALT, 36)])),
    ("met without the meat", _pass_over, recipe(meat=None)),
    ("met without a label", _pass_over, recipe(curing_salts=[salt_of(None, 5.5)])),
    ("met without a weight", _pass_over, recipe(curing_salts=[salt_of(STRONG_SALT)])),
    ("met without a pump", _pass_over, {**PUMPED, "method": {"kind": "injected", "water": amount(1000)}}),
    ("met without a basis", _pass_over, {**PUMPED, "method": {"kind": "immersion", "water": amount(1000)}}),
    ("a floor met although something dilutes", _pass_over, {k: v for k, v in PUMPED.items() if k != "ingredients"}),
]


@pytest.mark.parametrize(("what", "plant", "body"), PLANTED, ids=[row[0] for row in PLANTED])
def test_a_wrong_answer_is_found(book: RuleBook, what: str, plant: Callable[[Body], None], body: Body) -> None:
    """The true answer has no fault; with one planted it has."""
    right = answered(book, body)
    wrong = deepcopy(right)
    plant(wrong)

    assert faults_of_check(body, right) == [], what
    assert faults_of_check(body, wrong) != [], what
