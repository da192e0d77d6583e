"""Kitchen measures against figures printed outside the project, the source beside each."""

from typing import Any

import pytest

from service.calculations.measures.weigh import WeighAnswer, WeighRequest, weigh
from service.rules.book import RuleBook

SR28 = "USDA National Nutrient Database for Standard Reference, Release 28, weight file"
LABELS = "USDA FoodData Central, Branded Foods, household servings on labels"
DISCUSSION = "public discussion, weighings"
POUND_G = 453.59237


def weighed(book: RuleBook, **what: Any) -> WeighAnswer:
    """The answer to what is measured."""
    return weigh(WeighRequest.model_validate({"what": what}), book)


def a(book: RuleBook, id: str, value: float, unit: str) -> WeighAnswer:
    """So much of an ingredient by volume."""
    return weighed(book, kind="by_volume", ingredient=id, volume={"value": value, "unit": unit})


@pytest.mark.parametrize(
    ("id", "value", "unit", "printed_g", "source"),
    [
        ("table-salt", 1, "cup", 292, f"{SR28}, 02047"),
        ("table-salt", 1, "tbsp", 18, f"{SR28}, 02047"),
        ("table-salt", 1, "tsp", 6, f"{SR28}, 02047"),
        ("light-flake-kosher-salt", 1, "cup", 135, f"{LABELS}, 2.8 g to the teaspoon"),
        ("coarse-kosher-salt", 1, "cup", 240, f"{LABELS}, 4.8 g to the teaspoon"),
        ("pickling-salt", 1, "cup", 4 * 74, f"{DISCUSSION}, a quarter cup is 74 g"),
        ("granulated-sugar", 1, "cup", 200, f"{SR28}, 19335"),
        ("brown-sugar-packed", 0.5, "cup", 110, f"{SR28}, 19334"),
        ("honey", 2, "tbsp", 42, f"{SR28}, 19296"),
        ("black-pepper-ground", 1, "tsp", 2.3, f"{SR28}, 02030"),
        ("bouillon", 2, "tbsp", 24, f"{LABELS}, 4.0 g to the teaspoon"),
        ("water", 1, "gal", 3779, "8.33 lb to the US gallon, rounded"),
    ],
)
def test_a_measure_weighs_what_is_printed(
    book: RuleBook, id: str, value: float, unit: str, printed_g: float, source: str
):
    """The typical weight is the figure that was printed for the measure, and lies in the band."""
    weight = a(book, id, value, unit).weight

    assert weight.typical == pytest.approx(printed_g, rel=5e-4), source
    assert weight.low <= printed_g <= weight.high


@pytest.mark.parametrize(
    ("id", "quarter_cup_g"),
    [
        ("table-salt", 76.0),
        ("light-flake-kosher-salt", 45.2),
        ("coarse-kosher-salt", 62.0),
        ("fine-sea-salt", 64.8),
        ("flaky-sea-salt", 33.2),
    ],
)
def test_a_weighed_quarter_cup_lies_in_the_band(book: RuleBook, id: str, quarter_cup_g: float):
    """Public discussion: weights of a quarter US cup of salts. The band holds the kitchens that differ from a table."""
    weight = a(book, id, 0.25, "cup").weight

    assert weight.low <= quarter_cup_g <= weight.high


def test_stock_powder_brings_salt(book: RuleBook):
    """FoodData Central, median of 319 labels: 22,750 mg of sodium is 57.8 g of salt; two tablespoons bring 13.9 g."""
    answer = a(book, "bouillon", 2, "tbsp")

    assert answer.salt_equivalent is not None
    assert answer.salt_equivalent.typical == pytest.approx(13.9, abs=0.05)
    assert answer.salt_equivalent.typical == pytest.approx(24 * 0.578, abs=0.01)


def test_one_kosher_salt_is_not_another(book: RuleBook):
    """Labels: 2.8 against 4.8 g to the teaspoon, 1.7 times."""
    light, compacted = (
        a(book, id, 1, "tsp").weight.typical for id in ("light-flake-kosher-salt", "coarse-kosher-salt")
    )

    assert light is not None
    assert compacted is not None
    assert compacted / light == pytest.approx(1.7, abs=0.05)


def test_flake_salt_for_table_salt_by_the_cup_is_half(book: RuleBook):
    """SR28 292 g and label 135 g to the cup: by volume the salt is short by half, by weight it takes 2.16 cups."""
    cup = {"value": 1, "unit": "cup"}
    swap = weighed(book, kind="by_volume", ingredient="table-salt", volume=cup, swap_for="light-flake-kosher-salt").swap

    assert swap is not None
    assert swap.error.typical_percent == pytest.approx(100 * (135 / 292 - 1), abs=0.01)
    assert swap.error.low_percent < swap.error.typical_percent < swap.error.high_percent < 0
    assert swap.same_weight.typical == pytest.approx(292 / 135, abs=1e-3)
    assert swap.same_volume.typical == 135


def of_curing_salt(book: RuleBook, value: float, *, meat_lb: float) -> WeighAnswer:
    """A spoon of curing salt of 6.25 percent in so much meat."""
    return weighed(
        book,
        kind="curing_salt_by_volume",
        volume={"value": value, "unit": "tsp"},
        curing_salt={"nitrite": {"salt": "sodium_nitrite", "percent": 6.25}},
        meat={"value": meat_lb, "unit": "lb"},
    )


@pytest.mark.parametrize(("spoon_g", "ppm"), [(5.2, 143), (5.67, 156), (6.67, 184), (7.1, 196), (7.5, 207)])
def test_every_teaspoon_that_was_weighed_lies_in_the_band(book: RuleBook, spoon_g: float, ppm: float):
    """Public discussion: a level teaspoon in 5 lb was 143 ppm in one kitchen and 207 ppm in another."""
    answer = of_curing_salt(book, 1, meat_lb=5)

    assert answer.ingoing_nitrite is not None
    assert ppm == pytest.approx(spoon_g * 0.0625 / (5 * POUND_G) * 1e6, abs=0.6)
    assert answer.ingoing_nitrite.low_ppm <= ppm <= answer.ingoing_nitrite.high_ppm
    assert answer.weight.low <= spoon_g <= answer.weight.high


def test_an_eighth_of_a_teaspoon_to_the_pound(book: RuleBook):
    """Public discussion: 1/8 tsp of 0.70 g to the pound of meat is 96 ppm."""
    answer = of_curing_salt(book, 0.125, meat_lb=1)

    assert answer.ingoing_nitrite is not None
    by_hand_ppm = 0.70 * 0.0625 / POUND_G * 1e6
    assert by_hand_ppm == pytest.approx(96, abs=0.6)
    assert answer.ingoing_nitrite.low_ppm <= 96 <= answer.ingoing_nitrite.high_ppm


def test_a_clove_and_a_leaf(book: RuleBook):
    """SR28, 11215: a clove of garlic is 3 g. Labels: a bay leaf is 0.2 to 0.5 g. A cinnamon stick: 1.3 to 12.2 g."""
    clove = weighed(book, kind="by_piece", ingredient="garlic-clove", count=4).weight
    leaf = weighed(book, kind="by_piece", ingredient="bay-leaf", count=2).weight
    stick = weighed(book, kind="by_piece", ingredient="cinnamon-stick", count=1).weight

    assert clove.typical == 12
    assert (leaf.low, leaf.high) == (0.4, 1.0)
    assert stick.high / stick.low > 9
