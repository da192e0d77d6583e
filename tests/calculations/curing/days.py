"""Cure times as an invented kitchen would ask for them."""

from functools import cache
from typing import Any

from service.calculations.curing.cure_time import CureTimeAnswer, CureTimeRequest, cure_time
from service.rules.book import RuleBook
from service.rules.loader import load_book

COLD = {"value": 4, "unit": "degC"}
DRY = {"kind": "dry", "salt_percent": 2.5, "temperature": COLD}
BRINE = {"kind": "brine", "amount": {"value": 1.2, "unit": "kg"}, "salt_percent": 7, "temperature": COLD}
TUB = {"kind": "endless_brine", "salt_percent": 10, "temperature": COLD}
REST = {"kind": "rest", "temperature": COLD}


@cache
def book() -> RuleBook:
    """The rule book, read once."""
    return load_book("test")


def slab(thickness_mm: float, open_faces: int = 2) -> dict[str, Any]:
    """A slab of this thickness."""
    return {"kind": "slab", "thickness": {"value": thickness_mm, "unit": "mm"}, "open_faces": open_faces}


def block(thickness_mm: float, width_mm: float, length_mm: float, **open_faces: int) -> dict[str, Any]:
    """A block with these edges."""
    edges = {"thickness": thickness_mm, "width": width_mm, "length": length_mm}
    faces = {"open_faces": open_faces} if open_faces else {}
    return {"kind": "brick", **{name: {"value": mm, "unit": "mm"} for name, mm in edges.items()}, **faces}


def body(**changes: Any) -> dict[str, Any]:
    """A slab of 60 mm in a weighed brine, with changes."""
    stated = {"meat": {"value": 2, "unit": "kg"}, "shape": slab(60), "stage": BRINE, **changes}
    return {name: value for name, value in stated.items() if value is not None}


def told(**changes: Any) -> CureTimeAnswer:
    """What is answered."""
    return cure_time(CureTimeRequest.model_validate(body(**changes)), book())


def typical(**changes: Any) -> float:
    """The typical days."""
    return told(**changes, detail="brief").days.typical
