"""Recipes as an invented kitchen writes them down after a dose, and the same with facts left out."""

from collections.abc import Iterator
from copy import deepcopy
from typing import Any

from service.calculations.curing.check import CheckAnswer, CheckRequest, check
from service.calculations.curing.dose import DoseAnswer
from service.rules.book import RuleBook


def checked(book: RuleBook, body: dict[str, Any]) -> CheckAnswer:
    """What the check answers to a request body."""
    return check(CheckRequest.model_validate(body), book)


def recipe_of(body: dict[str, Any], answer: DoseAnswer) -> dict[str, Any]:
    """The recipe that a dose comes to, written down with every weight."""
    amounts = {item.what: {"value": item.amount.value, "unit": item.amount.unit} for item in answer.weigh}
    lines: list[dict[str, Any]] = [
        {"ingredient": what, "amount": amounts[what]} for what in ("salt", "sugar") if what in amounts
    ]
    for what, dissolves in (("dissolved_ingredients", True), ("other_ingredients", False)):
        if what in amounts:
            lines.append({"ingredient": f"{what} of the kitchen", "amount": amounts[what], "dissolves": dissolves})
    accelerator = body.get("accelerator")
    used = [{"kind": accelerator["kind"], "amount": amounts[accelerator["kind"]]}] if accelerator else []
    kept = {key: body[key] for key in ("jurisdiction", "on", "product", "meat", "method")}
    return {
        **kept,
        "curing_salts": [{"label": body["curing_salt"], "amount": amounts["curing_salt"]}],
        "ingredients": lines,
        "accelerators": used,
    }


FACTS = (
    ("meat",), ("curing_salts",), ("curing_salts", 0, "label"), ("curing_salts", 0, "amount"), ("ingredients",),
    ("accelerators",), ("method", "water"), ("method", "pump_percent"), ("method", "basis"), ("method", "cover"),
)  # fmt: skip
"""What a recipe may leave out."""


def with_gaps(recipe: dict[str, Any]) -> Iterator[tuple[tuple[str | int, ...], dict[str, Any]]]:
    """The recipe once without each of the facts that it states."""
    for path in FACTS:
        gapped = deepcopy(recipe)
        holder: Any = gapped
        for part in path[:-1]:
            holder = holder[part]
        if path[-1] in holder:
            del holder[path[-1]]
            yield path, gapped
