"""How an answer is told: as JSON, as a picture, as a calendar. Each way runs in the workers too."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from service.calculations.declaration import AnyCalculation, Drawing
from service.exports.calendars import calendar
from service.exports.charts import png, svg
from service.quantities.models import Answer, written

Teller = Callable[[AnyCalculation, Answer], bytes]
"""Makes the bytes that a caller gets of a calculation's answer."""


def in_json(_: AnyCalculation, answer: Answer) -> bytes:
    """The answer itself."""
    return written(answer)


def in_svg(calculation: AnyCalculation, answer: Answer) -> bytes:
    """What the answer looks like, as lines and letters."""
    return svg(_drawn(calculation, answer))


def in_png(calculation: AnyCalculation, answer: Answer) -> bytes:
    """What the answer looks like, as dots."""
    return png(_drawn(calculation, answer))


def _drawn(calculation: AnyCalculation, answer: Answer) -> Drawing:
    assert calculation.drawing is not None  # only what can be drawn has a route that asks for it
    return calculation.drawing(answer)


@dataclass(frozen=True, slots=True)
class InCalendar:
    """What is to be done and when, as events; the seed names the request, the stamp is when it was asked."""

    uid_seed: str
    stamp: datetime

    def __call__(self, calculation: AnyCalculation, answer: Answer) -> bytes:
        assert calculation.schedule is not None  # as above
        return calendar(calculation.schedule(answer), calculation.summary, self.uid_seed, self.stamp)
