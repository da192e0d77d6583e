"""What is called out and what follows, each beside a near twin of which nothing is said."""

from typing import Any

import pytest

from service.calculations.butchery.cut_test import CUT_TEST
from service.calculations.butchery.cutting.closing import CLOSURES
from service.calculations.butchery.cutting.confusions import CALL_OUTS
from service.calculations.butchery.cutting.following import FOLLOWS
from service.rules.book import RuleBook
from tests.calculations.butchery.blocks import answer_to, body_of, codes, mass, part

REST = part("rest", "cook", "1 kg")
WASTE = part("skin", "waste", "1 kg")


# code, what sets it off, and a twin that differs by as little as may be.
TWINS: list[tuple[str, dict[str, Any], dict[str, Any]]] = [
    (
        "part_heavier_than_whole",
        body_of("5 kg", part("neck", "cure", "5.001 kg")),
        body_of("5 kg", part("neck", "cure", "5 kg")),
    ),
    (
        "part_heavier_than_whole",
        body_of("5 kg", part("neck", "cure", "5.006 kg"), scale_step=mass("5 g")),
        body_of("5 kg", part("neck", "cure", "5.005 kg"), scale_step=mass("5 g")),
    ),
    (
        "part_stated_twice",
        body_of("5 kg", part("Bone ", "stock", "1 kg"), part("bone", "stock", "1000 g"), REST),
        body_of("5 kg", part("bone", "stock", "1 kg"), part("bone", "stock", "1001 g"), REST),
    ),
    (
        "part_stated_twice",
        body_of("5 kg", part("rib bone", "stock", "1 kg"), part("rib  bone", "waste", "1 kg"), REST),
        body_of("5 kg", part("rib bone", "stock", "1 kg"), part("blade bone", "stock", "1 kg"), REST),
    ),
    (
        "part_stated_twice",
        body_of("5 kg", part("bone", "stock", "1 kg"), part("bone", "stock", "600 g", "400 g"), REST),
        body_of("5 kg", part("bone", "stock"), part("bone", "stock"), REST),
    ),
    (
        "unit_slip",
        body_of("5 kg", part("neck", "cure", "4 lb"), REST),
        body_of("5 kg", part("neck", "cure", "4 kg"), REST),
    ),
    (
        "unit_slip",
        body_of("5 kg", part("neck", "cure", "4 lb"), REST, tolerance_percent=1.0),
        body_of("5 kg", part("neck", "cure", "3.94 lb"), REST, tolerance_percent=1.0),
    ),
    (
        "no_waste_from_bone_in",
        body_of("5 kg", part("neck", "cure", "5 kg"), cut="pork-butt"),
        body_of("5 kg", part("neck", "cure", "5 kg"), cut="pork-butt-boneless"),
    ),
    (
        "no_waste_from_bone_in",
        body_of("5 kg", part("chops", "sell", "5 kg"), cut="pork-loin"),
        body_of("5 kg", part("chops", "sell", "4.9 kg"), part("chine", "waste"), cut="pork-loin"),
    ),
    (
        "no_waste_from_bone_in",
        body_of("5 kg", part("neck", "cure", "5 kg", what="meat"), cut="pork-butt"),
        body_of("5 kg", part("neck", "cure", "5 kg", what="bone"), cut="pork-butt"),
    ),
    (
        "animal_contradicts_cut",
        body_of("5 kg", WASTE, cut="lamb-leg", animal="goat"),
        body_of("5 kg", WASTE, cut="lamb-leg", animal="lamb"),
    ),
    (
        "animal_contradicts_cut",
        body_of("5 kg", WASTE, cut="lamb-leg", animal="goat"),
        body_of("5 kg", WASTE, animal="goat"),
    ),
]


def called(book: RuleBook, body: dict[str, Any]) -> list[str]:
    """What is called out of a body."""
    stated = {name: value for name, value in body.items() if name not in ("purchased", "parts")}
    purchased = body["purchased"]
    return codes(answer_to(book, f"{purchased['value']} {purchased['unit']}", *body["parts"], **stated))


@pytest.mark.parametrize(("code", "odd", "twin"), TWINS)
def test_a_slip_is_named_and_its_twin_is_not(book: RuleBook, code: str, odd: dict[str, Any], twin: dict[str, Any]):
    """Each call-out has its trigger, and stays silent just beside it."""
    assert code in called(book, odd)
    assert code not in called(book, twin)


