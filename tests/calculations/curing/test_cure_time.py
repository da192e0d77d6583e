"""Days to the centre: published figures, the rules of thumb, and what must hold of every answer."""

import re

import pytest

from service.calculations.curing.cure_time import CureTimeRequest
from service.calculations.curing.timing.thumb import RULES
from service.calculations.refusals import Impossible
from tests.calculations.curing.days import BRINE, COLD, DRY, REST, TUB, block, body, slab, told, typical

# Fourier numbers of Crank's series (1975, chapter 4) at 80 percent, in days at 2.5e-10 m2/s; printed to two digits.
ENDLESS_80 = {25: 5.4, 40: 14, 50: 22, 60: 31, 70: 43}
LAID_ON_80 = {25: 1.7, 40: 4.3, 50: 6.8, 60: 9.7, 70: 13}


@pytest.mark.parametrize("thickness_mm", ENDLESS_80)
def test_days_in_an_endless_bath(thickness_mm):
    """A slab of any thickness: within the printed digits."""
    assert typical(shape=slab(thickness_mm), stage=TUB) == pytest.approx(ENDLESS_80[thickness_mm], rel=0.02)


@pytest.mark.parametrize("thickness_mm", LAID_ON_80)
def test_days_of_a_weighed_rub(thickness_mm):
    """The same slab under a rub, besides the day in which it dissolves (common practice, no source)."""
    assert typical(shape=slab(thickness_mm), stage=DRY) - 1 == pytest.approx(LAID_ON_80[thickness_mm], rel=0.03)


# Quick, typical and slow days for such a block with 0.6 kg of 7 percent brine per kg of meat, worked out elsewhere with
# eight modes for each axis; printed to whole days.
BLOCKS = {25: (2, 4, 6), 40: (6, 9, 16), 50: (9, 15, 25), 60: (14, 22, 37), 70: (19, 30, 50)}


@pytest.mark.parametrize("thickness_mm", BLOCKS)
def test_days_of_a_block_in_a_weighed_brine(thickness_mm):
    """Twice as wide and four times as long as thick: within a tenth and half a day."""
    shape = block(thickness_mm, 2 * thickness_mm, 4 * thickness_mm)
    meat_g = 8 * thickness_mm**3 * 1.06e-3
    stage = {**BRINE, "amount": {"value": 0.6 * meat_g, "unit": "g"}}

    days = told(meat={"value": meat_g, "unit": "g"}, shape=shape, stage=stage).days

    assert (days.low, days.typical, days.high) == pytest.approx(BLOCKS[thickness_mm], rel=0.1, abs=0.5)


def test_both_bookkeepings_are_told():
    """By weight 2.62 percent, by meat water 2.34: published side by side, eleven percent apart."""
    stage = {**BRINE, "amount": {"value": 600, "unit": "g"}}

    final = told(meat={"value": 1, "unit": "kg"}, stage=stage).final_salt

    assert final.whole_system_percent == pytest.approx(2.625, abs=1e-3)
    assert final.meat_water.typical == pytest.approx(2.337, abs=1e-3)


def rule_days(thickness_mm: float, meat: dict[str, object]) -> dict[str, tuple[float, float]]:
    rules = told(shape=slab(thickness_mm), meat=meat, stage=BRINE).rules_of_thumb
    return {rule.rule: (rule.from_d, rule.to_d) for rule in rules}


def test_three_rules_of_thumb_contradict_each_other():
    """For 3.5 inches 9, 14 and 24.5 days: all three stand in one public discussion (weak authority)."""
    days = rule_days(88.9, {"value": 9, "unit": "lb"})

    assert days["quarter_inch_a_day"] == pytest.approx((9, 9), abs=0.05)
    assert days["eighth_inch_a_day"] == pytest.approx((14, 14), abs=0.05)
    assert days["week_per_inch"] == pytest.approx((24.5, 24.5), abs=0.05)


# USDA farm bulletin on pork (slaughtering, cutting, preserving): sweet pickle.
PICKLED = [
    ("ham_in_sweet_pickle", 15, 60, 7),
    ("ham_in_sweet_pickle", 6, 24, 3.1),
    ("belly_in_sweet_pickle", 10, 15, 2),
]


