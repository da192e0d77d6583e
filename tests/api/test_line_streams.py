"""Streams of lines over a real socket: long ones, torn ones, slow ones, and who else is answered meanwhile."""

import json
import os
import select
import signal
import socket
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from http.client import HTTPConnection
from itertools import count, islice
from pathlib import Path
from time import monotonic, perf_counter, sleep
from typing import Any

import pytest

from tests.api.conftest import RUB, Make
from tests.api.line_client import BrokenStream, ask_lines
from tests.api.serving import Line, served

OWN = "/v1/toys/rub/lines"
IDLE_S = 0.6
PAGE_KB = os.sysconf("SC_PAGE_SIZE") // 1024
Address = tuple[str, int]


@pytest.fixture(scope="module")
def address(make: Make) -> Iterator[Address]:
    """A server with its own patience."""
    with served(make()) as at:
        yield at


@pytest.fixture(scope="module")
def hasty(make: Make) -> Iterator[Address]:
    """A server with little patience for streams."""
    with served(make(lines_idle_s=IDLE_S)) as at:
        yield at


def rubs() -> Iterator[dict[str, Any]]:
    """Requests without end."""
    return ({"id": number, "request": RUB} for number in count())


def head(*headers: str, path: str = OWN) -> bytes:
    """The head of a stream whose length is not known."""
    lines = (f"POST {path} HTTP/1.1", "Host: kitchen", "Content-Type: application/x-ndjson", *headers)
    return "\r\n".join((*lines, "Transfer-Encoding: chunked")).encode() + b"\r\n\r\n"


def chunk(block: bytes) -> bytes:
    """A block as chunked transfer coding writes it (RFC 9112, 7.1)."""
    return f"{len(block):x}\r\n".encode() + block + b"\r\n"


def one_line(request: dict[str, Any] = RUB, **members: Any) -> bytes:
    """A line with its end."""
    return json.dumps({**members, "request": request}, ensure_ascii=False).encode() + b"\n"


def memory_kb() -> int:
    """Memory of this process, server and caller alike."""
    return int(Path("/proc/self/statm").read_text().split()[1]) * PAGE_KB


@contextmanager
def relayed(address: Address, *, answer_bytes: int) -> Iterator[Address]:
    """A way to the server that is cut after so many bytes of the answer."""
    with socket.create_server(("127.0.0.1", 0)) as door:
        threading.Thread(target=relay_one, args=(door, address, answer_bytes), daemon=True).start()
        yield door.getsockname()[:2]


def relay_one(door: socket.socket, address: Address, answer_bytes: int) -> None:
    """Carry bytes both ways, then hang up on both sides."""
    near, far = door.accept()[0], socket.create_connection(address)
    with near, far:
        while answer_bytes > 0:
            for ready in select.select([near, far], [], [], 5)[0]:
                block = ready.recv(4096)
                (far if ready is near else near).sendall(block)
                answer_bytes -= len(block) if ready is far else 0


def test_a_whole_stream_is_told_from_a_broken_one(address: Address):
    """The client that the documentation shows gets every answer of a whole stream, in order."""
    answers = list(ask_lines(*address, OWN, islice(rubs(), 2000)))

    assert [one["id"] for one in answers] == list(range(2000))
    assert [one["line"] for one in answers] == list(range(1, 2001))


@pytest.mark.parametrize("answer_bytes", [100, 30_000, 200_000])
def test_a_cut_connection_is_a_broken_stream(address: Address, answer_bytes: int):
    """The same client finds out, wherever the cut is, and what it got before is right."""
    got: list[int] = []
    with relayed(address, answer_bytes=answer_bytes) as way:
        answers = ask_lines(*way, OWN, islice(rubs(), 3000))

        with pytest.raises(BrokenStream) as broken:
            got.extend(answer["id"] for answer in answers)

    assert len(str(broken.value)) < 100
    assert got == list(range(len(got)))
    assert len(got) < 3000