def test_every_code_can_be_reached(book: RuleBook):
    """Each call-out has a trigger here, each closure and each thing that follows one in these tests."""
    closures = {"closes", "weight_missing", "too_much_weight", "part_not_weighed", "scale_too_coarse"}

    assert {code for code, _, _ in TWINS} == CALL_OUTS.keys()
    assert CLOSURES.keys() == closures
    assert {code for _, code in GROUND} | {"weigh_the_rest", "green_weight_for_the_cure"} == FOLLOWS.keys()
    assert CUT_TEST.codes.keys() == CLOSURES.keys() | CALL_OUTS.keys() | FOLLOWS.keys()


@pytest.mark.parametrize(
    ("stated", "read_as", "rest"),
    [
        ("4 lb", "4 kg", "1 kg"),
        ("4 kg", "4 lb", "3.19 kg"),
        ("350 oz", "350 g", "4.65 kg"),
        ("70 g", "70 oz", "3.015 kg"),
        ("40 oz", "40 lb", "2.86 kg"),
        ("1200 kg", "1200 g", "3.8 kg"),
        ("3.5 g", "3.5 kg", "1.5 kg"),
    ],
)
def test_the_unit_that_would_close_the_test_is_named(book: RuleBook, stated: str, read_as: str, rest: str):
    """In both directions, and by the number that was written."""
    purchased = "21 kg" if read_as.endswith("40 lb") else "5 kg"

    answer = answer_to(book, purchased, part("neck", "cure", stated), part("rest", "cook", rest))

    slips = [one for one in answer.call_outs if one.code == "unit_slip"]
    assert [one.parts for one in slips] == [("neck",)]
    assert slips[0].message.startswith(f"neck, {stated}: read as {read_as}, the test closes to ")


def test_one_weighing_among_many_is_named(book: RuleBook):
    """Three pieces in kilograms, the fourth in pounds: that one number is named."""
    answer = answer_to(book, "8 kg", part("hams", "cure", "2 kg", "2.1 kg", "1.9 lb", "1.95 kg"))

    (slip,) = (one for one in answer.call_outs if one.code == "unit_slip")
    assert "hams, 1.9 lb: read as 1.9 kg" in slip.message


def test_all_weighings_of_a_part_may_be_the_slip(book: RuleBook):
    """Two hams, both written in pounds: their sum is named, as a sum. The purchase may be the slip as well."""
    answer = answer_to(book, "4 kg", part("hams", "cure", "2 lb", "1.95 lb"))

    slips = {one.parts: one.message for one in answer.call_outs if one.code == "unit_slip"}
    assert slips.keys() == {("hams",), ()}
    assert slips["hams",].startswith("hams, 3.95 lb together: read as 3.95 kg, the test closes to 1.25 percent")


def test_the_purchase_may_be_the_slip(book: RuleBook):
    """Bought 12 kg that were 12 lb: nothing is wrong with the parts."""
    answer = answer_to(book, "12 kg", part("slab", "cure", "11.5 lb"), part("skin", "waste", "0.45 lb"))

    assert [(one.code, one.parts) for one in answer.call_outs] == [("unit_slip", ())]
    assert answer.call_outs[0].message.startswith("Bought 12 kg: read as lb, the test closes to ")


def test_no_slip_is_looked_for_where_the_rest_is_open(book: RuleBook):
    """A part that was not weighed explains any difference; so does a test that closes."""
    skin = part("skin", "waste")

    assert "unit_slip" not in codes(answer_to(book, "5 kg", part("neck", "cure", "4 lb"), REST, skin))
    assert codes(answer_to(book, "5 kg", part("neck", "cure", "4 kg"), REST)) == []


def test_no_more_than_five_slips_are_named_the_likeliest_first(book: RuleBook):
    """Eight equal parts of which any may be the slip."""
    parts = [part(f"piece {number}", "cook", f"1.0{number} lb") for number in range(8)]

    slips = answer_to(book, "4.25 kg", *parts, tolerance_percent=3.0).call_outs

    assert [one.code for one in slips] == ["unit_slip"] * 5


