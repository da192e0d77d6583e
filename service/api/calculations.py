"""The one route of every calculation: bytes in, one validation, one function, bytes out."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from importlib import import_module
from inspect import cleandoc
from typing import Any

from pydantic import ValidationError
from starlette.requests import Request
from starlette.responses import Response

from service.api.examples import examples_of
from service.api.faults import invalid_body, require_no_parameters
from service.api.json_text import read_json
from service.api.negotiation import require_acceptable, require_json
from service.api.problems import SAMPLE_REQUEST_ID, Problem, declined
from service.api.reading import BodyLimits, read_body
from service.api.replies import reply
from service.api.routes import Example, Operation, Tag
from service.api.worker import DeadlinePassed
from service.api.workers import Overloaded, Workers
from service.calculations.declaration import AnyCalculation
from service.calculations.refusals import Refusal
from service.quantities.models import Request as RequestModel
from service.quantities.models import written
from service.rules.book import RuleBook

RETRY_AFTER_S = 5

LIGHT_PROBLEMS = (
    "unreadable-json", "unreadable-query", "not-acceptable", "request-timeout", "body-too-large", "uri-too-long",
    "unsupported-media-type", "unsupported-content-encoding", "invalid-request", "limit-exceeded", "impossible",
    "headers-too-large", "internal-error",
)  # fmt: skip
HEAVY_PROBLEMS = (*LIGHT_PROBLEMS, "overloaded", "deadline-passed")


@dataclass
class WrongExample(Exception):
    """An example that is said to be refused is not."""

    calculation: str


@dataclass(frozen=True, slots=True)
class Kitchen:
    """What every calculation is handed: the rule book, today's day, limits, and hands for long work."""

    book: RuleBook
    today: Callable[[], date]
    limits: BodyLimits
    workers: Workers


class CalculationEndpoint:
    """Answers one calculation over HTTP."""

    def __init__(self, calculation: AnyCalculation, kitchen: Kitchen) -> None:
        self._calculation = calculation
        self._kitchen = kitchen
        self._validate = calculation.request.__pydantic_validator__.validate_python
        self._write = written
        self._is_dated = "on" in calculation.request.model_fields
        self._is_heavy = calculation.cost == "heavy"

    async def __call__(self, request: Request) -> Response:
        require_no_parameters(request)
        require_acceptable(request)
        require_json(request)
        asked = self.checked(read_json(await read_body(request, self._kitchen.limits)))
        return reply(request, await self._heavy(asked) if self._is_heavy else self._light(asked))

    def checked(self, body: Any) -> RequestModel:
        """The request model of a body; without a day of its own it is about today."""
        if self._is_dated and isinstance(body, dict) and "on" not in body:
            body["on"] = self._kitchen.today().isoformat()
        try:
            return self._validate(body)  # type: ignore[no-any-return]
        except ValidationError as error:
            raise invalid_body(error, body, self._calculation.request) from None

    def examples(self) -> tuple[Example, ...]:
        """The published examples; the problem of one that is refused is worked out here."""
        return tuple(
            example if example.status == 200 else replace(example, answer=self._refused(example.request))
            for example in examples_of(self._calculation)
        )

    def _refused(self, body: Any) -> Any:
        try:
            self._calculation.run(self.checked(dict(body)), self._kitchen.book)
        except Refusal as refusal:
            return declined(refusal).body(SAMPLE_REQUEST_ID).model_dump(mode="json")
        raise WrongExample(self._calculation.name)

    def _light(self, asked: RequestModel) -> bytes:
        answer = self._calculation.run(asked, self._kitchen.book)
        return self._write(answer)

    async def _heavy(self, asked: RequestModel) -> bytes:
        try:
            return await self._kitchen.workers.run(self._calculation.name, asked)
        except Overloaded:
            headers = (("retry-after", str(RETRY_AFTER_S)),)
            raise Problem("overloaded", "Too many long calculations are waiting.", headers=headers) from None
        except DeadlinePassed:
            raise Problem("deadline-passed", "The calculation was not done by its deadline.") from None


def calculation_operation(calculation: AnyCalculation, kitchen: Kitchen) -> Operation:
    """The operation of a calculation, all of it from the declaration."""
    endpoint = CalculationEndpoint(calculation, kitchen)
    return Operation(
        id=calculation.operation_id,
        method="POST",
        path=f"/v1/{calculation.name}",
        tag=Tag(calculation.tag, _room_of(calculation)),
        summary=calculation.summary,
        description=calculation.description,
        handle=endpoint,
        answer=calculation.answer,
        answer_means=cleandoc(calculation.answer.__doc__ or "The answer."),
        request=calculation.request,
        problems=HEAVY_PROBLEMS if calculation.cost == "heavy" else LIGHT_PROBLEMS,
        examples=endpoint.examples,
    )


def _room_of(calculation: AnyCalculation) -> str:
    """What the folder of a calculation is about, in its own words."""
    return (import_module(calculation.run.__module__.rpartition(".")[0]).__doc__ or "").strip()
