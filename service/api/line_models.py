"""What stands on a line of a stream: asked, answered, declined, and the summary at the end."""

from collections.abc import Callable
from typing import Annotated, Any, Literal

from pydantic import BaseModel, Field, ValidationError, WrapValidator, create_model
from pydantic_core import PydanticCustomError

from service.api.problem_bodies import ImpossibleProblem, InvalidRequestProblem, LimitExceededProblem, ProblemDetails
from service.calculations.declaration import AnyCalculation
from service.quantities.models import Answer, IfStated, Name, Request
from service.rules.book import Engine

BIGGEST_ID = 2**53 - 1
"""Beyond it, JSON readers that keep numbers as doubles would confuse two ids (RFC 7493, 2.2)."""


def _one_sentence(value: Any, check: Callable[[Any], Any]) -> Any:
    """Say once what an id is, and not what is wrong with it as a text and what as a number."""
    try:
        return check(value)
    except ValidationError:
        told = "Must be a text of 1 to 80 printable characters, or a whole number within {biggest}"
        raise PydanticCustomError("value_invalid", told, {"biggest": BIGGEST_ID}) from None


LineId = Annotated[Annotated[int, Field(ge=-BIGGEST_ID, le=BIGGEST_ID)] | Name, WrapValidator(_one_sentence)]


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


def line_of(calculation: AnyCalculation) -> type[Line]:
    """A line on the path of one calculation, which it need not name."""
    return create_model(
        f"{_title(calculation)}Line",
        __base__=Line,
        __doc__=f"One request for {calculation.name}.",
        calculation=(_if_stated(_one_of((calculation.name,))), _like(Line, "calculation", default=None)),
        request=(calculation.request, _like(Line, "request")),
    )


def mixed_line(names: tuple[str, ...]) -> type[Line]:
    """A line on the path of every calculation, which must name one."""
    return create_model(
        "MixedLine",
        __base__=Line,
        __doc__="One request for the calculation that it names.",
        calculation=(_one_of(names), _like(Line, "calculation")),
    )


def answered_line(calculation: AnyCalculation) -> type[AnsweredLine]:
    """The answer to a line on the path of one calculation."""
    return create_model(
        f"{_title(calculation)}AnsweredLine",
        __base__=AnsweredLine,
        __doc__=f"The answer to one request for {calculation.name}.",
        answer=(calculation.answer, _like(AnsweredLine, "answer")),
    )


def _one_of(names: tuple[str, ...]) -> Any:
    one: Any = Literal
    return one[names]


def _if_stated(kind: Any) -> Any:
    one: Any = IfStated
    return one[kind]


def _title(calculation: AnyCalculation) -> str:
    return calculation.operation_id.title().replace("_", "")


def _like(model: type[BaseModel], name: str, default: Any = ...) -> Any:
    """The field of another model's, described as it is there."""
    return Field(default, description=model.model_fields[name].description)
