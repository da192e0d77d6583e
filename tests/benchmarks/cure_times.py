"""What a cure time costs, alone and by the thousand: ``python -m tests.benchmarks.cure_times``."""

import gc
import platform
import statistics
import time
from collections.abc import Callable, Iterator
from http.client import HTTPConnection
from random import Random
from typing import Any

import orjson

from service.api.json_text import read_json
from service.calculations.curing.cure_time import TIME
from service.calculations.curing.soak import SOAK
from service.calculations.declaration import AnyCalculation
from service.quantities.models import written
from service.rules.loader import load_book
from tests.benchmarks.page import write_down
from tests.benchmarks.servers import Server, free_port, serving

PATH = "/v1/curing/time/lines"
TRIES, ROWS, ROUNDS = 300, 5000, 3
BOOK = load_book("benchmark")
COLD = {"value": 3, "unit": "degC"}

Body = dict[str, Any]


def mm(value: float) -> Body:
    return {"value": value, "unit": "mm"}


def brick(random: Random) -> Body:
    """A block that no other row has, in a weighed brine."""
    edges = [random.uniform(40, 80), random.uniform(90, 140), random.uniform(200, 300)]
    meat_g = edges[0] * edges[1] * edges[2] * 1.06e-3
    shape = {"kind": "brick", **dict(zip(("thickness", "width", "length"), map(mm, edges), strict=True))}
    brine = {"kind": "brine", "amount": {"value": 0.7 * meat_g, "unit": "g"}, "salt_percent": 6, "temperature": COLD}
    return {"meat": {"value": meat_g, "unit": "g"}, "shape": shape, "stage": brine}


def slab(random: Random) -> Body:
    """A slab under a rub."""
    stage = {"kind": "dry", "salt_percent": 2.5, "temperature": COLD}
    return {
        "meat": {"value": 2, "unit": "kg"},
        "shape": {"kind": "slab", "thickness": mm(random.uniform(30, 60))},
        "stage": stage,
    }


def staged(random: Random) -> Body:
    """The block in three stages, pumped first."""
    tub = {"kind": "endless_brine", "salt_percent": 8, "temperature": COLD}
    body = brick(random)
    earlier = [{"stage": stage, "lasts": {"value": 2, "unit": "d"}} for stage in (tub, body["stage"])]
    rest = {"kind": "rest", "temperature": COLD}
    return {**body, "earlier": earlier, "stage": rest, "injection": {"pump_percent": 10, "salt_percent": 10}}


def soaked(random: Random) -> Body:
    """A slab in a water that is changed as often as may be."""
    return {
        "meat": {"value": 2, "unit": "kg"}, "shape": {"kind": "slab", "thickness": mm(random.uniform(40, 60))},
        "salt_percent": 3.5, "wanted_salt_percent": 3, "temperature": COLD, "water": {"value": 6, "unit": "l"},
        "change_every": {"value": 2, "unit": "h"},
    }  # fmt: skip


ASKED: dict[str, tuple[AnyCalculation, Callable[[Random], Body]]] = {
    "a block in a weighed brine, never the same": (TIME, brick), "a slab under a rub": (TIME, slab),
    "a pumped block in three stages": (TIME, staged), "a soak, water changed every 2 h": (SOAK, soaked),
}  # fmt: skip


def cost_ms(calculation: AnyCalculation, bodies: list[Body]) -> float:
    """CPU of one answer, from bytes to bytes: the median over requests that differ."""
    lines = [orjson.dumps(body) for body in bodies]
    costs_s = []
    for line in lines:
        begin = time.process_time()
        written(calculation.run(calculation.request.model_validate(read_json(line)), BOOK))
        costs_s.append(time.process_time() - begin)
    return 1000 * statistics.median(costs_s[10:])


def costs() -> Iterator[str]:
    """A row for each question."""
    for name, (calculation, make) in ASKED.items():
        random = Random(1)
        bodies = [make(random) for _ in range(TRIES)]
        full_ms, brief_ms = (
            cost_ms(calculation, [{**body, "detail": detail} for body in bodies]) for detail in ("full", "brief")
        )
        yield f"| {name} | {full_ms:.2f} | {brief_ms:.2f} |"


def rows_per_s(make: Callable[[Random], Body]) -> float:
    """Rows that a server answers in a second of its CPU: pieces that all differ, brief."""
    random = Random(2)
    lines = b"".join(orjson.dumps({"request": {**make(random), "detail": "brief"}}) + b"\n" for _ in range(ROWS))
    port = free_port()
    with serving(["-m", "service", "serve", "--port", str(port)], {}, port) as server:
        return statistics.median(ROWS / stream_s(server, lines) for _ in range(ROUNDS))


def stream_s(server: Server, lines: bytes) -> float:
    """Server CPU of one stream."""
    begin = server.cpu_s()
    caller = HTTPConnection("127.0.0.1", server.port, timeout=120)
    caller.request("POST", PATH, lines, {"Content-Type": "application/x-ndjson"})
    last = orjson.loads(caller.getresponse().read().splitlines()[-1])
    assert last["summary"]["answered"] == ROWS, last
    return server.cpu_s() - begin


def table() -> str:
    """What is written to the page."""
    head = "| asked | full, ms of CPU | brief, ms of CPU |\n|---|---|---|"
    blocks, slabs = rows_per_s(brick), rows_per_s(slab)
    stream = (
        f"Streams of {ROWS:,} rows, all different, brief: {blocks:,.0f} blocks and {slabs:,.0f} slabs per second of "
        "server CPU."
    )
    how = f"Python {platform.python_version()}, medians of {TRIES} requests; of {ROUNDS} streams."
    return "\n".join([head, *costs(), "", stream, how])


if __name__ == "__main__":
    gc.freeze()
    write_down("cure times", table())
