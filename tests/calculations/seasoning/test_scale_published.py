"""Scaled recipes against figures printed outside the project, the source beside each."""

from typing import Any

import pytest

from service.calculations.refusals import Impossible
from service.calculations.seasoning.scale import ScaleAnswer, ScaleRequest, scale
from service.rules.book import RuleBook
from tests.calculations.seasoning.scale_bodies import amount, limiting, line, meat_at_hand

EXTENSION = "a state university extension's file on preserving food, 1997: three sausage formulas for 25 lb"
SR28 = "USDA National Nutrient Database for Standard Reference, Release 28, weight file"
SR26 = "USDA SR Release 26 abbreviated file (2013), mg of sodium in 100 g"
LABELS = "USDA FoodData Central, Branded Foods, household servings on labels"
LB_G = 453.59237


def made_of(book: RuleBook, *lines: dict[str, Any], meat: Any, at_hand: list[dict[str, Any]]) -> ScaleAnswer:
    """The answer to a recipe."""
    return scale(ScaleRequest.model_validate({"meat": meat, "lines": list(lines), "at_hand": at_hand}), book)


def sausage(book: RuleBook, *lines: dict[str, Any]) -> ScaleAnswer:
    """A formula for 25 lb, made with ten."""
    return made_of(book, *lines, meat=amount(25, "lb"), at_hand=[meat_at_hand(10, "lb")])


@pytest.mark.parametrize(
    ("salts", "percent"),
    [
        ([line("table-salt", 0.75, "cup")], 1.93),
        ([line("table-salt", 1, "cup"), line("table-salt", 2, "tbsp")], 2.89),
        ([line("table-salt", 1.25, "cup"), line("table-salt", 1, "tbsp")], 3.38),
        ([line("light-flake-kosher-salt", 0.75, "cup")], 0.89),
    ],
    ids=["fresh", "summer", "salami", "fresh, of light flakes"],
)
def test_an_extension_recipe_keeps_its_salt(book: RuleBook, salts: list[dict[str, Any]], percent: float):
    """Table salt at 292 g to the cup and 18 g to the tablespoon (SR28), light flakes at 135 g (labels)."""
    told = sausage(book, *salts)

    assert told.salt.percent_of_meat.typical_percent == pytest.approx(percent, abs=0.0055), EXTENSION
    assert told.factor_ratio == pytest.approx(0.4)


@pytest.mark.parametrize("cure", ["curing-salt-6-25", "cure", "Curing salt"])
@pytest.mark.parametrize("unit", ["tbsp", "g"])
def test_its_spoons_of_curing_salt_are_refused(book: RuleBook, cure: str, unit: str):
    """Two tablespoons in 25 lb, 187 ppm at 17 g (the extension file): not scaled, by spoon or weight; dosed."""
    with pytest.raises(Impossible) as refused:
        sausage(book, line("table-salt", 1.125, "cup"), line(cure, 2, unit))

    assert refused.value.code == "carries_nitrite"
    assert "Line 2" in refused.value.reason
    assert "POST /v1/curing/dose" in str(refused.value.nearest)


def test_stock_powder_is_counted(book: RuleBook):
    """Median of 319 labels, 22,750 mg: two tablespoons are 24 g, and 13.9 g of salt."""
    told = made_of(book, line("bouillon", 2, "tbsp"), meat=amount(1, "kg"), at_hand=[meat_at_hand(1)])

    assert told.lines[0].weight.typical == 24
    assert told.salt.weight.typical == pytest.approx(13.9, abs=0.05)
    assert told.salt.sodium.typical == pytest.approx(24 * 0.2275, abs=0.005)


@pytest.mark.parametrize(
    ("id", "cup_g", "source"),
    [
        ("light-flake-kosher-salt", 135, f"{LABELS}, 2.8 g to the teaspoon"),
        ("coarse-kosher-salt", 240, f"{LABELS}, 4.8 g to the teaspoon"),
        ("table-salt", 292, f"{SR28}, 02047"),
    ],
)
def test_a_cup_of_salt_by_its_crystal(book: RuleBook, id: str, cup_g: float, source: str):
    """A cup is scaled in grams of that salt, never as a cup of another."""
    told = made_of(book, line(id, 3, "cup"), meat=amount(12, "kg"), at_hand=[limiting(id, 1, "cup")])

    assert told.lines[0].weight.typical == pytest.approx(cup_g), source
    assert told.salt.weight.typical == pytest.approx(cup_g)


