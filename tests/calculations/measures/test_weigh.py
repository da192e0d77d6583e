"""What a weighing tells, warns of and refuses."""

import re
from typing import Any

import pytest

from service.calculations.measures.refusing import REASONS
from service.calculations.measures.weigh import WeighAnswer, WeighRequest, weigh
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from tests.calculations.measures.pantry import faults_of_refusal, rows

TSP = {"value": 1, "unit": "tsp"}
PINK = {"nitrite": {"salt": "sodium_nitrite", "percent": 6.25}}
SPOON = {"kind": "curing_salt_by_volume", "volume": TSP, "curing_salt": PINK, "meat": {"value": 2.5, "unit": "kg"}}
SALT = {"kind": "by_volume", "ingredient": "table-salt", "volume": TSP}

REFUSED: list[tuple[str, dict[str, Any], str]] = [
    ("unknown_ingredient", {"kind": "by_volume", "ingredient": "table-slat", "volume": TSP}, "table-salt"),
    ("unknown_ingredient", {"kind": "by_piece", "ingredient": "clove", "count": 1}, "garlic-clove"),
    ("unknown_ingredient", {"kind": "by_piece", "ingredient": "clove", "count": 1}, "cloves-whole"),
    ("unknown_ingredient", {"kind": "by_volume", "ingredient": "Kosher  Salt", "volume": TSP}, "kosher-salt, "),
    ("unknown_ingredient", {**SALT, "swap_for": "kosher"}, "coarse-kosher-salt"),
    ("unknown_ingredient", {**SALT, "swap_for": "Pink Salt"}, "no other ingredient"),
    ("no_volume_figure", {"kind": "by_volume", "ingredient": "bay-leaf", "volume": TSP}, "0.2 to 0.5 g"),
    ("no_volume_figure", {**SALT, "swap_for": "cinnamon-stick"}, "One stick"),
    ("no_piece_figure", {"kind": "by_piece", "ingredient": "black-pepper-ground", "count": 3}, "A teaspoon weighs"),
    ("no_piece_figure", {"kind": "by_piece", "ingredient": "curing-salt-6-25", "count": 3}, "Weigh it"),
    (
        "curing_salt_needs_label",
        {"kind": "by_volume", "ingredient": "curing-salt-6-25", "volume": TSP},
        "kind curing_salt_by_volume",
    ),
    ("curing_salt_not_swapped", {**SALT, "swap_for": "curing-salt-6-25"}, "/v1/curing/dose"),
]


def answer_to(book: RuleBook, what: dict[str, Any], **more: Any) -> WeighAnswer:
    """The answer to what is measured."""
    return weigh(WeighRequest.model_validate({"what": what, **more}), book)


def ids(answer: WeighAnswer) -> list[str]:
    """The cautions of an answer."""
    return [caution.id for caution in answer.cautions]


@pytest.mark.parametrize(("code", "what", "nearest"), REFUSED)
def test_what_has_no_weight_is_refused_with_what_can_be_stated(
    book: RuleBook, code: str, what: dict[str, Any], nearest: str
):
    """Each refusal has its code, is true of the table as it is written, and names the nearest thing."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, what)

    assert refused.value.code == code
    assert refused.value.nearest is not None
    assert nearest in refused.value.nearest
    assert faults_of_refusal({"what": what}, {"code": code}) == []


def refusal_of(book: RuleBook, name: str) -> Impossible:
    """What is said of a name that is no id."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, {**SALT, "ingredient": name})
    assert refused.value.nearest is not None
    return refused.value


@pytest.mark.parametrize("word", ["clove", "cinnamon", "Garlic", "mustard"])
def test_one_word_names_every_id_that_holds_it(book: RuleBook, word: str):
    """All of them, and nothing else."""
    holding = {id for id in rows() if word.lower() in id}

    named = set(re.findall(r"[a-z]+(?:-[a-z]+)+", str(refusal_of(book, word).nearest)))

    assert named == holding
    assert len(holding) > 1


