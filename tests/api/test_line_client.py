"""The client of the documentation when a stream broke: what it tells, and that it stops sending."""

from collections.abc import Iterator
from http.client import HTTPConnection
from threading import Event
from typing import Any

import pytest

from tests.api.conftest import RUB, Make
from tests.api.line_client import BrokenStream, ask_lines
from tests.api.serving import served

OWN = "/v1/toys/rub/lines"
IDLE_S = 0.4
Address = tuple[str, int]


@pytest.fixture(scope="module")
def hasty(make: Make) -> Iterator[Address]:
    """A server with little patience for streams."""
    with served(make(lines_idle_s=IDLE_S)) as at:
        yield at


def paused(until: Event, woken: Event) -> Iterator[dict[str, Any]]:
    """A line, a pause that lasts until somebody ends it, and another line."""
    yield {"request": RUB}
    until.wait(10)
    yield {"request": RUB}
    woken.set()


def test_a_stream_that_was_given_up_carries_its_problem(hasty: Address):
    """The problem of the last line, and nothing of the answers before it."""
    with pytest.raises(BrokenStream) as broken:
        list(ask_lines(*hasty, OWN, paused(Event(), Event())))

    assert broken.value.args[0]["status"] == 408
    assert len(str(broken.value)) < 1000


def test_a_stream_that_was_refused_carries_its_problem(hasty: Address):
    """What is answered in place of lines is told whole."""
    with pytest.raises(BrokenStream) as broken:
        list(ask_lines(*hasty, "/v1/toys/rib/lines", [{"request": RUB}]))

    assert broken.value.args[0]["status"] == 404


def test_nothing_is_sent_after_a_stream_broke(hasty: Address, monkeypatch: pytest.MonkeyPatch):
    """The sender that wakes up too late opens no connection of its own."""
    opened: list[HTTPConnection] = []
    connect = HTTPConnection.connect

    def counted(caller: HTTPConnection) -> None:
        opened.append(caller)
        connect(caller)

    monkeypatch.setattr(HTTPConnection, "connect", counted)
    until, late = Event(), Event()

    with pytest.raises(BrokenStream):
        list(ask_lines(*hasty, OWN, paused(until, late)))
    until.set()
    late.wait(0.5)

    assert len(opened) == 1
