"""Published recipes and figures, read by the whole check: each with its source beside it."""

from typing import Any

import pytest
from pydantic import ValidationError

from service.calculations.curing.check import CheckRequest
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import BACON, DRY, LOIN, MIXED, SAUSAGE, STRONG_SALT
from tests.calculations.curing.written import (
    NEAT,
    amount,
    codes,
    cured,
    finding_on,
    line,
    nitrate,
    percent,
    pumped,
    reading_of,
    recipe,
    salt_of,
    told,
)

RELATIVE = 1e-6
CFR = "9 CFR 424.21(c), text of 2018"
HANDBOOK = "FSIS Directive 7620.3, 1995, as quoted by secondary pages"
CANADA = "Health Canada list, as an ingredient supplier's page has it"
POUND = amount(1, "lb")
HUNDRED_POUNDS = amount(100, "lb")
GROUND = {"product": SAUSAGE, "method": MIXED}
RUBBED = {"product": LOIN, "method": DRY}
CANADIAN = {"jurisdiction": "CA", "product": {**LOIN, "finish": "cooked"}}
CELERY_POWDER = percent(100 / 87)
"""Celery powder that is said to give 100 ppm at 0.87 percent."""


LIMITS = [
    # what and where it is published, recipe, rule, figure, verdict
    (
        f"1/4 oz nitrite to 100 lb chopped, printed as 156 ({CFR})",
        cured(NEAT, 0.25, "oz", meat=HUNDRED_POUNDS, **GROUND),
        "us-nitrite-comminuted-max",
        156.25,
        "met",
    ),
    (
        f"2 3/4 oz nitrate to 100 lb chopped ({CFR}); 1718 from memory of the handbook",
        cured(nitrate(100), 2.75, "oz", meat=HUNDRED_POUNDS, **GROUND),
        "us-nitrate-comminuted-max",
        1718.75,
        "met",
    ),
    (
        f"3 1/2 oz nitrate to 100 lb, dry ({CFR}); 2187 from memory of the handbook",
        cured(nitrate(100), 3.5, "oz", meat=HUNDRED_POUNDS, **RUBBED),
        "us-nitrate-drycured-max",
        2187.5,
        "met",
    ),
    (
        "1 oz of 6.25 percent cure to 25 lb, printed as 156 (spice merchants, home books)",
        cured(STRONG_SALT, 1, "oz", meat=amount(25, "lb"), **GROUND),
        "us-nitrite-comminuted-max",
        156.25,
        "met",
    ),
    (
        "1.92 g of 6.25 percent cure to 1 kg (public discussions)",
        cured(STRONG_SALT, 1.92, meat=amount(1000), **RUBBED),
        "us-nitrite-keeprefrigerated-min",
        120.0,
        "met",
    ),
    (
        "1/8 teaspoon weighed as 0.70 g to 454 g, printed as 96 (public discussion)",
        cured(STRONG_SALT, 0.7, meat=amount(454), **RUBBED),
        "us-nitrite-keeprefrigerated-min",
        96.3656388,
        "not_met",
    ),
    (
        f"625 ppm dry, printed as 4.5 g to the pound ({HANDBOOK}, p. 24)",
        cured(STRONG_SALT, 625e-6 * 453.59237 / 0.0625, meat=POUND, **RUBBED),
        "us-nitrite-drycured-max",
        625.0,
        "met",
    ),
    (
        f"200 ppm, printed as 1.45 g to the pound ({HANDBOOK}, p. 24)",
        cured(STRONG_SALT, 200e-6 * 453.59237 / 0.0625, meat=POUND, product=BACON, method=DRY),
        "us-bacon-dry-max",
        200.0,
        "met",
    ),
    (
        "108 g of 0.76 percent cure on 9 lb of belly is no 200 ppm but more (public discussion)",
        cured(percent(0.76), 108, meat=amount(4086), product=BACON, method=DRY),
        "us-bacon-dry-max",
        200.881057,
        "not_met",
    ),
    (
        "the same, 107.526 g before the discussion rounds it up",
        cured(percent(0.76), 107.5263157, meat=amount(4086), product=BACON, method=DRY),
        "us-bacon-dry-max",
        200.0,
        "met",
    ),
    (
        "70 g of celery powder to 25 lb does not reach its own 100 ppm (supplier page)",
        cured(CELERY_POWDER, 70, meat=amount(25, "lb"), **RUBBED),
        "us-nitrite-keeprefrigerated-min",
        70.9533717,
        "not_met",
    ),
    (
        f"0.32 oz to 100 lb is 200 ppm ({CANADA})",
        cured(NEAT, 0.32, "oz", meat=HUNDRED_POUNDS, method=DRY, **CANADIAN),
        "ca-nitrite-max",
        200.0,
        "met",
    ),
    (
        f"20 g to 100 kg is 200 ppm ({CANADA})",
        cured(NEAT, 20, meat=amount(100, "kg"), method=DRY, **CANADIAN),
        "ca-nitrite-max",
        200.0,
        "met",
    ),
    (
        f"of the batch: 100 lb less the 0.32 oz itself is 200 ppm too ({CANADA})",
        cured(NEAT, 0.32, "oz", meat=amount(1600 - 0.32, "oz"), method=MIXED, **CANADIAN),
        "ca-nitrite-max",
        200.0,
        "met",
    ),
    (
        f"0.192 oz to 100 lb is 120 ppm ({CANADA}, printed, truncated, as 0.19)",
        cured(NEAT, 0.192, "oz", meat=HUNDRED_POUNDS, jurisdiction="CA", product=BACON, method=DRY),
        "ca-nitrite-bacon-max",
        120.0,
        "met",
    ),
    (
        f"0.19 oz, as printed, is not 120 ({CANADA})",
        cured(NEAT, 0.19, "oz", meat=HUNDRED_POUNDS, jurisdiction="CA", product=BACON, method=DRY),
        "ca-nitrite-bacon-max",
        118.75,
        "met",
    ),
]


