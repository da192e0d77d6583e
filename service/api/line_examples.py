"""Streams to show, made of the calculations' own examples."""

import json
from collections.abc import Iterable, Iterator
from typing import Any

from service.api.calculations import CalculationEndpoint
from service.api.examples import SAMPLE_ENGINE
from service.api.json_text import read_json
from service.api.problems import SAMPLE_REQUEST_ID, Problem
from service.api.routes import Example

BROKEN = '{"id": "torn", "request": '


def line_examples(endpoints: Iterable[CalculationEndpoint], *, is_named: bool) -> tuple[Example, ...]:
    """A stream of the calculations' own examples: of each one answered and one refused, then a blank, a broken line."""
    chosen = [(endpoint.calculation.name, one) for endpoint in endpoints for one in _telling(endpoint.examples())]
    if not chosen:
        return ()
    asked = [
        {"id": one.name, **({"calculation": name} if is_named else {}), "request": one.request} for name, one in chosen
    ]
    told = [_answer(number, one) for number, (_, one) in enumerate(chosen, 1)]
    broken = {"line": len(chosen) + 2, "problem": _problem_of(BROKEN)}
    summary = {"lines": len(chosen) + 2, "blank": 1, "answered": sum("answer" in line for line in told)}
    declined = summary["lines"] - summary["blank"] - summary["answered"]
    last = {"summary": {**summary, "declined": declined, "engine": SAMPLE_ENGINE}}
    return (
        Example(
            "lines", "Lines that are answered and declined, a blank and a broken one",
            request="".join((*map(_line, asked), "\n", BROKEN, "\n")),
            answer="".join(map(_line, [*told, broken, last])),
        ),
    )  # fmt: skip


def _telling(examples: Iterable[Example]) -> Iterator[Example]:
    """The first example of each outcome."""
    by_status: dict[int, Example] = {}
    for example in examples:
        by_status.setdefault(example.status, example)
    yield from by_status.values()


def _answer(number: int, example: Example) -> dict[str, Any]:
    head = {"line": number, "id": example.name}
    if example.status == 200:
        return {**head, "answer": {**example.answer, "engine": SAMPLE_ENGINE}}
    return {**head, "problem": example.answer}


def _problem_of(line: str) -> Any:
    try:
        return read_json(line.encode())
    except Problem as problem:
        return problem.body(SAMPLE_REQUEST_ID).model_dump(mode="json")


def _line(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n"
