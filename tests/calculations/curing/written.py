"""Recipes as somebody wrote them, and what the check says of them."""

from typing import Any

from service.calculations.curing.check import CheckAnswer, CheckRequest, check
from service.calculations.curing.checking.side_by_side import Reading
from service.rules.banding import BandedFinding
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import DAY, DRY, LOIN, MIXED, SAUSAGE, STRONG_SALT

EQUILIBRIUM = {"kind": "equilibrium"}
NEAT = {"nitrite": {"salt": "sodium_nitrite", "percent": 100}}
"""Nitrite itself, as laws and handbooks write it. It does not belong in a kitchen."""


def amount(value: float, unit: str = "g") -> dict[str, Any]:
    """A quantity."""
    return {"value": value, "unit": unit}


def salt_of(label: dict[str, Any] | None, *quantity: Any) -> dict[str, Any]:
    """A curing salt by its label, with how much of it where that is stated."""
    known = {"label": label, "amount": amount(*quantity) if quantity else None}
    return {name: value for name, value in known.items() if value is not None}


def percent(nitrite: float, salt: str = "sodium_nitrite") -> dict[str, Any]:
    """A label that names nitrite alone."""
    return {"nitrite": {"salt": salt, "percent": nitrite}}


def nitrate(share: float, salt: str = "sodium_nitrate") -> dict[str, Any]:
    """A label that names nitrate alone."""
    return {"nitrate": {"salt": salt, "percent": share}}


def line(ingredient: str, *quantity: Any, **more: Any) -> dict[str, Any]:
    """An ingredient of the recipe."""
    return {"ingredient": ingredient, "amount": amount(*quantity), **more}


def soaked(water: dict[str, Any], basis: dict[str, Any] | None = None) -> dict[str, Any]:
    """Lying in a pickle; without a basis, nobody says how the piece is taken out."""
    return {"kind": "immersion", "water": water, **({"basis": basis} if basis else {})}


def pumped(water: dict[str, Any], pump: float) -> dict[str, Any]:
    """Pumped with a pickle."""
    return {"kind": "injected", "water": water, "pump_percent": pump}


def recipe(**changes: Any) -> dict[str, Any]:
    """A dry-cured pork loin, everything weighed, that keeps every limit; with changes. None leaves a field out."""
    body: dict[str, Any] = {
        "jurisdiction": "US",
        "on": DAY,
        "product": LOIN,
        "method": DRY,
        "meat": amount(2.2, "kg"),
        "curing_salts": [salt_of(STRONG_SALT, 5.5)],
        "ingredients": [line("pickling-salt", 48)],
        "accelerators": [],
    }
    return {name: value for name, value in {**body, **changes}.items() if value is not None}


def sausage(**changes: Any) -> dict[str, Any]:
    """The same as a sausage: 150 ppm."""
    return recipe(**{"product": SAUSAGE, "method": MIXED, "curing_salts": [salt_of(STRONG_SALT, 5.28)], **changes})


def cured(label: dict[str, Any], *quantity: Any, **changes: Any) -> dict[str, Any]:
    """A recipe with one curing salt and nothing else."""
    return recipe(**{"curing_salts": [salt_of(label, *quantity)], "ingredients": [], **changes})


def told(book: RuleBook, body: dict[str, Any]) -> CheckAnswer:
    """What the check answers."""
    return check(CheckRequest.model_validate(body), book)


def finding_on(answer: CheckAnswer, rule: str) -> BandedFinding:
    """The finding on one rule."""
    return next(one for one in answer.findings if one.rule == rule)


def reading_of(
    answer: CheckAnswer, name: str, expressed_as: str = "sodium_nitrite", substance: str = "nitrite"
) -> Reading:
    """One reading; its figures are shown with four decimals."""
    return next(
        one
        for one in answer.figures.readings
        if (one.reading, one.expressed_as, one.substance) == (name, expressed_as, substance)
    )


def codes(answer: CheckAnswer) -> set[str]:
    """The codes of what is called out."""
    return {one.code for one in answer.call_outs}
