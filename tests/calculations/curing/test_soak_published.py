"""Soaks held against published laws and figures, worked out here by hand."""

from math import pi, sqrt
from typing import Any

import pytest

from service.calculations.curing.soak import SoakAnswer, SoakRequest, soak
from service.rules.book import RuleBook
from tests.calculations.curing.shells import left_after

SLAB = {"kind": "slab", "thickness": {"value": 6, "unit": "cm"}}
BODY = {
    "meat": {"value": 2, "unit": "kg"},
    "shape": SLAB,
    "salt_percent": 4,
    "wanted_salt_percent": 3.6,
    "temperature": {"value": 4, "unit": "degC"},
    "water": {"value": 8, "unit": "kg"},
}
ONE_BATH = {"change_every": {"value": 72, "unit": "h"}}


def answer_to(book: RuleBook, **changed: Any) -> SoakAnswer:
    """The answer to the slab of 6 cm, with something else about it."""
    return soak(SoakRequest.model_validate({**BODY, **changed}), book)


def short_time_percent(hours_h: float, mm2_per_s: float, per_mm: float) -> float:
    """Crank 1975, short times in a big bath, any shape: 2 / sqrt(pi) * sqrt(D t) * A / V (from memory)."""
    return 100 * 2 / sqrt(pi) * sqrt(mm2_per_s * hours_h * 3600) * per_mm


PUBLISHED = [(0.5, 2.5), (2, 5.0), (6, 8.7), (12, 12.4), (24, 17.5)]
"""Percent of the salt out of a slab of 6 cm, both faces, at 2.5e-10 m2/s: Crank's law, worked out for these hours."""


@pytest.mark.parametrize(("hours_h", "percent"), PUBLISHED)
def test_the_law_of_short_times_gives_the_published_figures(hours_h: float, percent: float):
    """By hand, and by a body cut into shells, before the service is asked."""
    shelled = 100 * (1 - left_after("slab", 30, 1e9, hours_h=hours_h, change_h=99, mm2_per_h=0.9)[0])

    assert short_time_percent(hours_h, 2.5e-4, 1 / 30) == pytest.approx(percent, abs=0.06)
    assert shelled == pytest.approx(percent, abs=0.06)


@pytest.mark.parametrize(("hours_h", "percent"), PUBLISHED)
def test_a_slab_loses_what_the_law_says(book: RuleBook, hours_h: float, percent: float):
    """In twenty times its weight of water, as the law has it; in four times, hardly less."""
    plenty = answer_to(book, water={"value": 40, "unit": "kg"}, change_every={"value": 2, "unit": "h"})
    usual = answer_to(book)

    told, less = (
        {one.after_h: one.removed.typical for one in (answer.half_an_hour, *answer.removed)}[hours_h]
        for answer in (plenty, usual)
    )

    assert told == pytest.approx(short_time_percent(hours_h, 2.5e-4, 1 / 30), abs=0.06)
    assert told == pytest.approx(percent, abs=0.1)
    assert told - 0.6 < less <= told


@pytest.mark.parametrize(("water_kg", "percent"), [(1, 59), (2, 74), (4, 85)])
def test_one_bath_takes_no_more_than_its_share(book: RuleBook, water_kg: float, percent: float):
    """Salt shares itself out over the water: 59, 74, 85 percent out for 1, 2, 4 kg to a kg of meat of 70 percent water.

    A thin slice has come to rest within three days.
    """
    share = water_kg / (water_kg + 0.7)

    thin = answer_to(
        book, meat={"value": 1, "unit": "kg"}, water={"value": water_kg, "unit": "kg"}, **ONE_BATH,
        shape={"kind": "slab", "thickness": {"value": 8, "unit": "mm"}}, wanted_salt_percent=4 * (1 - share) + 0.01,
    )  # fmt: skip

    assert round(100 * share) == percent
    assert thin.removed[-1].removed.typical == pytest.approx(100 * share, abs=0.01)
    assert thin.removed[-1].centre.high == pytest.approx(4 * (1 - share), abs=0.01)
    assert thin.least_water.to_meat_ratio == pytest.approx(0.7 * (4 / (4 * (1 - share) + 0.01) - 1), abs=1e-3)


@pytest.mark.parametrize(("pounds", "days", "thick_mm"), [(6, 24, 110), (15, 60, 150)])
def test_the_farm_bulletins_soak_is_a_rinse(book: RuleBook, pounds: float, days: float, thick_mm: float):
    """USDA farm bulletin on pork: hams of 6 lb cure 24 days, of 15 lb 60 days; soak 2 minutes for each day of cure.

    How thick such a ham is: common practice, no source. The bulletin's water may be as warm as 70 degF, for which
    nothing is told; a half more for the warmth is still a rinse.
    """
    after_h = 2 * days / 60

    ham = answer_to(
        book, meat={"value": pounds, "unit": "lb"}, water={"value": 20, "unit": "l"}, wanted_salt_percent=3.9,
        shape={"kind": "slab", "thickness": {"value": thick_mm, "unit": "mm"}},
    )  # fmt: skip
    told = next(one for one in ham.removed if one.after_h >= after_h)

    assert told.after_h <= 2
    assert 1 < told.removed.typical < 3
    assert short_time_percent(after_h, 2.5e-4, 2 / thick_mm) < 3
    assert ham.half_an_hour.removed.high < 2


def test_a_body_with_more_faces_loses_by_its_surface(book: RuleBook):
    """Crank's law again: a block of 8 x 12 x 20 cm has 0.0517 mm2 of face to a mm3, a slab of 8 cm 0.025."""
    shape = {
        "kind": "brick", "thickness": {"value": 8, "unit": "cm"}, "width": {"value": 12, "unit": "cm"},
        "length": {"value": 20, "unit": "cm"},
    }  # fmt: skip
    per_mm = 2 / 80 + 2 / 120 + 2 / 200

    block = answer_to(book, shape=shape, water={"value": 60, "unit": "kg"}, wanted_salt_percent=3.8)

    told = {one.after_h: one.removed.typical for one in (block.half_an_hour, *block.removed)}
    assert told[0.5] == pytest.approx(short_time_percent(0.5, 2.5e-4, per_mm), rel=0.03)
    assert told[2] == pytest.approx(short_time_percent(2, 2.5e-4, per_mm), rel=0.05)
