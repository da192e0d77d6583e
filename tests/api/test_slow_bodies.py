"""Bodies that come slowly, in pieces or without end, over a real socket."""

import json
from collections.abc import Iterator
from time import perf_counter, sleep

import pytest

from tests.api.conftest import RUB, Make
from tests.api.serving import Line, head, served

PATH = "/v1/toys/rub"
LIMIT_BYTES = 2048
DEADLINE_S = 0.5
BODY = json.dumps(RUB).encode()
CLOSE = "Connection: close"


@pytest.fixture(scope="module")
def address(make: Make) -> Iterator[tuple[str, int]]:
    """A server with little patience."""
    with served(make(body_limit_bytes=LIMIT_BYTES, body_deadline_s=DEADLINE_S)) as at:
        yield at


def chunk(block: bytes) -> bytes:
    """A block as chunked transfer coding writes it (RFC 9112, 7.1)."""
    return f"{len(block):x}\r\n".encode() + block + b"\r\n"


def test_a_body_in_pieces_is_one_body(address: tuple[str, int]):
    """Chunks make no difference."""
    with Line(address) as line:
        line.send(head(PATH, "Transfer-Encoding: chunked", CLOSE))
        for at in range(0, len(BODY), 7):
            line.send(chunk(BODY[at : at + 7]))
        line.send(chunk(b""))

        assert b"HTTP/1.1 200" in line.answer()


def test_a_body_declared_too_long_is_not_read(address: tuple[str, int]):
    """The answer comes before the body does, and the connection is closed."""
    with Line(address) as line:
        line.send(head(PATH, f"Content-Length: {100 * 1024**2}"))

        answer = line.answer()

    assert b"HTTP/1.1 413" in answer
    assert b"/problems/body-too-large" in answer
    assert b"connection: close" in answer


def test_an_endless_body_is_cut_off_at_the_limit(address: tuple[str, int]):
    """Without a declared length the bytes are counted."""
    with Line(address) as line:
        line.send(head(PATH, "Transfer-Encoding: chunked"))
        line.send(chunk(b" " * LIMIT_BYTES))
        line.send(chunk(b" "))

        assert b"HTTP/1.1 413" in line.answer()


@pytest.mark.parametrize("sent", [b"", BODY[:20]])
def test_a_body_that_stops_coming_is_not_waited_for(address: tuple[str, int], sent: bytes):
    """Half a body, or none, is a 408 after the deadline, and the connection is closed."""
    started = perf_counter()
    with Line(address) as line:
        line.send(head(PATH, f"Content-Length: {len(BODY)}") + sent)

        answer = line.answer()

    assert b"HTTP/1.1 408" in answer
    assert b"/problems/request-timeout" in answer
    assert DEADLINE_S <= perf_counter() - started < DEADLINE_S + 2


def test_a_dripping_body_is_not_waited_for(address: tuple[str, int]):
    """The deadline is for the whole body: a byte now and then does not move it."""
    started = perf_counter()
    with Line(address) as line:
        line.send(head(PATH, f"Content-Length: {len(BODY)}"))
        while perf_counter() - started < 2 * DEADLINE_S:
            line.send(BODY[:1])
            sleep(0.05)

        assert b"HTTP/1.1 408" in line.answer()


def test_a_caller_who_hangs_up_does_no_harm(address: tuple[str, int]):
    """The next caller is answered."""
    with Line(address) as line:
        line.send(head(PATH, f"Content-Length: {len(BODY)}") + BODY[:20])
    with Line(address) as line:
        line.send(head(PATH, f"Content-Length: {len(BODY)}", CLOSE) + BODY)

        assert b"HTTP/1.1 200" in line.answer()


@pytest.mark.parametrize(
    "sent",
    [
        head(PATH, "Content-Length: 2", "Transfer-Encoding: chunked") + b"{}",
        head(PATH, "Content-Length: 2", "Content-Length: 3") + b"{}",
        head(PATH, "Content-Length: +2") + b"{}",
        head(PATH, "X-A: 1\r\n folded"),
        b"FOO / HTTP/1.1\r\nHost: kitchen\r\n\r\n",
        b"GET /livez HTTP/1.1\nHost: kitchen\n\n",
    ],
)
def test_a_request_that_can_be_read_in_two_ways_is_not_read(address: tuple[str, int], sent: bytes):
    """Nothing is smuggled past a proxy (RFC 9112, 6.3): the parser refuses and closes."""
    with Line(address) as line:
        line.send(sent)

        assert b"HTTP/1.1 400" in line.answer()
