"""The published examples of a calculation, from the JSON file beside its module."""

import json
from importlib.resources import files

from service.api.routes import Example
from service.calculations.declaration import AnyCalculation

SAMPLE_ENGINE = {"pellicle": "0.1.0", "rules": "0123456789abcdef"}
"""Stands in examples for the engine that answers, which differs with every change of a rule."""


def examples_of(calculation: AnyCalculation) -> tuple[Example, ...]:
    """Every example of a calculation; none where it has no file."""
    package, _, module = calculation.run.__module__.rpartition(".")
    file = files(package) / f"{module}.examples.json"
    if not file.is_file():
        return ()
    return tuple(
        Example(row["name"], row["summary"], request=row["request"], status=row["status"], answer=row.get("answer"))
        for row in json.loads(file.read_text("utf-8"))
    )
