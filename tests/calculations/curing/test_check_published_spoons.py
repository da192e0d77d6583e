"""Published spoons, cups and weights afterwards, read by the whole check."""

from typing import Any

import pytest

from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import DRY, STRONG_SALT
from tests.calculations.curing.written import (
    EQUILIBRIUM,
    amount,
    codes,
    finding_on,
    line,
    pumped,
    reading_of,
    recipe,
    salt_of,
    sausage,
    soaked,
    told,
)

SPOONS = [
    # what and where it is published, measure, meat, published weights of the measure
    ("1 tsp to 5 lb: spoons of 5.2 to 7.5 g are 143 to 207 ppm (discussions)", (1, "tsp"), (5, "lb"), (5.2, 7.5)),
    ("1/8 tsp of 0.70 g to the pound: 96 ppm (discussion)", (0.125, "tsp"), (454, "g"), (0.7, 0.7)),
    ("a tablespoon: 17 g level, 26 g heaped (discussion)", (1, "tbsp"), (9, "kg"), (17, 26)),
    ("5 tsp are an ounce (spice merchant)", (5, "tsp"), (25, "lb"), (28.349523125, 28.349523125)),
]


@pytest.mark.parametrize(("what", "spoon", "meat", "weights_g"), SPOONS, ids=[row[0][:28] for row in SPOONS])
def test_every_published_spoon_lies_in_the_band(
    book: RuleBook, what: str, spoon: tuple[Any, ...], meat: tuple[Any, ...], weights_g: tuple[float, float]
) -> None:
    """What a published spoon weighs, and the ppm it comes to, lie between the least and the most of the check."""
    body = sausage(meat=amount(*meat), curing_salts=[salt_of(STRONG_SALT, *spoon)])

    answer = told(book, body)
    weighed = [told(book, {**body, "curing_salts": [salt_of(STRONG_SALT, each)]}) for each in weights_g]

    weight, band = answer.figures.lines[0].weight, reading_of(answer, "on_the_meat")
    assert weight is not None
    assert weight.low <= weights_g[0] <= weights_g[1] <= weight.high, what
    for one in weighed:
        exact = reading_of(one, "on_the_meat")
        assert exact.low == exact.high
        assert band.low <= exact.high <= band.high, what


def test_teaspoon_to_five_pounds(book: RuleBook) -> None:
    """5.2 g are 143 ppm and keep the limit, 7.5 g are 207 and break it: of the spoon alone nobody can tell."""
    spooned = sausage(meat=amount(5, "lb"), curing_salts=[salt_of(STRONG_SALT, 1, "tsp")])
    light, heavy = ({**spooned, "curing_salts": [salt_of(STRONG_SALT, grams)]} for grams in (5.2, 7.5))

    answers = [told(book, body) for body in (spooned, light, heavy)]

    figures = [reading_of(one, "on_the_meat").high for one in answers[1:]]
    assert figures == [pytest.approx(143.3, abs=0.05), pytest.approx(206.7, abs=0.05)]
    verdicts = [finding_on(one, "us-nitrite-comminuted-max").verdict for one in answers]
    assert verdicts == ["cannot_tell", "met", "not_met"]
    assert "weigh-not-spoon" in {one.id for one in answers[0].cautions}


CUPS = [("light-flake-kosher-salt", 135), ("coarse-kosher-salt", 240), ("table-salt", 292)]
"""A cup of salt in grams (package panels and a food-composition table, as a public discussion compares them)."""


@pytest.mark.parametrize(("crystal", "cup_g"), CUPS)
def test_a_cup_of_salt(book: RuleBook, crystal: str, cup_g: float) -> None:
    """A cup of a named crystal has its published weight in its band; of a crystal that is not named, all have."""
    named, unnamed = (told(book, recipe(ingredients=[line(name, 1, "cup")])) for name in (crystal, "salt"))

    bands = [one.figures.lines[1].weight for one in (named, unnamed)]

    for band in bands:
        assert band is not None
        assert band.low <= cup_g <= band.high
    assert bands[0] != bands[1]


