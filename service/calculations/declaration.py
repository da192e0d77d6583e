"""What a calculation is: declared once, everything else is derived from the declaration."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from inspect import cleandoc
from typing import Any, Generic, Literal, TypeVar

from service.quantities.models import Answer, Request
from service.rules.book import RuleBook
from service.rules.vocabulary import Measure

Asked = TypeVar("Asked", bound=Request)
Told = TypeVar("Told", bound=Answer)

Cost = Literal["light", "heavy"]
"""light runs on the event loop, heavy in the worker pool."""


@dataclass(frozen=True, slots=True)
class Series:
    """A line to draw: points in the units of the drawing's axes."""

    label: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Band:
    """An area between a low and a high line."""

    label: str
    points: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True)
class Mark:
    """A point worth naming."""

    label: str
    at: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Panel:
    """One pair of axes, with what is drawn on it. Labels of axes name their units."""

    title: str
    x_label: str
    y_label: str
    series: tuple[Series, ...] = ()
    bands: tuple[Band, ...] = ()
    marks: tuple[Mark, ...] = ()
    from_zero: bool = False
    """Whether the scale upwards begins at zero, wherever the lowest value lies."""
    counts_across: bool = False
    """Whether what runs from left to right is counted, so that no part of one is marked on its scale."""


@dataclass(frozen=True, slots=True)
class Drawing:
    """What an answer looks like, before any renderer has seen it: panels below each other."""

    title: str
    panels: tuple[Panel, ...]
    note: str = ""
    """What has to be read with it: what the band is, what is not claimed."""


@dataclass(frozen=True, slots=True)
class TimedStep:
    """Something to do, and when."""

    what: str
    start: datetime
    end: datetime
    note: str = ""


@dataclass(frozen=True, slots=True)
class Calculation(Generic[Asked, Told]):
    """One calculation. ``run`` is pure: it reads no clock, file or environment, and gets the rule book handed in."""

    name: str
    """Its path below /v1, such as curing/dose."""
    summary: str
    request: type[Asked]
    answer: type[Told]
    run: Callable[[Asked, RuleBook], Told]
    drawing: Callable[[Told], Drawing] | None = None
    schedule: Callable[[Told], tuple[TimedStep, ...]] | None = None
    cost: Cost = "light"
    reasons: Mapping[str, str] = field(default_factory=dict)
    """Codes with which it says that something is impossible, and what each means."""
    codes: Mapping[str, str] = field(default_factory=dict)
    """Other stable codes in its answers, and what each means."""
    measures: frozenset[Measure] = frozenset()
    """What it may hold against rules; the rules that bind one request are chosen from those on these."""

    @property
    def tag(self) -> str:
        return self.name.partition("/")[0]

    @property
    def operation_id(self) -> str:
        return self.name.replace("/", "_").replace("-", "_")

    @property
    def description(self) -> str:
        """The docstring of the function: it is published and speaks to the caller."""
        return cleandoc(self.run.__doc__ or "")


AnyCalculation = Calculation[Any, Any]
