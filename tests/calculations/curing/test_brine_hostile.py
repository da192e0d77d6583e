"""Brines that cannot be: each is refused for its reason, or outside the contract."""

from typing import Any

import pytest
from pydantic import ValidationError

from service.calculations.curing.brining.refusing import REASONS
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from tests.calculations.curing.brine_proofs import PROOFS, faults_of_refusal
from tests.calculations.curing.brines import answered, cool, degc, make, percent, salometer
from tests.calculations.curing.test_brine import adjust, laid, read

SALT_FALLS_OUT = {"strength": percent(26.35), "temperature": degc(0.1)}
NEARLY_ICE = {"strength": percent(7.9), "temperature": degc(-5)}
SHALLOW = {
    "kind": "rectangular", "length": {"value": 60, "unit": "cm"}, "width": {"value": 40, "unit": "cm"},
    "height": {"value": 18, "unit": "cm"},
}  # fmt: skip
WARM_AND_WEAK = {"strength": percent(12), "temperature": degc(95)}


def gravity(ratio: float, t: float) -> dict[str, Any]:
    """A specific gravity read at a temperature."""
    return {"kind": "specific_gravity", "ratio": ratio, "read_at": degc(t)}


def with_ice(value: float) -> dict[str, Any]:
    """Kilograms of ice."""
    return {"kind": "with_ice", "ice": {"value": value, "unit": "kg"}}


REFUSED = [
    ("brine_touched_meat", adjust(percent(9), percent(5), touched_meat=True)),
    ("above_saturation", make(gravity(1.205, 30))),
    ("above_saturation", make({"kind": "grams_per_litre", "salt_g_per_l": 318, "measured_at": degc(39)})),
    ("above_saturation", read(109, degc(15))),
    ("above_saturation", {"kind": "read", "hydrometer": {"kind": "baume", "deg": 29}, "temperature": degc(15)}),
    ("above_saturation", make(percent(26), temperature=degc(-4))),
    ("above_saturation", adjust(percent(9), percent(25.9), temperature=degc(-4))),
    ("above_saturation", cool(percent(26), percent(25.9), cooling={"kind": "to_temperature", "wanted": degc(-4)})),
    ("above_saturation", cool(percent(26.35), percent(26.345), water_temperature=degc(0), concentrate=SALT_FALLS_OUT)),
    ("above_saturation", read(101.2, degc(140 / 9))),
    ("no_salt_in_it", make(gravity(1.001, 3))),
    ("no_salt_in_it", read(0.6, degc(2))),
    ("outside_temperature_range", make(percent(9), temperature=degc(41))),
    ("outside_temperature_range", make(percent(20), temperature=degc(-5.1))),
    ("outside_temperature_range", make(gravity(1.05, 90))),
    ("outside_temperature_range", cool(percent(24), percent(6), water_temperature=degc(60))),
    ("outside_temperature_range", cool(percent(24), percent(6), ice_temperature=degc(1))),
    ("outside_temperature_range", cool(percent(24), percent(6), ice_temperature=degc(-41))),
    (
        "outside_temperature_range",
        cool(percent(24), percent(6), cooling={"kind": "to_temperature", "wanted": degc(60)}),
    ),
    ("below_freezing", make(percent(3), temperature=degc(-2))),
    ("below_freezing", adjust(percent(10), percent(3), temperature=degc(-4))),
    ("below_freezing", adjust(percent(3), percent(10), temperature=degc(-4))),
    ("below_freezing", cool(percent(7.9), percent(4), water_temperature=degc(0), concentrate=NEARLY_ICE)),
    ("below_freezing", cool(percent(24), percent(6), water_temperature=degc(-7))),
    ("below_freezing", cool(percent(24), percent(6), water_temperature=degc(-1))),
    ("below_freezing", cool(percent(24), percent(6), cooling={"kind": "to_temperature", "wanted": degc(-4.9)})),
    ("concentrate_too_weak", cool(percent(8), percent(9))),
    ("more_ice_than_water", cool(percent(12), percent(10), concentrate=WARM_AND_WEAK)),
    ("more_ice_than_water", cool(percent(24), percent(6), cooling=with_ice(15.1))),
    ("ice_left_over", cool(percent(24), percent(6), cooling=with_ice(12))),
    ("pieces_do_not_fit", laid(percent(9), pieces={"total": {"value": 13, "unit": "kg"}})),
    ("pieces_do_not_fit", laid(percent(9), pieces={"number": 1, "total": {"value": 6, "unit": "kg"}}, vessel=SHALLOW)),
    ("pieces_do_not_fit", laid(percent(9), headspace_percent=50, pieces={"total": {"value": 8, "unit": "kg"}})),
    ("pieces_do_not_fit", laid(percent(9), pieces={"number": 1, "total": {"value": 40, "unit": "kg"}})),
]


