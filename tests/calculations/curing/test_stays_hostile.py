"""Stays that cannot be reckoned with, that are no stays, and baths at the ends of what may be stated."""

from typing import Any

import pytest
from pydantic import ValidationError

from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import answer_to
from tests.calculations.curing.test_stays import SLAB, guard_of, lying, stay_of
from tests.calculations.curing.written import amount

Body = dict[str, Any]

HOSTILE: list[tuple[str, Body]] = [
    ("too_warm", stay_of(2, cold_c=5.01)),
    ("too_warm", stay_of(2, temperature=amount(41.1, "degF"))),
    ("too_cold", stay_of(2, cold_c=-1.01)),
    ("stage_too_long", stay_of(400.1)),
    ("shape_contradicts_weight", stay_of(2, pieces=9)),
    ("shape_contradicts_weight", stay_of(2, {"kind": "sphere", "diameter": amount(40, "mm")})),
    ("shape_contradicts_weight", stay_of(2, {"kind": "slab", "thickness": amount(180, "mm")})),
    ("size_out_of_range", stay_of(2, {"kind": "slab", "thickness": amount(2, "mm")})),
]


@pytest.mark.parametrize(("code", "stay"), HOSTILE)
def test_a_stay_that_cannot_be_reckoned_is_refused(book: RuleBook, code: str, stay: Body) -> None:
    """By its code, with what can be stated in its place."""
    with pytest.raises(Impossible) as refusal:
        answer_to(book, lying(stay))

    assert refusal.value.code == code
    assert refusal.value.nearest


UNREADABLE: list[Body] = [
    {"stay": None},
    {"stay": {}},
    {"stay": stay_of(2, colder=True)},
    {"stay": stay_of(2, pieces=0)},
    {"stay": stay_of(2, pieces=1.5)},
    {"stay": stay_of(2, lasts=amount(0, "d"))},
    {"stay": stay_of(2, lasts=amount(-2, "d"))},
    {"stay": stay_of(2, lasts=amount(2, "kg"))},
    {"stay": stay_of(float("nan"))},
    {"stay": stay_of(2, {"kind": "cloud"})},
    {"stay": stay_of(2, {**SLAB, "open_faces": {"sides": False}})},
    {"stay": stay_of(2, {"kind": "slab", "thickness": amount(80, "mm"), "open_faces": True})},
    {"kind": "equilibrium", "stay": stay_of(2)},
]


@pytest.mark.parametrize("changes", UNREADABLE)
def test_a_stay_outside_the_contract_is_not_read(book: RuleBook, changes: Body) -> None:
    """Null, unknown fields, no time at all, what is no number; and what stays for ever has no stay."""
    body = lying(None)
    basis = {**body["method"]["basis"], **changes}
    if basis["kind"] == "equilibrium":
        del basis["percent"]

    with pytest.raises(ValidationError):
        answer_to(book, {**body, "method": {**body["method"], "basis": basis}})


BATHS: list[tuple[str, float]] = [("a big tub", 1000), ("a splash", 1.2)]


@pytest.mark.parametrize(("what", "water_kg"), BATHS)
def test_extreme_baths_come_to_a_share(what: str, water_kg: float) -> None:
    """Between a ton of water and hardly enough, the figure lies between pick-up and whole system."""
    with_stay = guard_of(lying(stay_of(2), water_kg=water_kg, ppm=120, percent=20)).figure or 0.0
    today = guard_of(lying(None, water_kg=water_kg, ppm=120, percent=20)).figure or 0.0

    assert min(119.9, today) <= with_stay <= today * (1 + 1e-12)
