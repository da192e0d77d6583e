"""A long stream of dose lines against reading and writing alone: ``python -m tests.benchmarks.dose_lines [ROWS]``."""

import json
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable
from contextlib import ExitStack
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

import orjson

from service.api.json_text import read_json
from service.calculations.curing.dose import DoseRequest, dose
from service.quantities.models import written as answer_bytes
from tests.benchmarks.bare_lines import BOOK, SAMPLE, TOLD
from tests.benchmarks.lines_to_ask import some_lines
from tests.benchmarks.page import write_down
from tests.benchmarks.servers import Server, free_port, serving

PATH = "/v1/curing/dose/lines"
ROWS = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
ROUNDS, REPEATS, PAUSE_S = 3, 9, 0.005
BARE = [
    "-m",
    "uvicorn",
    "tests.benchmarks.bare_lines:app",
    "--no-access-log",
    "--loop",
    "uvloop",
    "--http",
    "httptools",
]
SIDES = {"the same stream, reading and writing only": BARE, "Pellicle": ["-m", "service", "serve"]}


@dataclass(frozen=True, slots=True)
class Run:
    """One stream, and what it was like for everybody else."""

    wall_s: float
    cpu_s: float
    waits_s: list[float]
    grown_mb: float


def streamed(server: Server, lines: Path, rows: int) -> Run:
    """Send a file of lines with curl, ask for a sign of life on another connection meanwhile."""
    url = f"http://127.0.0.1:{server.port}{PATH}"
    ask = f"curl -sN -H 'Content-Type: application/x-ndjson' --data-binary @{lines} {url} | tail -n 1"
    idle_mb, cpu_s, begin = server.memory_mb("VmRSS"), server.cpu_s(), time.monotonic()
    with subprocess.Popen(["sh", "-c", ask], stdout=subprocess.PIPE) as curl:
        waits_s = list(waits(server, curl))
        assert curl.stdout is not None
        last = json.loads(curl.stdout.read())
    assert last["summary"]["answered"] == rows, last
    grown_mb = server.memory_mb("VmHWM") - idle_mb
    return Run(time.monotonic() - begin, server.cpu_s() - cpu_s, waits_s, grown_mb)


def waits(server: Server, stream: "subprocess.Popen[bytes]") -> Iterable[float]:
    """How long each sign of life was waited for, while the stream lasts."""
    caller = HTTPConnection("127.0.0.1", server.port, timeout=10)
    while stream.poll() is None:
        begin = time.perf_counter()
        caller.request("GET", "/livez")
        caller.getresponse().read()
        yield time.perf_counter() - begin
        time.sleep(PAUSE_S)
    caller.close()


def measured() -> dict[str, list[Run]]:
    """Both sides in turn, round by round."""
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        few, many = written(folder / "few", 200), written(folder / "many", ROWS)
        servers = {name: started(stack, command) for name, command in SIDES.items()}
        for server in servers.values():
            streamed(server, few, 200)
        rounds = [{name: streamed(server, many, ROWS) for name, server in servers.items()} for _ in range(ROUNDS)]
    return {name: [each[name] for each in rounds] for name in SIDES}


def written(place: Path, rows: int) -> Path:
    """A file of lines."""
    with place.open("wb") as file:
        file.writelines(orjson.dumps(line) + b"\n" for line in some_lines(rows))
    return place


def started(stack: ExitStack, command: list[str]) -> Server:
    """One side, ready to answer."""
    port = free_port()
    return stack.enter_context(serving([*command, "--port", str(port)], {}, port))


def per_row_us(work: Callable[[Any], Any], values: list[Any]) -> float:
    """CPU of this step for one row: the median of some tries, like that of the streams."""
    tries = []
    for _ in range(REPEATS):
        begin = time.process_time()
        for value in values:
            work(value)
        tries.append((time.process_time() - begin) / len(values) * 1e6)
    return statistics.median(tries)


def steps_us() -> dict[str, float]:
    """What each step costs on its own, in this process, on the first rows."""
    lines = [orjson.dumps(line) for line in some_lines(SAMPLE)]
    bodies = [orjson.loads(line)["request"] for line in lines]
    asked = [DoseRequest.model_validate(body) for body in bodies]
    answers = [dose(one, BOOK) for one in asked]
    return {
        "reading and writing alone": per_row_us(orjson.loads, lines) + per_row_us(orjson.dumps, TOLD),
        "read strictly": per_row_us(read_json, lines),
        "validate": per_row_us(DoseRequest.__pydantic_validator__.validate_python, bodies),
        "compute": per_row_us(lambda one: dose(one, BOOK), asked),
        "write": per_row_us(answer_bytes, answers),
    }


def table(runs: dict[str, list[Run]], steps: dict[str, float]) -> str:
    """What is written to the page."""
    alone_us = steps.pop("reading and writing alone")
    rows = [
        ("a loop around orjson, no server", alone_us, None),
        *((name, cpu_us(each), each) for name, each in runs.items()),
    ]
    lines = [f"| {name} | {1e6 / us:,.0f} | {alone_us / us:.2f} | {others(each)} |" for name, us, each in rows]
    head = (
        "| side | rows per second of server CPU | of orjson's | rows per second by the clock | memory above idle, MB "
        "| `/livez` meanwhile, ms: median, worst |\n|---|---|---|---|---|---|"
    )
    rest_us = cpu_us(runs["Pellicle"]) - sum(steps.values())
    split = ", ".join(f"{name} {us:.0f}" for name, us in {**steps, "all the rest": rest_us}.items())
    how = (
        f"Python {platform.python_version()}, {ROUNDS} streams of {ROWS:,} rows a side, medians, sent and read by curl."
    )
    return "\n".join([head, *lines, "", f"A row, in us of CPU: {split}.", how])


def cpu_us(runs: list[Run]) -> float:
    """Server CPU for a row."""
    return statistics.median(run.cpu_s for run in runs) / ROWS * 1e6


def others(runs: list[Run] | None) -> str:
    """Clock, memory and waits."""
    if runs is None:
        return "- | - | -"
    clock = ROWS / statistics.median(run.wall_s for run in runs)
    waits_ms = [wait_s * 1000 for run in runs for wait_s in run.waits_s]
    memory = max(run.grown_mb for run in runs)
    return f"{clock:,.0f} | {memory:.0f} | {statistics.median(waits_ms):.0f}, {max(waits_ms):.0f}"


if __name__ == "__main__":
    write_down("dose lines", table(measured(), steps_us()))
