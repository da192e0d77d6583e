"""What holds for any piece that is cut up."""

import json
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.butchery.cut_test import CutTestRequest, cut_test
from service.quantities.models import written
from service.rules.loader import load_book
from tests.calculations.butchery.blocks import part
from tests.calculations.butchery.cut_test_bodies import GRAMS, USES, lawful_body
from tests.calculations.butchery.cut_test_proofs import faults_of_answer

BOOK = load_book("test")
UNITS = st.sampled_from(list(GRAMS))
VALUES = st.floats(min_value=0.001, max_value=1e6)
WEIGHTS = st.builds(lambda value, unit: {"value": value, "unit": unit}, VALUES, UNITS)
PARTS = st.builds(
    lambda name, use, weights: {**part(name, use), "weights": weights},
    st.text(st.characters(codec="utf-8", categories=["L", "N"]), min_size=1, max_size=20),
    st.sampled_from(USES),
    st.lists(WEIGHTS, max_size=8),
)


def told(body: dict) -> dict:
    """The answer as it is sent."""
    return json.loads(written(cut_test(CutTestRequest.model_validate(body), BOOK)))


@settings(max_examples=300, deadline=None)
@given(WEIGHTS, st.lists(PARTS, min_size=1, max_size=40))
def test_nothing_is_lost(purchased: dict, parts: list[dict]):
    """Parts, losses and what is not accounted for are what was bought, to 1e-9 of all that was weighed."""
    balance = told({"purchased": purchased, "parts": parts})["balance"]

    sum_g = balance["parts_g"] + balance["loss_g"] + balance["unaccounted_g"]
    scale_g = balance["purchased_g"] + balance["parts_g"] + balance["loss_g"]
    assert abs(sum_g - balance["purchased_g"]) <= 1e-9 * scale_g


@settings(max_examples=300, deadline=None)
@given(st.integers(0, 2**32))
def test_every_answer_is_proved(seed: int):
    """Shares, totals, verdicts and notes follow from what was asked, by fractions."""
    body = json.loads(json.dumps(lawful_body(Random(seed))))

    assert faults_of_answer(body, told(body)) == []


@settings(max_examples=150, deadline=None)
@given(WEIGHTS, st.lists(PARTS, min_size=1, max_size=10))
def test_any_answer_is_proved_however_odd_the_weights(purchased: dict, parts: list[dict]):
    """A milligram beside a thousand tonnes."""
    body = {"purchased": purchased, "parts": parts}

    assert faults_of_answer(body, told(body)) == []


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 2**32))
def test_the_order_of_parts_changes_nothing_but_the_order(seed: int):
    """Totals, yields and closure are those of the parts, however they are written down."""
    body = lawful_body(Random(seed)) | {"scale_step": {"value": 5, "unit": "g"}}

    forwards, backwards = told(body), told(body | {"parts": body["parts"][::-1]})

    assert forwards["yields"] == backwards["yields"]
    assert forwards["by_use"] == backwards["by_use"]
    assert forwards["closure"]["code"] == backwards["closure"]["code"]


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 2**32), st.floats(0.01, 20), st.floats(0.01, 20))
def test_more_tolerance_never_turns_met_into_not_met(seed: int, one: float, other: float):
    """With the wider tolerance the test closes wherever it closes with the narrower."""
    body = lawful_body(Random(seed))
    tight, wide = sorted((one, other))

    if told(body | {"tolerance_percent": tight})["closure"]["verdict"] == "met":
        assert told(body | {"tolerance_percent": wide})["closure"]["verdict"] == "met"


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 2**32), st.floats(0.01, 1000))
def test_a_coarser_scale_never_proves_more(seed: int, step_g: float):
    """Whatever can be told with the coarse scale can be told without its step: the verdict is the same or is open."""
    fine = {name: value for name, value in lawful_body(Random(seed)).items() if name != "scale_step"}

    coarse = told(fine | {"scale_step": {"value": step_g, "unit": "g"}})["closure"]["verdict"]

    assert coarse in ("cannot_tell", told(fine)["closure"]["verdict"])