@pytest.mark.parametrize(("rule", "pounds", "days", "within"), PICKLED)
def test_the_bulletin_is_read_as_printed(rule, pounds, days, within):
    """A ham of 15 lb takes 60 days, one of 6 lb 24, a belly of 10 lb 15."""
    assert rule_days(60, {"value": pounds, "unit": "lb"})[rule][1] == pytest.approx(days, abs=within)


def test_a_week_per_inch_is_short_for_a_tub_and_not_for_a_rub():
    """Of the final salt the centre then has 60 percent at two inches in an endless bath, 98 under a rub laid on."""
    tub, rub = (told(shape=slab(50.8), stage=stage, target={"kind": "share_of_final", "percent": 90})
                for stage in (TUB, DRY))  # fmt: skip

    weeks = [next(rule for rule in one.rules_of_thumb if rule.rule == "week_per_inch") for one in (tub, rub)]

    finals = [one.final_salt.meat_water.typical for one in (tub, rub)]
    shares = [week.centre_then.typical / final for week, final in zip(weeks, finals, strict=True)]
    assert shares == pytest.approx([0.60, 0.97], abs=0.015)
    assert [week.stands for week in weeks] == ["short", "near"]


def test_only_the_injected_are_told_the_rule_for_the_injected():
    """Four to five days are no rule for a piece that lies in brine."""
    pumped = told(injection={"pump_percent": 15, "salt_percent": 12}, stage=REST)

    assert {rule.rule for rule in pumped.rules_of_thumb} == {rule.code for rule in RULES}
    assert "injected" not in {rule.rule for rule in told().rules_of_thumb}


def test_the_square_of_the_thickness():
    """Twice as thick, four times the days; and what the weight is does not matter."""
    meat = {"value": 5, "unit": "kg"}
    stage = {**BRINE, "amount": {"value": 3, "unit": "kg"}}

    assert typical(shape=slab(80)) == pytest.approx(4 * typical(shape=slab(40)), rel=1e-3)
    assert typical(meat=meat, stage=stage) == pytest.approx(typical(), rel=1e-3)


@pytest.mark.parametrize("stage", [BRINE, TUB])
def test_a_closed_face_takes_four_times_the_days(stage):
    """Skin or a fat cap on one side of a slab, everything else the same; and it is said."""
    sealed = told(shape=slab(40, open_faces=1), stage=stage)

    assert sealed.days.typical == pytest.approx(4 * typical(shape=slab(40), stage=stage), rel=1e-3)
    assert "sealed_face_slows" in {advice.code for advice in sealed.advice}


def test_pumped_salt_evens_out_between_the_stitches():
    """At a grid of 2 to 3 cm within 1 to 2 days (common practice, no source), whatever the piece."""
    pumped = {"pump_percent": 15, "salt_percent": 12}

    days = [
        typical(shape=slab(120), injection={**pumped, "needle_spacing": {"value": mm, "unit": "mm"}}, stage=REST)
        for mm in (20, 25, 30)
    ]

    assert days == pytest.approx([1.08, 1.68, 2.42], abs=0.02)


def test_warmth_within_the_cold_is_quicker():
    """At 0 degC 2.1e-10 m2/s, at 4 degC 2.5e-10 (activation energy 25 kJ/mol): days go the other way."""
    at_0 = {**BRINE, "temperature": {"value": 0, "unit": "degC"}}

    assert typical(stage=at_0) / typical() == pytest.approx(2.5 / 2.13, rel=2e-3)


@pytest.mark.parametrize("stage", [DRY, BRINE, TUB])
def test_the_nearest_target_is_answered(stage):
    """What a refusal offers can be asked for."""
    with pytest.raises(Impossible) as refused:
        told(stage=stage, target={"kind": "centre_salt", "percent": 15})

    (most,) = re.findall(r"at most ([0-9.]+) percent", str(refused.value.nearest))
    assert told(stage=stage, target={"kind": "centre_salt", "percent": float(most)}).days.low > 0


