"""Calculations for these tests alone: one light, one heavy, one that declines, one that is broken."""

import os
import time
from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from service.calculations.declaration import Calculation
from service.calculations.refusals import Impossible, LimitExceeded
from service.quantities.models import Answer, Day, IfStated, Name, Request
from service.quantities.quantity import Mass, Water
from service.rules.book import Engine, RuleBook
from service.rules.finding import Finding


class Dry(Request):
    """Rubbed on."""

    kind: Literal["dry"]
    """The kind of method."""
    salt_percent: Annotated[float, Field(ge=0.5, le=20)]
    """Salt, as a percentage of the meat."""


class Wet(Request):
    """In a bath."""

    kind: Literal["wet"]
    """The kind of method."""
    water: Water
    """The water of the bath."""


class Spoons(Request):
    """A number of spoons."""

    spoons: Annotated[int, Field(ge=1, le=50)]
    """How many."""
    heaped: bool
    """Heaped rather than level."""


class RubRequest(Request):
    """What is rubbed."""

    on: IfStated[Day] = None
    """The day; left out, it is today."""
    meat: Mass
    """The meat."""
    method: Annotated[Dry | Wet, Field(discriminator="kind")]
    """How the salt gets in."""
    pepper: IfStated[Mass | Spoons] = None
    """Pepper, weighed or spooned."""
    name: Name = "piece"
    """What to call it."""
    pieces: list[Mass] = Field(default_factory=list, max_length=50)
    """The weights of the pieces."""


class RubAnswer(Answer):
    """What to rub on."""

    on: date
    """The day that was asked about."""
    name: str
    """What it was called."""
    meat_g: float
    """Weight of the meat."""
    notes: tuple[str, ...]
    """A line for each piece."""
    engine: Engine
    """What computed this."""


def rub(request: RubRequest, book: RuleBook) -> RubAnswer:
    """How much there is to rub."""
    assert request.on is not None
    notes = tuple(f"{piece.value:g} {piece.unit} is a piece of this batch." for piece in request.pieces)
    return RubAnswer.of(on=request.on, name=request.name, meat_g=request.meat.g, notes=notes, engine=book.engine)


class WorkRequest(Request):
    """What is to be done, and for how long."""

    seconds: Annotated[float, Field(ge=0, le=60)] = 0.0
    """How long to be busy."""
    outcome: Literal["answer", "limit", "impossible", "broken", "killed"] = "answer"
    """What comes of it."""


class WorkAnswer(Answer):
    """What came of it."""

    process: int
    """The process that did it."""


OVER = Finding.of(
    rule="toy-limit", measure="nitrite",
    verdict="not_met", figure=201.0, limit=200.0, bound="maximum", unit="ppm", basis="green_weight",
    expressed_as="sodium_nitrite", margin=-1.0, at_limit=False, evidence="own", force="guard", citation="none",
    text_as_of=None, code="over_limit", message="201 ppm is over the maximum of 200 ppm.", refuses=True, cautions=(),
)  # fmt: skip


def work(request: WorkRequest, book: RuleBook) -> WorkAnswer:
    """Be busy, then answer or decline."""
    end_s = time.monotonic() + request.seconds
    while time.monotonic() < end_s:
        pass
    if request.outcome == "limit":
        raise LimitExceeded(findings=(OVER,), advice="Lower the target to 200 ppm.")
    if request.outcome == "impossible":
        raise Impossible(code="too_coarse", reason="The scale is too coarse.", nearest="A step of 0.1 g.")
    if request.outcome == "broken":
        raise ZeroDivisionError("the secret of the house")
    if request.outcome == "killed":
        os._exit(1)
    return WorkAnswer.of(process=os.getpid())


RUB = Calculation("toys/rub", "Rub a piece", RubRequest, RubAnswer, rub)
LIGHT = Calculation("toys/light", "Work here", WorkRequest, WorkAnswer, work)
HEAVY = Calculation("toys/heavy", "Work elsewhere", WorkRequest, WorkAnswer, work, cost="heavy")
TOYS = (RUB, LIGHT, HEAVY)
