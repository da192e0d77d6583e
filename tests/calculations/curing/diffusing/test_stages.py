"""What must hold of every stage, and of one stage after another."""

from math import inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.curing.diffusing.axes import Modes, modes_of
from service.calculations.curing.diffusing.bodies import body_of
from service.calculations.curing.diffusing.course import Course, Leg
from service.calculations.curing.diffusing.exchange import Endless, Limited
from service.calculations.curing.diffusing.relaxation import MEAN, MIDDLE, SURFACE

PER_DAY = 21.6
reaches_mm = st.floats(3, 250)
bath_ratios = st.one_of(st.just(0.0), st.floats(1e-3, 50))
days = st.floats(0.01, 60)
often = settings(max_examples=60, deadline=None)


@st.composite
def bodies(draw: st.DrawFn) -> Modes:
    """Slabs, cylinders with and without ends, spheres, blocks."""
    plain = draw(st.sampled_from(["slab", "cylinder", "sphere"]))
    first = modes_of(plain, profile=False).sized(draw(reaches_mm))
    further = [] if plain == "sphere" else draw(st.lists(reaches_mm, max_size=2 if plain == "slab" else 1))
    return body_of([first, *(modes_of("slab", profile=False).sized(one) for one in further)])


def held_in_bath(one: Leg) -> float:
    """Water of the bath to water of the meat."""
    assert isinstance(one.exchange, Limited)
    return one.exchange._ratio


def leg(body: Modes, bath_ratio: float, lasts_d: float = inf, strength: float = 0.1) -> Leg:
    """In a bath of this strength; of ratio 0, laid on as much as a bath of ratio 1 holds."""
    return Leg(Limited(body, bath_ratio), strength * (bath_ratio or 1.0), PER_DAY, 0.0, lasts_d)


@often
@given(bodies(), st.lists(st.tuples(bath_ratios, days, st.floats(0, 0.3)), min_size=1, max_size=4))
def test_salt_is_conserved_in_every_stage(body, stages):
    """Meat and bath together hold what they held, to 1e-9 of it, at every moment of every stage."""
    legs = [leg(body, ratio, lasts_d, strength) for ratio, lasts_d, strength in stages]
    course = Course(body.weights, legs, even_ratio=0.02)

    held = 0.02
    for one, followed in zip(legs, course.followed, strict=True):
        ratio, total = held_in_bath(one), held + one.salt_ratio
        told = followed.relaxation.at(np.linspace(0, one.lasts_d * PER_DAY, 7))
        assert ratio * told[SURFACE] + told[MEAN] == pytest.approx(total, rel=1e-9)
        held = told[MEAN, -1]


@often
@given(bodies(), bath_ratios)
def test_the_centre_never_passes_the_final_value(body, bath_ratio):
    """In one stage, from unsalted meat, from the first day on."""
    followed = Course(body.weights, [leg(body, bath_ratio)], even_ratio=0.0).followed[0]

    middles = followed.relaxation.at(np.geomspace(PER_DAY, 1e4 / body.rates[0] / 1e3, 60))[MIDDLE]

    assert middles.max() <= followed.relaxation.final_ratio * (1 + 1e-9)


@often
@given(bodies(), bath_ratios, days, days)
def test_splitting_a_stage_changes_nothing(body, bath_ratio, first_d, second_d):
    """Where the bath stays the same, one stage is as good as two: what is left of the bath goes on."""
    whole = Course(body.weights, [leg(body, bath_ratio)], even_ratio=0.01)
    exchange = Limited(body, bath_ratio)
    one = whole.followed[0].relaxation
    left = float(one.at(np.array([first_d * PER_DAY]))[SURFACE, 0]) * bath_ratio
    state = one.state(first_d * PER_DAY)

    then = exchange.relaxation(state, salt_ratio=left).at(np.array([second_d * PER_DAY]))[:, 0]

    told = whole.at(np.array([first_d + second_d]))[:, 0]
    assert then[[MEAN, MIDDLE]] == pytest.approx(told[[MEAN, MIDDLE]], rel=1e-7, abs=1e-9)


