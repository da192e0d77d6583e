"""A long block of answers leaves others their turn, by a clock that the test moves."""

import asyncio
from collections.abc import AsyncGenerator
from itertools import count

import pytest
from starlette.types import Message

from service.api import stream
from service.api.wire import Wire


def test_others_have_their_turn_within_a_block(monkeypatch: pytest.MonkeyPatch):
    """By a clock that a line takes a millisecond of, others run every few lines, not once a block."""
    clock_s = count(step=0.001)
    monkeypatch.setattr(stream, "perf_counter", lambda: next(clock_s))
    turns = [0]

    async def pieces() -> AsyncGenerator[bytes, None]:
        for _ in range(400):
            yield b"x"

    async def others() -> None:
        while True:
            turns[0] += 1
            await asyncio.sleep(0)

    async def both() -> None:
        prober = asyncio.create_task(others())
        await stream.send_pieces(pieces(), Wire(_nothing, _taken, 10))
        prober.cancel()

    asyncio.run(both())

    assert 400 / 8 < turns[0] < 400


async def _nothing() -> Message:
    raise AssertionError("nothing is read here")


async def _taken(message: Message) -> None:
    """A caller who takes everything."""