# body, code of the record
GROUND: list[tuple[dict[str, Any], str]] = [
    ({"cut": "beef-shoulder-clod"}, "grinding_record_due"),
    ({"animal": "beef"}, "grinding_record_due"),
    ({"cut": "pork-butt", "animal": "beef"}, "grinding_record_due"),
    ({}, "grinding_record_ask"),
    ({"animal": "veal"}, "grinding_record_ask"),
    ({"cut": "corned-beef-brisket"}, "grinding_record_ask"),
    ({"cut": "pork-butt"}, "grinding_record_house_rule"),
    ({"animal": "lamb"}, "grinding_record_house_rule"),
    ({"cut": "turkey-breast"}, "grinding_record_house_rule"),
]


@pytest.mark.parametrize(("stated", "code"), GROUND)
def test_what_is_ground_raw_calls_for_its_record(book: RuleBook, stated: dict[str, Any], code: str):
    """Beef by law (9 CFR 320.1(b)(4)), others by house rule; where it may be beef, the inspector is asked."""
    answer = answer_to(book, "5 kg", part("trim", "grind", "2 kg"), part("rest", "waste", "3 kg"), **stated)

    assert [one.code for one in answer.follows] == [code]
    assert answer.follows[0].parts == ("trim",)
    warned = "grinding-record" in [one.id for one in answer.cautions]
    assert warned is (code != "grinding_record_house_rule")


def test_what_is_not_ground_calls_for_none(book: RuleBook):
    """The same trim, kept, cooked or thrown away."""
    for use in ("keep", "cook", "waste", "render"):
        answer = answer_to(book, "5 kg", part("trim", use, "5 kg"), cut="beef-shoulder-clod")

        assert answer.follows == ()
        assert "grinding-record" not in [one.id for one in answer.cautions]


def test_the_record_names_what_the_regulation_asks_for(book: RuleBook):
    """Suppliers' numbers, lots, dates, materials, carry-over, when ground, when cleaned (9 CFR 320.1(b)(4)(i))."""
    text = book.cautions["grinding-record"].text

    asked = ("establishment numbers", "lot numbers", "production dates", "carried over", "ground", "cleaned")
    assert [words for words in asked if words not in text] == []


@pytest.mark.parametrize(
    ("stated", "extra"),
    [
        ({"cut": "duck-whole"}, {"poultry"}),
        ({"animal": "other_bird"}, {"poultry"}),
        ({"animal": "game"}, {"game-and-pork-parasites"}),
        ({"cut": "pork-belly"}, {"game-and-pork-parasites"}),
        ({"cut": "pork-belly", "animal": "turkey"}, {"game-and-pork-parasites", "poultry"}),
        ({"cut": "lamb-leg"}, set()),
        ({}, set()),
    ],
)
def test_birds_game_and_pork_have_cautions_of_their_own(book: RuleBook, stated: dict[str, Any], extra: set[str]):
    """Knives, raw meat and the local code are told each time; where cut and animal differ, both count."""
    ids = {one.id for one in answer_to(book, "5 kg", part("all", "waste", "5 kg"), **stated).cautions}

    assert ids == {"raw-meat-hygiene", "sharp-knives", "local-code"} | extra


def test_the_green_weight_goes_on_to_the_cure(book: RuleBook):
    """The sum of what is cured, by name; not where one of it was not weighed."""
    cured = part("neck", "cure", "2 kg"), part("loin end", "cure", "1.5 kg")

    (note,) = answer_to(book, "3.5 kg", *cured).follows

    assert (note.code, note.parts) == ("green_weight_for_the_cure", ("neck", "loin end"))
    assert note.message.startswith("3,500 g go into the cure")
    open_end = answer_to(book, "3.5 kg", cured[0], part("loin end", "cure"))
    assert [one.code for one in open_end.follows] == ["weigh_the_rest"]


@pytest.mark.parametrize("purchased", ["3 kg", "4.2 kg"])
def test_no_green_weight_comes_out_of_a_test_that_does_not_close(book: RuleBook, purchased: str):
    """A wrong weight would be a wrong dose: it is not handed on."""
    answer = answer_to(book, purchased, part("neck", "cure", "3.5 kg"))

    assert answer.closure.verdict == "not_met"
    assert answer.follows == ()