@pytest.mark.parametrize(
    ("id", "sodium_mg", "source"),
    [
        ("bouillon-powder-beef", 26_000, SR26),
        ("bouillon-powder-chicken", 23_875, SR26),
        ("broth-cube-beef", 24_000, SR26),
        ("broth-cube-chicken", 24_000, SR26),
        ("bouillon-low-sodium", 1_067, SR26),
        ("celery-salt", 32_857, f"{LABELS}, median: 33 g to 100 g"),
        ("chilli-powder-blend", 2_867, "SR Legacy; 2.9 to 4.0 g to 100 g"),
    ],
)
def test_sodium_that_hides_in_powders(book: RuleBook, id: str, sodium_mg: float, source: str):
    """100 g of each, with the sodium that is printed, and 2.542 times as much salt."""
    told = made_of(book, line(id, 100, "g"), meat=amount(1, "kg"), at_hand=[meat_at_hand(1)])

    assert told.salt.sodium.typical == pytest.approx(sodium_mg / 1000, rel=1e-5), source
    assert told.salt.weight.typical == pytest.approx(sodium_mg / 1000 * 2.542, rel=2e-4)
    assert told.salt.of_salts.typical == 0


def test_a_brine_scaled_to_two_cups_is_as_salty(book: RuleBook):
    """Public discussion, 2020: a gallon of brine made with two cups was bland. A cup of table salt to a gallon.

    292 g to 16 cups of 236.2 g of water (SR28) is 7.17 percent; an eighth of both is the same brine.
    """
    brine = [line("water", 1, "gal"), line("table-salt", 1, "cup"), line("bay-leaf", 4)]
    meat = amount(3, "kg")

    whole, less = (made_of(book, *brine, meat=meat, at_hand=[limiting("water", cups, "cup")]) for cups in (16, 2))

    assert less.factor_ratio == pytest.approx(1 / 8)
    assert less.lines[1].weight.typical == pytest.approx(292 / 8)
    assert whole.liquid is not None
    assert whole.liquid.brine_strength == less.liquid.brine_strength  # type: ignore[union-attr]
    assert whole.liquid.brine_strength is not None
    assert whole.liquid.brine_strength.typical_percent == pytest.approx(100 * 292 / (292 + 16 * 236.2), abs=0.01)
    assert "brine_by_water" in {one.code for one in less.advice}


def test_scale_to_what_there_is(book: RuleBook):
    """Public discussion (9.4 lb of meat, a 12 l tub): a recipe for 10 lb and 6 l of water, tightest first by hand.

    9.4 / 10 = 0.94 of the meat; the tub less a tenth is 10.8 l against 4.536 kg / 1.06 + 6 l = 10.279 l, so 1.05.
    """
    told = made_of(
        book,
        line("water", 6, "l"),
        line("granulated-sugar", 1, "cup"),
        meat=amount(10, "lb"),
        at_hand=[
            {"kind": "vessel", "inside": {"kind": "known_volume", "volume": amount(12, "l")}},
            meat_at_hand(9.4, "lb"),
        ],
    )

    assert told.factor_ratio == pytest.approx(0.94)
    assert told.lines[1].weight.typical == pytest.approx(188)
    filled_l = 10 * LB_G / 1060 + 6 + 200 / 998.2
    assert told.limits[0].factor.typical_ratio == pytest.approx(10.8 / filled_l)
    assert told.limits[0].left_over.typical == pytest.approx(10.8 - 0.94 * filled_l, rel=1e-4)


def test_a_cup_of_light_flakes_is_no_cup_of_table_salt(book: RuleBook):
    """A web page prints 288 g for a cup of light flakes, which is table salt: weighings have 135 to 181 g."""
    told = sausage(book, line("light-flake-kosher-salt", 2.5, "cup")).lines[0].weight

    assert 135 < told.high < 182
    assert told.high < 288
