"""Making, reading, adjusting and cooling a brine, and laying pieces in it."""

from typing import Any

import pytest

from service.rules.book import RuleBook
from tests.calculations.curing.brines import answered, cool, degc, degf, density, make, percent, salometer

LEAFLET = "The Salometer and How to Use It, trade leaflet"


def weights(answer: Any) -> dict[str, float]:
    """Grams of everything to be weighed."""
    return {one.what: one.exact_g for one in answer.weigh}


def read(deg: float, temperature: dict[str, Any], **graded: str) -> dict[str, Any]:
    """A salometer in a brine."""
    return {"kind": "read", "hydrometer": {"kind": "salometer", "deg": deg, **graded}, "temperature": temperature}


def adjust(has: dict[str, Any], wanted: dict[str, Any], **other: Any) -> dict[str, Any]:
    """Eleven kilograms of brine to be brought to another strength."""
    amount = {"value": 11, "unit": "kg"}
    return {"kind": "adjust", "amount": amount, "strength": has, "wanted": wanted, "touched_meat": False, **other}


def laid(strength: dict[str, Any], **asked: Any) -> dict[str, Any]:
    """Six kilograms of shanks in a twenty litre pail."""
    pieces = {"number": 5, "total": {"value": 6, "unit": "kg"}, **asked.pop("pieces", {})}
    vessel = {"kind": "known_volume", "volume": {"value": 20, "unit": "l"}}
    how_much = {"kind": "vessel_with_pieces", "vessel": vessel, "pieces": pieces, **asked}
    return {"kind": "make", "strength": strength, "how_much": how_much}


def test_ten_percent_is_one_part_of_salt_and_nine_of_water(book: RuleBook):
    """By the meaning of percent by weight: ten kilograms of brine hold one of salt."""
    answer = answered(book, make(percent(10)))

    assert weights(answer) == pytest.approx({"salt": 1000, "water": 9000})
    assert answer.brine.mass is not None
    assert (answer.brine.mass.value, answer.brine.mass.unit) == (10, "kg")


def test_a_volume_is_that_of_the_finished_brine(book: RuleBook):
    """CRC table, 20 degC: a litre of 10 percent weighs 1.0707 kg."""
    answer = answered(book, make(percent(10), {"value": 1, "unit": "l"}, temperature=degc(20)))

    assert sum(weights(answer).values()) == pytest.approx(1070.7, abs=0.4)
    assert answer.brine.volume is not None
    assert answer.brine.volume.value == 1


def test_water_at_hand_is_all_the_water(book: RuleBook):
    """A US gallon and the pounds of the salometer table: 0.983 lb to the gallon of water make 40 degrees."""
    how_much = {"kind": "water_at_hand", "water": {"value": 1, "unit": "gal"}}
    answer = answered(book, {**make(salometer(40)), "how_much": how_much}, units="us")

    assert weights(answer)["salt"] / 453.59237 == pytest.approx(0.983, abs=0.003)
    assert "weigh-ice" in {caution.id for caution in answer.cautions}


def test_a_cold_brine_reads_too_strong(book: RuleBook):
    """A brine of 40 degrees reads 41.6 at 38 degF on an instrument for 60 degF: +1.6 (from memory, within 0.1)."""
    answer = answered(book, read(41.6, degf(38)))

    assert answer.brine.salometer_deg == pytest.approx(40, abs=0.1)
    assert answer.reading is not None
    assert answer.reading.correction_deg == pytest.approx(-1.6, abs=0.1)


def test_an_instrument_reads_true_at_the_temperature_of_its_stem(book: RuleBook):
    """LEAFLET: graded at 60 degF it is right at 60, graded at 38 it is right at 38; the other way round it is not."""
    assert answered(book, read(52, degf(60))).brine.salometer_deg == 52
    assert answered(book, read(52, degf(38), graded_at="38_degF")).brine.salometer_deg == 52
    assert answered(book, read(52, degf(60), graded_at="38_degF")).brine.salometer_deg > 53