@pytest.mark.parametrize(("code", "task"), REFUSED)
def test_what_cannot_be_is_refused_with_the_nearest_thing(book: RuleBook, code: str, task: dict[str, Any]):
    """The code is the right one, the refusal is true by other arithmetic, and something nearer is offered."""
    with pytest.raises(Impossible) as refused:
        answered(book, task)

    assert refused.value.code == code
    assert faults_of_refusal({"task": task}, {"code": code, "nearest": refused.value.nearest}) == []


def test_every_reason_is_shown_and_can_be_proved():
    """There is no reason without a case above and a proof, and no proof of another."""
    assert {code for code, _ in REFUSED} == REASONS.keys() == PROOFS.keys()


@pytest.mark.parametrize(
    "task",
    [
        make(percent(9), temperature=degc(39.9)), make(percent(9), temperature=degc(-4.9)), make(percent(26.395)),
        read(95, degc(15)), read(3, degc(2)), cool(percent(9.1), percent(9), cooling=with_ice(0.01)),
        cool(percent(24), percent(6), cooling=with_ice(5)), adjust(percent(9), percent(5)),
        laid(percent(9), pieces={"total": {"value": 12, "unit": "kg"}}),
    ],
)  # fmt: skip
def test_no_reason_holds_for_what_can_be(book: RuleBook, task: dict[str, Any]):
    """Beside every bound there is an answer, and the proof of each refusal would fail for it."""
    answered(book, task)

    codes = ("outside_temperature_range", "above_saturation", "no_salt_in_it", "below_freezing")
    assert [code for code in codes if PROOFS[code]({"task": task})] == []


@pytest.mark.parametrize(
    ("code", "task"), [row for row in REFUSED if row[0] in ("more_ice_than_water", "ice_left_over")]
)
def test_the_nearest_ice_is_ice_that_can_be(book: RuleBook, code: str, task: dict[str, Any]):
    """The most ice that a refusal names is answered."""
    with pytest.raises(Impossible) as refused:
        answered(book, task)
    nearest = float((refused.value.nearest or "").split(" ")[1])

    answer = answered(book, {**task, "cooling": with_ice(nearest)})

    assert answer.cooling is not None
    assert answer.cooling.temperature == answer.cooling.coldest


def test_as_many_pieces_as_are_offered_fit(book: RuleBook):
    """Three of the five shanks of 4 kg fit into the pail, and four do not."""
    with pytest.raises(Impossible) as refused:
        answered(book, laid(percent(9), pieces={"total": {"value": 20, "unit": "kg"}}))

    assert "Lay in 3 of the 5 pieces" in (refused.value.nearest or "")
    answered(book, laid(percent(9), pieces={"number": 3, "total": {"value": 12, "unit": "kg"}}))
    with pytest.raises(Impossible):
        answered(book, laid(percent(9), pieces={"number": 4, "total": {"value": 16, "unit": "kg"}}))


@pytest.mark.parametrize(
    "task",
    [
        make(percent(0)), make(percent(26.4)), make(salometer(0)), make(salometer(100.1)),
        make({"kind": "brix", "deg": 4}),
        make(percent(9), {"value": 0, "unit": "kg"}), make(percent(9), {"value": -1, "unit": "l"}),
        make(percent(9), temperature={"value": 4, "unit": "degK"}), make(percent(float("nan"))),
        make({"kind": "specific_gravity", "ratio": 1.05}), make(percent(9), nitrite_ppm=150),
        laid(percent(9), pieces={"number": 0}), laid(percent(9), headspace_percent=51),
        {key: value for key, value in adjust(percent(9), percent(5)).items() if key != "touched_meat"},
        adjust(percent(9), percent(5), touched_meat=None), make(percent(9), temperature=None),
    ],
)  # fmt: skip
def test_what_the_contract_can_exclude_is_outside_it(book: RuleBook, task: dict[str, Any]):
    """Nothing, too much, unknown scales and units, and whether meat was in it left out."""
    with pytest.raises(ValidationError):
        answered(book, task)


def test_a_whole_number_may_be_written_with_a_point(book: RuleBook):
    """JSON knows one kind of number: 5.0 pieces are 5, and half a piece is none."""
    written, plain = (answered(book, laid(percent(9), pieces={"number": number})) for number in (5.0, 5))

    assert written == plain
    with pytest.raises(ValidationError):
        answered(book, laid(percent(9), pieces={"number": 5.5}))


@pytest.mark.parametrize("value", [0.001, 1e6])
@pytest.mark.parametrize("unit", ["ml", "g", "gal", "lb"])
def test_the_smallest_and_the_largest_amount_are_answered(book: RuleBook, value: float, unit: str):
    """No amount inside the bounds becomes nothing or overflows."""
    answer = answered(book, make(percent(5), {"value": value, "unit": unit}))

    assert all(one.amount.value > 0 for one in answer.weigh)
