"""Huge, tiny, warm, frozen and contradictory soaks: each is refused for its reason, with something that is near."""

import re
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.curing.soak import SOAK, SoakRequest, soak
from service.calculations.curing.soaking.refusing import REASONS
from service.calculations.refusals import Impossible
from service.rules.loader import load_book
from tests.calculations.curing.soak_bodies import bath_g, lawful_body, meat_g
from tests.calculations.curing.soak_proofs import faults_of_refusal, faults_of_soak

BOOK = load_book("test")


def mm(value: float) -> dict[str, Any]:
    """A length."""
    return {"value": value, "unit": "mm"}


SLAB: dict[str, Any] = {"kind": "slab", "thickness": mm(40)}
BODY: dict[str, Any] = {
    "meat": {"value": 3.2, "unit": "kg"},
    "shape": SLAB,
    "salt_percent": 5,
    "wanted_salt_percent": 4,
    "temperature": {"value": 2, "unit": "degC"},
    "water": {"value": 11, "unit": "l"},
}
BRICK: dict[str, Any] = {"kind": "brick", "thickness": mm(60), "width": mm(200), "length": mm(250)}
HEAVY = {"value": 300, "unit": "kg"}
SHUT = {"top_and_bottom": 0, "sides": 0, "ends": 0}

REFUSED: list[tuple[str, dict[str, Any]]] = [
    ("too_warm", {"temperature": {"value": 5.01, "unit": "degC"}}),
    ("too_warm", {"temperature": {"value": 68, "unit": "degF"}}),
    ("too_warm", {"temperature": {"value": 1000, "unit": "degC"}}),
    ("too_cold", {"temperature": {"value": -0.01, "unit": "degC"}}),
    ("too_cold", {"temperature": {"value": -18, "unit": "degC"}}),
    ("cooked_piece", {"cooked": True}),
    ("nothing_to_remove", {"wanted_salt_percent": 5}),
    ("nothing_to_remove", {"wanted_salt_percent": 5.2}),
    ("nothing_to_remove", {"salt_percent": 0.5, "wanted_salt_percent": 20}),
    ("undissolved_salt", {"salt_percent": 20, "wanted_salt_percent": 15, "water_percent": 50}),
    ("change_out_of_range", {"change_every": {"value": 1, "unit": "h"}}),
    ("change_out_of_range", {"change_every": {"value": 0.001, "unit": "s"}}),
    ("change_out_of_range", {"change_every": {"value": 4, "unit": "d"}}),
    ("change_out_of_range", {"change_every": {"value": 1e6, "unit": "d"}}),
    ("takes_too_long", {"shape": {**SLAB, "thickness": mm(500)}, "meat": HEAVY}),
    ("takes_too_long", {"shape": {**SLAB, "thickness": mm(400), "open_faces": 1}, "salt_percent": 20, "meat": HEAVY}),
    ("takes_too_long", {"wanted_salt_percent": 0.1}),
    ("takes_too_long", {"wanted_salt_percent": 0.1, "shape": {**SLAB, "thickness": mm(3)}, "salt_percent": 20,
                        "change_every": {"value": 72, "unit": "h"}}),
    ("takes_too_long", {"water": {"value": 0.001, "unit": "ml"}}),
    ("takes_too_long", {"water": {"value": 0.001, "unit": "g"}, "meat": {"value": 1e6, "unit": "lb"}}),
    ("takes_too_long", {"water": {"value": 1e6, "unit": "gal"}, "meat": {"value": 70, "unit": "g"},
                        "wanted_salt_percent": 1}),
    ("shape_contradicts_weight", {"shape": BRICK, "pieces": 9}),
    ("shape_contradicts_weight", {"shape": {"kind": "sphere", "diameter": mm(60)}}),
    ("shape_contradicts_weight", {"shape": {"kind": "measured", "thickness": mm(4), "length": mm(3)}}),
    ("size_out_of_range", {"shape": {**SLAB, "thickness": mm(2.9)}}),
    ("size_out_of_range", {"shape": {**SLAB, "thickness": {"value": 1e6, "unit": "m"}}}),
    ("nothing_open", {"shape": {**BRICK, "open_faces": SHUT}}),
]  # fmt: skip


def refusal_of(body: dict[str, Any]) -> Impossible | None:
    """Why a soak is refused; None where it is answered."""
    try:
        soak(SoakRequest.model_validate(body), BOOK)
    except Impossible as refusal:
        return refusal
    return None


@pytest.mark.parametrize(("code", "changed"), REFUSED)
def test_what_is_not_soaked_is_refused_for_its_reason(code: str, changed: dict[str, Any]):
    """Each has its code, and what the request says proves it."""
    body = {**BODY, **changed}

    refusal = refusal_of(body)

    assert refusal is not None
    assert refusal.code == code
    assert refusal.nearest
    assert faults_of_refusal(body, {"code": code, "nearest": refusal.nearest}) == []


