"""Published pickles that leave something out of their own weight: both numbers, and why they differ.

The check weighs everything that is dissolved in a pickle, the curing salt included. Many published sums divide by the
water alone, or leave the curing salt out; each row gives the published figure and the one that is strictly true.
"""

from typing import Any

import pytest

from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import LOIN, STRONG_SALT
from tests.calculations.curing.written import (
    EQUILIBRIUM,
    NEAT,
    amount,
    finding_on,
    line,
    pumped,
    reading_of,
    recipe,
    salt_of,
    soaked,
    told,
)

RELATIVE = 1e-6
SHEET = "one-page sheet applying the handbook"
FOUR_DECIMALS = 5e-5
"""Percentages are shown with four decimals."""
GALLON_LB = 8.33


def pickle(water: dict[str, Any], cure: dict[str, Any], *lines: dict[str, Any], **changes: Any) -> dict[str, Any]:
    """A pound of meat, pumped to 10 percent with a little of a pickle, of which the rest is thrown away."""
    body = {"meat": amount(1, "lb"), "method": pumped(water, 10), "curing_salts": [cure], "ingredients": list(lines)}
    return recipe(**{**body, **changes})


WATER_ALONE = [
    # what and where it is published, curing salt and water in one unit, unit, reading, published, strictly
    (
        "2 lb nitrite to 100 gal at 10 lb to the gallon (9 CFR 424.21(c), text of 2018)",
        (NEAT, 2, 1000, "lb"),
        200.0,
        2e5 / 1002,
    ),
    (
        f"3 oz of 6.25 percent cure per gallon of water, printed, truncated, as 140 ({SHEET})",
        (STRONG_SALT, 0.1875, GALLON_LB, "lb"),
        140.6812725,
        0.1875 * 0.0625 * 1e5 / (GALLON_LB + 0.1875),
    ),
    (
        f"4 oz of 6.25 percent cure per gallon of water, printed as 188 ({SHEET})",
        (STRONG_SALT, 0.25, GALLON_LB, "lb"),
        187.57503,
        0.25 * 0.0625 * 1e5 / (GALLON_LB + 0.25),
    ),
]


@pytest.mark.parametrize(
    ("what", "made_of", "published", "strict"), WATER_ALONE, ids=[row[0][:30] for row in WATER_ALONE]
)
def test_pumped_pickles_reckoned_on_water(
    book: RuleBook, what: str, made_of: tuple[Any, ...], published: float, strict: float
) -> None:
    """With the curing salt in the pickle the figure is a little lower; with so much less water it is as published."""
    label, cure, water, unit = made_of

    counted = reading_of(told(book, pickle(amount(water, unit), salt_of(label, cure, unit))), "pumped")
    less_water = reading_of(told(book, pickle(amount(water - cure, unit), salt_of(label, cure, unit))), "pumped")

    assert counted.low == counted.high == pytest.approx(strict, rel=RELATIVE), what
    assert less_water.low == less_water.high == pytest.approx(published, rel=RELATIVE), what
    assert counted.high < published, what


def test_water_alone_hides_too_little(book: RuleBook) -> None:
    """140.68 ppm on water alone is 119.98 with 1.25 lb of salt and sugar: under the 120 that it seems to keep."""
    water, cure = amount(GALLON_LB, "lb"), salt_of(STRONG_SALT, 3, "oz")
    sweet_salt = (line("pickling-salt", 0.8, "lb"), line("granulated-sugar", 0.45, "lb"))

    whole = told(book, pickle(water, cure, *sweet_salt))
    silent = told(book, pickle(water, cure, ingredients=None))

    assert finding_on(whole, "us-nitrite-keeprefrigerated-min").figure == pytest.approx(
        0.1875 * 0.0625 * 1e5 / (GALLON_LB + 0.1875 + 1.25), rel=RELATIVE
    )
    assert finding_on(whole, "us-nitrite-keeprefrigerated-min").verdict == "not_met"
    assert finding_on(silent, "us-nitrite-keeprefrigerated-min").verdict == "cannot_tell"


