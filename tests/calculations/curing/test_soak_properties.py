"""What must hold of every soak, drawn at random."""

from random import Random
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.curing.diffusing.course import Course, Leg
from service.calculations.curing.diffusing.exchange import Limited
from service.calculations.curing.diffusing.relaxation import MEAN, MIDDLE, SURFACE
from service.calculations.curing.pieces import Axis
from service.calculations.curing.soak import SoakAnswer, SoakRequest, soak
from service.calculations.curing.soaking.following import Waters
from service.calculations.curing.timing.setting import modes_of_axes
from service.calculations.refusals import Impossible
from service.rules.loader import load_book
from tests.calculations.curing.shells import left_after
from tests.calculations.curing.soak_bodies import lawful_body
from tests.calculations.curing.soak_proofs import faults_of_soak

BOOK = load_book("test")
SPEEDS_MM2_PER_D = [13.0, 21.6, 34.6]
often = settings(max_examples=80, deadline=None)
bodies = st.integers(0, 10**9).map(lambda seed: lawful_body(Random(seed)))
axes = st.one_of(
    st.builds(lambda plain, mm: (Axis(plain, mm),), st.sampled_from(["slab", "cylinder", "sphere"]), st.floats(3, 150)),
    st.lists(st.builds(lambda mm: Axis("slab", mm), st.floats(3, 150)), min_size=2, max_size=3).map(tuple),
)
ratios = st.floats(0.05, 40)
changes_h = st.sampled_from([2.0, 3.0, 4.0, 6.0, 12.0, 24.0, 72.0]) | st.floats(2, 72)


def answer_or_none(body: dict[str, Any]) -> SoakAnswer | None:
    """The answer, or None where the soak is refused."""
    try:
        return soak(SoakRequest.model_validate(body), BOOK)
    except Impossible:
        return None


def waters_of(piece: tuple[Axis, ...], ratio: float, change_h: float) -> Waters:
    """A piece with a gram of salt to a gram of water, followed for three days."""
    modes = modes_of_axes(piece, profile=False)
    return Waters(modes, ratio, SPEEDS_MM2_PER_D, even_ratio=1.0, change_every_d=change_h / 24, longest_d=3.0)


@often
@given(bodies)
def test_a_lawful_soak_is_proved(body: dict[str, Any]):
    """Bands are in order, salt comes out as from shells, nothing comes back, and what is out and in make the whole."""
    answer = answer_or_none(body)

    assert answer is not None
    assert faults_of_soak(body, answer.model_dump(mode="json")) == []


@often
@given(axes, ratios, changes_h)
def test_no_salt_is_lost_between_meat_and_waters(piece: tuple[Axis, ...], ratio: float, change_h: float):
    """To 1e-9: what was in the meat is in it, or in a water that was poured off."""
    waters = waters_of(piece, ratio, change_h)

    told = waters.at(waters.ends_d)

    poured = ratio * told[:, SURFACE].sum(axis=0)
    assert told[-1, MEAN] + poured == pytest.approx(np.ones(3), abs=1e-9)


@often
@given(axes, ratios, changes_h)
def test_all_waters_at_once_are_stage_after_stage(piece: tuple[Axis, ...], ratio: float, change_h: float):
    """The same as a cure whose stages are baths without salt, which is tested against other integrals."""
    waters = waters_of(piece, ratio, change_h)
    modes = modes_of_axes(piece, profile=False)
    lasts_d = np.diff(waters.ends_d, prepend=0.0)
    legs = [Leg(Limited(modes, ratio), 0.0, SPEEDS_MM2_PER_D[1], 0.0, float(one)) for one in lasts_d]
    days_d = np.linspace(0.05, 3, 23)

    staged = Course(modes.weights, legs, even_ratio=1.0).at(days_d)

    told = waters.at(days_d)[:, :, 1].T
    assert told[[MEAN, MIDDLE]] == pytest.approx(staged[[MEAN, MIDDLE]], abs=1e-8)


@often
@given(axes, ratios, changes_h, st.floats(1.05, 10))
def test_more_water_never_takes_out_less(piece: tuple[Axis, ...], ratio: float, change_h: float, times: float):
    """At every hour and speed."""
    days_d = np.linspace(0.02, 3, 40)

    less, more = (waters_of(piece, one, change_h).at(days_d)[:, MEAN] for one in (ratio, times * ratio))

    assert (more <= less + 1e-9).all()


@often
@given(axes, ratios, st.floats(4, 72), st.integers(2, 6))
def test_changing_more_often_never_takes_out_less(piece: tuple[Axis, ...], ratio: float, change_h: float, times: int):
    """With changes between those that there were, at every hour and speed."""
    days_d = np.linspace(0.02, 3, 40)

    seldom, often_h = (waters_of(piece, ratio, one).at(days_d)[:, MEAN] for one in (change_h, change_h / times))

    assert (often_h <= seldom + 1e-9).all()


@often
@given(axes, ratios, changes_h)
def test_salt_only_goes_out(piece: tuple[Axis, ...], ratio: float, change_h: float):
    """The whole piece has less in each hour than in the one before, and the quicker the less."""
    told = waters_of(piece, ratio, change_h).at(np.linspace(0, 3, 73))[:, MEAN]

    assert (np.diff(told, axis=0) <= 1e-12).all()
    assert (np.diff(told, axis=1) <= 1e-9).all()


@pytest.mark.parametrize("plain", ["slab", "cylinder", "sphere"])
@pytest.mark.parametrize("ratio", [0.4, 5.7])
@pytest.mark.parametrize("reach_mm", [9.0, 27.0])
def test_two_waters_are_those_of_shells(plain: Any, ratio: float, reach_mm: float):
    """Twelve hours and twelve hours: as Fick's law by volumes has it, which knows of no series."""
    told = waters_of((Axis(plain, reach_mm),), ratio, 12.0).at(np.array([0.25, 0.5, 0.75, 1.0]))[:, MEAN]

    for hours_h, row in zip((6, 12, 18, 24), told, strict=True):
        for speed, left in zip(SPEEDS_MM2_PER_D, row, strict=True):
            shelled = left_after(plain, reach_mm, ratio, hours_h=hours_h, change_h=12, mm2_per_h=speed / 24)
            assert left == pytest.approx(shelled[0], abs=3e-4)
            assert sum(shelled) == pytest.approx(1, abs=1e-6)


@often
@given(st.floats(8, 40), st.floats(0.02, 0.25))
def test_hours_go_by_the_square_of_the_thickness(thick_mm: float, out: float):
    """Of a slab in one bath: twice as thick in the same water, four times the hours."""
    body = {
        "meat": {"value": 3, "unit": "kg"}, "salt_percent": 5, "wanted_salt_percent": 5 * (1 - out),
        "temperature": {"value": 3, "unit": "degC"}, "water": {"value": 12, "unit": "kg"},
        "change_every": {"value": 72, "unit": "h"},
    }  # fmt: skip

    thin, thick = (
        answer_or_none({**body, "shape": {"kind": "slab", "thickness": {"value": mm, "unit": "mm"}}})
        for mm in (thick_mm, 2 * thick_mm)
    )

    assert thin is not None
    if thick is not None:
        assert thick.hours.typical == pytest.approx(4 * thin.hours.typical, abs=0.05)
        assert thick.hours.high == pytest.approx(4 * thin.hours.high, abs=0.05)