def test_the_same_piece_is_answered_without_them():
    """So each of them is refused for what was changed."""
    assert refusal_of(BODY) is None


def test_every_reason_is_tried():
    """No code is declared that no request brings about."""
    assert {code for code, _ in REFUSED} == set(SOAK.reasons)
    assert set(REASONS) < set(SOAK.reasons)


@pytest.mark.parametrize("code", [*sorted(SOAK.reasons), "because"])
def test_a_refusal_that_is_not_true_is_found(code: str):
    """The proof fails for a piece that is answered, whatever the code."""
    body = {**BODY, "shape": BRICK}

    assert refusal_of(body) is None
    assert faults_of_refusal(body, {"code": code, "nearest": "Do."}) != []


def with_remedies(body: dict[str, Any], nearest: str) -> list[dict[str, Any]]:
    """The request with each thing that is named as near, one at a time."""
    plenty = {"water": {"value": 20 * meat_g(body) / 1000, "unit": "kg"}}
    slice_mm = {"shape": {"kind": "slab", "thickness": mm(3)}}
    named = {
        r"want at least ([0-9.]+) percent": lambda want: {"wanted_salt_percent": want},
        r"deeper than ([0-9.]+) mm": lambda deep: {"shape": {"kind": "slab", "thickness": mm(2 * deep)}},
        r"take (20) times its weight in water each time": lambda _: plenty,
        r"cut it to 3 mm, take 20 times its weight .* every ([0-9.]+) hours": lambda hours: {
            **plenty, **slice_mm, "change_every": {"value": hours, "unit": "h"},
        },
    }  # fmt: skip
    return [
        {**body, **changed(float(found))}
        for pattern, changed in named.items()
        for found in re.findall(pattern, nearest.lower())
    ]


@settings(max_examples=150, deadline=None)
@given(
    st.integers(0, 10**9).map(lambda seed: lawful_body(Random(seed))),
    st.floats(0.001, 0.99),
    st.sampled_from([1e-4, 0.03, 0.5, 1.0, 30.0]),
    st.floats(3, 500),
)
def test_whatever_is_near_is_answered(body: dict[str, Any], left: float, water: float, thick_mm: float):
    """Of a piece for which three days are too few, each remedy that the refusal names is one."""
    wanted = max(0.1, body["salt_percent"] * left)
    bath = {"value": max(0.001, water * bath_g(body) / 1000), "unit": "kg"}
    slab = {"kind": "slab", "thickness": mm(thick_mm)}
    body = {**body, "wanted_salt_percent": wanted, "water": bath, "shape": slab, "meat": HEAVY, "pieces": 1}

    refusal = refusal_of(body)

    if refusal is not None:
        assert refusal.code == "takes_too_long"
        remedied = with_remedies(body, str(refusal.nearest))
        assert remedied
        assert [str(again) for one in remedied if (again := refusal_of(one))] == []


@pytest.mark.parametrize(
    "changed",
    [
        {"shape": {**SLAB, "thickness": mm(3)}, "change_every": {"value": 2, "unit": "h"}},
        {"water": {"value": 1e6, "unit": "gal"}},
        {"meat": {"value": 1e6, "unit": "lb"}, "water": {"value": 1e6, "unit": "gal"}},
        {"salt_percent": 20, "wanted_salt_percent": 19.9999999},
        {"wanted_salt_percent": 4.999999999999},
        {"change_every": {"value": 2, "unit": "h"}, "pieces": 40},
        {"temperature": {"value": 32, "unit": "degF"}},
        {"temperature": {"value": 41, "unit": "degF"}},
    ],
)
def test_what_is_odd_and_lawful_is_answered_and_proved(changed: dict[str, Any]):
    """The ends of the bounds, and a grain of salt."""
    body = {**BODY, **changed}

    answer = soak(SoakRequest.model_validate(body), BOOK)

    assert faults_of_soak(body, answer.model_dump(mode="json")) == []


@pytest.mark.parametrize(
    "changed",
    [
        {"salt_percent": 0.04},
        {"wanted_salt_percent": 0.035},
        {"salt_percent": 21},
        {"water_percent": 0.7},
        {"change_every": 12},
        {"starts_at": "2026-12-01"},
        {"units": "imperial"},
        {"nitrite_ppm": 100},
        {"pieces": 0},
        {"shape": {**SLAB, "open_faces": True}},
        {"shape": {**BRICK, "open_faces": {"ends": False}}},
    ],
)
def test_what_breaks_the_schema_is_not_read(changed: dict[str, Any]):
    """Fractions in place of percents, numbers without a unit, moments without an offset, fields that are not there."""
    with pytest.raises(ValueError, match="validation error"):
        SoakRequest.model_validate({**BODY, **changed})
