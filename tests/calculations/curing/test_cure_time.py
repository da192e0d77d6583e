"""Days to the centre: published figures, the rules of thumb, and what must hold of every answer."""

import re

import pytest

from service.calculations.curing.cure_time import CureTimeRequest
from service.calculations.curing.timing.picturing import drawing_of
from service.calculations.curing.timing.scheduling import schedule_of
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


def test_a_brine_that_keeps_its_strength_over_cures():
    """Its mean goes on rising, and a weighed cure cannot pass its dose."""
    tub, weighed = told(stage=TUB).over_cure, told().over_cure

    assert (tub.possible, weighed.possible) == (True, False)
    assert weighed.a_week_later.high <= told().final_salt.meat_water.typical


def test_the_window_closes_where_the_whole_grows_too_salty_first():
    """The last day by the quick reading of the whole, the first by the slow reading of the centre."""
    closed = told(stage=TUB, target={"kind": "centre_salt", "percent": 2}, salt_ceiling_percent=3)
    never = told(salt_ceiling_percent=4)

    assert closed.pull.forecast == "at_risk"
    assert closed.pull.latest_d is not None
    assert closed.pull.latest_d < closed.pull.earliest_d
    assert "pull_window_closed" in {advice.code for advice in closed.advice}
    assert (never.pull.latest_d, never.pull.forecast) == (None, "expected")


def test_looks_are_told_in_the_order_asked():
    """A look on the typical day finds the target in the centre."""
    days = told().days

    looks = told(look_after=[{"value": days.typical, "unit": "d"}, {"value": 1, "unit": "h"}]).looks

    assert looks[0].centre.typical == pytest.approx(told().target_salt.typical, rel=2e-3)
    assert looks[1].after_d == pytest.approx(1 / 24, abs=1e-3)
    assert looks[1].centre.high == pytest.approx(0, abs=1e-3)


def test_curves_end_in_the_profile():
    """The profile runs from the surface to the centre on the typical day, low under high everywhere."""
    answer = told(shape=block(60, 110, 260), meat={"value": 1.8, "unit": "kg"})

    assert answer.profile[-1].salt.typical == pytest.approx(answer.target_salt.typical, rel=5e-3)
    assert (answer.profile[-1].depth, answer.profile[-1].unit) == (30, "mm")
    assert all(point.salt.low <= point.salt.typical <= point.salt.high for point in answer.profile)
    assert [point.after_d for point in answer.course] == sorted({point.after_d for point in answer.course})


def test_brief_leaves_out_what_is_long():
    """And says the same days."""
    brief = told(detail="brief")

    assert (brief.course, brief.profile, brief.rules_of_thumb, brief.steps, brief.sources) == ((), (), (), (), ())
    assert brief.days == told().days


def test_a_calendar_has_the_start_the_turns_and_the_days():
    """In order of time, from the stated beginning."""
    tub = {**TUB, "salt_percent": 4}
    target = {"kind": "centre_salt", "percent": 0.5}
    answer = told(starts_at="2026-12-01T08:00:00+01:00", stage=tub, target=target, salt_ceiling_percent=2.8)

    steps = schedule_of(answer)

    assert [step.start for step in steps] == sorted(step.start for step in steps)
    assert steps[0].start.isoformat() == "2026-12-01T08:00:00+01:00"
    assert {step.start.time() for step in steps} == {steps[0].start.time()}
    assert {"Lay into the brine", "Turn the pieces", "First day to take it out", "Last day to take it out"} <= {
        step.what for step in steps
    }
    assert schedule_of(told()) == ()


def test_a_plan_at_risk_is_no_calendar():
    """One event says so, under the name of the piece: nobody can follow a last day that comes before the first."""
    answer = told(
        starts_at="2026-12-01T08:00:00Z", name="haunch 3", stage={**DRY, "salt_percent": 4}, salt_ceiling_percent=3
    )

    assert [step.what for step in schedule_of(answer)] == ["haunch 3: Change the plan of this cure"]
    assert drawing_of(answer).title.startswith("haunch 3: ")


def test_an_injection_is_the_first_thing_to_do():
    """Before the rest or the brine that follows."""
    answer = told(starts_at="2026-12-01T08:00:00Z", injection={"pump_percent": 15, "salt_percent": 12}, stage=REST)

    assert [step.what for step in schedule_of(answer)][:2] == ["Inject the brine", "Wrap and let rest"]


def test_what_is_pumped_is_uneven_between_the_stitches_at_first():
    """After an hour the place between has next to nothing; on the typical day it has what is waited for."""
    pumped = {"pump_percent": 16, "salt_percent": 13}
    days = told(injection=pumped, stage=REST).days

    looks = told(
        injection=pumped, stage=REST, look_after=[{"value": 1, "unit": "h"}, {"value": days.typical, "unit": "d"}]
    ).looks

    assert looks[0].centre.high < 0.05
    assert looks[0].mean.typical == pytest.approx(2.08)
    assert looks[1].centre.typical == pytest.approx(0.8 * 2.08, rel=3e-3)


