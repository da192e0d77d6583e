"""The log: one line for each request and each fault, whatever is in it."""

import json
import logging
import os
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from typing import Any

import pytest
from starlette.testclient import TestClient

from service.api.shell import Shell
from service.observability.log import JsonLines, JsonLog, NoLog

Lines = Callable[[], list[dict[str, Any]]]


@pytest.fixture
def pipe() -> Iterator[tuple[JsonLog, Lines]]:
    """A log, and a way to read what it wrote."""
    reading, writing = os.pipe()

    def lines() -> list[dict[str, Any]]:
        return [json.loads(line) for line in os.read(reading, 1_000_000).splitlines()]

    yield JsonLog(writing), lines
    os.close(reading)
    os.close(writing)


async def kitchen(scope: Any, receive: Any, send: Any) -> None:
    """An application that answers, and breaks on one path."""
    if scope["path"] == "/broken":
        raise ZeroDivisionError("first line\nsecond line")
    await send({"type": "http.response.start", "status": 200, "headers": []})
    await send({"type": "http.response.body", "body": b"salt"})


def test_a_request_is_one_line(pipe: tuple[JsonLog, Lines]):
    """What was asked, what was answered, and how long it took; the time in UTC."""
    log, lines = pipe
    TestClient(Shell(kitchen, log)).get("/brine?note=x", headers={"x-request-id": "order-1"})

    (line,) = lines()

    assert datetime.fromisoformat(line.pop("time")).utcoffset() == timedelta(0)
    assert line.pop("duration_ms") > 0
    assert line == {
        "event": "request", "request_id": "order-1", "method": "GET", "path": "/brine", "status": 200, "bytes": 4,
    }  # fmt: skip


def test_a_fault_is_one_line_more(pipe: tuple[JsonLog, Lines]):
    """The traceback is in the log, under the name that the caller was given."""
    log, lines = pipe
    answer = TestClient(Shell(kitchen, log)).get("/broken")

    fault, request = lines()

    assert "second line" in fault["traceback"]
    assert fault["request_id"] == request["request_id"] == answer.headers["x-request-id"]
    assert request["status"] == answer.status_code == 500


@pytest.mark.parametrize("path", ["/a%0d%0aINFO%20forged", "/a%1b[31m", '/a","status":200,"b":"', "/" + "a" * 5000])
def test_a_path_cannot_forge_a_line(pipe: tuple[JsonLog, Lines], path: str):
    """One request is one line, short enough for one write to stay whole (POSIX PIPE_BUF is at least 512 bytes)."""
    log, lines = pipe
    TestClient(Shell(kitchen, log)).get(path)

    (line,) = lines()

    assert line["status"] == 200
    assert len(json.dumps(line)) < 512


def test_what_libraries_log_is_in_the_same_form(pipe: tuple[JsonLog, Lines]):
    """A record with an error is one line too."""
    log, lines = pipe
    logger = logging.getLogger("oven")
    logger.handlers = [JsonLines(log)]
    logger.propagate = False
    logger.warning("Door %s", "open\nwide", exc_info=ValueError("two\nlines"))

    (line,) = lines()

    assert (line["event"], line["level"], line["logger"]) == ("log", "WARNING", "oven")
    assert line["message"] == "Door open\nwide"
    assert "two\nlines" in line["traceback"]


def test_without_a_log_only_faults_are_told(capsys: pytest.CaptureFixture[str]):
    """Requests leave no trace, faults do."""
    client = TestClient(Shell(kitchen, NoLog()))
    client.get("/brine")
    client.get("/broken")

    told = capsys.readouterr().err

    assert "ZeroDivisionError" in told
    assert "brine" not in told
