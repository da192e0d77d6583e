"""What a soak tells, advises, draws and schedules."""

from datetime import datetime, timedelta
from typing import Any

import pytest

from service.calculations.curing.soak import CAUTIONS, SoakAnswer, SoakRequest, soak
from service.calculations.curing.soaking.picturing import drawing_of
from service.calculations.curing.soaking.scheduling import schedule_of
from service.rules.book import RuleBook

BODY: dict[str, Any] = {
    "meat": {"value": 2.3, "unit": "kg"},
    "shape": {"kind": "slab", "thickness": {"value": 46, "unit": "mm"}},
    "salt_percent": 4.4,
    "wanted_salt_percent": 3.5,
    "temperature": {"value": 3, "unit": "degC"},
    "water": {"value": 9, "unit": "l"},
    "change_every": {"value": 8, "unit": "h"},
    "starts_at": "2026-12-01T18:30:00+01:00",
}


def answer_to(book: RuleBook, **changed: Any) -> SoakAnswer:
    """The answer to a piece of neck, with something else about it."""
    return soak(SoakRequest.model_validate({**BODY, **changed}), book)


def test_half_an_hour_is_a_rinse(book: RuleBook):
    """Against the hours that it takes, it takes next to nothing out, and nothing out of the centre."""
    answer = answer_to(book)

    assert answer.half_an_hour.after_h == 0.5
    assert answer.half_an_hour.removed.high < 5 < answer.at_end.removed.low
    assert answer.half_an_hour.centre.typical == 4.4
    assert answer.hours.typical > 20


def test_nothing_is_told_of_nitrite(book: RuleBook):
    """What is left is unknown, and the cautions say that the hours count and the code comes first."""
    answer = answer_to(book)

    assert answer.nitrite_left == "unknown"
    assert [one.id for one in answer.cautions] == CAUTIONS
    assert "how much nitrite is left afterwards is not known" in answer.cautions[0].text


def test_brief_leaves_out_curve_arithmetic_and_sources(book: RuleBook):
    """Hours, table, advice and cautions stay."""
    full, brief = answer_to(book), answer_to(book, detail="brief")

    assert len(full.course) == 25
    assert full.steps
    assert full.sources
    assert (brief.course, brief.steps, brief.sources) == ((), (), ())
    assert (brief.hours, brief.removed, brief.cautions) == (full.hours, full.removed, full.cautions)


def test_us_units_are_pounds_and_ounces(book: RuleBook):
    """The least water of 2.3 kg: 1,610 g of meat water times (4.4 / 3.5 - 1) is 414 g, or 14.6 oz, by hand."""
    assert answer_to(book).least_water.weight.value == pytest.approx(414, abs=0.1)
    assert answer_to(book, units="us").least_water.weight.unit == "oz"
    assert answer_to(book, units="us").least_water.weight.value == pytest.approx(14.6, abs=0.01)


def test_pounds_and_degrees_fahrenheit_say_the_same(book: RuleBook):
    """Converted once, when they are read."""
    inches = {"kind": "slab", "thickness": {"value": 46 / 25.4, "unit": "in"}}

    other = answer_to(
        book, meat={"value": 2300 / 453.59237, "unit": "lb"}, shape=inches, temperature={"value": 37.4, "unit": "degF"}
    )

    assert other.hours == answer_to(book).hours


@pytest.mark.parametrize("faces", [2, 1])
def test_skin_on_one_side_makes_the_way_twice_as_long(book: RuleBook, faces: int):
    """The advice names half of the way that salt has to go, whichever faces are open."""
    shape = {"kind": "slab", "thickness": {"value": 30 * faces, "unit": "mm"}, "open_faces": faces}

    answer = answer_to(book, shape=shape, wanted_salt_percent=3.6)

    assert [one.code for one in answer.advice] == ["cut_thinner", "taste_a_slice", "weigh_the_next_cure"]
    assert "no thicker than 30 mm" in answer.advice[0].text


def test_a_thin_piece_is_not_told_to_be_cut(book: RuleBook):
    """Where the slow reading has come down within a day."""
    answer = answer_to(book, shape={"kind": "slab", "thickness": {"value": 20, "unit": "mm"}})

    assert answer.hours.high < 24
    assert [one.code for one in answer.advice] == ["taste_a_slice", "weigh_the_next_cure"]


def test_a_calendar_has_each_water_and_the_end(book: RuleBook):
    """Into the first, out of each into the next every eight hours, and out on the typical hour."""
    answer = answer_to(book)
    first = datetime.fromisoformat(BODY["starts_at"])

    steps = schedule_of(answer)

    assert len(steps) == answer.waters + 1
    assert [one.start for one in steps[:-1]] == [first + timedelta(hours=8 * n) for n in range(answer.waters)]
    assert steps[-2].start < steps[-1].start <= steps[-2].start + timedelta(hours=8)
    assert f"it takes {answer.hours.high:g} hours" in steps[-1].note


def test_without_a_beginning_there_is_no_calendar(book: RuleBook):
    """Nothing is made up."""
    stated = {name: value for name, value in BODY.items() if name != "starts_at"}

    assert schedule_of(soak(SoakRequest.model_validate(stated), book)) == ()


def test_a_drawing_has_the_whole_piece_and_its_centre(book: RuleBook):
    """Both begin at the salt that is stated, the band around the whole piece holds its line, the end is marked."""
    answer = answer_to(book)

    drawing = drawing_of(answer)

    (panel,) = drawing.panels
    assert [one.label for one in panel.series] == ["whole piece", "centre"]
    assert [one.points[0] for one in panel.series] == [(0.0, 4.4), (0.0, 4.4)]
    within = zip(panel.bands[0].points, panel.series[0].points, strict=True)
    assert all(low <= mean <= high for (_, low, high), (_, mean) in within)
    assert panel.marks[0].at == (answer.hours.typical, answer.at_end.mean.typical)
    assert "nitrite" in drawing.note
