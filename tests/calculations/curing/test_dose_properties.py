"""What must hold of every dose the schema allows, checked by a mass balance that shares nothing with the code."""

import math
from typing import Any

from hypothesis import HealthCheck, assume, given, settings

from service.calculations.curing.dose import DoseAnswer
from service.calculations.refusals import Impossible, LimitExceeded, Refusal
from service.rules.book import RuleBook
from service.rules.loader import load_book
from tests.calculations.curing.kitchen import GRAMS, answer_to, grams
from tests.calculations.curing.law import faults_of_dose
from tests.calculations.curing.proofs import faults_of_refusal
from tests.calculations.curing.requests import dose_requests
from tests.calculations.curing.stays import readings_ppm

BOOK: RuleBook = load_book("test")
thorough = settings(
    max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)


def answer_or_none(body: dict[str, Any]) -> DoseAnswer | None:
    """The answer, or None where the dose is refused."""
    try:
        return answer_to(BOOK, body)
    except Refusal:
        return None


def told(refusal: Refusal) -> dict[str, Any]:
    """A refusal as it is told over HTTP, as far as the proof reads it."""
    if isinstance(refusal, LimitExceeded):
        return {"code": "limit_exceeded", "findings": [vars(finding) for finding in refusal.findings]}
    assert isinstance(refusal, Impossible)
    return {"code": refusal.code}


def refusal_or_none(body: dict[str, Any]) -> Refusal | None:
    """The refusal, or None where there is an answer."""
    try:
        answer_to(BOOK, body)
    except Refusal as refusal:
        return refusal
    return None


@thorough
@given(dose_requests())
def test_no_answer_breaks_a_limit(body: dict[str, Any]) -> None:
    """Recomputed from the vessel, no dose exceeds a ceiling or falls under a floor of its place."""
    answer = answer_or_none(body)
    assume(answer is not None)
    assert answer is not None

    readings = readings_ppm(body, grams(answer))

    assert faults_of_dose(body, readings) == []


@thorough
@given(dose_requests())
def test_weights_are_finite_and_never_rounded_up(body: dict[str, Any]) -> None:
    """Every weight is a finite multiple of the scale's step; what has a ceiling is never above its exact amount."""
    answer = answer_or_none(body)
    assume(answer is not None)
    assert answer is not None
    step = body["scale_step"]["value"] * GRAMS[body["scale_step"]["unit"]]

    for item in answer.weigh:
        shown = item.amount.value * GRAMS.get(item.amount.unit, 1.0)
        assert math.isfinite(shown)
        assert math.isfinite(item.exact_g)
        if item.rounded.startswith("down"):
            assert shown <= item.exact_g + step * (1 + 1e-6)
            assert shown >= item.exact_g - 2 * step
        if item.rounded.startswith("to the nearest"):
            assert abs(shown - item.exact_g) <= step * 0.5 * (1 + 1e-6) + 1e-9 * item.exact_g


def scaled(body: dict[str, Any], factor: float) -> dict[str, Any]:
    """The same request for so many times the meat, the water and everything else that is stated by weight."""

    def more(quantity: dict[str, Any]) -> dict[str, Any]:
        return {**quantity, "value": quantity["value"] * factor}

    method = {**body["method"], **({"water": more(body["method"]["water"])} if "water" in body["method"] else {})}
    product = {
        **body["product"],
        **({"skin_free": more(body["product"]["skin_free"])} if "skin_free" in body["product"] else {}),
    }
    extras = {k: more(body[k]) for k in ("meat", "other_ingredients", "dissolved_ingredients") if k in body}
    powder = (
        {"stock_powder": {**body["stock_powder"], "mass": more(body["stock_powder"]["mass"])}}
        if "stock_powder" in body
        else {}
    )
    return {**body, "method": method, "product": product, **extras, **powder}


@thorough
@given(dose_requests())
def test_scaling_scales_the_weights(body: dict[str, Any]) -> None:
    """Twice of everything takes twice the weights: exactly before rounding, within a step after it."""
    once, twice = answer_or_none(body), _answer_if_valid(scaled(body, 2.0))
    assume(once is not None and twice is not None)
    assert once is not None
    assert twice is not None
    step = body["scale_step"]["value"] * GRAMS[body["scale_step"]["unit"]]

    for item, double in zip(once.weigh, twice.weigh, strict=True):
        assert item.what == double.what
        assert math.isclose(2 * item.exact_g, double.exact_g, rel_tol=1e-12, abs_tol=1e-9)
    for what, mass in grams(once).items():
        assert abs(2 * mass - grams(twice)[what]) <= 3 * step * (1 + 1e-6) + 1e-9 * mass


def _answer_if_valid(body: dict[str, Any]) -> DoseAnswer | None:
    try:
        return answer_or_none(body)
    except ValueError:  # scaled past the schema's edge
        return None


@thorough
@given(dose_requests())
def test_changing_units_changes_nothing(body: dict[str, Any]) -> None:
    """The same masses written in grams take the same weights."""

    def in_grams(quantity: dict[str, Any]) -> dict[str, Any]:
        return {"value": quantity["value"] * GRAMS[quantity["unit"]], "unit": "g"}

    metric = {**body, "meat": in_grams(body["meat"])}
    if body["method"].get("water", {}).get("unit") in GRAMS:
        metric["method"] = {**body["method"], "water": in_grams(body["method"]["water"])}
    first, second = answer_or_none(body), _answer_if_valid(metric)
    assume(first is not None and second is not None)
    assert first is not None
    assert second is not None

    for item, other in zip(first.weigh, second.weigh, strict=True):
        assert math.isclose(item.exact_g, other.exact_g, rel_tol=1e-12, abs_tol=1e-9)
    step = body["scale_step"]["value"] * GRAMS[body["scale_step"]["unit"]]
    assert abs(grams(first)["curing_salt"] - grams(second)["curing_salt"]) <= step * (1 + 1e-6)


@thorough
@given(dose_requests())
def test_more_target_takes_more_curing_salt(body: dict[str, Any]) -> None:
    """The curing salt grows with the target, up to the edges of the schema."""
    assume(body["target"]["kind"] == "ingoing_nitrite" and body["target"]["ppm"] < 990)
    raised = {**body, "target": {**body["target"], "ppm": body["target"]["ppm"] * 1.01}}
    lower, higher = answer_or_none(body), answer_or_none(raised)
    assume(lower is not None and higher is not None)
    assert lower is not None
    assert higher is not None

    assert higher.weigh[0].exact_g > lower.weigh[0].exact_g
    assert higher.weigh[0].amount.value >= lower.weigh[0].amount.value


@thorough
@given(dose_requests())
def test_refusals_are_true(body: dict[str, Any]) -> None:
    """What a refusal says is so, worked out again without the service's formulas."""
    refusal = refusal_or_none(body)
    assume(refusal is not None)
    assert refusal is not None

    assert faults_of_refusal(body, told(refusal)) == []
