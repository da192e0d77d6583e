"""What stands on a line of a stream: asked, answered, declined, and the summary at the end."""

from typing import Any

from service.api.line_ids import LineId
from service.api.problem_bodies import ImpossibleProblem, InvalidRequestProblem, LimitExceededProblem, ProblemDetails
from service.quantities.models import Answer, IfStated, Name, Request
from service.rules.book import Engine


class Line(Request):
    """One request among many."""

    id: IfStated[LineId] = None
    """Your name for it: a short text or a whole number, given back with its answer."""
    calculation: Name
    """Which calculation is asked."""
    request: dict[str, Any]
    """The body that the calculation takes on its own path."""


class AnsweredLine(Answer):
    """The answer to one line."""

    line: int
    """Its number in what was sent: the first is 1, and blank lines count."""
    id: IfStated[LineId] = None
    """The id that the line had, if it had one."""
    answer: dict[str, Any]
    """What the calculation answers on its own path, byte for byte."""


class DeclinedLine(Answer):
    """Why one line has no answer."""

    line: int
    """Its number in what was sent: the first is 1, and blank lines count."""
    id: IfStated[LineId] = None
    """The id that the line had, if one could be read."""
    problem: InvalidRequestProblem | LimitExceededProblem | ImpossibleProblem | ProblemDetails
    """The problem that the calculation answers with on its own path; pointers lead into the line."""


class LineCount(Answer):
    """What became of the lines."""

    lines: int
    """Lines that were sent, blank ones too."""
    blank: int
    """Lines with nothing on them; they have no answer."""
    answered: int
    """Lines with an answer."""
    declined: int
    """Lines with a problem."""
    engine: Engine
    """What computed the answers."""


class SummaryLine(Answer):
    """The last line. Where it is missing the stream broke, and lines are without an answer."""

    summary: LineCount
    """How many there were, and what became of them."""


class BrokenLine(Answer):
    """The last line of a stream that the service gave up, where the caller still reads."""

    problem: ProblemDetails
    """Why."""
