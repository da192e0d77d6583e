"""Writes the answers of the examples anew: ``python -m tests.contract.examples``, then read the difference."""

import json
from importlib.resources import files
from pathlib import Path
from typing import Any

from pydantic import TypeAdapter

from service.calculations.declaration import AnyCalculation
from service.calculations.refusals import Refusal
from service.calculations.registry import CALCULATIONS
from service.rules.loader import load_book


def examples_file(calculation: AnyCalculation) -> Path:
    """The JSON file beside a calculation's module."""
    package, _, module = calculation.run.__module__.rpartition(".")
    return Path(str(files(package) / f"{module}.examples.json"))


def answered(calculation: AnyCalculation, example: dict[str, Any]) -> dict[str, Any]:
    """The example with the answer that the code gives today; a refusal has a status and no answer."""
    request = TypeAdapter(calculation.request).validate_python(example["request"])
    stated = {key: example[key] for key in ("name", "summary", "request")}
    try:
        answer = calculation.run(request, load_book("0"))
    except Refusal:
        return {**stated, "status": 422}
    told = TypeAdapter(calculation.answer).dump_python(answer, mode="json")
    told.pop("engine")
    return {**stated, "status": 200, "answer": told}


if __name__ == "__main__":
    for each in CALCULATIONS:
        page = examples_file(each)
        written = [answered(each, example) for example in json.loads(page.read_text())]
        page.write_text(json.dumps(written, indent=1, ensure_ascii=False) + "\n")
