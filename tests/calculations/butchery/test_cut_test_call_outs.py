"""What is called out and what follows, each beside a near twin of which nothing is said."""

from typing import Any

import pytest

from service.calculations.butchery.cut_test import CUT_TEST, CutTestRequest, cut_test
from service.calculations.butchery.cutting.closing import CLOSURES
from service.calculations.butchery.cutting.confusions import CALL_OUTS
from service.calculations.butchery.cutting.following import FOLLOWS
from service.rules.book import RuleBook
from tests.calculations.butchery.blocks import answer_to, body_of, codes, mass, part

REST = part("rest", "cook", "1 kg")
WASTE = part("skin", "waste", "1 kg")
BONE, SKIN = part("bone", "waste", what="bone"), part("skin", "waste", what="skin")


# code, what sets it off, and a twin that differs by as little as may be.
TWINS: list[tuple[str, dict[str, Any], dict[str, Any]]] = [
    (
        "piece_unlikely",
        body_of("20 kg", part("ham", "cure", "20 kg"), cut="pork-leg-skinned", pieces=1),
        body_of("20 lb", part("ham", "cure", "20 lb"), cut="pork-leg-skinned", pieces=1),
    ),
    (
        "piece_unlikely",
        body_of("9 lb", part("ham", "cure", "9 lb"), cut="pork-leg-skinned", pieces=1),
        body_of("9 lb", part("ham", "cure", "9 lb"), cut="pork-leg-skinned"),
    ),
    (
        "piece_unlikely",
        body_of("20 kg", part("neck", "cure", "20 kg"), cut="pork-butt", pieces=1),
        body_of("7 kg", part("neck", "cure", "7 kg"), cut="pork-butt", pieces=1),
    ),
    (
        "unit_slip",
        body_of("20 lb", part("a", "cure", "0.4 kg"), part("b", "grind", "15.5 lb"), part("c", "stock", "4 lb")),
        body_of("20 lb", part("a", "cure", "0.4 lb"), part("b", "grind", "15.5 lb"), part("c", "stock", "4 lb")),
    ),
    (
        "unit_slip",
        body_of("20 lb", part("a", "cure", "0.4 kg"), part("b", "grind", "15.5 lb"), part("c", "stock", "4 lb")),
        body_of("20 lb", part("a", "cure", "0.4 kg"), part("b", "grind", "15.1 lb"), part("c", "stock", "4 lb")),
    ),
    (
        "part_stated_twice",
        body_of("10 kg", part("a", "cure", "0.1 kg", "0.1 kg"), part("b", "grind", "9.9 kg")),
        body_of("10 kg", part("a", "cure", "0.1 kg", "0.1 kg"), part("b", "grind", "9.8 kg")),
    ),
    (
        "left_over_unlikely",
        body_of("10 kg", part("a", "cure", "5 lb"), part("b", "grind", "3 kg"), part("c", "waste"), cut="pork-leg"),
        body_of("10 kg", part("a", "cure", "5 kg"), part("b", "grind", "3 kg"), part("c", "waste"), cut="pork-leg"),
    ),
    (
        "left_over_unlikely",
        body_of("10 kg", part("neck", "cure", "5.5 kg"), part("drip", "loss")),
        body_of("10 kg", part("neck", "cure", "8.9 kg"), part("drip", "loss")),
    ),
    (
        "left_over_unlikely",
        body_of("10 kg", part("neck", "cure", "8 lb"), BONE, part("drip", "loss"), cut="pork-leg"),
        body_of("10 kg", part("neck", "cure", "7.2 kg"), BONE, part("drip", "loss"), cut="pork-leg"),
    ),
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
        "unit_slip",
        body_of("5 kg", part("neck", "cure", "4000 kg"), part("bone", "waste")),
        body_of("5 kg", part("neck", "cure", "4 kg"), part("bone", "waste")),
    ),
    (
        "part_stated_twice",
        body_of("5 kg", part("neck", "cure", "1 kg", "1 kg"), part("rest", "cook", "4 kg")),
        body_of("5 kg", part("neck", "cure", "1 kg", "1 kg"), part("rest", "cook", "3 kg")),
    ),
    (
        "left_over_unlikely",
        body_of("5 kg", part("neck", "cure", "5 kg"), part("bone", "waste")),
        body_of("5 kg", part("neck", "cure", "4.99 kg"), part("bone", "waste")),
    ),
    (
        "left_over_unlikely",
        body_of("5 kg", part("neck", "cure", "3.64 kg"), part("rest", "waste")),
        body_of("5 kg", part("neck", "cure", "3.66 kg"), part("rest", "waste")),
    ),
    (
        "left_over_unlikely",
        body_of("10 kg", part("neck", "cure", "8 lb"), BONE, cut="pork-leg"),
        body_of("10 kg", part("neck", "cure", "8 kg"), BONE, cut="pork-leg"),
    ),
    (
        "left_over_unlikely",
        body_of("10 kg", part("neck", "cure", "8.87 kg"), BONE, SKIN, cut="pork-shoulder"),
        body_of("10 kg", part("neck", "cure", "8.87 kg"), BONE, cut="pork-shoulder"),
    ),
    (
        "left_over_unlikely",
        body_of("10 kg", part("meat", "cook", "3.5 kg"), BONE, SKIN, cut="chicken-whole"),
        body_of("10 kg", part("meat", "cook", "5 kg"), BONE, SKIN, cut="chicken-whole"),
    ),
    (
        "left_over_unlikely",
        body_of("10 kg", part("neck", "cure", "10.001 kg"), part("bone", "waste"), scale_step=mass("1 g")),
        body_of("10 kg", part("neck", "cure", "10 kg"), part("bone", "waste"), scale_step=mass("1 g")),
    ),
    (
        "cured_already",
        body_of("5 kg", part("neck", "cure", "5 kg"), cut="cured-ham"),
        body_of("5 kg", part("neck", "cure", "5 kg"), cut="pork-leg"),
    ),
    (
        "cured_already",
        body_of("5 kg", part("neck", "cure", "5 kg"), cut="bacon"),
        body_of("5 kg", part("neck", "cook", "5 kg"), cut="bacon"),
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
    return codes(cut_test(CutTestRequest.model_validate(body), book))


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
    assert {code for _, code in GROUND} | {
        "weigh_the_rest",
        "weight_not_told",
        "meat_for_the_cure",
        "ask_about_skin_or_bone",
    } == FOLLOWS.keys()
    assert CUT_TEST.codes.keys() == CLOSURES.keys() | CALL_OUTS.keys() | FOLLOWS.keys()


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
        ({"cut": "pork-belly"}, set()),
        ({"cut": "pork-belly", "animal": "turkey"}, {"poultry"}),
        ({"cut": "lamb-leg"}, set()),
        ({}, set()),
    ],
)
def test_birds_game_and_pork_have_cautions_of_their_own(book: RuleBook, stated: dict[str, Any], extra: set[str]):
    """Knives, raw meat and the local code are told each time; where cut and animal differ, both count."""
    ids = {one.id for one in answer_to(book, "5 kg", part("all", "waste", "5 kg"), **stated).cautions}

    assert ids == {"raw-meat-hygiene", "sharp-knives", "local-code"} | extra


