"""What each part of a dose costs beside the same JSON read and written: ``python -m tests.benchmarks.dose_parts``."""

import gc
import json
import platform
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import orjson

from service.api.json_text import read_json
from service.calculations.curing.dose import DOSE, DoseRequest, dose
from service.quantities.models import written
from service.rules.loader import load_book
from tests.benchmarks.bare_route import EXAMPLES
from tests.benchmarks.lines_to_ask import states_a_stay

TURNS, ROUNDS = 40, 100
PAGE = Path(__file__).parents[2] / "docs/performance.md"
BEGIN, END = "<!-- dose parts: begin -->", "<!-- dose parts: end -->"

Step = Callable[[], Any]


def steps_of(body: dict[str, Any]) -> dict[str, Step]:
    """The parts of one dose, each on its own; last what they are compared with."""
    book, validate, text = load_book("benchmark"), DOSE.request.__pydantic_validator__.validate_python, json.dumps(body)
    line = text.encode()
    asked: DoseRequest = validate(body)
    answer = dose(asked, book)
    told = orjson.loads(written(answer))
    return {
        "read strictly": lambda: read_json(line),
        "validate": lambda: validate(body),
        "work out": lambda: dose(asked, book),
        "write": lambda: written(answer),
        "orjson reads the request and writes the answer": lambda: (orjson.loads(line), orjson.dumps(told)),
    }


def least_us(step: Step, rounds: int) -> float:
    """The quickest of many runs: what the machine does when nobody else is at it."""
    clock, least_s = time.perf_counter, 1.0
    for _ in range(rounds):
        begin = clock()
        step()
        least_s = min(least_s, clock() - begin)
    return least_s * 1e6


def measured() -> dict[str, float]:
    """Every part, over the examples that are not refused; all take turns, so that a slow spell meets them alike."""
    examples = [
        each
        for each in json.loads(EXAMPLES.read_text())
        if each["status"] == 200 and not states_a_stay(each["request"])
    ]
    doses = [steps_of({**each["request"], "detail": "brief", "on": "2026-12-01"}) for each in examples]
    turns = [[{name: least_us(step, ROUNDS) for name, step in steps.items()} for steps in doses] for _ in range(TURNS)]
    return {
        name: sum(min(turn[dose][name] for turn in turns) for dose in range(len(doses))) / len(doses)
        for name in doses[0]
    }


def table(costs_us: dict[str, float]) -> str:
    """What is written to the page."""
    *parts, plain = costs_us
    rows = [f"| {name} | {costs_us[name]:.1f} | {costs_us[name] / costs_us[plain]:.2f} |" for name in parts]
    whole_us = sum(costs_us[name] for name in parts)
    return "\n".join(
        [
            BEGIN,
            "| part | CPU, us | of orjson's |\n|---|---|---|",
            *rows,
            f"| all four | {whole_us:.1f} | {whole_us / costs_us[plain]:.2f} |",
            f"| {plain} | {costs_us[plain]:.1f} | 1.00 |",
            "",
            f"Python {platform.python_version()}, best of {TURNS * ROUNDS}, mean over the examples.",
            END,
        ]
    )


if __name__ == "__main__":
    gc.freeze()
    page = PAGE.read_text()
    begin, _, rest = page.partition(BEGIN)
    made = table(measured())
    PAGE.write_text(begin + made + rest.partition(END)[2])
    print(made)
