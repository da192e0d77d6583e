"""What a brine is near the ends of its range: saturated, out of the cold, about to be ready, and as it is worded."""

import json
from typing import Any

import pytest

from service.calculations.refusals import Impossible
from service.quantities.models import written
from service.rules.book import RuleBook
from tests.calculations.curing.brines import answered, cool, degc, degf, make, percent, salometer
from tests.calculations.curing.test_brine import adjust, read, weights

SIXTY = degc(140 / 9)


def gravity(ratio: float, t: float) -> dict[str, Any]:
    """A specific gravity read at a temperature."""
    return {"kind": "specific_gravity", "ratio": ratio, "read_at": degc(t)}


def refusal(book: RuleBook, task: dict[str, Any]) -> Impossible:
    """Why a task is refused."""
    with pytest.raises(Impossible) as refused:
        answered(book, task)
    return refused.value


@pytest.mark.parametrize("deg", [100.1, 101, 101.1])
def test_a_reading_just_over_saturation_is_told_as_saturated(book: RuleBook, deg: float):
    """By hand: 101.1 degrees are 26.685 percent, less than 0.3 over 26.395."""
    answer = answered(book, read(deg, SIXTY))

    assert answer.brine.salt_percent == 26.395
    assert "26.395 percent at 60 degF" in answer.steps[-1]
    assert "told as saturated" in answer.steps[-1]


def test_a_reading_far_over_saturation_is_refused(book: RuleBook):
    """By hand: 101.2 degrees are 26.711 percent, more than 0.3 over."""
    assert "at 60 degF" in refusal(book, read(101.2, SIXTY)).reason


def test_a_saturated_brine_is_read_in_the_cold(book: RuleBook):
    """What a brine of 26 percent shows at 1 degC is more than any brine at the temperature of the stem."""
    shown = answered(book, make(percent(26), temperature=degc(1))).brine.density_kg_per_l / 0.99902
    hydrometer = {"kind": "specific_gravity", "ratio": shown}

    answer = answered(book, {"kind": "read", "hydrometer": hydrometer, "temperature": degc(1)})

    assert answer.brine.salt_percent == pytest.approx(26, abs=0.02)


@pytest.mark.parametrize(("t", "most"), [(-5, 25.57), (-2, 26.0), (0, 26.28)])
def test_salt_falls_out_in_the_cold(book: RuleBook, t: float, most: float):
    """23.3 percent at -21.1 degC (Lange), 26.3 at 0.1 (from memory): by hand 25.58, 26.00 and 26.29 percent remain."""
    answered(book, make(percent(most - 0.01), temperature=degc(t)))

    assert refusal(book, make(percent(most + 0.03), temperature=degc(t))).code == "above_saturation"


@pytest.mark.parametrize(
    ("t", "readiness"), [(-4, "not_ready"), (-1.01, "not_ready"), (-1, "ready"), (4.4, "ready"), (4.45, "not_ready")]
)
def test_a_brine_in_which_meat_freezes_is_not_ready(book: RuleBook, t: float, readiness: str):
    """From -1 degC, the range of POST /v1/curing/time, to 40 degF."""
    answer = answered(book, make(percent(20), temperature=degc(t)))

    assert answer.readiness == readiness
    assert ("come up until you measure -1 degC or more" in (answer.wait_for or "")) == (t < -1)


@pytest.mark.parametrize(("temperature", "units", "now"), [(degc(4.45), "metric", "4.5"), (degf(40.01), "us", "40.1")])
def test_what_is_too_warm_is_not_worded_as_cold_enough(book: RuleBook, temperature: Any, units: str, now: str):
    """Nobody is told to wait at 4.4 degC until it is 4.4 degC."""
    waiting = answered(book, make(percent(8), temperature=temperature), units=units).wait_for

    assert f"The brine is at {now} deg" in (waiting or "")


def test_a_temperature_that_was_worked_out_says_how_far_it_is_off(book: RuleBook):
    """At 4 degC the wait for 4.4 degC is explained: it may be 1.5 degC, which are 2.7 degF, warmer."""
    task = cool(percent(24), percent(7), cooling={"kind": "to_temperature", "wanted": degc(4)})

    assert "may be 1.5 degC warmer" in (answered(book, task).wait_for or "")
    assert "may be 2.7 degF warmer" in (answered(book, task, units="us").wait_for or "")