@pytest.mark.parametrize(
    ("name", "first"),
    [
        ("table-slat", "table-salt"),
        (" Kosher Salt", "kosher-salt"),
        ("cinamon", "cinnamon-ground"),
        ("black papper", "black-pepper-whole"),
        ("butter", "GET"),
        ("ground beef", "bouillon-powder-beef"),
        ("ice", "GET"),
        ("cook's", "GET"),
    ],
)
def test_what_is_near_comes_first_and_nothing_that_is_not(book: RuleBook, name: str, first: str):
    """Case, blanks and a wrong letter do not matter; butter is not beer, and ice is no spice."""
    assert re.split(r"[,. ]", str(refusal_of(book, name).nearest))[0] == first


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("pink salt", "ask with kind curing_salt_by_volume, its label and the meat"),
        ("Curing Salt 6.25", "ask with kind curing_salt_by_volume, its label and the meat"),
        ("P\u00f6kelsalz", "ask with kind curing_salt_by_volume, its label and the meat"),
        ("saltpetre", "weigh it, and check the recipe with POST /v1/curing/check"),
        ("Sodium Nitrite", "weigh it, and check the recipe with POST /v1/curing/check"),
        ("potassium nitrate", "weigh it, and check the recipe with POST /v1/curing/check"),
        ("prauge powder", "ask with kind curing_salt_by_volume, its label and the meat"),
        ("nitrietzout", "ask with kind curing_salt_by_volume, its label and the meat"),
        ("n\u0456trite", "weigh it, and check the recipe with POST /v1/curing/check"),
        ("celery powder", "weigh it, and check the recipe with POST /v1/curing/check"),
        ("E 250", "weigh it, and check the recipe with POST /v1/curing/check"),
    ],
)
@pytest.mark.parametrize("field", ["ingredient", "swap_for"])
def test_a_name_of_a_cure_is_told_what_to_do(book: RuleBook, field: str, name: str, told: str):
    """Names under which cures are sold or written: common practice, no source. No id is offered in its place."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, {**SALT, field: name})

    assert refused.value.code == "unknown_ingredient"
    assert told in str(refused.value.nearest)
    assert not any(id in str(refused.value.nearest) for id in rows() if "-" in id)


def test_a_spoon_offered_in_place_of_a_piece_has_its_whole_band(book: RuleBook):
    """Public discussion: a quarter cup of 76 g is 6.3333 g to the teaspoon, told as 6.334 and not less."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, {"kind": "by_piece", "ingredient": "table-salt", "count": 1})

    assert "A teaspoon weighs 5.9 to 6.334 g" in str(refused.value.nearest)


def test_a_swap_of_unequal_salt_says_so(book: RuleBook):
    """USDA SR26, soy sauce: 5,493 mg of sodium in 100 g is 13.96 percent salt, 2.54 times the sodium."""
    swapped = answer_to(book, {**SALT, "swap_for": "soy-sauce"})

    assert swapped.swap is not None
    salt = swapped.swap.same_volume_salt_equivalent
    assert salt is not None
    assert swapped.swap.same_volume.typical is not None
    assert salt.typical == pytest.approx(swapped.swap.same_volume.typical * 0.05493 * 2.542, rel=1e-3)
    assert "by whole weight, not by salt" in swapped.steps[-1]
    assert "13.96 percent salt" in swapped.steps[-1]


@pytest.mark.parametrize(
    ("first", "other", "is_warned"),
    [
        ("soy-sauce", "water", True),
        ("water", "soy-sauce", True),
        ("table-salt", "fine-sea-salt", False),
        ("honey", "molasses", False),
    ],
)
def test_only_unequal_salt_is_spoken_of(book: RuleBook, first: str, other: str, is_warned: bool):
    """Two salts, and two things without salt, swap by weight; where no sodium is known there is no salt equivalent."""
    answer = answer_to(book, {**SALT, "ingredient": first, "swap_for": other})

    assert answer.swap is not None
    assert ("not by salt" in " ".join(answer.steps)) is is_warned
    assert (answer.swap.same_volume_salt_equivalent is None) == ("sodium" not in rows()[other])


def test_every_reason_is_tried():
    """No code is declared that no request brings about."""
    assert {code for code, _, _ in REFUSED} == set(REASONS)


@pytest.mark.parametrize("code", [*sorted(REASONS), "because"])
def test_a_refusal_that_is_not_true_is_found(code: str):
    """The proof fails for a spoon of table salt, whatever the code."""
    assert faults_of_refusal({"what": SALT}, {"code": code}) != []


@pytest.mark.parametrize("extra", [{"swap_for": "table-salt"}, {"scale": 2}, {"count": 2}])
def test_a_spoon_of_curing_salt_is_neither_swapped_nor_scaled(extra: dict[str, Any]):
    """There is no field for it."""
    with pytest.raises(ValueError, match="Extra inputs are not permitted"):
        WeighRequest.model_validate({"what": {**SPOON, **extra}})


