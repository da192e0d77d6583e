"""One line of JSON for each request, and for each fault; nothing in a line can start another."""

import logging
import os
import sys
import traceback
from datetime import UTC, datetime
from typing import Any

import orjson

LONGEST_PATH = 256
STDERR = 2


class JsonLog:
    """Writes to a file descriptor, each line in one write, so that lines of several processes do not mix."""

    def __init__(self, descriptor: int = STDERR) -> None:
        self._descriptor = descriptor

    def answered(
        self, *, request_id: str, method: str, path: str, status: int, sent_bytes: int, duration_ms: float
    ) -> None:
        self.write(
            event="request", request_id=request_id, method=method, path=path[:LONGEST_PATH], status=status,
            bytes=sent_bytes, duration_ms=round(duration_ms, 3),
        )  # fmt: skip

    def failed(self, *, request_id: str, error: Exception) -> None:
        told = "".join(traceback.format_exception(error))
        self.write(event="fault", request_id=request_id, error=type(error).__name__, traceback=told)

    def write(self, **fields: Any) -> None:
        """One line."""
        line = orjson.dumps({"time": datetime.now(UTC), **fields}, option=orjson.OPT_APPEND_NEWLINE | orjson.OPT_UTC_Z)
        os.write(self._descriptor, line)


class NoLog:
    """Records faults only, as text for a person."""

    def answered(self, **_: Any) -> None:
        """Nothing: the proxy in front keeps a log."""

    def failed(self, *, request_id: str, error: Exception) -> None:
        sys.stderr.write(f"request {request_id}\n")
        traceback.print_exception(error)


class JsonLines(logging.Handler):
    """What libraries log, as lines of the same log."""

    def __init__(self, log: JsonLog) -> None:
        super().__init__()
        self._log = log

    def emit(self, record: logging.LogRecord) -> None:
        told = "".join(traceback.format_exception(record.exc_info[1])) if record.exc_info else None
        self._log.write(
            event="log", level=record.levelname, logger=record.name, message=record.getMessage(), traceback=told
        )


def open_log(form: str) -> JsonLog | NoLog:
    """The log in this form (json or off). As json it also takes in what libraries log."""
    if form == "off":
        return NoLog()
    log = JsonLog()
    logging.basicConfig(handlers=[JsonLines(log)], level=logging.WARNING, force=True)
    return log
