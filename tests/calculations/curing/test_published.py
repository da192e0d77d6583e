"""Published answers: the law's own figures, worked examples, and published answers that are wrong."""

from typing import Any

import pytest

from service.calculations.curing.ingoing import (
    curing_salt_for_ppm_g,
    ingoing_at_equilibrium_ppm,
    ingoing_from_pickle_ppm,
    ingoing_ppm,
)
from service.calculations.curing.salts import NITRATE_EXPRESSIONS, NITRITE_EXPRESSIONS
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import answer_to, request_for

CFR = "9 CFR 424.21(c), text of 2018"
HANDBOOK = "FSIS Directive 7620.3, 1995, as quoted by secondary pages"
RELATIVE = 1e-6
OZ_PER_LB = 16

LAID_ON = [
    # what, source, additive and green weight in one unit, ppm exactly
    ("1/4 oz nitrite to 100 lb chopped meat; printed as 156", CFR, 0.25, 100 * OZ_PER_LB, 156.25),
    ("2 3/4 oz nitrate to 100 lb chopped meat; 1718 from memory of the handbook", CFR, 2.75, 100 * OZ_PER_LB, 1718.75),
    ("3 1/2 oz nitrate to 100 lb, dry; 2187 from memory of the handbook", CFR, 3.5, 100 * OZ_PER_LB, 2187.5),
    ("7/8 oz erythorbate to 100 lb; 547 from memory", CFR, 0.875, 100 * OZ_PER_LB, 546.875),
    ("3/4 oz ascorbic acid to 100 lb; 469 on a secondary page", CFR, 0.75, 100 * OZ_PER_LB, 468.75),
    ("8 oz glucono delta-lactone to 100 lb is 0.5 percent", CFR, 8, 100 * OZ_PER_LB, 5000),
    ("16 oz glucono delta-lactone in Genoa salami is 1.0 percent", CFR, 16, 100 * OZ_PER_LB, 10000),
    ("1 oz of 6.25 percent cure to 25 lb; printed as 156", "home books and spice merchants", 0.0625, 400, 156.25),
    ("1.92 g of 6.25 percent cure to 1 kg", "public discussions", 1.92 * 0.0625, 1000, 120),
    ("1/8 teaspoon weighed as 0.70 g to 454 g; printed as 96", "public discussion", 0.7 * 0.0625, 454, 96.3656388),
    ("2 oz saltpetre in a rub on 108 lb; printed as 1157", "public discussion, 2005", 56.699, 48987.936, 1157.4074074),
    ("20 g of 0.55 percent nitrited salt to 1 kg of mix", "butcher-supply page", 20 * 0.0055, 1000, 110),
    ("200 ppm is 0.32 oz to 100 lb", "Health Canada list, scan", 0.32, 100 * OZ_PER_LB, 200),
    ("120 ppm is 0.192 oz to 100 lb; printed, truncated, as 0.19", "supplier page", 0.192, 100 * OZ_PER_LB, 120),
]


@pytest.mark.parametrize(("what", "source", "additive", "green", "ppm"), LAID_ON)
def test_additive_laid_on_or_mixed_in(what: str, source: str, additive: float, green: float, ppm: float) -> None:
    """The dry and comminuted formula gives the figure of the law and of published examples."""
    assert ingoing_ppm(additive_g=additive, green_g=green) == pytest.approx(ppm, rel=RELATIVE), (what, source)


FROM_PICKLE = [
    # what, source, additive, pickle, pump, ppm
    (
        "2 lb nitrite to 100 gal at 10 lb/gal, 10 percent pump",
        CFR,
        2,
        1000,
        0.10,
        200,
    ),
    (
        "87.5 oz erythorbate to 100 gal at 10 lb/gal, 10 percent pump; 547 from memory",
        CFR,
        87.5 / 16,
        1000,
        0.10,
        546.875,
    ),
    (
        "32 g of 5.88 percent cure in 1,266 g of brine, 10 percent pump; printed 148.6256",
        HANDBOOK,
        32 * 0.0588,
        1266,
        0.10,
        148.6255924,
    ),
    (
        "3 oz of 6.25 percent cure per gallon of water; printed, truncated, as 140",
        "one-page sheet",
        0.1875 * 0.0625,
        8.33,
        0.10,
        140.6812725,
    ),
    (
        "4 oz of 6.25 percent cure per gallon of water; printed as 188",
        "one-page sheet",
        0.25 * 0.0625,
        8.33,
        0.10,
        187.57503,
    ),
    (
        "50 lb of 0.75 percent cure in 478.6875 lb, 20 percent pump",
        "processor page, 2006, redone",
        50 * 0.0075,
        478.6875,
        0.20,
        156.6784175,
    ),
]


