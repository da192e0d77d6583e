"""Servers under measurement: processes of their own, asked over one connection, their CPU read from /proc."""

import http.client
import os
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

CALLERS = 16
"""Connections that ask at once."""
TICKS_PER_S = os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True, slots=True)
class Server:
    """A running server."""

    pid: int
    port: int

    def cpu_s(self) -> float:
        """User and system time of the process so far."""
        fields = Path(f"/proc/{self.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / TICKS_PER_S

    def memory_mb(self, kind: str) -> float:
        """Memory of the process: VmRSS is now, VmHWM the most so far."""
        status = Path(f"/proc/{self.pid}/status").read_text()
        return float(status.partition(f"{kind}:")[2].split()[0]) / 1024

    def ask(self, path: str, body: bytes, *, times: int, callers: int = CALLERS) -> None:
        """The same request so many times over each of the callers' connections; every answer must be a 200."""
        connections = [http.client.HTTPConnection("127.0.0.1", self.port, timeout=10) for _ in range(callers)]
        for _ in range(times):
            for caller in connections:
                caller.request("POST", path, body, {"Content-Type": "application/json"})
            for caller in connections:
                answer = caller.getresponse()
                told = answer.read()
                assert answer.status == 200, told[:400]
        for caller in connections:
            caller.close()


def free_port() -> int:
    """A port that nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def serving(arguments: list[str], settings: dict[str, str], port: int) -> Iterator[Server]:
    """A Python server process, from its first answer until the block ends."""
    process = subprocess.Popen(
        [sys.executable, *arguments],
        env={**os.environ, **settings},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        _wait_for(port)
        yield Server(process.pid, port)
    finally:
        process.terminate()
        process.wait(timeout=20)


def _wait_for(port: int) -> None:
    deadline = time.monotonic() + 20
    while time.monotonic() < deadline:
        try:
            socket.create_connection(("127.0.0.1", port), timeout=1).close()
        except OSError:
            time.sleep(0.005)
        else:
            return
    raise TimeoutError(f"nothing listens on port {port}")
