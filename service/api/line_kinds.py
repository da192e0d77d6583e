"""Lines for one calculation and for any of them, derived from the general ones: what differs is what they hold."""

from typing import Any, Literal

from pydantic import BaseModel, Field, create_model

from service.api.line_models import AnsweredLine, Line
from service.calculations.declaration import AnyCalculation
from service.quantities.models import IfStated


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
