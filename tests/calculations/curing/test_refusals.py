"""What is refused, by which name, and what is advised instead."""

from typing import Any

import pytest

from service.calculations.refusals import Impossible, LimitExceeded
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import (
    BACON,
    COVERED,
    DRY,
    ERYTHORBATE,
    LOIN,
    PUMPED,
    SOAKED,
    answer_to,
    dose_of,
    grams,
)

WEAK = {"nitrite": {"salt": "sodium_nitrite", "percent": 0.5}}
IMPOSSIBLE = [
    ("salt_comes_with_the_cure", {"curing_salt": WEAK, "salt_percent": 2.2, "method": DRY}),
    ("no_rule_in_force", {"jurisdiction": "GB", "method": DRY}),
    ("no_rule_in_force", {"jurisdiction": "US", "on": "1999-12-22", "method": DRY}),
    ("no_rule_in_force", {"jurisdiction": "EU", "method": DRY}),
    ("not_enough_pickle", {"method": {**PUMPED, "water": {"value": 100, "unit": "g"}}}),
    ("pickle_over_saturated", {"salt_percent": 3.2}),
    ("no_room_for_water", {"salt_percent": 13}),
    ("curing_salt_too_weak", {"curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 0.2}}}),
    ("below_scale_step", {"meat": {"value": 10, "unit": "g"}, "method": DRY, "scale_step": {"value": 1, "unit": "g"}}),
    ("skin_weight_contradicts", {"product": {"kind": "bacon", "skin": "on", "skin_free": {"value": 9, "unit": "kg"}}}),
    (
        "skin_weight_contradicts",
        {"product": {"kind": "bacon", "skin": "on", "skin_free": {"value": 4.2, "unit": "lb"}}},
    ),
    ("skin_weight_contradicts", {"product": {"kind": "bacon", "skin": "off", "skin_free": {"value": 4, "unit": "kg"}}}),
    ("storage_contradicts_finish", {"product": {**LOIN, "finish": "fresh", "storage": "shelf_stable"}}),
    ("level_in_one_step", {"product": BACON, "accelerator": ERYTHORBATE, "method": COVERED}),
    (
        "curing_salt_too_weak",
        {
            "method": DRY,
            "curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 0.1}},
            "target": {"kind": "ingoing_nitrite", "ppm": 300},
        },
    ),
    (
        "no_rule_in_force",
        {"product": {"kind": "whole_muscle", "species": "lamb"}, "accelerator": {**ERYTHORBATE, "ppm": 500}},
    ),
]


@pytest.mark.parametrize(("code", "changes"), IMPOSSIBLE, ids=[f"{row[0]}{n}" for n, row in enumerate(IMPOSSIBLE)])
def test_what_cannot_be_done_says_why(book: RuleBook, code: str, changes: dict[str, Any]) -> None:
    """Each reason has its code, and a sentence with the numbers."""
    with pytest.raises(Impossible) as refusal:
        answer_to(book, {**dose_of(150), **changes})

    assert refusal.value.code == code
    assert len(refusal.value.reason) > 20


def test_rounding_must_leave_enough_pickle(book: RuleBook) -> None:
    """A coarse scale that rounds salt and sugar away leaves less pickle than the pump takes: no dose."""
    body = dose_of(
        155,
        meat={"value": 508, "unit": "g"},
        salt_percent=2.6,
        sugar_percent=0.9,
        scale_step={"value": 10, "unit": "g"},
        method={**PUMPED, "pump_percent": 16, "water": {"value": 65, "unit": "g"}},
        curing_salt={"nitrite": {"salt": "sodium_nitrite", "percent": 0.6}},
    )

    with pytest.raises(Impossible) as refusal:
        answer_to(book, body)

    assert refusal.value.code == "not_enough_pickle"


ADVICE = [
    ("Nitrite is not allowed in this product at all.", {"product": {**LOIN, "for_infants": True}}),
    (
        "State the target as ingoing_nitrite, 120 ppm.",
        {"product": BACON, "accelerator": ERYTHORBATE, "target": {"kind": "curing_salt", "percent": 1}},
    ),
    (
        "State the target as ingoing_nitrite, 120 ppm",
        {
            "product": {"kind": "bacon", "skin": "on"},
            "method": SOAKED,
            "target": {"kind": "ingoing_nitrite", "ppm": 150},
        },
    ),
    (
        "Use a scale with a finer step",
        {
            "product": BACON,
            "accelerator": ERYTHORBATE,
            "target": {"kind": "ingoing_nitrite", "ppm": 120},
            "scale_step": {"value": 1, "unit": "g"},
        },
    ),
    ("Set accelerator.ppm to 468.75.", {"accelerator": {"kind": "erythorbic_acid", "ppm": 600}}),
    ("Set target.ppm to at most 200.", {"target": {"kind": "ingoing_nitrite", "ppm": 250}}),
    ("at least 120.1; or state product.storage", {"target": {"kind": "ingoing_nitrite", "ppm": 90}}),
    ("state curing_salt.strength_on_label", {"curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 8}}}),
    (
        "Add an accelerator: sodium_erythorbate or sodium_ascorbate, 550 ppm",
        {"product": BACON, "target": {"kind": "ingoing_nitrite", "ppm": 120}},
    ),
    ("take the basis equilibrium", {"method": {**SOAKED, "basis": {"kind": "pick_up", "percent": 10}}}),
    ("Pump or soak less: this product may gain 10 percent.", {"product": {"kind": "corned_beef", "cut": "round"}}),
    (
        "Set target.ppm to at least 120.1",
        {"method": DRY, "target": {"kind": "ingoing_nitrite", "ppm": 120}, "meat": {"value": 4537, "unit": "g"}},
    ),
    (
        "Leave product.skin_free out",
        {
            "product": {"kind": "bacon", "skin": "on", "skin_free": {"value": 4.0, "unit": "kg"}},
            "accelerator": ERYTHORBATE,
            "target": {"kind": "ingoing_nitrite", "ppm": 120},
        },
    ),
]


@pytest.mark.parametrize(("advice", "changes"), ADVICE, ids=[row[0][:30] for row in ADVICE])
def test_advice_names_what_to_change(book: RuleBook, advice: str, changes: dict[str, Any]) -> None:
    """A refusal says which field, and which way."""
    with pytest.raises(LimitExceeded) as refusal:
        answer_to(book, {**dose_of(150), **changes})

    assert advice in refusal.value.advice


def test_advice_on_a_target_is_good(book: RuleBook) -> None:
    """What is advised is then answered."""
    for ppm, advised in ((250, 200), (90, 120.1)):
        body = dose_of(ppm, method=DRY, product=BACON)
        with pytest.raises(LimitExceeded):
            answer_to(book, body)

        assert answer_to(book, {**body, "target": {"kind": "ingoing_nitrite", "ppm": advised}}).weigh


def test_an_acid_in_pumped_bacon_names_its_salts(book: RuleBook) -> None:
    """Pumped bacon takes ascorbate or erythorbate, not the acids (9 CFR 424.22(b)(1))."""
    acid = {"kind": "ascorbic_acid", "ppm": 550}

    with pytest.raises(Impossible) as refusal:
        answer_to(book, dose_of(120, product=BACON, method=PUMPED, accelerator=acid))

    assert refusal.value.nearest == "Take sodium_erythorbate or sodium_ascorbate."


def test_water_dissolves_so_much_salt(book: RuleBook) -> None:
    """Saturated brine is 26.395 percent salt (salometer tables, 100 degrees at 60 degF): under it there is a dose."""
    weighed = grams(answer_to(book, dose_of(150, salt_percent=3.15)))
    salt = weighed["salt"] + weighed["curing_salt"] * 0.9375

    assert 0.262 < salt / (salt + weighed["water"]) < 0.26395
    with pytest.raises(Impossible) as refusal:
        answer_to(book, dose_of(150, salt_percent=3.17))
    assert refusal.value.code == "pickle_over_saturated"
