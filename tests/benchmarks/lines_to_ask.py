"""Dose lines that differ from each other, made of the published examples."""

import json
from collections.abc import Iterator
from copy import deepcopy
from itertools import islice
from pathlib import Path
from typing import Any

EXAMPLES = Path(__file__).parents[2] / "service/calculations/curing/dose.examples.json"
PIECES, TARGETS = 89, 11
"""Primes, so that weights, targets and products meet in ever new ways."""


def some_lines(rows: int) -> list[dict[str, Any]]:
    """So many of them."""
    return list(islice(_lines(), rows))


def _lines() -> Iterator[dict[str, Any]]:
    answered = [row["request"] for row in json.loads(EXAMPLES.read_text()) if row["status"] == 200]
    answered = [request for request in answered if not states_a_stay(request)]
    number = 0
    while True:
        for request in answered:
            yield {"id": number, "request": _varied(request, number)}
            number += 1


def states_a_stay(request: dict[str, Any]) -> bool:
    """Whether a model of salt in meat is solved for it; bars are set for what every other dose costs."""
    return "stay" in request["method"].get("basis", {})


def _varied(request: dict[str, Any], number: int) -> dict[str, Any]:
    """A piece up to a tenth lighter; where the law asks for no level, up to a fiftieth less nitrite."""
    varied = {**deepcopy(request), "on": "2026-12-01", "detail": "brief"}
    varied["meat"]["value"] = round(request["meat"]["value"] * (1 - number % PIECES / (10 * PIECES)), 3)
    target = varied["target"]
    if target["kind"] == "ingoing_nitrite" and request["product"]["kind"] != "bacon":
        target["ppm"] = round(target["ppm"] * (1 - number % TARGETS / (50 * TARGETS)), 1)
    return varied
