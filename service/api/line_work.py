"""One stream of lines: each is read, answered and counted on its own, and nothing is kept but the line under way."""

from collections.abc import AsyncGenerator
from datetime import date
from typing import Any, Protocol

import orjson

from service.api.calculations import CalculationEndpoint, Kitchen
from service.api.json_text import read_json
from service.api.line_cutting import BLANKS, LineCutter
from service.api.line_ids import lawful_id
from service.api.line_models import LineCount, SummaryLine
from service.api.problems import Problem, declined
from service.calculations.refusals import Refusal
from service.quantities.models import Request, written


class Desks(Protocol):
    """Who can be asked on a line."""

    kitchen: Kitchen

    def asked(self, envelope: Any, id: str | int | None, today: date) -> tuple[CalculationEndpoint, Request]:
        """The calculation that a line asks for, and its checked request."""


class LineWork:
    """One stream of lines: what is asked on each, and what became of them so far. All of it is about one day."""

    def __init__(self, desks: Desks, request_id: str) -> None:
        self._desks = desks
        self._request_id = request_id
        self._cutter = LineCutter(desks.kitchen.line_limits.longest_bytes)
        self._today = desks.kitchen.today()
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
            declined=self._lines - self._blank - self._answered, engine=self._desks.kitchen.book.engine,
        )  # fmt: skip
        yield written(SummaryLine.of(summary=count)) + b"\n"

    def give_up(self, problem: Problem) -> bytes:
        """The last line of a stream that is broken off."""
        return b'{"problem":%b}\n' % written(problem.body(self._request_id))

    async def _answer(self, line: bytes | None) -> bytes:
        """The line that answers a line; nothing for a blank one."""
        self._lines += 1
        if line is not None and not line.strip(BLANKS):
            self._blank += 1
            return b""
        head = b'{"line":%d' % self._lines
        try:
            envelope = self._read(line)
            id = lawful_id(envelope)
            head += b"" if id is None else b',"id":' + orjson.dumps(id)
            endpoint, asked = self._desks.asked(envelope, id, self._today)
            told = await endpoint.heavy(asked) if endpoint.is_heavy else endpoint.light(asked)
        except Exception as error:  # noqa: BLE001 - what fails one line must not break the stream
            return b'%b,"problem":%b}\n' % (head, written(self._problem(error).body(self._request_id)))
        self._answered += 1
        return b'%b,"answer":%b}\n' % (head, told)

    def _read(self, line: bytes | None) -> Any:
        if line is None:
            longest = self._desks.kitchen.line_limits.longest_bytes
            raise Problem("line-too-long", f"At most {longest} bytes of a line are read here.")
        return read_json(line)

    def _problem(self, error: Exception) -> Problem:
        """Why a line has no answer."""
        if isinstance(error, Problem):
            return error
        if isinstance(error, Refusal):
            return declined(error)
        self._desks.kitchen.log.failed(request_id=self._request_id, error=error)
        return Problem("internal-error", "The fault was recorded; quote the instance when reporting it.")
