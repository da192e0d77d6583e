"""Server CPU per dose request against a bare route, and start-up: ``python -m tests.benchmarks.dose_requests``."""

import json
import platform
import statistics
import time
from contextlib import ExitStack

from tests.benchmarks.bare_route import BODY
from tests.benchmarks.page import write_down
from tests.benchmarks.servers import CALLERS, Server, free_port, serving

PATH = "/v1/curing/dose"
STARTS, ROUNDS, REQUESTS = 9, 15, 60
"""Rounds of each side, and requests of a round over each connection."""
SIDES = {
    "bare Starlette route, no validation": None,
    "Pellicle, logging off": {"PELLICLE_LOG": "off"},
    "Pellicle, request id and log line": {"PELLICLE_LOG": "json"},
}


def started(stack: ExitStack, settings: dict[str, str] | None) -> Server:
    """One side, ready to answer."""
    port = free_port()
    if settings is None:
        bare = ["-m", "uvicorn", "tests.benchmarks.bare_route:app", "--port", str(port), "--no-access-log"]
        return stack.enter_context(serving([*bare, "--loop", "uvloop", "--http", "httptools"], {}, port))
    return stack.enter_context(serving(["-m", "service", "serve", "--port", str(port)], settings, port))


def cpu_per_request_us(server: Server) -> float:
    """Server CPU of one round, per request."""
    before = server.cpu_s()
    server.ask(PATH, json.dumps(BODY).encode(), times=REQUESTS)
    return (server.cpu_s() - before) / (REQUESTS * CALLERS) * 1e6


def measured() -> dict[str, list[float]]:
    """Every side in turn, round by round, so that a drift of the machine meets all of them."""
    with ExitStack() as stack:
        servers = {name: started(stack, settings) for name, settings in SIDES.items()}
        for server in servers.values():
            server.ask(PATH, json.dumps(BODY).encode(), times=20)
        rounds = [one_round(servers, first=number) for number in range(ROUNDS)]
    return {name: [each[name] for each in rounds] for name in SIDES}


def one_round(servers: dict[str, Server], *, first: int) -> dict[str, float]:
    """Each side once; who is first changes from round to round."""
    names = list(servers)
    turn = first % len(names)
    return {name: cpu_per_request_us(servers[name]) for name in names[turn:] + names[:turn]}


def start_up_s(settings: dict[str, str] | None) -> float:
    """From the command to the first answered dose, bytecode compiled."""
    begin = time.monotonic()
    with ExitStack() as stack:
        started(stack, settings).ask(PATH, json.dumps(BODY).encode(), times=1, callers=1)
        return time.monotonic() - begin


def starts_s() -> dict[str, float]:
    """Both sides, in turn: the median of each."""
    rounds = [{name: start_up_s(SIDES[name]) for name in list(SIDES)[:2]} for _ in range(STARTS)]
    return {name: statistics.median(each[name] for each in rounds) for name in rounds[0]}


def table(costs_us: dict[str, list[float]], starts: dict[str, float]) -> str:
    """What is written to the page."""
    bare_us = next(iter(costs_us.values()))
    head = "| side | server CPU per request, us (median) | requests per second, of the bare route's |\n|---|---|---|"
    rows = [
        f"| {name} | {statistics.median(each_us):.0f} | {statistics.median(ratios(bare_us, each_us)):.2f} |"
        for name, each_us in costs_us.items()
    ]
    start = "Start to first answered dose: " + ", ".join(f"{name} {start_s:.2f} s" for name, start_s in starts.items())
    rounds = f"{ROUNDS} rounds of {REQUESTS * CALLERS} requests a side, over {CALLERS} connections"
    how = f"Python {platform.python_version()}, {rounds}."
    return "\n".join([head, *rows, "", f"{start} (medians of {STARTS}).", how])


def ratios(bare_us: list[float], each_us: list[float]) -> list[float]:
    """Round by round, so that a slow moment of the machine weighs on both."""
    return [bare / each for bare, each in zip(bare_us, each_us, strict=True)]


if __name__ == "__main__":
    write_down("dose requests", table(measured(), starts_s()))
