"""Reading a request and writing its answer at the same time, in one task.

A response that is handed an iterator reads the request in one task and listens for the caller to hang up in another;
on servers of ASGI 2.3 the second takes the body away from the first. So here one task does both, in turns.
"""

from collections.abc import AsyncGenerator
from contextlib import aclosing
from time import perf_counter
from typing import Protocol

from starlette.responses import Response
from starlette.types import Receive, Scope, Send

from service.api.problems import Problem
from service.api.shell import StreamGivenUp
from service.api.wire import Wire

BLOCK_BYTES = 65_536
"""Answers are sent in blocks of at least this, unless there is nothing more to answer yet."""
TURN_S = 0.004
"""After so long everybody else has a turn, so that the service answers others during a stream."""


class Work(Protocol):
    """What a stream is for: blocks of the request in, pieces of the answer out."""

    def take(self, block: bytes) -> AsyncGenerator[bytes, None]:
        """The pieces that this block of the request leads to."""

    def finish(self) -> AsyncGenerator[bytes, None]:
        """The last pieces, after the last block."""

    def give_up(self, problem: Problem) -> bytes:
        """The last piece when the stream is broken off."""


class StreamReply(Response):
    """A 200 whose body is made while the request is read. Starts with the first block that arrives."""

    def __init__(self, work: Work, *, media_type: str, idle_s: float) -> None:
        self.status_code = 200
        self.background = None
        self.media_type = media_type
        self.init_headers()
        self._work = work
        self._idle_s = idle_s

    async def __call__(self, _: Scope, receive: Receive, send: Send) -> None:
        wire = Wire(receive, send, self._idle_s)
        message = await wire.read()
        await wire.write({"type": "http.response.start", "status": self.status_code, "headers": self.raw_headers})
        while True:
            await send_pieces(self._work.take(message.get("body", b"")), wire)
            if not message.get("more_body", False):
                break
            try:
                message = await wire.read()
            except Problem as late:
                await wire.end_early(self._work.give_up(late))
                raise StreamGivenUp(late) from None
        await send_pieces(self._work.finish(), wire)
        await wire.write({"type": "http.response.body", "body": b"", "more_body": False})


async def send_pieces(pieces: AsyncGenerator[bytes, None], wire: Wire) -> None:
    """Send what there is in blocks, and let others have their turn meanwhile."""
    gathered: list[bytes] = []
    size_bytes = 0
    turn_ends = perf_counter() + TURN_S
    async with aclosing(pieces):
        async for piece in pieces:
            if piece:
                gathered.append(piece)
            size_bytes += len(piece)
            if size_bytes >= BLOCK_BYTES:
                await wire.send(b"".join(gathered))
                gathered.clear()
                size_bytes = 0
            if perf_counter() > turn_ends:
                await wire.yield_turn()
                turn_ends = perf_counter() + TURN_S
    await wire.yield_turn()
    if gathered:
        await wire.send(b"".join(gathered))
