"""The waters of a soak with their times, for a calendar."""

from collections.abc import Iterator
from datetime import timedelta
from typing import TYPE_CHECKING

from service.calculations.curing.soaking.advising import CODES
from service.calculations.declaration import TimedStep

if TYPE_CHECKING:
    from service.calculations.curing.soak import SoakAnswer

HANDS_ON = timedelta(minutes=15)


def schedule_of(answer: "SoakAnswer") -> tuple[TimedStep, ...]:
    """Into water, each change, and out; nothing where no beginning was stated."""
    starts_at = answer.starts_at
    if starts_at is None:
        return ()
    starts = (
        (starts_at + timedelta(minutes=round(60 * after_h)), what, note) for after_h, what, note in _doings(answer)
    )
    return tuple(TimedStep(what, start, start + HANDS_ON, note) for start, what, note in starts)


def _doings(answer: "SoakAnswer") -> Iterator[tuple[float, str, str]]:
    yield 0.0, "Into fresh cold water", "In the refrigerator, covered. The hours count."
    for number in range(1, answer.waters):
        yield (
            number * answer.change_every_h,
            f"Change the water ({number + 1} of {answer.waters})",
            "Fresh, cold water.",
        )
    yield (
        answer.hours.typical,
        "Out of the water, dry, let it rest",
        f"A forecast; by the slow reading it takes {answer.hours.high:g} hours. {CODES['taste_a_slice']}",
    )