def test_parts_per_million_of_water_are_not_those_of_meat(book: RuleBook) -> None:
    """6 g (6.0288) of cure for 100 ppm in 8.3 lb of water (public discussion) are 71 ppm in 1.5 kg of meat."""
    method = soaked(amount(3768), EQUILIBRIUM)

    answer = told(book, pickle(amount(3768), salt_of(STRONG_SALT, 6.0288), meat=amount(1500), method=method))

    in_pickle, in_meat = reading_of(answer, "pickle"), reading_of(answer, "equilibrium")
    assert in_pickle.high * (3768 + 6.0288) / 3768 == pytest.approx(100, rel=RELATIVE)
    assert in_meat.high * (3768 + 6.0288 + 1500) / 3768 == pytest.approx(100, rel=RELATIVE)
    assert (in_pickle.decides, in_meat.decides) == (False, True)


def test_heaped_spoon_in_a_gallon(book: RuleBook) -> None:
    """26 g of cure: 429.7 ppm of a gallon of water, 396.7 with salt and cure in it (public discussion)."""
    water, cure = amount(3781.82), salt_of(STRONG_SALT, 26)

    alone = reading_of(told(book, pickle(water, cure)), "pickle").high
    salted = told(book, pickle(water, cure, line("pickling-salt", 288)))

    assert alone == pytest.approx(26 * 0.0625e6 / (3781.82 + 26), rel=RELATIVE)
    assert alone * (3781.82 + 26) / 3781.82 == pytest.approx(429.6872934, rel=RELATIVE)
    assert reading_of(salted, "pickle").high == pytest.approx(26 * 0.0625e6 / 4095.82, rel=RELATIVE)
    assert reading_of(salted, "pickle").high == pytest.approx(396.7, abs=0.05)


def test_salt_of_that_brine(book: RuleBook) -> None:
    """Published, truncated, as 7.66 percent: it takes the whole cure for salt. A sixteenth of it is nitrite."""
    water = amount(3781.82)

    counted = told(book, pickle(water, salt_of(STRONG_SALT, 26), line("pickling-salt", 288))).figures.pickle_salt
    plain = told(book, pickle(water, salt_of(STRONG_SALT, 0.001), line("pickling-salt", 314))).figures.pickle_salt

    assert counted is not None
    assert plain is not None
    assert counted.high == pytest.approx(100 * (288 + 26 * 0.9375) / 4095.82, abs=FOUR_DECIMALS)
    assert plain.high == pytest.approx(7.6663525, abs=FOUR_DECIMALS)


BRISKET_BRINE = {
    "meat": amount(8, "lb"),
    "method": soaked(amount(25, "lb"), EQUILIBRIUM),
    "ingredients": [line("pickling-salt", 0.91, "lb"), line("granulated-sugar", 0.60, "lb")],
}
"""8 lb of brisket, 3 gal of water as 25 lb, 0.91 salt, 0.60 sugar (worked example on an archived page)."""


@pytest.mark.parametrize(
    ("nitrite_lb", "without_the_cure"),
    [(0.0059565, 172.6), (0.0051765, 150.0)],
    ids=["as published, for 150", "done strictly"],
)
def test_brisket_brine(book: RuleBook, nitrite_lb: float, without_the_cure: float) -> None:
    """The published dose counts the meat's own water twice and gives 172.6, not 150; the cure in it makes 172.1."""
    cure_lb = nitrite_lb / 0.0625
    body = recipe(**BRISKET_BRINE, curing_salts=[salt_of(STRONG_SALT, cure_lb, "lb")])

    found = reading_of(told(book, body), "equilibrium")

    assert found.low == found.high == pytest.approx(nitrite_lb * 1e6 / (8 + 26.51 + cure_lb), rel=RELATIVE)
    assert found.high * (8 + 26.51 + cure_lb) / (8 + 26.51) == pytest.approx(without_the_cure, abs=0.05)