SALTY = {**DRY, "salt_percent": 10}
WEEK = {"value": 7, "unit": "d"}
REFUSED = [
    ({"stage": {**BRINE, "temperature": {"value": 5.1, "unit": "degC"}}}, "too_warm"),
    ({"stage": {**BRINE, "temperature": {"value": 30, "unit": "degF"}}}, "too_cold"),
    ({"earlier": [{"stage": {**TUB, "temperature": {"value": 12, "unit": "degC"}}, "lasts": WEEK}]}, "too_warm"),
    ({"stage": {**TUB, "salt_percent": 1.5, "temperature": {"value": -1, "unit": "degC"}}}, "too_cold"),
    ({"stage": REST}, "no_salt"),
    ({"target": {"kind": "centre_salt", "percent": 9}}, "target_above_bath"),
    ({"stage": {**TUB, "salt_percent": 26}, "target": {"kind": "centre_salt", "percent": 0.5}}, "bath_too_strong"),
    ({"shape": block(60, 110, 260), "meat": {"value": 9, "unit": "kg"}}, "shape_contradicts_weight"),
    ({"shape": {"kind": "measured", "thickness": COLD | {"unit": "mm", "value": 60},
                "length": {"value": 4, "unit": "mm"}}}, "shape_contradicts_weight"),
    ({"shape": slab(2.9)}, "size_out_of_range"),
    ({"shape": slab(501), "meat": {"value": 300, "unit": "kg"}}, "size_out_of_range"),
    ({"shape": slab(130)}, "shape_contradicts_weight"),
    ({"shape": slab(400, open_faces=1), "meat": {"value": 300, "unit": "kg"}, "stage": TUB}, "longer_than_curing"),
    ({"stage": SALTY, "water_percent": 50, "earlier": [{"stage": SALTY, "lasts": WEEK}] * 2}, "undissolved_salt"),
    ({"shape": block(60, 110, 260, top_and_bottom=0, sides=0, ends=0), "meat": {"value": 1.8, "unit": "kg"}},
     "nothing_open"),
    ({"earlier": [{"stage": TUB, "lasts": {"value": 401, "unit": "d"}}]}, "stage_too_long"),
    ({"look_after": [{"value": 401, "unit": "d"}]}, "stage_too_long"),
    ({"injection": {"pump_percent": 10, "salt_percent": 10, "needle_spacing": {"value": 4, "unit": "mm"}}},
     "needles_out_of_range"),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "code"), REFUSED)
def test_what_cannot_be_is_refused_with_the_nearest_that_can(changes, code):
    """Each with its code, a reason with numbers, and something to do."""
    with pytest.raises(Impossible) as refused:
        told(**changes)

    assert refused.value.code == code
    assert refused.value.reason
    assert refused.value.nearest


def test_the_most_that_the_bath_gives_is_true():
    """What a refusal names as the most can be waited for, nearly."""
    most = told().final_salt.meat_water.typical

    assert told(target={"kind": "centre_salt", "percent": most * 0.999}).days.high > told().days.high


def test_a_brine_by_volume_is_weighed_by_its_density():
    """A litre of 10 percent at 20 degC weighs 1.0707 kg (CRC Handbook, 102nd ed. 2021); cold it is a little heavier."""
    litre = told(stage={**BRINE, "salt_percent": 10, "amount": {"value": 1, "unit": "l"}})

    kilograms = told(stage={**BRINE, "salt_percent": 10, "amount": {"value": 1.0745, "unit": "kg"}})

    assert litre.final_salt.meat_water.typical == pytest.approx(kilograms.final_salt.meat_water.typical, rel=1e-3)


def test_the_edges_of_the_cold_are_in():
    """-1 and 5 degC, as well as 30.2 and 41 degF, are answered."""
    for value, unit in ((-1, "degC"), (5, "degC"), (41, "degF"), (30.2, "degF")):
        assert told(stage={**BRINE, "temperature": {"value": value, "unit": unit}}).days.low > 0


def test_zero_and_beyond_saturation_are_outside_the_contract():
    """What a schema can say, it says."""
    for changes in ({"shape": slab(0)}, {"stage": {**BRINE, "salt_percent": 26.4}}, {"water_percent": 81}):
        with pytest.raises(ValueError, match="validation error"):
            CureTimeRequest.model_validate(body(**changes))
