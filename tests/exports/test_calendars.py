"""Calendars, read back by the library that phones' and computers' calendars agree with: RFC 5545 throughout."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import pytest
from icalendar import Calendar

from service.calculations.declaration import TimedStep
from service.exports.calendars import MomentWithoutOffset, calendar

HERE = timezone(timedelta(hours=5, minutes=45))
BEGIN = datetime(2026, 12, 1, 8, 30, tzinfo=HERE)
STAMP = datetime(2026, 11, 30, 12, tzinfo=UTC)
STEPS = (
    TimedStep("Put the haunch into its brine", BEGIN, BEGIN, "Weigh it first; note the weight,\nand the day."),
    TimedStep("Turn it", BEGIN + timedelta(days=3), BEGIN + timedelta(days=3, minutes=15)),
    TimedStep(
        "R\u00e4uchern \u2713 " * 20, BEGIN + timedelta(days=9), BEGIN + timedelta(days=9, hours=6), "\u00e9" * 300
    ),
)


def written(*steps: TimedStep, seed: str = "haunch", name: str = "Cure time") -> bytes:
    """The calendar of these steps."""
    return calendar(steps, name, seed, STAMP)


def events(*steps: TimedStep, **named: str) -> list[Any]:
    """Its events, read back."""
    return list(Calendar.from_ical(written(*steps, **named)).walk("VEVENT"))


def test_times_come_back_as_they_went():
    """In UTC; a step of no length has no end (RFC 5545, 3.6.1: DTEND is later than DTSTART)."""
    told = [
        (event["dtstart"].dt, event["dtend"].dt if "dtend" in event else event["dtstart"].dt)
        for event in events(*STEPS)
    ]

    assert told == [(step.start, step.end) for step in STEPS]
    assert all(start.utcoffset() == timedelta(0) for start, _ in told)
    assert "dtend" not in events(STEPS[0])[0]


def test_texts_come_back_as_they_went():
    """Commas, semicolons, line breaks and letters beyond ASCII, with the note as the description."""
    told = events(*STEPS)

    assert [str(event["summary"]) for event in told] == [step.what.strip() for step in STEPS]
    assert [str(event.get("description", "")) for event in told] == [step.note for step in STEPS]


def test_each_step_has_an_alarm_at_its_beginning():
    """One VALARM that is displayed, with a text (RFC 5545, 3.6.6)."""
    for event, step in zip(events(*STEPS), STEPS, strict=True):
        (alarm,) = event.walk("VALARM")

        assert (alarm["action"], alarm["trigger"].dt) == ("DISPLAY", timedelta(0))
        assert str(alarm["description"]) == step.what.strip()


def test_lines_are_folded_and_end_as_they_must():
    """At most 75 octets and CRLF (RFC 5545, 3.1), and no letter is cut in two."""
    lines = written(*STEPS).split(b"\r\n")

    assert lines[0] == b"BEGIN:VCALENDAR"
    assert lines[-2:] == [b"END:VCALENDAR", b""]
    assert max(map(len, lines)) <= 75
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    assert all(line.decode("utf-8") for line in lines[:-1])


def test_a_calendar_names_itself():
    """Version, maker, and a name for whoever takes it in (RFC 5545, 3.7; RFC 7986, 5.1)."""
    book: Any = Calendar.from_ical(written(*STEPS))

    assert (str(book["version"]), str(book["prodid"])) == ("2.0", "-//Pellicle//Pellicle//EN")
    assert str(book["name"]) == str(book["x-wr-calname"]) == "Cure time"
    assert all(event["dtstamp"].dt == STAMP for event in book.walk("VEVENT"))


def test_the_same_steps_give_the_same_bytes():
    """Nothing of the moment is in them but the stamp that was handed in."""
    assert written(*STEPS) == written(*STEPS)
    assert calendar(STEPS, "Cure time", "haunch", STAMP + timedelta(1)) != written(*STEPS)


def test_events_keep_their_names():
    """A UID hangs on the request and on the place of the step, not on its time or its words."""
    moved = tuple(
        replace(step, what="Later", start=step.start + timedelta(1), end=step.end + timedelta(1)) for step in STEPS
    )
    uids = [event["uid"] for event in events(*STEPS)]

    assert [event["uid"] for event in events(*moved)] == uids
    assert len(set(uids)) == len(STEPS)
    assert not set(uids) & {event["uid"] for event in events(*STEPS, seed="shank")}


def test_a_text_cannot_break_out():
    """Line breaks and controls in a name do not become lines of the calendar."""
    evil = "Turn\r\nEND:VCALENDAR\rBEGIN:X\x00\x1b"
    (event,) = events(replace(STEPS[1], what=evil, note=evil), name=evil)

    assert str(event["summary"]) == "Turn END:VCALENDAR BEGIN:X"
    assert written(replace(STEPS[1], what=evil, note=evil), name=evil).count(b"\r\nEND:VCALENDAR") == 1


def test_a_time_without_a_place_is_declined():
    """Eight o'clock somewhere is no moment."""
    nowhere = replace(STEPS[0], start=datetime(2026, 12, 1, 8))  # noqa: DTZ001

    with pytest.raises(MomentWithoutOffset) as declined:
        written(nowhere)

    assert declined.value.step is nowhere


def test_moments_are_told_to_the_second():
    """A calendar knows no fractions of one (RFC 5545, 3.3.5)."""
    (event,) = events(replace(STEPS[1], start=STEPS[1].start + timedelta(microseconds=7)))

    assert event["dtstart"].dt == STEPS[1].start