BUCKET = {
    "meat": amount(10510),
    "product": {"kind": "corned_beef", "cut": "brisket"},
    "ingredients": [line("pickling-salt", 1200), line("granulated-sugar", 855)],
}
"""10,510 g meat, 20,000 g water, 1,200 salt, 855 sugar; 26.3, 76.3 or 81.4 g of cure for 156 ppm (discussion)."""


@pytest.mark.parametrize(
    ("cure_g", "reading", "divided_by_g", "everything_g"),
    [
        (26.3, "on_the_meat", 10510, 10510),
        (76.3, "meat_and_water", 30510, 30510),
        (81.4, "equilibrium", 32565, 32565 + 81.4),
    ],
    ids=["on the meat", "on meat and water", "on everything"],
)
def test_one_bucket_three_doses(
    book: RuleBook, cure_g: float, reading: str, divided_by_g: float, everything_g: float
) -> None:
    """Each of three published doses is 156 ppm by one way of dividing; the check shows all ways side by side."""
    body = recipe(**BUCKET, method=soaked(amount(20000)), curing_salts=[salt_of(STRONG_SALT, cure_g)])

    answer = told(book, body)

    found = reading_of(answer, reading).high
    assert found == pytest.approx(cure_g * 0.0625e6 / everything_g, rel=RELATIVE)
    assert found * everything_g / divided_by_g == pytest.approx(156.25, rel=1e-3)
    assert {"on_the_meat", "meat_and_water", "equilibrium", "pick_up"} <= {
        one.reading for one in answer.figures.readings
    }
    assert finding_on(answer, "us-nitrite-pickled-max").verdict == "cannot_tell"


def test_salt_of_the_bucket(book: RuleBook) -> None:
    """1,200 g of salt in meat and water is 3.93 percent, not the 6 that it is of the water (public discussion)."""
    cure_g = 81.4
    body = recipe(**BUCKET, method=soaked(amount(20000), EQUILIBRIUM), curing_salts=[salt_of(STRONG_SALT, cure_g)])

    salt = told(book, body).figures.salt_in_piece

    assert salt is not None
    of_meat_and_water = salt.high * (32565 + cure_g) / 30510 - 100 * 0.9375 * cure_g / 30510
    assert of_meat_and_water == pytest.approx(3.93, abs=0.005)
    assert salt.high == pytest.approx(100 * (1200 + 0.9375 * cure_g) / (32565 + cure_g), abs=FOUR_DECIMALS)
    assert salt.high < 4


def test_all_of_a_pickle_pumped(book: RuleBook) -> None:
    """1,000 g meat, 100 water, 17.5 salt, 2.5 cure: 156.3 ppm on green weight, 139.5 on pumped (public discussion)."""
    body = recipe(
        meat=amount(1000),
        product={**LOIN, "finish": "cooked"},
        method=pumped(amount(100), 12),
        curing_salts=[salt_of(STRONG_SALT, 2.5)],
        ingredients=[line("pickling-salt", 17.5)],
    )

    answer, canadian = told(book, body), told(book, {**body, "jurisdiction": "CA"})

    assert finding_on(answer, "us-nitrite-pickled-max").figure == pytest.approx(156.25, rel=RELATIVE)
    assert finding_on(canadian, "ca-nitrite-max").figure == pytest.approx(156.25 / 1.12, rel=RELATIVE)
    assert finding_on(canadian, "ca-nitrite-max").figure == pytest.approx(139.5, abs=0.05)
    assert answer.figures.weight_gain_percent == pytest.approx(12)
    salt = answer.figures.salt_in_piece
    assert salt is not None
    assert salt.high == pytest.approx(100 * (17.5 + 0.9375 * 2.5) / 1120, abs=FOUR_DECIMALS)
    assert salt.high + 100 * 0.0625 * 2.5 / 1120 == pytest.approx(1.79, abs=0.005)  # the cure taken for salt
