"""What must hold of every dose the schema allows, checked by a mass balance that shares nothing with the code."""

import math
from typing import Any

from hypothesis import HealthCheck, assume, given, settings

from service.calculations.curing.dose import DoseAnswer
from service.calculations.refusals import Impossible, LimitExceeded, Refusal
from service.rules.book import RuleBook
from service.rules.loader import load_book
from tests.calculations.curing.kitchen import GRAMS, answer_to, grams, nitrite_by_mass_balance_ppm
from tests.calculations.curing.requests import dose_requests

SLACK = 1 + 1e-9
BOOK: RuleBook = load_book("test")
thorough = settings(
    max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)

WEIGHT_PER_NITRITE = {"sodium_nitrite": 1.0, "potassium_nitrite": 68.9953 / 85.1038}
NITRITE_ION_PER_SODIUM_NITRITE = 46.0055 / 68.9953


def answer_or_none(body: dict[str, Any]) -> DoseAnswer | None:
    """The answer, or None where the dose is refused."""
    try:
        return answer_to(BOOK, body)
    except Refusal:
        return None


def refusal_or_none(body: dict[str, Any]) -> Refusal | None:
    """The refusal, or None where there is an answer."""
    try:
        answer_to(BOOK, body)
    except Refusal as refusal:
        return refusal
    return None


def us_ceiling_ppm(body: dict[str, Any]) -> float:
    """9 CFR 424.21(c) and 424.22(b), text of 2018, as the nitrite salt by weight."""
    method, product = body["method"]["kind"], body["product"]["kind"]
    potassium = body["curing_salt"]["nitrite"]["salt"] == "potassium_nitrite"
    if product == "bacon":
        pumped_or_soaked, dry = (148, 246) if potassium else (120, 200)
        return {"dry": dry, "comminuted": min(156.25, dry)}.get(method, pumped_or_soaked)
    if product == "sausage":
        return 156.25
    return {"dry": 625, "comminuted": 156.25}.get(method, 200)


def us_floor_ppm(body: dict[str, Any]) -> float:
    """120 ppm for what is kept refrigerated (handbook p. 12); 118 where a ceiling of 120 leaves no room (own band)."""
    pumped_bacon = body["product"]["kind"] == "bacon" and body["method"]["kind"].startswith("injected")
    if pumped_bacon:
        return 145.5 if body["curing_salt"]["nitrite"]["salt"] == "potassium_nitrite" else 118
    if body["product"].get("storage", "keep_refrigerated") != "keep_refrigerated":
        return 0
    soaked_bacon = body["product"]["kind"] == "bacon" and body["method"]["kind"] == "immersion"
    return 118 if soaked_bacon else 120


@thorough
@given(dose_requests())
def test_no_answer_breaks_the_united_states_limits(body: dict[str, Any]) -> None:
    """Recomputed from the vessel, no dose for the United States exceeds its ceiling or falls under its floor."""
    body = {**body, "jurisdiction": "US"}
    answer = answer_or_none(body)
    assume(answer is not None)
    assert answer is not None

    readings = nitrite_by_mass_balance_ppm(body, answer)

    ceiling = us_ceiling_ppm(body)
    assert readings["taken"] <= ceiling * SLACK
    assert readings.get("vessel", 0) <= ceiling * SLACK
    assert readings["taken"] <= 650 * SLACK
    assert readings.get("pickle", 0) <= 4000 * SLACK
    as_sodium = 1 if us_floor_ppm(body) == 145.5 else WEIGHT_PER_NITRITE[body["curing_salt"]["nitrite"]["salt"]]
    least = min(readings["taken"], readings.get("vessel", readings["taken"]))
    assert least * as_sodium * SLACK >= us_floor_ppm(body)


@thorough
@given(dose_requests())
def test_no_answer_breaks_limits_elsewhere(body: dict[str, Any]) -> None:
    """Canada: 200 ppm of the batch, 120 for bacon. EU: 80 as ion from 9 October 2025, 150 as salt before. DK: 60."""
    answer = answer_or_none(body)
    assume(answer is not None and body["jurisdiction"] != "US")
    assert answer is not None

    batch = nitrite_by_mass_balance_ppm(body, answer)["batch"]

    sodium_nitrite = batch * WEIGHT_PER_NITRITE[body["curing_salt"]["nitrite"]["salt"]]
    place, day = body["jurisdiction"], body["on"]
    eu = 80 / NITRITE_ION_PER_SODIUM_NITRITE if day >= "2025-10-09" else 150
    ceilings = {"CA": 120 if body["product"]["kind"] == "bacon" else 200, "EU": eu, "DK": min(60, eu)}
    assert sodium_nitrite <= ceilings[place] * SLACK
    assert place != "CA" or sodium_nitrite * SLACK >= 100


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
    extras = {k: more(body[k]) for k in ("meat", "other_ingredients") if k in body}
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
def test_refusals_say_why(body: dict[str, Any]) -> None:
    """A refusal carries a broken finding that may refuse, or the reason why it cannot be done."""
    refusal = refusal_or_none(body)
    assume(refusal is not None)

    if isinstance(refusal, LimitExceeded):
        assert any(finding.refuses for finding in refusal.findings)
        assert refusal.advice
    else:
        assert isinstance(refusal, Impossible)
        assert refusal.code
        assert refusal.reason
