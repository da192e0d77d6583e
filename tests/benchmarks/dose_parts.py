"""What each part of a dose costs beside the same JSON read and written: ``python -m tests.benchmarks.dose_parts``."""

import gc
import platform
import time
from collections.abc import Callable
from typing import Any

import orjson

from service.api.examples import examples_of
from service.api.json_text import read_json
from service.calculations.curing.dose import DOSE
from service.calculations.declaration import AnyCalculation
from service.quantities.models import written
from service.rules.loader import load_book
from tests.benchmarks.lines_to_ask import states_a_stay
from tests.benchmarks.page import write_down

TURNS, ROUNDS = 40, 100

BOOK = load_book("benchmark")

Step = Callable[[], Any]


def steps_of(calculation: AnyCalculation, body: dict[str, Any]) -> dict[str, Step]:
    """The parts of one answer, each on its own; last what they are compared with."""
    validate, run, line = (
        calculation.request.__pydantic_validator__.validate_python,
        calculation.run,
        orjson.dumps(body),
    )
    asked = validate(body)
    answer = run(asked, BOOK)
    told = orjson.loads(written(answer))
    return {
        "read strictly": lambda: read_json(line),
        "validate": lambda: validate(body),
        "work out": lambda: run(asked, BOOK),
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


def answered_bodies(calculation: AnyCalculation) -> list[dict[str, Any]]:
    """The requests of the published examples that are not refused, brief, on one day where they ask for one."""
    dated = {"on": "2026-12-01"} if "on" in calculation.request.model_fields else {}
    asked = [{**dated, **each.request, "detail": "brief"} for each in examples_of(calculation) if each.status == 200]
    return [body for body in asked if calculation is not DOSE or not states_a_stay(body)]


def measured() -> dict[str, float]:
    """Every part, over the examples that are not refused; all take turns, so that a slow spell meets them alike."""
    doses = [steps_of(DOSE, body) for body in answered_bodies(DOSE)]
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
            "| part | CPU, us | of orjson's |\n|---|---|---|",
            *rows,
            f"| all four | {whole_us:.1f} | {whole_us / costs_us[plain]:.2f} |",
            f"| {plain} | {costs_us[plain]:.1f} | 1.00 |",
            "",
            f"Python {platform.python_version()}, best of {TURNS * ROUNDS}, mean over the examples.",
        ]
    )


if __name__ == "__main__":
    gc.freeze()
    write_down("dose parts", table(measured()))
