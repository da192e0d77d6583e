"""Many requests in one: a line of JSON each, answered in order, a line of JSON each.

The answer is written while the request is read (stream.py), and nothing is kept but the line under way.
"""

from collections.abc import AsyncGenerator, Iterable, Mapping
from datetime import date
from typing import Any

import orjson
from pydantic import BaseModel, TypeAdapter, ValidationError
from starlette.requests import Request
from starlette.responses import Response

from service.api.calculations import CalculationEndpoint, Kitchen
from service.api.faults import invalid_body, require_no_parameters
from service.api.json_text import read_json
from service.api.line_cutting import BLANKS, LineCutter
from service.api.line_models import BIGGEST_ID, Line, LineCount, LineId, SummaryLine, line_of
from service.api.negotiation import LINES, require_acceptable, require_body
from service.api.problems import Problem, declined
from service.api.shell import request_id
from service.api.stream import StreamReply
from service.calculations.refusals import Refusal
from service.quantities.models import Request as RequestModel

LONGEST_PLAIN_ID = 80
"""Of the ids that are seen to be lawful at a glance; about any other text the model decides."""

_LINE_ID: TypeAdapter[Any] = TypeAdapter(LineId, config={"strict": True})


class Desk:
    """One calculation, and what a line for it looks like."""

    def __init__(self, endpoint: CalculationEndpoint) -> None:
        self.endpoint = endpoint
        self.line = line_of(endpoint.calculation)


class LinesEndpoint:
    """Answers lines for these calculations; where there is only one of them, no line need name it."""

    def __init__(self, kitchen: Kitchen, desks: Iterable[Desk], line: type[Line], own: str | None = None) -> None:
        self.desks: Mapping[str, Desk] = {desk.endpoint.calculation.name: desk for desk in desks}
        self.line = line
        self.own = own
        self.kitchen = kitchen

    async def __call__(self, request: Request) -> Response:
        require_no_parameters(request)
        require_acceptable(request, LINES)
        require_body(request, LINES)
        work = LineWork(self, request_id(request.scope))
        return StreamReply(work, media_type=LINES, idle_s=self.kitchen.line_limits.idle_s)

    def desk(self, envelope: Any) -> Desk:
        """The calculation that a line asks for."""
        name = envelope.get("calculation", self.own) if isinstance(envelope, dict) else None
        found = self.desks.get(name) if isinstance(name, str) else None
        return found or self.desks[_checked(self.line, envelope).calculation]

    def asked(self, envelope: Any, id: str | int | None, today: date) -> tuple[CalculationEndpoint, RequestModel]:
        """The calculation that a line asks for, and its checked request."""
        desk = self.desk(envelope)
        request = envelope.get("request")
        desk.endpoint.date(request, lambda: today)
        known = ("request" in envelope) + ("calculation" in envelope) + (id is not None)
        if len(envelope) == known:
            try:
                return desk.endpoint, desk.endpoint.validate(request)
            except ValidationError:
                pass  # the model of the whole line says where
        return desk.endpoint, _checked(desk.line, envelope).request  # type: ignore[return-value]


class LineWork:
    """One stream of lines: what is asked on each, and what became of them so far. All of it is about one day."""

    def __init__(self, endpoint: LinesEndpoint, request_id: str) -> None:
        self._endpoint = endpoint
        self._request_id = request_id
        self._cutter = LineCutter(endpoint.kitchen.line_limits.longest_bytes)
        self._today = endpoint.kitchen.today()
        self._lines = self._blank = self._answered = 0

    async def take(self, block: bytes) -> AsyncGenerator[bytes, None]:
        """The answers to the lines that this block completes."""
        for line in self._cutter.cut(block):
            yield await self._answer(line)

    async def finish(self) -> AsyncGenerator[bytes, None]:
        """The answer to a last line without an end, and the summary."""
        for line in self._cutter.last():
            yield await self._answer(line)
        count = LineCount.of(
            lines=self._lines, blank=self._blank, answered=self._answered,
            declined=self._lines - self._blank - self._answered, engine=self._endpoint.kitchen.book.engine,
        )  # fmt: skip
        yield _written(SummaryLine.of(summary=count)) + b"\n"

    def give_up(self, problem: Problem) -> bytes:
        """The last line of a stream that is broken off."""
        return b'{"problem":%b}\n' % _written(problem.body(self._request_id))

    async def _answer(self, line: bytes | None) -> bytes:
        """The line that answers a line; nothing for a blank one."""
        self._lines += 1
        if line is not None and not line.strip(BLANKS):
            self._blank += 1
            return b""
        head = b'{"line":%d' % self._lines
        try:
            envelope = self._read(line)
            id = _lawful_id(envelope)
            head += b"" if id is None else b',"id":' + orjson.dumps(id)
            endpoint, asked = self._endpoint.asked(envelope, id, self._today)
            told = await endpoint.heavy(asked) if endpoint.is_heavy else endpoint.light(asked)
        except Exception as error:  # noqa: BLE001 - what fails one line must not break the stream
            return b'%b,"problem":%b}\n' % (head, _written(self._problem(error).body(self._request_id)))
        self._answered += 1
        return b'%b,"answer":%b}\n' % (head, told)

    def _read(self, line: bytes | None) -> Any:
        if line is None:
            longest = self._endpoint.kitchen.line_limits.longest_bytes
            raise Problem("line-too-long", f"At most {longest} bytes of a line are read here.")
        return read_json(line)

    def _problem(self, error: Exception) -> Problem:
        """Why a line has no answer."""
        if isinstance(error, Problem):
            return error
        if isinstance(error, Refusal):
            return declined(error)
        self._endpoint.kitchen.log.failed(request_id=self._request_id, error=error)
        return Problem("internal-error", "The fault was recorded; quote the instance when reporting it.")


def _lawful_id(envelope: Any) -> str | int | None:
    """The id of a line; None where it has none, or one that its model does not take."""
    id = envelope.get("id") if isinstance(envelope, dict) else None
    if type(id) is str and id.isascii() and id.isprintable() and 0 < len(id) <= LONGEST_PLAIN_ID:
        return id
    if type(id) is int and -BIGGEST_ID <= id <= BIGGEST_ID:
        return id
    try:
        return None if id is None else _LINE_ID.validate_python(id)
    except ValidationError:
        return None


def _checked(model: type[Line], envelope: Any) -> Line:
    try:
        return model.model_validate(envelope)
    except ValidationError as error:
        raise invalid_body(error, envelope, model) from None


def _written(answer: BaseModel) -> bytes:
    return answer.__pydantic_serializer__.to_json(answer)
