"""From pydantic's errors to ours: a pointer into the body that was sent, a stable code and a plain sentence."""

from collections.abc import Iterable, Mapping
from typing import Any, TypeVar
from urllib.parse import quote

from pydantic import BaseModel, ValidationError
from starlette.requests import Request

from service.api.fault_sentences import sentence
from service.api.fault_walk import MOST_LOOKED_AT, Fault, faults_of
from service.api.problem_bodies import MOST_ERRORS, BodyError, ParameterError
from service.api.problems import Problem
from service.api.reading import read_query
from service.api.schema_walk import schema_at

LONGEST_NAME = 64

Asked = TypeVar("Asked", bound=BaseModel)


def invalid_body(error: ValidationError, body: Any, model: type[BaseModel]) -> Problem:
    """The problem that a body does not fit its model."""
    faults = faults_of(error, body)
    errors = [BodyError.of(pointer=pointer(fault.path), **_said(fault, model)) for fault in faults[:MOST_ERRORS]]
    return _problem(errors, truncated=_truncated(error, faults))


def invalid_query(error: ValidationError, query: Mapping[str, str], model: type[BaseModel]) -> Problem:
    """The problem that the parameters do not fit their model."""
    faults = faults_of(error, dict(query))
    errors = [ParameterError.of(parameter=_name(fault.path), **_said(fault, model)) for fault in faults[:MOST_ERRORS]]
    return _problem(errors, truncated=_truncated(error, faults))


def asked_in_query(model: type[Asked], query: Mapping[str, str]) -> Asked:
    """What a query string asks. Raises the problem that it does not fit its model."""
    try:
        return model.model_validate(dict(query))
    except ValidationError as error:
        raise invalid_query(error, query, model) from None


def require_no_parameters(request: Request) -> None:
    """Nothing may stand in the query string of an operation without parameters."""
    unknown = list(read_query(request))
    if unknown:
        raise _unknown_parameters(unknown)


def _unknown_parameters(unknown: list[str]) -> Problem:
    errors = [
        ParameterError.of(parameter=_name((name,)), code="unknown_field", detail="There is no such parameter here.")
        for name in unknown[:MOST_ERRORS]
    ]
    return _problem(errors, truncated=len(unknown) > MOST_ERRORS)


def pointer(path: Iterable[str | int]) -> str:
    """A JSON Pointer as a URI fragment (RFC 6901). Stops short of a name too long to repeat."""
    pointed = "#"
    for part in path:
        if len(str(part)) > LONGEST_NAME:
            break
        pointed += "/" + quote(str(part).replace("~", "~0").replace("/", "~1"), safe="~!$&'()*+,;=:@")
    return pointed


def _problem(errors: list[Any], *, truncated: bool) -> Problem:
    count = f"{len(errors)} or more" if truncated else str(len(errors))
    where = "one thing is" if count == "1" else f"{count} things are"
    told = f"In this request {where} not as asked for."
    return Problem("invalid-request", told, errors=tuple(errors), errors_truncated=truncated)


def _truncated(error: ValidationError, faults: list[Fault]) -> bool:
    return len(faults) > MOST_ERRORS or error.error_count() > MOST_LOOKED_AT


def _name(path: tuple[str | int, ...]) -> str:
    return str(path[0])[:LONGEST_NAME] if path else ""


def _said(fault: Fault, model: type[BaseModel]) -> dict[str, str]:
    name = next((str(part) for part in reversed(fault.path) if isinstance(part, str)), "")
    code, detail = sentence(fault.error, name, schema_at(model, fault.error["loc"]))
    return {"code": code, "detail": detail}