def test_curing_salt_has_a_band_and_no_weight(book: RuleBook):
    """No typical weight, no typical ppm; the arithmetic says to weigh it."""
    answer = answer_to(book, SPOON)

    assert answer.weight.typical is None
    assert (answer.weight.low, answer.weight.high) == (5.0, 8.7)
    assert answer.salt_equivalent is not None
    assert answer.salt_equivalent.typical is None
    assert (answer.swap, answer.ingoing_nitrate) == (None, None)
    assert "weigh it" in " ".join(answer.steps)
    assert {"weigh-not-spoon", "nitrite-toxic", "strength-from-label", "nitrite-emergency", "local-code"} <= {
        *ids(answer)
    }


def test_an_unknown_strength_gets_the_widest_band(book: RuleBook):
    """A strength that nobody sells is given every spoon that is known; a nitrited salt its own."""
    strange = answer_to(book, {**SPOON, "curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 3.3}}}).weight
    weak = answer_to(book, {**SPOON, "curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 0.5}}}).weight

    assert (strange.low, strange.high) == (5.0, 8.7)
    assert (weak.low, weak.high) == (5.0, 6.5)


def test_nitrate_on_the_label_is_told_too(book: RuleBook):
    """5 to 8.7 g of 4 percent in 2.5 kg: 80 to 139.2 ppm, by hand."""
    label = {**PINK, "nitrate": {"salt": "potassium_nitrate", "percent": 4}}
    nitrate = answer_to(book, {**SPOON, "curing_salt": label}).ingoing_nitrate

    assert nitrate is not None
    assert (nitrate.low_ppm, nitrate.high_ppm) == pytest.approx((80, 139.2), abs=0.11)
    assert (nitrate.expressed_as, nitrate.basis) == ("potassium_nitrate", "green_weight")


@pytest.mark.parametrize(
    ("meat_kg", "warned"),
    [(2.5, {"more-than-may-remain"}), (4.0, {"too-little-is-dangerous"}), (0.5, {"more-than-may-remain"})],
)
def test_both_ends_of_the_band_are_warned_of(book: RuleBook, meat_kg: float, warned: set[str]):
    """125 to 217.5 ppm may be too much, 78 to 136 ppm too little (floor 120, left at most 200: 9 CFR 424.21(c))."""
    answer = answer_to(book, {**SPOON, "meat": {"value": meat_kg, "unit": "kg"}})

    assert {"more-than-may-remain", "too-little-is-dangerous"} & {*ids(answer)} == warned


@pytest.mark.parametrize(
    ("id", "told"),
    [
        ("table-salt", ["weigh-not-spoon", "local-code"]),
        ("granulated-sugar", ["local-code"]),
        ("water", ["weigh-ice", "local-code"]),
        ("soy-sauce", ["allergens", "local-code"]),
        ("mustard-seed", ["allergens", "local-code"]),
        ("nonfat-dry-milk", ["allergens", "local-code"]),
    ],
)
def test_a_spoon_has_the_cautions_of_what_is_on_it(book: RuleBook, id: str, told: list[str]):
    """Salt is weighed, sauces and seeds may carry allergens, ice is no water."""
    assert ids(answer_to(book, {"kind": "by_volume", "ingredient": id, "volume": TSP})) == told


def test_salt_is_no_saltier_than_salt(book: RuleBook):
    """Pure salt is all salt: neither its molar masses nor rounding makes more of it."""
    answer = answer_to(book, {**SALT, "ingredient": "pickling-salt"})

    assert answer.salt_equivalent == answer.weight


def test_brief_leaves_out_arithmetic_and_sources(book: RuleBook):
    """The weights and the cautions stay."""
    full, brief = (answer_to(book, SALT, detail=detail) for detail in ("full", "brief"))

    assert full.steps
    assert full.sources
    assert (brief.steps, brief.sources) == ((), ())
    assert (brief.weight, brief.cautions) == (full.weight, full.cautions)


def test_us_units_are_ounces_and_pounds(book: RuleBook):
    """A teaspoon in ounces, a gallon of water in pounds: 8.33 lb."""
    gallon = {"kind": "by_volume", "ingredient": "water", "volume": {"value": 1, "unit": "gal"}}

    assert answer_to(book, SALT, units="us").weight.unit == "oz"
    assert answer_to(book, gallon, units="us").weight.typical == pytest.approx(8.33, abs=0.005)
