"""The front door behind a real socket, in a thread of the test."""

import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager

import uvicorn

from service.app import Pellicle

WAIT_S = 10.0


@contextmanager
def served(app: Pellicle) -> Iterator[tuple[str, int]]:
    """The address of a server for this application."""
    config = uvicorn.Config(
        app, host="127.0.0.1", port=0, http="httptools", ws="none", log_config=None, access_log=False
    )
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    end_s = time.monotonic() + WAIT_S
    while not server.started and time.monotonic() < end_s:
        time.sleep(0.01)
    try:
        yield server.servers[0].sockets[0].getsockname()[:2]
    finally:
        server.should_exit = True
        thread.join(WAIT_S)


class Line:
    """A connection on which bytes are sent as they are."""

    def __init__(self, address: tuple[str, int]) -> None:
        self._socket = socket.create_connection(address, timeout=WAIT_S)

    def __enter__(self) -> "Line":
        return self

    def __exit__(self, *_: object) -> None:
        self._socket.close()

    def send(self, sent: bytes) -> None:
        """Send; the other side may have hung up already."""
        try:
            self._socket.sendall(sent)
        except OSError:
            return

    def takes(self, sent: bytes) -> bool:
        """Send, and say whether the other side was still there."""
        try:
            self._socket.sendall(sent)
        except OSError:
            return False
        return True

    def until(self, mark: bytes) -> bytes:
        """What comes back up to these bytes, or to the end."""
        got = bytearray()
        while mark not in got and (block := self._socket.recv(65536)):
            got += block
        return bytes(got)

    def blocks(self) -> Iterator[bytes]:
        """What comes back, bit by bit, until the other side closes the connection."""
        while block := self._socket.recv(65536):
            yield block

    def answer(self) -> bytes:
        """Everything that comes back until the other side closes the connection."""
        blocks = []
        try:
            while block := self._socket.recv(65536):
                blocks.append(block)
        except ConnectionResetError:
            pass
        return b"".join(blocks)


def head(path: str, *headers: str) -> bytes:
    """The head of a POST of JSON."""
    lines = (f"POST {path} HTTP/1.1", "Host: kitchen", "Content-Type: application/json", *headers)
    return "\r\n".join(lines).encode() + b"\r\n\r\n"
