"""Where the names of marks stand: beside their points, over no line and no other name, inside the panel."""

from itertools import combinations
from math import exp

import pytest

from service.calculations.declaration import Mark, Panel, Series
from service.exports.chart_frame import Frame, frame_of
from service.exports.chart_marks import Named, named_marks
from service.exports.chart_panels import ticks_across
from service.exports.charts import svg
from tests.exports.drawings import ODD

CURVE = Series("Centre", tuple((day / 4, 150 * (1 - exp(-day / 16))) for day in range(49)))


def placed(*marks: Mark) -> tuple[Frame, list[Named]]:
    """The marks of a panel with one curve, and its frame."""
    panel = Panel("Nitrite", "Days", "ppm", (CURVE,), (), marks)
    frame = frame_of(panel, width_pt=330, height_pt=190)
    svg(ODD["no panel"])  # the letters are measured by the library that draws them
    return frame, named_marks(panel, frame)


@pytest.mark.parametrize(("from_zero", "low"), [(True, 0.0), (False, 7.0)])
def test_a_scale_begins_at_zero_where_it_is_asked_to(from_zero: bool, low: float):
    """However high the lowest value lies."""
    panel = Panel("Weight", "Stages done", "g", (Series("usual", ((0.0, 10.0), (1.0, 7.2))),), from_zero=from_zero)

    assert frame_of(panel, width_pt=330, height_pt=190).y_low == pytest.approx(low, abs=0.2)


@pytest.mark.parametrize(("counts", "expected"), [(True, [0.0, 1.0]), (False, [0.0, 0.2, 0.4, 0.6, 0.8, 1.0])])
def test_what_is_counted_has_no_halves_on_its_scale(counts: bool, expected: list[float]):
    """A stage is done or not."""
    panel = Panel("Weight", "Stages done", "g", (Series("usual", ((0.0, 10.0), (1.0, 7.2))),), counts_across=counts)

    assert ticks_across(frame_of(panel, width_pt=330, height_pt=190)) == pytest.approx(expected)


@pytest.mark.parametrize("day", [0, 4, 12, 24, 36, 48])
def test_a_name_stands_beside_its_point_and_over_no_line(day: int):
    """Anywhere on the curve, also at its ends, a short name has a place."""
    frame, (named,) = placed(Mark("Turn it", CURVE.points[day]))
    left, bottom = named.box.left_pt, named.box.bottom_pt

    assert named.number is None
    assert not any(named.box.holds(point) for point in frame.along(CURVE.points))
    assert 0 <= left <= left + named.box.width_pt <= frame.width_pt
    assert 0 <= bottom <= bottom + named.box.height_pt <= frame.height_pt


def test_names_do_not_overlap():
    """Two boxes never meet, names or numbers."""
    _, named = placed(*(Mark(f"Turn {turn}", CURVE.points[turn * 4]) for turn in range(1, 11)))

    assert len(named) == 10
    assert not any(one.box.meets(other.box) for one, other in combinations(named, 2))


def test_a_long_name_is_told_in_the_key():
    """It has a number, counted from one."""
    _, named = placed(
        Mark("Turn it", CURVE.points[4]), Mark("Turn it over and pour away the brine " * 3, CURVE.points[20])
    )

    assert [one.number for one in named] == [None, 1]


def test_numbers_in_a_crowd_do_not_overlap():
    """Twelve marks at nearly the same place, among many lines."""
    panel = ODD["many"].panels[0]
    svg(ODD["no panel"])

    named = named_marks(panel, frame_of(panel, width_pt=330, height_pt=190))

    assert not any(one.box.meets(other.box) for one, other in combinations(named, 2))
