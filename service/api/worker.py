"""One process for long calculations: what runs inside it.

WorkersError
├── Overloaded       as many wait as may wait (raised outside, in workers.py)
├── DeadlinePassed   not done in time
└── WorkerFailed     a fault in the calculation, with its traceback; or the process died
"""

import signal
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from types import FrameType

from pydantic import TypeAdapter

from service.api.telling import Teller
from service.calculations.declaration import AnyCalculation
from service.calculations.refusals import Refusal
from service.quantities.models import Request
from service.rules.book import RuleBook

EXPIRED_S = 0.001
"""Alarm for work that was late before it began: zero would mean no alarm."""
IMPORTING_S = 0.02
"""Alarm for work that was late while it imported a library."""


BookLoader = Callable[[], RuleBook]


class WorkersError(Exception):
    """Root of what the workers raise."""


class DeadlinePassed(WorkersError):
    """Not done in time."""


class WorkerFailed(WorkersError):
    """A fault in a calculation; carries the traceback as text, because it comes from another process."""


@dataclass(frozen=True, slots=True)
class Declined:
    """A refusal on its way between processes, as JSON: exceptions with keyword arguments do not survive pickling."""

    kind: type[Refusal]
    members: bytes

    @classmethod
    def of(cls, refusal: Refusal) -> "Declined":
        return cls(type(refusal), TypeAdapter(type(refusal)).dump_json(refusal))

    def refusal(self) -> Refusal:
        return TypeAdapter(self.kind).validate_json(self.members)


_calculations: dict[str, AnyCalculation] = {}
_books: list[RuleBook] = []


def prepare(load: BookLoader, calculations: tuple[AnyCalculation, ...]) -> None:
    """In the worker process, once: load the rule book, and keep it and the calculations."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _books.append(load())
    _calculations.update({calculation.name: calculation for calculation in calculations})


def compute(name: str, asked: Request, deadline: float, tell: Teller) -> bytes | Declined:
    """In the worker process: one calculation and the telling of its answer.

    It is given up at its deadline (in seconds since the epoch).
    """
    calculation = _calculations[name]
    try:
        _alarm(max(deadline - time.time(), EXPIRED_S))
        return tell(calculation, calculation.run(asked, _books[0]))
    except Refusal as refusal:
        return Declined.of(refusal)
    except DeadlinePassed:
        raise
    except Exception:  # noqa: BLE001 - whatever it is, only its text travels between processes
        raise WorkerFailed(traceback.format_exc()) from None
    finally:
        _alarm(0)


def _alarm(seconds: float) -> None:
    """Interrupt this process after so long; zero takes the alarm back. Without alarms (Windows) work runs on."""
    if hasattr(signal, "setitimer"):
        signal.signal(signal.SIGALRM, _late)
        signal.setitimer(signal.ITIMER_REAL, seconds)


def _late(_signal: int, frame: FrameType | None) -> None:
    """Give up, but not in the middle of an import: numpy and its like cannot be loaded a second time."""
    if _is_importing(frame):
        _alarm(IMPORTING_S)
        return
    raise DeadlinePassed


def _is_importing(frame: FrameType | None) -> bool:
    while frame is not None:
        if frame.f_code.co_filename.startswith("<frozen importlib"):
            return True
        frame = frame.f_back
    return False
