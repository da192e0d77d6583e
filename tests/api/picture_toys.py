"""Calculations with a chart and a calendar, for these tests alone: both, a chart alone, a calendar alone."""

import os
import time
from datetime import date, datetime, timedelta
from typing import Annotated, Literal

from pydantic import Field

from service.calculations.declaration import Band, Calculation, Drawing, Mark, Panel, Series, TimedStep
from service.calculations.refusals import Impossible
from service.quantities.models import Answer, Day, IfStated, Moment, Name, Request
from service.quantities.quantity import Mass
from service.rules.book import RuleBook


class RestRequest(Request):
    """What rests."""

    on: IfStated[Day] = None
    """The day; left out, it is today."""
    starts_at: IfStated[Moment] = None
    """When it begins."""
    piece: Name = "shank"
    """What to call it."""
    meat: Mass
    """The meat."""
    days: Annotated[float, Field(ge=0.5, le=60)]
    """How long it rests."""
    outcome: Literal["answer", "impossible", "late"] = "answer"
    """What comes of it."""


class RestAnswer(Answer):
    """How it rests."""

    on: date
    """The day that was asked about."""
    starts_at: datetime | None
    """When it begins, if that was said."""
    piece: str
    """What it was called."""
    days: float
    """How long it rests."""


def rest(request: RestRequest, _: RuleBook) -> RestAnswer:
    """How a piece rests."""
    if request.outcome == "impossible":
        raise Impossible(code="too_heavy", reason="The shelf is too weak.")
    if request.outcome == "late":
        time.sleep(60)
    assert request.on is not None
    return RestAnswer.of(on=request.on, starts_at=request.starts_at, piece=request.piece, days=request.days)


def drawn(answer: RestAnswer) -> Drawing:
    """A line down, with the process that draws it in the note."""
    half = answer.days / 2
    return Drawing(
        title=f"Rest of {answer.piece}",
        panels=(
            Panel(
                "Weight", "Days at rest", "Weight (%)",
                series=(Series("Expected", ((0.0, 100.0), (answer.days, 90.0))),),
                bands=(Band("Dry to damp room", ((0.0, 100.0, 100.0), (answer.days, 88.0, 92.0))),),
                marks=(Mark("Turn", (half, 95.0)),),
            ),
        ),
        note=f"Drawn by process {os.getpid()}.",
    )  # fmt: skip


def scheduled(answer: RestAnswer) -> tuple[TimedStep, ...]:
    """Hang it up, take it down."""
    assert answer.starts_at is not None
    end = answer.starts_at + timedelta(days=answer.days)
    return (
        TimedStep(f"Hang up {answer.piece}", answer.starts_at, answer.starts_at, "Weigh it first."),
        TimedStep(f"Take down {answer.piece}", end, end + timedelta(minutes=20)),
    )


REST = Calculation(
    "toys/rest", "Rest of a piece", RestRequest, RestAnswer, rest, drawing=drawn, schedule=scheduled,
    reasons={"too_heavy": "The shelf is too weak."},
)  # fmt: skip
LOOK = Calculation("toys/look", "Look at a piece", RestRequest, RestAnswer, rest, drawing=drawn, cost="heavy")
WAIT = Calculation("toys/wait", "Wait for a piece", RestRequest, RestAnswer, rest, schedule=scheduled)
PICTURE_TOYS = (REST, LOOK, WAIT)