def test_a_hundred_degrees_may_be_25_percent(book: RuleBook):
    """LEAFLET: on instruments for canners 100 degrees are 25 percent, not 26.395."""
    answer = answered(book, read(60, degf(60), full_scale="25_percent"))

    assert answer.brine.salt_percent == pytest.approx(15)
    assert answer.reading is not None
    assert "25 percent" in answer.reading.instrument
    assert answer.cautions[0].id == "read-the-stem"


def test_a_gravity_against_water_of_20_degrees(book: RuleBook):
    """CRC table, 20 degC: 1.0707 and water 0.9982 kg/l make 1.0726 on an instrument for 20/20 degC: 10 percent."""
    hydrometer = {"kind": "specific_gravity", "ratio": 1.0707 / 0.9982, "graded_at": "20_degC"}
    answer = answered(book, {"kind": "read", "hydrometer": hydrometer, "temperature": degc(20)})

    assert answer.brine.salt_percent == pytest.approx(10, abs=0.01)


def test_a_reading_weighs_nothing_and_says_nothing_of_readiness(book: RuleBook):
    """It has no amount, and readiness is no matter of an instrument; its uncertainty has that of reading in it."""
    answer = answered(book, read(50, degc(3)))

    assert (answer.weigh, answer.brine.mass, answer.readiness, answer.wait_for) == ((), None, None, None)
    assert answer.uncertainty.strength_percent > answered(book, make(percent(5))).uncertainty.strength_percent


def test_salt_or_water_is_added(book: RuleBook):
    """By hand: 11 kg of 10 percent and 11 kg of water are 22 of 5; 11 x 0.1/0.8 kg of salt more make 20 percent."""
    weaker, stronger = answered(book, adjust(percent(10), percent(5))), answered(book, adjust(percent(10), percent(20)))

    assert weights(weaker) == pytest.approx({"brine": 11000, "water": 11000})
    assert weights(stronger) == pytest.approx({"brine": 11000, "salt": 1375})


def test_nothing_is_added_to_what_is_right(book: RuleBook):
    """A brine that has the strength is left as it is, on whatever scale it is stated."""
    answer = answered(book, adjust(percent(13.1975), salometer(50)))

    assert weights(answer) == {"brine": 11000}
    assert "nothing is added" in answer.steps[0]


def test_lean_meat_floats_in_a_strong_brine_only(book: RuleBook):
    """Review of meat technology: raw meat 1.0635 to 1.0672 kg/l. CRC: 5 percent is 1.034 kg/l, 20 percent 1.148."""
    weak, strong = answered(book, laid(percent(5))).vessel, answered(book, laid(percent(20))).vessel

    assert weak is not None
    assert strong is not None
    assert (weak.floats, weak.hold_down, weak.above_brine_percent) == (False, None, 0)
    assert strong.floats
    assert strong.hold_down is not None
    assert strong.hold_down.value == pytest.approx(1000 * 6 / 1.06 * (density(0.20, 4) - 1.06), rel=0.01)


def test_floating_pieces_are_warned_of(book: RuleBook):
    """The caution comes with the brine that is heavier than the meat, and not with the lighter one."""
    strong, weak = answered(book, laid(percent(20))), answered(book, laid(percent(5)))

    assert "pieces-float" in {caution.id for caution in strong.cautions}
    assert "pieces-float" not in {caution.id for caution in weak.cautions}


def test_a_hundredweight_is_covered_by_what_bulletins_say(book: RuleBook):
    """4 1/2 US gal of water to 100 lb (farm bulletins, from memory): a tight pack of 70 percent needs about that."""
    pieces = {"number": 12, "total": {"value": 100, "unit": "lb"}}
    vessel = {"kind": "known_volume", "volume": {"value": 30, "unit": "gal"}}
    task = laid(salometer(70), pieces=pieces, vessel=vessel, packing_percent=70)
    answer = answered(book, task, units="us")

    assert weights(answer)["water"] / 453.59237 / 8.328 == pytest.approx(4.5, abs=0.4)


def test_the_parts_of_the_vessel_fill_it(book: RuleBook):
    """Meat, brine and head-space are the vessel."""
    vessel = answered(book, laid(percent(9))).vessel

    assert vessel is not None
    assert 6 / 1.06 + vessel.brine_to_cover.value + vessel.headspace.value == pytest.approx(
        vessel.holds.value, rel=1e-3
    )


