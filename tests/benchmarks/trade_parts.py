"""What the calculations from primal to label cost beside a dose: ``python -m tests.benchmarks.trade_parts``."""

import gc
import platform
from random import Random
from typing import Any

from service.calculations.butchery.blend import BLEND
from service.calculations.curing.dose import DOSE
from service.calculations.declaration import AnyCalculation
from service.calculations.registry import CALCULATIONS
from tests.benchmarks.cure_times import cost_ms
from tests.benchmarks.dose_parts import Step, answered_bodies, least_us, steps_of
from tests.benchmarks.page import write_down

TURNS, ROUNDS = 20, 40
MATERIALS, BLENDS = 30, 60
TRADE = ("butchery/", "yields/", "seasoning/", "labels/")
PARTS = ("read strictly", "validate", "work out", "write")


def costs_us(calculation: AnyCalculation) -> dict[str, float]:
    """Each part, mean over the examples that are answered, brief."""
    asked = [steps_of(calculation, body) for body in answered_bodies(calculation)]
    least = [[_least(steps) for steps in asked] for _ in range(TURNS)]
    return {
        part: sum(min(turn[number][part] for turn in least) for number in range(len(asked))) / len(asked)
        for part in PARTS
    }


def _least(steps: dict[str, Step]) -> dict[str, float]:
    return {part: least_us(steps[part], ROUNDS) for part in PARTS}


def material(number: int, random: Random) -> dict[str, Any]:
    """A trim that no other blend has."""
    fat_percent = random.uniform(4, 85)
    return {
        "name": f"lot {number}", "animal": random.choice(["pork", "beef"]), "fat_percent": fat_percent,
        "protein_percent": (100 - fat_percent) / 5, "on_hand": {"value": random.uniform(5, 60), "unit": "kg"},
        "age_d": random.randint(0, 6),
        "price": {"amount": f"{random.uniform(1, 6):.2f}", "currency": "EUR", "per": "kg"},
    }  # fmt: skip


def thirty(random: Random) -> dict[str, Any]:
    """A block of thirty lots at least cost, under a rule for every kind of thing that is asked for."""
    lots = [material(number, random) for number in range(MATERIALS)]
    return {
        "block": {"kind": "whole_block", "weight": {"value": 50, "unit": "kg"}}, "materials": lots,
        "fat": {"kind": "between", "least_percent": 24, "most_percent": 26},
        "protein": {"kind": "at_least", "percent": 13}, "oldest_d": 5,
    }  # fmt: skip


def blend_line() -> str:
    """What a big blend costs."""
    random = Random(1)
    asked = [thirty(random) for _ in range(BLENDS)]
    full_ms, brief_ms = (cost_ms(BLEND, [{**one, "detail": detail} for one in asked]) for detail in ("full", "brief"))
    return f"A blend of {MATERIALS} materials, never the same: {full_ms:.1f} ms of CPU full, {brief_ms:.1f} brief."


def table() -> str:
    """A row for each calculation, the dose first."""
    trade = [one for one in CALCULATIONS if one.name.startswith(TRADE)]
    costs = {one.name: costs_us(one) for one in (DOSE, *trade)}
    dose_us = sum(costs[DOSE.name].values())
    rows = [_row(name, parts, dose_us) for name, parts in costs.items()]
    head = f"| calculation | {' | '.join(PARTS)} | all four | of a dose |\n|---|---|---|---|---|---|---|"
    how = f"us of CPU. Python {platform.python_version()}, best of {TURNS * ROUNDS}, mean over the examples."
    return "\n".join([head, *rows, "", blend_line(), how])


def _row(name: str, parts: dict[str, Any], dose_us: float) -> str:
    whole_us = sum(parts.values())
    each = " | ".join(f"{cost_us:.0f}" for cost_us in parts.values())
    return f"| {name} | {each} | {whole_us:.0f} | {whole_us / dose_us:.2f} |"


if __name__ == "__main__":
    gc.freeze()
    write_down("trade parts", table())
