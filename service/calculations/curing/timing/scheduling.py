"""The steps of a cure with their times, for a calendar."""

from collections.abc import Iterator
from datetime import datetime, timedelta
from math import ceil, floor, inf
from typing import TYPE_CHECKING, Literal

from service.calculations.curing.timing.setting import TimedStage
from service.calculations.curing.timing.stages import Injection
from service.calculations.declaration import TimedStep
from service.quantities.models import Answer, made

if TYPE_CHECKING:
    from service.calculations.curing.cure_time import CureTimeAnswer

DOING = {
    "dry": "Rub the cure in",
    "brine": "Lay into the brine",
    "endless_brine": "Lay into the brine",
    "injected": "Inject the brine",
    "rest": "Wrap and let rest",
}
TURN_EVERY_D = 2
"""Pieces in a rub or a brine are turned every second day (common practice, no source)."""
MOST_TURNS = 60
HANDS_ON = timedelta(minutes=30)


class StageSpan(Answer):
    """A stage and its days."""

    kind: Literal["injected", "dry", "brine", "endless_brine", "rest"]
    """The kind of stage; injected comes before all of them, and takes no days."""
    from_d: float
    """Begins so many days after the first stage began."""
    to_d: float | None
    """Ends so many days after; null for the last, whose end is asked."""


def spans_of(stages: tuple[TimedStage, ...], injection: Injection | None) -> tuple[StageSpan, ...]:
    """The stages with their days."""
    pumped = [made(StageSpan, kind="injected", from_d=0.0, to_d=0.0)] if injection else []
    return (*pumped, *_spans(stages))


def _spans(stages: tuple[TimedStage, ...]) -> Iterator[StageSpan]:
    start_d = 0.0
    for one in stages:
        end_d = start_d + one.lasts_d
        yield made(StageSpan, kind=one.stage.kind, from_d=start_d, to_d=end_d if end_d < inf else None)
        start_d = end_d


def turn_days(stages: tuple[TimedStage, ...], *, last_d: float) -> tuple[int, ...]:
    """Every second day of the stages in which something surrounds the meat, until the slow reading has arrived."""
    return tuple(_turns(stages, last_d))[:MOST_TURNS]


def _turns(stages: tuple[TimedStage, ...], last_d: float) -> Iterator[int]:
    start_d = 0.0
    for one in stages:
        end_d = min(start_d + one.lasts_d, last_d)
        if one.stage.kind != "rest" and end_d < inf:
            yield from (day for day in range(TURN_EVERY_D, int(end_d) + 1, TURN_EVERY_D) if start_d < day < end_d)
        start_d = end_d


def schedule_of(answer: "CureTimeAnswer") -> tuple[TimedStep, ...]:
    """Start, turns, and the days to take it out, at the hour of the start; nothing where no beginning was stated."""
    starts_at = answer.starts_at
    if starts_at is None:
        return ()
    doings = _at_risk() if answer.pull.forecast == "at_risk" else _doings(answer)
    called = f"{answer.name}: " if answer.name else ""
    return tuple(
        _step(starts_at + timedelta(days=after_d), called + what, note)
        for after_d, what, note in sorted(doings, key=lambda doing: doing[0])
    )


def _at_risk() -> Iterator[tuple[float, str, str]]:
    yield 0.0, "Change the plan of this cure", _CHANGE


def _doings(answer: "CureTimeAnswer") -> Iterator[tuple[float, str, str]]:
    """What is to be done after so many days, and what to know about it; what is waited for, at the next full day."""
    yield from ((one.from_d, DOING[one.kind], _BEGIN) for one in answer.stages)
    yield from ((float(day), "Turn the pieces", _TURN) for day in answer.turn_after_d)
    yield ceil(answer.days.typical), "The centre may have its salt", _MAY_BE
    yield ceil(answer.pull.earliest_d), "First day to take it out", _EARLIEST
    if answer.pull.latest_d is not None:
        yield max(floor(answer.pull.latest_d), ceil(answer.pull.earliest_d)), "Last day to take it out", _LATEST


def _step(start: datetime, what: str, note: str) -> TimedStep:
    return TimedStep(what, start, start + HANDS_ON, note)


_BEGIN = "Weigh what goes in, weigh the piece, and read the thermometer in the cabinet. Write all three down."
_TURN = "So that no two pieces touch at one place all the time. Read the thermometer in the cabinet."
_MAY_BE = (
    "By the typical reading of published diffusivities. A forecast: days are for salt, nothing is said of nitrite."
)
_EARLIEST = "By the slow reading the centre has its salt. Cut a test piece before you rely on it."
_CHANGE = (
    "By the quick reading it passes the ceiling on salt before its centre is there by the slow one. Ask POST "
    "/v1/curing/time what else can be done, and plan it anew."
)
_LATEST = "From now on the whole piece may be saltier than the ceiling that was stated."