@pytest.mark.parametrize(("what", "source", "additive", "pickle", "pump", "ppm"), FROM_PICKLE)
def test_additive_from_a_pumped_pickle(
    what: str, source: str, additive: float, pickle: float, pump: float, ppm: float
) -> None:
    """The pump formula gives published answers when every ingredient of the pickle is weighed."""
    reading = ingoing_from_pickle_ppm(additive_g=additive, pickle_g=pickle, uptake_fraction=pump)

    assert reading == pytest.approx(ppm, rel=RELATIVE), (what, source)


def test_pump_inverse() -> None:
    """120 ppm at 20 percent pump in 100 lb of brine takes 0.06 lb of nitrite (worked example of a processor)."""
    nitrite = curing_salt_for_ppm_g(target_ppm=120, pickle_g=100, uptake_fraction=0.2, strength_fraction=1)

    assert nitrite == pytest.approx(0.06, rel=RELATIVE)


def test_published_immersion_example_overshoots() -> None:
    """A published brisket brine counts the meat's own water twice: its dose is 172.6 ppm, not the 150 it promises."""
    meat_lb, pickle_lb, published_lb = 8, 25 + 0.91 + 0.60, 0.0059565

    reading = ingoing_at_equilibrium_ppm(additive_g=published_lb, green_g=meat_lb, pickle_g=pickle_lb)

    assert reading == pytest.approx(172.6, abs=0.05)
    assert 150 * (meat_lb + pickle_lb) / 1e6 == pytest.approx(0.0051765, rel=RELATIVE)


WRONG = [
    (
        "a cooking blog: 0.60 percent of 6.25 percent cure is 347.4 ppm",
        0.006 * 0.0625,
        1,
        347.4,
        375.0,
    ),
    (
        "a discussion: 108 g of 0.76 percent cure on 9 lb keeps 200 ppm",
        108 * 0.0076,
        4086,
        200,
        200.881057,
    ),
    (
        "a supplier: 70 g of celery powder to 25 lb reaches 100 ppm",
        70 * 0.0114942528735632,
        25 * 453.59237,
        100,
        70.9533717,
    ),
    (
        "9 CFR 424.21(c) prints 1 oz to 100 lb of fumaric acid as 0.065 percent",
        1,
        1600,
        650,
        625,
    ),
]


@pytest.mark.parametrize(("what", "additive", "green", "published", "exact"), WRONG)
def test_wrong_published_answers(what: str, additive: float, green: float, published: float, exact: float) -> None:
    """Some published answers are wrong; the formula does not bend to them."""
    reading = ingoing_ppm(additive_g=additive, green_g=green)

    assert reading == pytest.approx(exact, rel=RELATIVE), what
    assert reading != pytest.approx(published, rel=1e-4), what


FACTORS = [
    ("sodium nitrite to nitrite ion, published 0.67", NITRITE_EXPRESSIONS["sodium_nitrite"]["nitrite_ion"], 0.666792),
    ("sodium nitrate to nitrate ion, published 0.73", NITRATE_EXPRESSIONS["sodium_nitrate"]["nitrate_ion"], 0.7295149),
    ("saltpetre to nitrate ion, published 0.61", NITRATE_EXPRESSIONS["potassium_nitrate"]["nitrate_ion"], 0.6132833),
]


@pytest.mark.parametrize(("what", "factor", "exact"), FACTORS)
def test_ion_factors(what: str, factor: float, exact: float) -> None:
    """Ion factors agree with Regulation (EU) 2023/2108's two decimals and with the molar masses."""
    assert factor == pytest.approx(exact, rel=RELATIVE), what


