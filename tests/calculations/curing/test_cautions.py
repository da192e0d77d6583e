"""What is printed beside a dose, and when."""

from typing import Any

import pytest

from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import (
    BACON,
    DRY,
    ERYTHORBATE,
    LOIN,
    MIXED,
    PUMPED,
    SAUSAGE,
    SOAKED,
    answer_to,
    dose_of,
    refusing,
)


def test_a_strong_pickle_warns_and_then_refuses(book: RuleBook) -> None:
    """A pickle above 2,400 ppm warns, above 4,000 it is refused (own guard; 9 CFR prints 2 lb to 100 gal)."""
    weak_pump = {**PUMPED, "pump_percent": 5}
    warned = answer_to(book, dose_of(140, method=weak_pump))

    assert "early-warning" in {caution.id for caution in warned.cautions}
    assert "guard-pickle-strength" in refusing(book, dose_of(199, method={**PUMPED, "pump_percent": 4.5}))


def test_reported_and_amended_rules_pass_with_a_caution(book: RuleBook) -> None:
    """What is second-hand, or amended unread on 1 July 2025 (90 FR 27973), is said to be."""
    answer = answer_to(book, dose_of(120, product=BACON, method=PUMPED, accelerator=ERYTHORBATE))
    before = answer_to(book, dose_of(120, product=BACON, method=PUMPED, accelerator=ERYTHORBATE, on="2025-06-30"))

    assert "amendment-not-read" in {caution.id for caution in answer.cautions}
    assert "amendment-not-read" not in {caution.id for caution in before.cautions}


CAUTIONS = [
    (
        "coarse-scale",
        {
            "product": {**LOIN, "storage": "shelf_stable"},
            "method": DRY,
            "meat": {"value": 600, "unit": "g"},
            "scale_step": {"value": 1, "unit": "g"},
        },
    ),
    ("salt-not-stated", {}),
    ("weigh-ice", {"method": {**PUMPED, "water": {"value": 2, "unit": "l"}}}),
    ("allergens", {"other_ingredients": {"value": 20, "unit": "g"}}),
    ("poultry", {"product": {"kind": "sausage", "species": "poultry"}, "method": MIXED}),
    ("game-and-pork-parasites", {"product": {"kind": "whole_muscle", "species": "game"}}),
    ("accelerator-apart", {"accelerator": {**ERYTHORBATE, "ppm": 500}}),
    ("foil-salt-acid", {"method": DRY}),
    ("no-brine-reuse", {"method": SOAKED}),
    (
        "recalled-limit-passed",
        {
            "product": {"kind": "bacon", "skin": "on", "skin_free": {"value": 4.0, "unit": "kg"}},
            "method": DRY,
            "target": {"kind": "ingoing_nitrite", "ppm": 199},
        },
    ),
    ("more-than-may-remain", {"method": DRY, "target": {"kind": "ingoing_nitrite", "ppm": 600}}),
    (
        "botulism",
        {"jurisdiction": "CA", "product": {**SAUSAGE, "finish": "cooked"}, "method": MIXED, "salt_percent": 1.5},
    ),
]


@pytest.mark.parametrize(("caution", "changes"), CAUTIONS, ids=[row[0] for row in CAUTIONS])
def test_a_caution_is_printed_when_its_trigger_holds(book: RuleBook, caution: str, changes: dict[str, Any]) -> None:
    """Each with its words, and not without its trigger."""
    plain = dose_of(150, product={**SAUSAGE, "finish": "cooked"}, method=MIXED, salt_percent=2.6)
    printed = {told.id for told in answer_to(book, {**dose_of(150), **changes}).cautions}

    assert caution in printed
    assert caution not in {told.id for told in answer_to(book, plain).cautions}