@pytest.mark.parametrize(
    ("task", "off"),
    [
        (make(salometer(40)), 0.1), (make(gravity(1.05, 10)), 0.3), (adjust(percent(9), percent(5)), 0.1),
        (adjust(salometer(40), percent(5)), 0.3), (adjust(percent(9), salometer(20)), 0.1),
        (adjust(percent(9), gravity(1.03, 10)), 0.3), (read(50, degc(4)), 0.3), (cool(percent(24), percent(7)), 0.1),
    ],
)  # fmt: skip
def test_what_was_read_is_less_exact(book: RuleBook, task: dict[str, Any], off: float):
    """An instrument adds its division, whichever strength it told."""
    assert answered(book, task).uncertainty.strength_percent == off


def test_figures_hold_to_forty_degrees_but_for_a_concentrate(book: RuleBook):
    """Density is held against a second source up to 40 degC; a concentrate may be as hot as it boils."""
    assert answered(book, make(percent(8))).uncertainty.valid_to.value == 40
    assert answered(book, cool(percent(24), percent(7))).uncertainty.valid_to.value == 100


def test_a_volume_is_that_at_which_its_strength_was_read(book: RuleBook):
    """CRC: water and brine of 10 percent are lighter at 38 than at 4 degC, by about one part in a hundred."""
    litres = {"amount": {"value": 10, "unit": "l"}}
    warm = weights(answered(book, adjust(gravity(1.065, 38), percent(5), **litres)))["brine"]
    stated = weights(answered(book, adjust(gravity(1.065, 38), percent(5), temperature=degc(4), **litres)))["brine"]

    assert warm == pytest.approx(10 * 1065 * 0.99902, rel=1e-3)
    assert stated / warm == pytest.approx(1.012, abs=0.004)


def test_a_warm_weak_brine_may_stand_at_the_first_mark(book: RuleBook):
    """IAPWS: water of 30 degC is 0.9957 kg/l, of 60 degF 0.9990; 0.0034 of salt's 0.7 kg/l make it 1.000."""
    assert answered(book, make(gravity(1.0, 30))).brine.salt_percent == pytest.approx(0.48, abs=0.02)
    assert answered(book, read(0, degc(30))).brine.salt_percent == pytest.approx(0.48, abs=0.02)


@pytest.mark.parametrize("t", [-0.0, -0.04, 0.0])
def test_nothing_is_minus_nothing(book: RuleBook, t: float):
    """Not a temperature, not a correction, not a step."""
    shown = {"kind": "salometer", "deg": 50}
    tasks = [make(percent(8), temperature=degc(t)), {"kind": "read", "hydrometer": shown, "temperature": degc(t)}]
    stem = {"kind": "read", "hydrometer": shown, "temperature": degc(140 / 9 - 1e-4)}

    told = [written(answered(book, task)).decode() for task in [*tasks, stem]]

    assert [one for one in told if "-0.0," in one or "-0.0}" in one or " -0 " in one or "-0.00" in one] == []
    assert all(json.loads(one) for one in told)


def test_cold_water_below_nothing_is_ice(book: RuleBook):
    """The refusal speaks of water, and of 0 degC."""
    refused = refusal(book, cool(percent(24), percent(6), water_temperature=degc(-7)))

    assert "The cold water is at -7 degC" in refused.reason
    assert "0 degC or warmer" in (refused.nearest or "")


def test_no_ice_is_offered_where_there_is_no_room(book: RuleBook):
    """A concentrate that has the wanted strength takes up no water."""
    refused = refusal(book, cool(percent(9), percent(9)))

    assert (refused.nearest or "").startswith("Add no ice; let it cool")


def test_an_instrument_is_not_hot_but_the_brine(book: RuleBook):
    """What is at 50 degC is the brine."""
    assert refusal(book, read(50, degc(50))).reason.startswith("The brine is at 50 degC")
