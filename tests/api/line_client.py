"""The client that docs/bulk.md shows, line for line."""

import http.client
import json
import threading
from collections.abc import Iterable, Iterator
from contextlib import closing, suppress
from typing import Any


class BrokenStream(Exception):
    """Not every line was answered."""


def ask_lines(host: str, port: int, path: str, lines: Iterable[Any]) -> Iterator[Any]:
    """The answer to each line, in order, while the lines are still being sent."""
    with closing(http.client.HTTPConnection(host, port, timeout=30)) as caller:
        caller.putrequest("POST", path)
        caller.putheader("Content-Type", "application/x-ndjson")
        caller.putheader("Transfer-Encoding", "chunked")
        caller.endheaders()
        caller.auto_open = 0  # what is sent after the end must not open another connection

        def send() -> None:
            with suppress(OSError, http.client.HTTPException):  # whoever reads finds out
                for line in lines:
                    sent = json.dumps(line).encode() + b"\n"
                    caller.send(b"%x\r\n%b\r\n" % (len(sent), sent))
                caller.send(b"0\r\n\r\n")

        threading.Thread(target=send, daemon=True).start()
        told: Any = {}
        with suppress(OSError, ValueError, http.client.HTTPException), caller.getresponse() as response:
            for raw in response:
                told = json.loads(raw)
                if "line" in told:
                    yield told
        if "summary" not in told:
            raise BrokenStream("no summary came" if "line" in told else told.get("problem", told))
