"""The proof of a chain can fail: a figure that is a little off is found, wherever it stands."""

from collections.abc import Callable
from typing import Any

import pytest

from service.rules.book import RuleBook
from tests.calculations.butchery.chain_proofs import faults_of_chain
from tests.calculations.butchery.chains import (
    answer_to,
    bought,
    corned,
    gained,
    left,
    lost,
    mass,
    smoke,
    stage,
    told_of,
    weight_wanted,
)

FORWARDS: dict[str, Any] = {
    "task": bought(10, portion=mass(150, "g")),
    "stages": [
        stage("trim"), stage("cure", gained(9, 8, 10.5), weighed=mass(9.4)), smoke(left(72, 68, 75)), stage("slice"),
    ],
    "cut": "beef-brisket-flat",
    "standard": corned("brisket", smallest_piece=mass(2)),
}  # fmt: skip
WEIGHED: dict[str, Any] = {
    "task": bought(10), "bought_as": "trimmed", "standard": corned("round"),
    "stages": [stage("cure", weighed=mass(11.5))],
}  # fmt: skip
OPEN: dict[str, Any] = {
    "task": bought(10, portion=mass(150, "g")), "bought_as": "trimmed", "standard": corned("round"),
    "stages": [stage("cure", weighed=mass(11.5)), stage("chill", weighed=mass(10.9))],
}  # fmt: skip
BONE: dict[str, Any] = {
    "task": bought(10, portion=mass(150, "g")), "cut": "pork-leg", "stages": [smoke(left(60))],
    "standard": {"jurisdiction": "GB", "product": {"kind": "whole_muscle", "species": "pork"}},
}  # fmt: skip
BACKWARDS: dict[str, Any] = {
    "task": weight_wanted(6),
    "stages": [stage("trim", lost(14, 10, 20)), smoke(left(60, 55, 66))],
    "pieces": {"low": mass(2), "high": mass(3)},
}
Spoil = Callable[[Any], Any]


def _put(place: str, value: Any) -> Spoil:
    """Something else at a place of the answer."""

    def spoil(told: Any) -> None:
        *way, last = [int(step) if step.isdecimal() else step for step in place.split("/")]
        for step in way:
            told = told[step]
        told[last] = value(told[last]) if callable(value) else value

    return spoil


SPOILT: list[tuple[dict[str, Any], Spoil]] = [
    *((FORWARDS, _put(f"{band}/{side}", lambda value: value * 1.001))
      for band in ("purchased", "sold", "stages/2/weight", "stages/2/left", "stages/2/of_purchased",
                   "stages/2/of_green", "stages/0/lost")
      for side in ("low", "typical", "high")),
    (FORWARDS, _put("stages/2/left/of_weight", "trimmed")),
    (FORWARDS, _put("stages/1/planned/high", lambda value: value + 1)),
    (FORWARDS, _put("stages/1/planned", None)),
    (FORWARDS, _put("stages/3/of_green", None)),
    (FORWARDS, _put("stages/2/a_point_saves/value", lambda value: value * 1.01)),
    (FORWARDS, _put("stages/1/a_point_saves", {"value": 1.0, "unit": "g"})),
    (FORWARDS, _put("portions/high", lambda value: value + 1)),
    (FORWARDS, _put("portions", None)),
    (FORWARDS, _put("defaults/0/typical", lambda value: value + 0.1)),
    (FORWARDS, _put("defaults/1/readings", [])),
    (FORWARDS, _put("defaults", [])),
    (FORWARDS, _put("stages/0/share_from", "stated")),
    (FORWARDS, _put("forecasts/0/outlook", "at_risk")),
    (FORWARDS, _put("forecasts/1/low", lambda value: value + 0.1)),
    (FORWARDS, _put("forecasts", [])),
    (FORWARDS, _put("findings/0/verdict", "not_met")),
    (FORWARDS, _put("cautions", [])),
    (FORWARDS, _put("steps", [])),
    (FORWARDS, _put("call_outs", [{"code": "pick_up_counted_twice", "message": "."}])),
    (WEIGHED, _put("findings/0/verdict", "met")),
    (WEIGHED, _put("findings/0/figure", 11.5)),
    (OPEN, _put("findings/0/verdict", "met")),
    (OPEN, _put("findings/0/verdict", "not_met")),
    (OPEN, _put("findings/0/message", "It cannot be told.")),
    (BONE, _put("call_outs", lambda told: told[1:])),
    (BONE, _put("call_outs", lambda told: told[:1])),
    (BACKWARDS, _put("purchased/low", lambda value: value - 1)),
    (BACKWARDS, _put("stages/1/lost/high", lambda value: value - 1)),
    (BACKWARDS, _put("pieces/0/buy/2/pieces", lambda value: value - 1)),
    (BACKWARDS, _put("pieces", [])),
]  # fmt: skip


def told(book: RuleBook, body: dict[str, Any]) -> dict[str, Any]:
    """The true answer."""
    asked = {name: value for name, value in body.items() if name not in ("task", "stages")}
    return told_of(answer_to(book, body["task"], *body["stages"], **asked))


@pytest.mark.parametrize("body", [FORWARDS, WEIGHED, OPEN, BONE, BACKWARDS])
def test_a_true_answer_is_proved(book: RuleBook, body: dict[str, Any]):
    """Nothing is wrong with it."""
    assert faults_of_chain(body, told(book, body)) == []


@pytest.mark.parametrize(("body", "spoil"), SPOILT)
def test_a_spoilt_answer_is_found(book: RuleBook, body: dict[str, Any], spoil: Spoil):
    """One figure or one word is another."""
    answer = told(book, body)

    spoil(answer)

    assert faults_of_chain(body, answer) != []