@pytest.mark.parametrize(
    ("stated", "use", "warned"),
    [
        ({"cut": "pork-butt"}, "cure", True),
        ({"animal": "pork"}, "grind", True),
        ({"cut": "pork-butt"}, "cook", False),
        ({"cut": "beef-knuckle"}, "cure", False),
        ({"animal": "game"}, "cure", False),
    ],
)
def test_pork_that_may_be_eaten_raw_has_a_caution(book: RuleBook, stated: dict[str, Any], use: str, warned: bool):
    """Curing kills no trichinae reliably; 5 F for 20 days under 6 inches does (CDC, prevention of trichinellosis)."""
    ids = {one.id for one in answer_to(book, "5 kg", part("all", use, "5 kg"), **stated).cautions}

    assert ("pork-cured-raw" in ids) is warned
    assert all(words in book.cautions["pork-cured-raw"].text for words in ("6 inches", "5 F", "20 days"))


def test_the_law_is_named_and_not_all_laws(book: RuleBook):
    """A burger of pork may have beef in it: whether a record is due is told on that condition, of one regulation."""
    (note,) = answer_to(book, "5 kg", part("beef and pork burger", "grind", "5 kg"), animal="pork").follows

    assert note.message.startswith("9 CFR 320.1(b)(4) asks for no grinding record of beef and pork burger where there")
    assert "your local code may" in note.message