@pytest.mark.parametrize(("what", "body", "rule", "figure", "verdict"), LIMITS, ids=[row[0][:40] for row in LIMITS])
def test_published_amounts_meet_their_limits(
    book: RuleBook, what: str, body: dict[str, Any], rule: str, figure: float, verdict: str
) -> None:
    """A published amount comes to its published figure, and the rule that it was published for says what it says."""
    finding = finding_on(told(book, body), rule)

    assert finding.low == finding.high == pytest.approx(figure, rel=RELATIVE), what
    assert finding.verdict == verdict, what


READINGS = [
    # what and where it is published, recipe, reading, substance, written as, ppm
    (
        "20 g of 0.55 percent nitrited salt to 1 kg of mix, liquid and spice counted (butcher-supply page)",
        recipe(
            meat=amount(830),
            product={**SAUSAGE, "finish": "cooked"},
            method={**MIXED, "water": amount(120)},
            curing_salts=[salt_of(percent(0.55), 20)],
            ingredients=[line("white-pepper-ground", 30)],
        ),
        ("in_the_batch", "sodium_nitrite", "nitrite"),
        110.0,
    ),
    (
        "2 oz saltpetre in a rub on 108 lb, printed as 1157 (public discussion, 2005)",
        cured(nitrate(100, "potassium_nitrate"), 56.699, meat=amount(48987.936)),
        ("on_the_meat", "nitrate_salt_by_weight", "nitrate"),
        1157.4074074,
    ),
    (
        "0.60 percent of 6.25 percent cure is 375 ppm, not the 347.4 of the page (cooking blog)",
        cured(STRONG_SALT, 6, meat=amount(1000)),
        ("on_the_meat", "sodium_nitrite", "nitrite"),
        375.0,
    ),
    (
        "the rate of a strong cure, 2.5 g to 1 kg, with a 0.5 percent salt (worked out, no source)",
        cured(percent(0.5), 2.5, meat=amount(1000)),
        ("on_the_meat", "sodium_nitrite", "nitrite"),
        12.5,
    ),
    (
        "1 g of sodium nitrate to 1 kg is 0.7295149 g of the ion; published 0.73 (Regulation (EU) 2023/2108)",
        cured(nitrate(100), 1, meat=amount(1000)),
        ("on_the_meat", "nitrate_ion", "nitrate"),
        729.5149,
    ),
    (
        "1 g of saltpetre to 1 kg is 0.6132833 g of the ion; published 0.61 (the same)",
        cured(nitrate(100, "potassium_nitrate"), 1, meat=amount(1000)),
        ("on_the_meat", "nitrate_ion", "nitrate"),
        613.2833,
    ),
    (
        "32 g of 5.88 percent cure, 110 salt, 124 sugar, 1000 water, 10 percent pump; printed 148.6256 (discussion)",
        recipe(
            meat=amount(3000),
            method=pumped(amount(1000), 10),
            curing_salts=[salt_of(percent(5.88), 32)],
            ingredients=[line("pickling-salt", 110), line("granulated-sugar", 124)],
        ),
        ("pumped", "sodium_nitrite", "nitrite"),
        148.6255924,
    ),
    (
        "50 lb of 0.75 percent cure in 478.6875 lb, 20 percent pump (supplier page, 2006, redone at 8.33 lb/gal)",
        recipe(
            meat=amount(1000, "lb"),
            method=pumped(amount(416.5, "lb"), 20),
            curing_salts=[salt_of(percent(0.75), 50, "lb")],
            ingredients=[line("dextrose", 12.1875, "lb")],
        ),
        ("pumped", "sodium_nitrite", "nitrite"),
        156.6784175,
    ),
    (
        "0.06 lb nitrite in 100 lb of brine at 20 percent is 120 ppm (worked example of a processor)",
        cured(NEAT, 0.06, "lb", meat=amount(400, "lb"), method=pumped(amount(99.94, "lb"), 20)),
        ("pumped", "sodium_nitrite", "nitrite"),
        120.0,
    ),
]