@pytest.mark.slow
def test_a_killed_server_is_a_broken_stream(tmp_path: Path):
    """A server that dies in the middle leaves a stream without a summary."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    settings = {**os.environ, "XDG_DATA_HOME": str(tmp_path), "PELLICLE_LOG": "off"}
    with subprocess.Popen([sys.executable, "-m", "service", "serve", "--port", str(port)], env=settings) as server:
        wait_for(port)
        answers = ask_lines("127.0.0.1", port, "/v1/curing/dose/lines", rubs())
        next(answers)

        server.send_signal(signal.SIGKILL)

        with pytest.raises(BrokenStream):
            list(answers)


def wait_for(port: int) -> None:
    """Until somebody listens."""
    end_s = monotonic() + 20
    while monotonic() < end_s:
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)) == 0:
                return
        sleep(0.05)


def test_answers_come_while_lines_are_sent(address: Address):
    """Each line is answered before the next is sent."""
    with Line(address) as line:
        line.send(head())
        for number in range(1, 4):
            line.send(chunk(one_line(id=number)))

            mark = b'"id":%d,' % number
            assert mark in line.until(mark)


@pytest.mark.parametrize("block_bytes", [1, 3, 50])
def test_torn_characters_are_mended(address: Address, block_bytes: int):
    """A line that arrives in pieces, torn inside a character too, is answered as if it came whole."""
    body = one_line({**RUB, "name": "S\u00fclze \u20ac"}, id="\u00e9") * 3
    with Line(address) as line:
        line.send(head("Connection: close"))
        for at in range(0, len(body), block_bytes):
            line.send(chunk(body[at : at + block_bytes]))
        line.send(chunk(b""))

        answer = line.answer().decode()

    assert answer.count("S\u00fclze \u20ac") == answer.count('"id":"\u00e9"') == 3
    assert '"answered":3' in answer


def test_a_connection_outlives_a_whole_stream(address: Address):
    """Streams and single requests follow each other on one connection."""
    with closing(HTTPConnection(*address, timeout=10)) as caller:
        for _ in range(3):
            caller.request("POST", OWN, one_line(), {"Content-Type": "application/x-ndjson"})
            assert b'"summary"' in caller.getresponse().read()
            first = caller.sock
            caller.request("GET", "/livez")
            assert caller.getresponse().read() == b'{"status":"alive"}'

            assert caller.sock is first is not None


def test_a_curl_that_waits_for_leave_to_send_gets_it(address: Address):
    """Expect: 100-continue is answered before the stream begins (RFC 9110, 10.1.1)."""
    with Line(address) as line:
        line.send(head("Expect: 100-continue", "Connection: close"))
        assert line.until(b"\r\n\r\n").startswith(b"HTTP/1.1 100")

        line.send(chunk(one_line()) + chunk(b""))

        assert b'"summary"' in line.answer()


def test_memory_stays_flat(address: Address):
    """50,000 lines, tens of megabytes both ways, take no more memory than some blocks of them."""
    body = chunk(one_line({**RUB, "pieces": [{"value": 1, "unit": "kg"}] * 5}) * 100) * 500
    answers = 50_000 * 3  # each, like the summary, has an engine inside
    sizes_kb, ends = [], 0
    with Line(address) as line:
        line.send(head("Connection: close"))
        sender = threading.Thread(target=line.send, args=(body,))
        sender.start()
        for told in line.blocks():
            ends += told.count(b"}")
            sizes_kb.append(memory_kb())
            if ends == answers:
                line.send(chunk(b""))
        sender.join()

    assert ends == answers + 3
    assert max(sizes_kb) - sizes_kb[len(sizes_kb) // 10] < 12_000


def test_others_are_answered_during_a_stream(address: Address):
    """A probe on another connection is answered while a stream is open and half answered."""
    with Line(address) as line, closing(HTTPConnection(*address, timeout=10)) as caller:
        line.send(head() + chunk(one_line(id="half")))
        line.until(b'"id":"half"')

        caller.request("GET", "/livez")

        assert caller.getresponse().status == 200


def test_a_caller_who_stops_sending_is_told_and_cut_off(hasty: Address, capfd: pytest.CaptureFixture[str]):
    """What was sent is answered, then a problem says why there is no summary; nothing is logged as a fault."""
    started = perf_counter()
    with Line(hasty) as line:
        line.send(head() + chunk(one_line(id="half") + b'{"request": '))

        answer = line.answer()

    assert IDLE_S <= perf_counter() - started < IDLE_S + 3
    assert b'"id":"half"' in answer
    assert b'{"problem":{"type":"/problems/request-timeout"' in answer
    assert b"summary" not in answer
    assert not answer.endswith(b"0\r\n\r\n")
    assert capfd.readouterr().err == ""


def test_a_caller_who_sends_nothing_gets_an_ordinary_problem(hasty: Address):
    """Before the stream began there is still a status to say it with."""
    with Line(hasty) as line:
        line.send(head())

        answer = line.answer()

    assert answer.startswith(b"HTTP/1.1 408")
    assert b"connection: close" in answer
    assert b"/problems/request-timeout" in answer


def test_a_dripping_stream_is_not_cut_off(hasty: Address):
    """There is no limit to the whole, only to silence."""
    with Line(hasty) as line:
        line.send(head("Connection: close"))
        for _ in range(5):
            line.send(chunk(b" "))
            sleep(IDLE_S / 2)
        line.send(chunk(b"\n") + chunk(b""))

        assert b'"summary"' in line.answer()


def test_a_caller_who_does_not_read_is_cut_off(hasty: Address, capfd: pytest.CaptureFixture[str]):
    """Who takes no answers finds the connection closed, others are answered, and nothing is logged as a fault."""
    block = chunk(one_line({**RUB, "pieces": [{"value": 1, "unit": "kg"}] * 50}) * 20)
    started = perf_counter()
    with Line(hasty) as line:
        line.send(head())
        while line.takes(block):
            pass

    assert perf_counter() - started < 8
    with closing(HTTPConnection(*hasty, timeout=10)) as caller:
        caller.request("GET", "/livez")
        assert caller.getresponse().read() == b'{"status":"alive"}'
    assert capfd.readouterr().err == ""


def test_a_caller_who_hangs_up_ends_the_work(make: Make, capfd: pytest.CaptureFixture[str]):
    """The lines that had arrived are not worked on any more; the log says that nobody was there to be answered."""
    with served(make(log="json")) as address:
        with Line(address) as line:
            line.send(head(path="/v1/toys/light/lines") + chunk(one_line({"seconds": 0.01}) * 400))
            line.until(b"HTTP/1.1 200")
        started = perf_counter()

    told = json.loads(capfd.readouterr().err)
    assert perf_counter() - started < 2
    assert (told["status"], told["path"]) == (499, "/v1/toys/light/lines")
