"""What a cure time tells beside the days: windows, looks, curves, advice, a picture and a calendar."""

import pytest

from service.calculations.curing.timing.picturing import drawing_of
from service.calculations.curing.timing.scheduling import schedule_of
from service.calculations.refusals import Impossible
from tests.calculations.curing.days import BRINE, DRY, REST, TUB, block, slab, told


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
        stage={**BRINE, "salt_percent": 1}, target={"kind": "centre_salt", "percent": 1.5}, salt_ceiling_percent=4.5,
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


def test_a_picture_has_both_panels_with_units():
    """Salt over days and over depth, a band each."""
    panels = drawing_of(told()).panels

    assert [panel.x_label for panel in panels] == ["Days since the first stage began", "Depth below the open face, mm"]
    assert all(panel.bands and panel.y_label == "Salt, % of green weight" for panel in panels)


def test_a_rest_right_after_a_rub_goes_on_as_the_rub():
    """A rub that was bagged for a moment and then rested is a rub: the same days, to a hundredth of them."""
    shape = {"kind": "cylinder", "diameter": {"value": 75, "unit": "mm"}, "length": {"value": 290, "unit": "mm"}}
    moment = [{"stage": DRY, "lasts": {"value": 4, "unit": "s"}}]

    rubbed = told(shape=shape, meat={"value": 1.4, "unit": "kg"}, stage=DRY).days
    rested = told(shape=shape, meat={"value": 1.4, "unit": "kg"}, earlier=moment, stage=REST).days

    assert rested.low == pytest.approx(rubbed.low, abs=0.02)
    assert rested.typical == pytest.approx(rubbed.typical - 1, rel=0.02)