def test_a_tub_before_a_rest_may_over_cure():
    """It is possible while it lies in the tub; in the rest it stays at what the three readings say."""
    tub = {"stage": TUB, "lasts": {"value": 5, "unit": "d"}}

    answer = told(earlier=[tub], stage=REST)

    assert answer.over_cure.possible
    assert (
        f"{answer.final_salt.meat_water.low:g} to {answer.final_salt.meat_water.high:g} percent" in answer.over_cure.why
    )


def test_a_share_is_a_poor_target_in_a_tub_or_under_a_cover():
    """It is said where the final salt is far more than a centre has to have."""
    covered = told(injection={"pump_percent": 12, "salt_percent": 10}, stage=BRINE)

    assert all("name_the_centre_salt" in {one.code for one in answer.advice} for answer in (covered, told(stage=TUB)))
    assert "name_the_centre_salt" not in {one.code for one in told().advice}


def test_lengths_are_told_in_inches():
    """Depths and advice, where US units are asked for."""
    answer = told(shape=slab(101.6), meat={"value": 9, "unit": "lb"}, units="us")

    assert (answer.profile[-1].depth, answer.profile[-1].unit) == (2.0, "in")
    assert any("4 in thick" in advice.text for advice in answer.advice)


def test_days_are_those_of_the_last_stage():
    """A target that an earlier stage has reached is there on the first day of the last, for a rub too."""
    tub = {"stage": {**TUB, "salt_percent": 20}, "lasts": {"value": 30, "unit": "d"}}

    answer = told(shape=slab(30), earlier=[tub], stage=DRY, target={"kind": "centre_salt", "percent": 2})

    assert answer.days.low == answer.days.high == 30


def test_a_target_that_is_lost_again_is_refused():
    """A pumped piece in a weak tub has 2 percent in its centre for a while, and not in the end."""
    pumped = {"pump_percent": 10, "salt_percent": 25}
    weak = {**TUB, "salt_percent": 1}

    with pytest.raises(Impossible) as refused:
        told(shape=slab(30), injection=pumped, stage=weak, target={"kind": "centre_salt", "percent": 2})

    assert refused.value.code == "target_above_bath"


def test_the_ceiling_is_held_against_the_saltiest_reading():
    """After a desalting tub the slow reading is the saltiest: it passes a ceiling that the quick one keeps."""
    answer = told(
        shape=slab(30), injection={"pump_percent": 15, "salt_percent": 20}, salt_ceiling_percent=3.05,
        earlier=[{"stage": {**TUB, "salt_percent": 0.5}, "lasts": {"value": 4, "unit": "d"}}],
        stage={**DRY, "salt_percent": 1.5},
    )  # fmt: skip

    assert answer.final_salt.meat_water.high > 3.05
    assert answer.pull.forecast == "at_risk"


def test_a_mean_that_falls_under_the_ceiling_again_is_no_risk():
    """A day of strong tub, then a weak brine: on the first day to take it out the piece is under the ceiling."""
    answer = told(
        shape=slab(30), earlier=[{"stage": {**TUB, "salt_percent": 15}, "lasts": {"value": 1, "unit": "d"}}],
        stage={**BRINE, "salt_percent": 1}, target={"kind": "centre_salt", "percent": 2.2}, salt_ceiling_percent=4.5,
    )  # fmt: skip

    assert (answer.pull.latest_d, answer.pull.forecast) == (None, "expected")


def test_a_flat_piece_is_held_against_its_ceiling_with_its_edges():
    """They let salt in, so the last day is that of the square block, not of the slab alone."""
    meat, target = {"value": 534, "unit": "g"}, {"kind": "centre_salt", "percent": 0.6}
    side_mm = (534 / 1.06e-3 / 60) ** 0.5

    flat, square = (
        told(shape=shape, meat=meat, stage=TUB, target=target, salt_ceiling_percent=4).pull.latest_d
        for shape in (slab(60), block(60, side_mm, side_mm))
    )

    assert flat == pytest.approx(square, rel=1e-3)


def test_little_salt_for_long_is_said():
    """Less than 2 percent for more than a week in the cold holds back little (common practice, no source)."""
    ids = [{caution.id for caution in told(stage={**DRY, "salt_percent": percent}).cautions} for percent in (0.5, 2.5)]

    assert "little-salt-for-long" in ids[0]
    assert "little-salt-for-long" not in ids[1]


@pytest.mark.parametrize("stage", [DRY, BRINE, TUB])
def test_the_nearest_target_is_answered(stage):
    """What a refusal offers can be asked for."""
    with pytest.raises(Impossible) as refused:
        told(stage=stage, target={"kind": "centre_salt", "percent": 15})

    (most,) = re.findall(r"at most ([0-9.]+) percent", str(refused.value.nearest))
    assert told(stage=stage, target={"kind": "centre_salt", "percent": float(most)}).days.low > 0


def test_a_picture_has_both_panels_with_units():
    """Salt over days and over depth, a band each."""
    panels = drawing_of(told()).panels

    assert [panel.x_label for panel in panels] == ["Days since the first stage began", "Depth below the open face, mm"]
    assert all(panel.bands and panel.y_label == "Salt, % of green weight" for panel in panels)


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
