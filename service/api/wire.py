"""The two directions of one connection, with patience for each, and a way to hang up."""

import asyncio
from typing import Any

from starlette.requests import ClientDisconnect
from starlette.types import Message, Receive, Send

from service.api.problems import Problem
from service.api.reading import CLOSE
from service.api.shell import StreamGivenUp


class Wire:
    """The two directions of a connection, neither of which is waited for longer than the deadline."""

    def __init__(self, receive: Receive, send: Send, idle_s: float) -> None:
        self._receive = receive
        self._send = send
        self._idle_s = idle_s
        # ASGI has no way to hang up on a caller who takes nothing. Under uvicorn what hands out the request knows the
        # transport; elsewhere the stream just ends.
        self._transport: Any = getattr(getattr(receive, "__self__", None), "transport", None)

    async def read(self) -> Message:
        """The next part of the request."""
        try:
            async with asyncio.timeout(self._idle_s):
                message = await self._receive()
        except TimeoutError:
            raise _late(f"Nothing arrived for {self._idle_s:g} s.") from None
        if message["type"] == "http.disconnect":
            raise ClientDisconnect
        return message

    async def yield_turn(self) -> None:
        """Let others do what they have to do; among it, the caller may turn out to have hung up."""
        await asyncio.sleep(0)
        if self._transport is not None and self._transport.is_closing():
            await self._abort()
            raise ClientDisconnect

    async def send(self, block: bytes) -> None:
        """A block of the answer, with more to come."""
        await self.write({"type": "http.response.body", "body": block, "more_body": True})

    async def write(self, message: Message) -> None:
        """A part of the answer, once the caller took what was sent before."""
        try:
            async with asyncio.timeout(self._idle_s):
                await self._send(message)
        except TimeoutError:
            await self._abort()
            raise StreamGivenUp(_late(f"The caller took nothing for {self._idle_s:g} s.")) from None

    async def end_early(self, last: bytes) -> None:
        """Send the last words and close the connection without the end that a whole answer has."""
        await self.send(last)
        if self._transport is None:
            await self.write({"type": "http.response.body", "body": b"", "more_body": False})
            return
        self._transport.close()
        try:
            async with asyncio.timeout(self._idle_s):
                await self._closed()
        except TimeoutError:
            await self._abort()

    async def _abort(self) -> None:
        if self._transport is not None:
            self._transport.abort()
            await self._closed()

    async def _closed(self) -> None:
        """Wait until the server knows too: it would complain of an answer without an end."""
        while (await self._receive())["type"] != "http.disconnect":
            pass


def _late(detail: str) -> Problem:
    return Problem("request-timeout", detail, headers=CLOSE)
