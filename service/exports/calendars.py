"""Timed steps as a calendar that phones and computers take in (iCalendar, RFC 5545)."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from typing import Any

from service.calculations.declaration import TimedStep
from service.exports.words import one_line, printable

PRODUCT = "-//Pellicle//Pellicle//EN"
DIGITS = 32


@dataclass
class MomentWithoutOffset(Exception):
    """A step says a time and not where: nobody can say when it is."""

    step: TimedStep


def calendar(steps: Sequence[TimedStep], name: str, uid_seed: str, stamp: datetime) -> bytes:
    """The steps as events, each with an alarm at its beginning.

    The same steps, name, seed and stamp give the same bytes. An event keeps its UID as long as its seed and its place
    among the steps stay, so that a calendar that is read in once more replaces its events.
    """
    from icalendar import Calendar  # 0.2 s: on first use, not at start

    book = Calendar()
    book.add("prodid", PRODUCT)
    book.add("version", "2.0")
    book.add("calscale", "GREGORIAN")
    book.add("name", one_line(name))
    book.add("x-wr-calname", one_line(name))
    for index, step in enumerate(steps):
        book.add_component(_event(step, uid=_uid(uid_seed, index), stamp=stamp))
    written: bytes = book.to_ical()
    return written


def _event(step: TimedStep, *, uid: str, stamp: datetime) -> Any:
    from icalendar import Event

    event = Event()
    event.add("uid", uid)
    event.add("dtstamp", _utc(stamp, step))
    event.add("dtstart", _utc(step.start, step))
    if step.end > step.start:  # an event of no length has no end (RFC 5545, 3.8.2.2)
        event.add("dtend", _utc(step.end, step))
    event.add("summary", one_line(step.what))
    if step.note:
        event.add("description", printable(step.note))
    event.add("transp", "TRANSPARENT")  # meat that lies in its cure does not make the cook busy
    event.add_component(_alarm(step))
    return event


def _alarm(step: TimedStep) -> Any:
    from icalendar import Alarm

    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("trigger", timedelta(0))
    alarm.add("description", one_line(step.what))
    return alarm


def _utc(moment: datetime, step: TimedStep) -> datetime:
    if moment.tzinfo is None:
        raise MomentWithoutOffset(step)
    return moment.astimezone(UTC).replace(microsecond=0)


def _uid(seed: str, index: int) -> str:
    return f"{sha256(f'{seed}/{index}'.encode()).hexdigest()[:DIGITS]}@pellicle"