@pytest.mark.parametrize(
    ("stated", "salt_g"),
    [({}, 13.9), ({"salt_percent": 37}, 24 * 0.37), ({"salt_percent": 66}, 24 * 0.66)],
    ids=["median of labels", "least", "most"],
)
def test_stock_powder_brings_salt(book: RuleBook, stated: dict[str, Any], salt_g: float) -> None:
    """24 g of stock powder bring 13.9 g of salt (label median 57.8 percent, range 37 to 66; sodium x 2.54)."""
    plain, salty = recipe(ingredients=[]), recipe(ingredients=[line("bouillon", 24, **stated)])

    answer = told(book, salty)

    salt = answer.figures.lines[1].salt
    assert salt is not None
    assert salt.low == salt.high == pytest.approx(salt_g, abs=0.05)
    assert "salt_in_seasonings" in codes(answer)
    assert "salt_in_seasonings" not in codes(told(book, plain))


def test_two_spoons_of_stock_powder(book: RuleBook) -> None:
    """Two tablespoons are 24 g (label servings, as a public discussion adds them up)."""
    weight = told(book, recipe(ingredients=[line("bouillon", 2, "tbsp")])).figures.lines[1].weight

    assert weight is not None
    assert weight.low <= 24 <= weight.high


def corned(cut: str, **weights: tuple[float, str]) -> dict[str, Any]:
    """10 lb of corned beef from the brine, with weights afterwards."""
    return recipe(
        product={"kind": "corned_beef", "cut": cut, "finish": "cooked"},
        meat=amount(10, "lb"),
        method=soaked(amount(6, "lb"), EQUILIBRIUM),
        curing_salts=[salt_of(STRONG_SALT, 17)],
        weights={name: amount(*weight) for name, weight in weights.items()},
    )


WEIGHTS = [
    ("9 CFR 319.101: brisket may gain 20 percent", corned("brisket", cured=(12.0, "lb")), "brisket-gain", 120, "met"),
    ("at 121 percent of green weight", corned("brisket", cured=(12.1, "lb")), "brisket-gain", 121, "not_met"),
    ("9 CFR 319.102: other cuts may gain 10 percent", corned("round", cured=(11.0, "lb")), "other-gain", 110, "met"),
    ("eye of round at 111 percent", corned("round", cured=(11.1, "lb")), "other-gain", 111, "not_met"),
    ("9 CFR 319.101: cooked, not over green", corned("brisket", finished=(10.0, "lb")), "brisket-cooked", 100, "met"),
    ("cooked at 100.5", corned("brisket", finished=(10.05, "lb")), "brisket-cooked", 100.5, "not_met"),
    ("9 CFR 319.102: pieces of 1 lb", corned("round", smallest_piece=(1, "lb")), "piece", 1, "met"),
    ("a smaller piece", corned("round", smallest_piece=(15.9, "oz")), "piece", 15.9 / 16, "not_met"),
]


@pytest.mark.parametrize(("what", "body", "rule", "weight", "verdict"), WEIGHTS, ids=[row[0][:34] for row in WEIGHTS])
def test_weights_afterwards(
    book: RuleBook, what: str, body: dict[str, Any], rule: str, weight: float, verdict: str
) -> None:
    """What the scale says of corned beef is held against its standard of identity."""
    answer = told(book, body)
    finding = finding_on(answer, f"us-cornedbeef-{rule}")

    figure = finding.figure
    assert figure == pytest.approx(weight - 100 if rule.endswith("gain") else weight, rel=1e-6), what
    assert finding.verdict == verdict, what
    if verdict == "not_met":
        assert answer.verdicts.afterwards == "not_met", what


def test_added_solution_is_of_the_raw_meat(book: RuleBook) -> None:
    """15 lb of solution into 100 lb of raw meat is 15 percent (9 CFR 317.2(e)(2)(i), one of its illustrations)."""
    told_by_scale = recipe(meat=amount(100, "lb"), method=DRY, weights={"cured": amount(115, "lb")})
    told_by_pump = recipe(meat=amount(100, "lb"), method=pumped(amount(20, "lb"), 15))

    gains = [told(book, body).figures.weight_gain_percent for body in (told_by_scale, told_by_pump)]

    assert gains == [pytest.approx(15.0), pytest.approx(15.0)]
