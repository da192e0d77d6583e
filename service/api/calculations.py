"""The one route of every calculation: bytes in, one validation, one function, bytes out."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime
from importlib import import_module
from inspect import cleandoc
from typing import Any

from pydantic import ValidationError
from starlette.requests import Request
from starlette.responses import Response

from service.api.examples import examples_of
from service.api.faults import invalid_body, require_no_parameters
from service.api.json_text import read_json
from service.api.negotiation import require_acceptable, require_body
from service.api.problems import SAMPLE_REQUEST_ID, Problem, declined
from service.api.reading import BodyLimits, LineLimits, read_body
from service.api.replies import reply
from service.api.routes import Example, Operation, Tag
from service.api.shell import FaultLog
from service.api.telling import Teller, in_json
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
    """What every calculation is handed: the rule book, the time, limits, hands for long work, the log of faults."""

    book: RuleBook
    now: Callable[[], datetime]
    """The time where the kitchen is, to the second."""
    limits: BodyLimits
    line_limits: LineLimits
    workers: Workers
    log: FaultLog

    def today(self) -> date:
        """The day where the kitchen is."""
        return self.now().date()


class CalculationEndpoint:
    """Answers one calculation, over HTTP or a line at a time."""

    def __init__(self, calculation: AnyCalculation, kitchen: Kitchen) -> None:
        self.calculation = calculation
        self.validate: Callable[[Any], RequestModel] = calculation.request.__pydantic_validator__.validate_python
        self.is_heavy = calculation.cost == "heavy"
        self._kitchen = kitchen
        self._is_dated = "on" in calculation.request.model_fields

    async def __call__(self, request: Request) -> Response:
        require_no_parameters(request)
        require_acceptable(request)
        asked = self.checked(await self.read(request))
        return reply(request, await self.heavy(asked) if self.is_heavy else self.light(asked))

    async def read(self, request: Request) -> Any:
        """The body that was sent."""
        require_body(request)
        return read_json(await read_body(request, self._kitchen.limits))

    def checked(self, body: Any) -> RequestModel:
        """The request model of a body; without a day of its own it is about today."""
        self.date(body, self._kitchen.today)
        try:
            return self.validate(body)
        except ValidationError as error:
            raise invalid_body(error, body, self.calculation.request) from None

    def date(self, body: Any, today: Callable[[], date]) -> None:
        """Write today's day into a body that has none where one is asked for."""
        if self._is_dated and isinstance(body, dict) and "on" not in body:
            body["on"] = today().isoformat()

    def light(self, asked: RequestModel) -> bytes:
        """The JSON of the answer, computed here."""
        return written(self.calculation.run(asked, self._kitchen.book))

    async def heavy(self, asked: RequestModel, tell: Teller = in_json) -> bytes:
        """The answer, computed by the workers, as JSON or as it is to be told."""
        try:
            return await self._kitchen.workers.run(self.calculation.name, asked, tell)
        except Overloaded:
            headers = (("retry-after", str(RETRY_AFTER_S)),)
            raise Problem("overloaded", "Too many long calculations are waiting.", headers=headers) from None
        except DeadlinePassed:
            raise Problem("deadline-passed", "The calculation was not done by its deadline.") from None

    def examples(self) -> tuple[Example, ...]:
        """The published examples; the problem of one that is refused is worked out here."""
        return tuple(
            example if example.status == 200 else replace(example, answer=self._refused(example.request))
            for example in examples_of(self.calculation)
        )

    def _refused(self, body: Any) -> Any:
        try:
            self.calculation.run(self.checked(dict(body)), self._kitchen.book)
        except Refusal as refusal:
            return declined(refusal).body(SAMPLE_REQUEST_ID).model_dump(mode="json")
        raise WrongExample(self.calculation.name)


def tag_of(calculation: AnyCalculation) -> Tag:
    """The group of a calculation: its room, which says in its own words what it is about."""
    room = import_module(calculation.run.__module__.rpartition(".")[0])
    return Tag(calculation.tag, (room.__doc__ or "").strip())


def calculation_operation(endpoint: CalculationEndpoint) -> Operation:
    """The operation of a calculation, all of it from the declaration."""
    calculation = endpoint.calculation
    return Operation(
        id=calculation.operation_id,
        method="POST",
        path=f"/v1/{calculation.name}",
        tag=tag_of(calculation),
        summary=calculation.summary,
        description=calculation.description,
        handle=endpoint,
        answer=calculation.answer,
        answer_means=cleandoc(calculation.answer.__doc__ or "The answer."),
        request=calculation.request,
        problems=HEAVY_PROBLEMS if endpoint.is_heavy else LIGHT_PROBLEMS,
        examples=endpoint.examples,
    )
