"""What a caller reads when a request is declined (RFC 9457), and the description of each kind of problem."""

from typing import Annotated

from pydantic import Field

from service.quantities.models import Answer
from service.rules.finding import Finding

MOST_ERRORS = 20

Status = Annotated[int, Field(ge=400, le=599)]


class BodyError(Answer):
    """One thing wrong with the body."""

    pointer: str
    """Where, as a JSON Pointer into the body that was sent; for a missing field, where it belongs."""
    code: str
    """Stable code, for translation. GET /problems/invalid-request lists them."""
    detail: str
    """What is wrong and what is allowed."""


class ParameterError(Answer):
    """One thing wrong with the query string or the path."""

    parameter: str
    """Name of the parameter."""
    code: str
    """Stable code, for translation. GET /problems/invalid-request lists them."""
    detail: str
    """What is wrong and what is allowed."""


class ProblemDetails(Answer):
    """Why a request was declined, as RFC 9457 has it."""

    type: str
    """Address of the description of this kind of problem."""
    title: str
    """The kind of problem, in words."""
    status: Status
    """The HTTP status."""
    detail: str
    """What is wrong this time."""
    instance: str
    """Names this one request; quote it when asking for help."""
    code: str
    """Stable code, for translation: more exact than the type where a type covers several causes."""


class InvalidRequestProblem(ProblemDetails):
    """Readable, but not what is asked for here."""

    errors: tuple[BodyError | ParameterError, ...] = Field(max_length=MOST_ERRORS)
    """What is wrong, one entry each."""
    errors_truncated: bool
    """There is more wrong than the list shows."""


class LimitExceededProblem(ProblemDetails):
    """What was asked for would break a limit."""

    findings: tuple[Finding, ...]
    """Every figure that was held against a limit, kept and broken."""
    advice: str
    """What to change."""


class ImpossibleProblem(ProblemDetails):
    """No amounts do what was asked for."""

    reason: str
    """Why, with the numbers."""
    nearest: str | None
    """The nearest thing that can be done."""
    findings: tuple[Finding, ...]
    """Figures that were held against a limit on the way."""


class CodeDescription(Answer):
    """A stable code and what it stands for."""

    code: str
    """The code."""
    meaning: str
    """What it stands for."""


class ProblemDescription(Answer):
    """A kind of problem: what it means and what to do about it."""

    type: str
    """Its address, as in the type of a problem."""
    title: str
    """In words."""
    status: Status
    """The HTTP status it comes with."""
    meaning: str
    """What it means."""
    remedy: str
    """What to do about it."""
    codes: tuple[CodeDescription, ...]
    """Codes that say more exactly what is wrong, where the type covers several causes."""