DOSES: list[tuple[str, dict[str, Any], float]] = [
    (
        "1 oz to 25 lb (home books): 156.25 ppm",
        {
            "product": {"kind": "sausage", "species": "pork"},
            "method": {"kind": "comminuted"},
            "meat": {"value": 25, "unit": "lb"},
            "target": {"kind": "ingoing_nitrite", "ppm": 156.25},
        },
        28.349523125,
    ),
    (
        "625 ppm of 6.25 percent cure per lb, printed 4.5 g (handbook p. 24, quoted)",
        {
            "method": {"kind": "dry"},
            "meat": {"value": 1, "unit": "lb"},
            "target": {"kind": "ingoing_nitrite", "ppm": 625},
            "scale_step": {"value": 0.01, "unit": "g"},
        },
        4.5359237,
    ),
    (
        "200 ppm of 6.25 percent cure per lb, printed 1.45 g (same)",
        {
            "method": {"kind": "dry"},
            "meat": {"value": 1, "unit": "lb"},
            "target": {"kind": "ingoing_nitrite", "ppm": 200},
            "scale_step": {"value": 0.01, "unit": "g"},
        },
        1.4514956,
    ),
    (
        "0.25 percent of 4,536 g, printed 11.34 g and 156 ppm (public discussion)",
        {
            "product": {"kind": "sausage", "species": "beef"},
            "method": {"kind": "comminuted"},
            "meat": {"value": 4536, "unit": "g"},
            "target": {"kind": "curing_salt", "percent": 0.25},
        },
        11.34,
    ),
    (
        "9 lb belly at 454 g/lb, 200 ppm, 0.76 percent cure: 107.53 g, printed rounded up to 108 (public discussion)",
        {
            "product": {"kind": "bacon", "skin": "off"},
            "method": {"kind": "dry"},
            "meat": {"value": 4086, "unit": "g"},
            "curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 0.76}},
            "target": {"kind": "ingoing_nitrite", "ppm": 200},
        },
        107.5263158,
    ),
    (
        "8 lb brisket in 25 lb water and 1.51 lb salt and sugar, 150 ppm: a published brine, reckoned strictly",
        {
            "meat": {"value": 8, "unit": "lb"},
            "method": {"kind": "immersion", "water": {"value": 25, "unit": "lb"}, "basis": {"kind": "equilibrium"}},
            "dissolved_ingredients": {"value": 1.51, "unit": "lb"},
        },
        150 * (8 + 26.51) / (0.0625e6 - 150) * 453.59237,
    ),
    (
        "10,510 g meat, 20,000 g water, 2,055 g salt and sugar, 156 ppm of everything, printed 81.4 g (discussion)",
        {
            "product": {"kind": "corned_beef", "cut": "brisket"},
            "meat": {"value": 10510, "unit": "g"},
            "method": {"kind": "immersion", "water": {"value": 20000, "unit": "g"}, "basis": {"kind": "equilibrium"}},
            "dissolved_ingredients": {"value": 2055, "unit": "g"},
            "target": {"kind": "ingoing_nitrite", "ppm": 156},
        },
        156 * 32565 / (0.0625e6 - 156),
    ),
]


@pytest.mark.parametrize(("what", "changes", "cure_g"), DOSES, ids=[row[0][:30] for row in DOSES])
def test_published_doses(book: RuleBook, what: str, changes: dict[str, Any], cure_g: float) -> None:
    """A dose agrees with a published one before rounding, and is never more after it."""
    answer = answer_to(book, request_for(**changes))
    cure = answer.weigh[0]

    assert cure.exact_g == pytest.approx(cure_g, rel=RELATIVE), what
    assert cure.amount.value <= cure_g


def test_skin_on_handbook_tenth() -> None:
    """Skin counts as a tenth: 120 ppm without skin is 108 ppm on the belly with it (handbook ch. 3, quoted)."""
    assert ingoing_ppm(additive_g=120e-6 * 0.9, green_g=1) == pytest.approx(108, rel=RELATIVE)
