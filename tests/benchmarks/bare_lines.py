"""The other side of a stream: the same stream code around a loop that only reads and writes the same lines."""

from collections.abc import AsyncGenerator
from itertools import count
from typing import Any

import orjson
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from service.api.line_cutting import LineCutter
from service.api.negotiation import LINES
from service.api.problems import Problem
from service.api.stream import StreamReply
from service.calculations.curing.dose import DoseRequest, dose
from service.rules.loader import load_book
from tests.benchmarks.lines_to_ask import some_lines

SAMPLE = 500
BOOK = load_book("benchmark")


def answers() -> list[Any]:
    """Answers to the first lines, as values that JSON can be written of."""
    asked = (DoseRequest.model_validate(line["request"]) for line in some_lines(SAMPLE))
    return [{"line": number, "answer": dose(one, BOOK).model_dump(mode="json")} for number, one in enumerate(asked)]


class ReadAndWrite:
    """Reads each line and writes an answer that was worked out beforehand."""

    def __init__(self, told: list[Any]) -> None:
        self._told = told
        self._cutter = LineCutter(65_536)
        self._numbers = count()

    async def take(self, block: bytes) -> AsyncGenerator[bytes, None]:
        """A line of the answer for each line."""
        for line in self._cutter.cut(block):
            orjson.loads(line or b"null")
            yield orjson.dumps(self._told[next(self._numbers) % SAMPLE]) + b"\n"

    async def finish(self) -> AsyncGenerator[bytes, None]:
        """The summary."""
        yield orjson.dumps({"summary": {"answered": next(self._numbers)}}) + b"\n"

    def give_up(self, problem: Problem) -> bytes:
        """Nothing."""
        return b""


TOLD = answers()


async def answer(request: Request) -> Response:
    """A stream."""
    return StreamReply(ReadAndWrite(TOLD), media_type=LINES, idle_s=10)


app = Starlette(routes=[Route("/v1/curing/dose/lines", answer, methods=["POST"])])