@often
@given(bodies(), days, days, st.floats(0.01, 0.35))
def test_an_endless_bath_may_be_split_into_stages(body, first_d, second_d, strength):
    """Two stages in one endless bath are one stage, exactly."""
    bath = Endless(body)
    whole = Course(body.weights, [Leg(bath, strength, PER_DAY, 0.0, inf)], even_ratio=0.0)
    halves = [Leg(bath, strength, PER_DAY, 0.0, first_d), Leg(bath, strength, PER_DAY, 0.0, inf)]

    split = Course(body.weights, halves, even_ratio=0.0)

    at = np.array([first_d / 2, first_d + second_d])
    assert split.at(at) == pytest.approx(whole.at(at), rel=1e-9, abs=1e-12)


@often
@given(reaches_mm, bath_ratios)
def test_a_sealed_face_quadruples_the_time_of_a_slab(half_mm, bath_ratio):
    """At one bath ratio: the way in is twice as long."""
    open_d, sealed_d = (
        Course(body.weights, [leg(body, bath_ratio)], even_ratio=0.0).first_day_d(
            0.04 * (bath_ratio or 1) / (1 + bath_ratio)
        )
        for body in (modes_of("slab", profile=False).sized(reach_mm) for reach_mm in (half_mm, 2 * half_mm))
    )

    assert sealed_d == pytest.approx(4 * open_d, rel=1e-9)


@often
@given(bodies(), st.floats(0.05, 5), st.floats(1.2, 4))
def test_more_bath_gives_a_strength_sooner_and_its_own_share_later(body, ratio, more):
    """At one strength of brine: more of it brings any strength to the centre sooner, but its own final share later."""
    small, large = (Course(body.weights, [leg(body, one)], even_ratio=0.0) for one in (ratio, ratio * more))
    strength = 0.7 * small.final_ratio

    assert large.first_day_d(strength) < small.first_day_d(strength)
    assert large.first_day_d(0.8 * large.final_ratio) > small.first_day_d(0.8 * small.final_ratio)


# Worked out elsewhere by the series for an endless bath and a rest, at 2.5e-10 m2/s; printed to three digits.
EQUALISING = {7: (0.169, 0.462), 8: (0.213, 0.462), 10: (0.295, 0.462), 14: (0.396, 0.462), 21: (0.449, 0.462)}


@pytest.mark.parametrize("day", EQUALISING)
def test_salt_evens_out_in_a_rest(day):
    """A slab of 6 cm, a week in a big bath, then wrapped: centre and mean of the bath's strength; within 0.0015."""
    body = modes_of("slab", profile=False).sized(30)
    legs = [Leg(Endless(body), 1.0, PER_DAY, 0.0, 7.0), Leg(Limited(body, 0.0), 0.0, PER_DAY, 0.0, inf)]

    told = Course(body.weights, legs, even_ratio=0.0).at(np.array([float(day)]))[:, 0]

    assert (told[MIDDLE], told[MEAN]) == pytest.approx(EQUALISING[day], abs=1.5e-3)


def test_a_rub_waits_until_it_has_dissolved():
    """Before that the centre has nothing, and the whole piece counts what lies on it."""
    body = modes_of("slab", profile=False).sized(20)
    course = Course(body.weights, [Leg(Limited(body, 0.0), 0.03, PER_DAY, 2.0, inf)], even_ratio=0.0)

    told = course.at(np.array([0.0, 1.9, 30.0]))

    assert told[MEAN] == pytest.approx(0.03)
    assert told[MIDDLE, :2] == pytest.approx(0.0, abs=1e-12)
    assert told[MIDDLE, 2] == pytest.approx(0.03, rel=1e-2)


def test_what_never_comes_is_never():
    """A strength above the final one is reached on no day, rising or falling."""
    body = modes_of("slab", profile=False).sized(20)
    course = Course(body.weights, [leg(body, 0.5)], even_ratio=0.0)

    assert course.first_day_d(course.final_ratio * 1.001) == inf
    assert course.first_day_d(-0.001, row=MEAN, rising=False) == inf