@pytest.mark.parametrize(("what", "body", "reading", "ppm"), READINGS, ids=[row[0][:40] for row in READINGS])
def test_published_recipes_come_to_their_figure(
    book: RuleBook, what: str, body: dict[str, Any], reading: tuple[str, str, str], ppm: float
) -> None:
    """A published recipe, weighed, comes to its published figure by the reading it was published for."""
    found = reading_of(told(book, body), *reading)

    assert found.low == found.high == pytest.approx(ppm, rel=RELATIVE), what


def test_a_fraction_cannot_pass_for_a_percentage(book: RuleBook) -> None:
    """1 oz to 25 lb with 6.25 taken for a fraction, 15,625 ppm (discussion of the handbook's notation, 2006)."""
    pounds = {"meat": amount(25, "lb"), **GROUND}

    fraction = told(book, cured(percent(0.0625), 1, "oz", **pounds))

    with pytest.raises(ValidationError):
        CheckRequest.model_validate(cured(percent(625), 1, "oz", **pounds))
    assert "fraction_for_percent" in codes(fraction)
    assert reading_of(fraction, "on_the_meat").high == pytest.approx(15625 / 1e4, abs=5e-5)  # four decimals are shown


def test_a_share_of_the_meat_is_seen_in_the_lines(book: RuleBook) -> None:
    """108 g to 4,086 g is 2.64 percent of the meat, printed as 2.6 (public discussion)."""
    answer = told(book, cured(percent(0.76), 108, meat=amount(4086), product=BACON, method=DRY))

    weight = answer.figures.lines[0].weight

    assert weight is not None
    assert 100 * weight.high / 4086 == pytest.approx(2.6431718, rel=RELATIVE)