@pytest.mark.parametrize(
    ("degrees_f", "readiness"), [(39.9, "ready"), (40, "ready"), (40.1, "not_ready"), (95, "not_ready")]
)
def test_a_brine_is_ready_at_forty_fahrenheit(book: RuleBook, degrees_f: float, readiness: str):
    """USDA farm bulletin: meat is cured at 36 to 40 degF."""
    answer = answered(book, make(percent(8), temperature=degf(degrees_f)), units="us")

    assert answer.readiness == readiness
    assert (answer.wait_for is None) == (readiness == "ready")


def test_a_temperature_that_was_worked_out_has_to_be_colder(book: RuleBook):
    """A forecast within its uncertainty of 40 degF is not ready: somebody has to measure."""
    near = answered(book, cool(percent(24), percent(7), cooling={"kind": "to_temperature", "wanted": degc(4)}))
    cold = answered(book, cool(percent(24), percent(7), cooling={"kind": "to_temperature", "wanted": degc(2)}))

    assert (near.readiness, cold.readiness) == ("not_ready", "ready")
    assert near.wait_for is not None
    assert "40 degF" in near.wait_for or "4.4 degC" in near.wait_for


def test_nothing_is_said_of_readiness_without_a_temperature(book: RuleBook):
    """No temperature was stated, so none is judged."""
    assert answered(book, make(percent(8))).readiness is None


def test_no_brine_tells_an_amount_of_curing_salt(book: RuleBook):
    """Nothing but salt, water, ice and what is at hand is weighed, and the steps say where curing salt comes from."""
    answer = answered(book, make(percent(8), temperature=degc(2)))

    assert {one.what for one in answer.weigh} == {"salt", "water"}
    assert "POST /v1/curing/dose" in answer.steps[-1]
    assert answer.cautions[0].id == "curing-salt-when-cold"


def test_brief_leaves_out_arithmetic_and_sources(book: RuleBook):
    """The figures are the same."""
    full, brief = (answered(book, make(percent(8)), detail=detail) for detail in ("full", "brief"))

    assert (brief.steps, brief.sources) == ((), ())
    assert brief.brine == full.brine


def test_one_piece_on_a_wide_floor_is_covered(book: RuleBook):
    """By hand: 1 kg of 1.06 kg/l is a cube of 9.8 cm; over a floor 60 cm across that is 27.73 l, less 0.94 of meat."""
    wide = {"kind": "round", "diameter": {"value": 60, "unit": "cm"}, "height": {"value": 50, "unit": "cm"}}
    piece = {"number": 1, "total": {"value": 1, "unit": "kg"}}
    answer = answered(book, laid(percent(9), vessel=wide, pieces=piece))

    assert answer.vessel is not None
    assert answer.vessel.level is not None
    assert answer.vessel.level.unit == "cm"
    assert answer.vessel.level.value == pytest.approx(9.808, abs=0.001)
    assert answer.vessel.brine_to_cover.value == pytest.approx(27.73 - 0.943, abs=0.01)
    assert any("the floor decides" in step for step in answer.steps)


def test_the_level_is_told_where_the_floor_is_known(book: RuleBook):
    """Rectangular and full of pieces: the packing decides; of a known volume the level is not known."""
    lug = {
        "kind": "rectangular", "length": {"value": 40, "unit": "cm"}, "width": {"value": 30, "unit": "cm"},
        "height": {"value": 12, "unit": "in"},
    }  # fmt: skip
    pieces = {"number": 20, "total": {"value": 20, "unit": "kg"}}
    packed = answered(book, laid(percent(9), vessel=lug, pieces=pieces), units="us")
    unknown = answered(book, laid(percent(9)))

    assert packed.vessel is not None
    assert unknown.vessel is not None
    assert packed.vessel.level is not None
    assert packed.vessel.level.unit == "in"
    assert packed.vessel.level.value == pytest.approx(20 / 1.06 / 0.65 / 12 * 10 / 2.54, rel=1e-3)
    assert unknown.vessel.level is None
    assert any("the packing decides" in step for step in packed.steps)
