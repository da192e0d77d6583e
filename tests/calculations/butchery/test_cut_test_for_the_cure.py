"""What a cutting test hands on to a cure: each part by itself, and nothing out of doubt."""

from typing import Any

import pytest

from service.calculations.butchery.cut_test import CutTestRequest, cut_test
from service.rules.book import RuleBook
from tests.calculations.butchery.blocks import answer_to, body_of, mass, part

BONE, SKIN = part("bone", "waste", what="bone"), part("skin", "waste", what="skin")


# what is cured besides, the cut, and what follows of it.
CURED: list[tuple[list[dict[str, Any]], dict[str, Any], list[tuple[str, str]]]] = [
    ([part("bacon", "cure", "3 kg")], {}, [("meat_for_the_cure", "bacon"), ("meat_for_the_cure", "neck")]),
    ([part("bacon", "cure")], {}, [("meat_for_the_cure", "neck")]),
    ([part("rest", "cook", "3 kg")], {"cut": "pork-belly"}, [("ask_about_skin_or_bone", "neck")]),
    (
        [part("skin", "cure", "3 kg", what="skin")],
        {"cut": "pork-belly"},
        [("ask_about_skin_or_bone", "skin"), ("meat_for_the_cure", "neck")],
    ),
    (
        [part("rest", "sell", "2 kg"), part("skin", "waste", what="skin")],
        {"cut": "pork-belly-skinless"},
        [("meat_for_the_cure", "neck")],
    ),
    ([part("rest", "cook", "3 kg")], {"cut": "pork-butt"}, [("ask_about_skin_or_bone", "neck")]),
    ([part("rest", "stock", "3 kg")], {"cut": "pork-butt"}, [("meat_for_the_cure", "neck")]),
    ([part("rest", "stock", "3 kg")], {"cut": "turkey-breast"}, [("meat_for_the_cure", "neck")]),
    (
        [part("shank", "cure", "3 kg", what="bone")],
        {},
        [("ask_about_skin_or_bone", "shank"), ("meat_for_the_cure", "neck")],
    ),
]


@pytest.mark.parametrize(("others", "stated", "meant"), CURED)
def test_each_part_goes_into_a_dose_of_its_own(
    book: RuleBook, others: list[dict[str, Any]], stated: dict[str, Any], meant: list[tuple[str, str]]
):
    """One weight for one product; where skin or bone may be in it, it is asked for and no weight of meat is told."""
    neck = part("neck", "cure", "3.5 kg", what="meat")

    follows = answer_to(book, "6.5 kg", *others, neck, **stated).follows

    assert [(one.code, *one.parts) for one in follows if one.code != "weigh_the_rest"] == meant
    told = [one.message for one in follows if one.code == "meat_for_the_cure"]
    assert all("the weight of the meat" in one and "green weight" not in one for one in told)


# what is bought and cut up, and what is asked or said of its first part
ASKED: list[tuple[dict[str, Any], list[str]]] = [
    (body_of("6 kg", part("a", "cure", "5.99 kg"), part("b", "waste", "0.01 kg", what="skin"), cut="pork-belly"),
     ["ask_about_skin_or_bone"]),
    (body_of("6 kg", part("a", "cure", "5.75 kg"), part("b", "waste", "0.25 kg", what="skin"), cut="pork-belly"),
     ["ask_about_skin_or_bone"]),
    (body_of("6 kg", part("a", "cure", "5.6 kg"), part("b", "waste", "0.4 kg", what="skin"), cut="pork-belly"),
     ["meat_for_the_cure"]),
    (body_of("10 kg", part("a", "cure", "9.99 kg"), part("b", "stock", "0.01 kg", what="bone"), cut="pork-loin"),
     ["ask_about_skin_or_bone"]),
    (body_of("10 kg", part("a", "cure", "7.8 kg"), part("b", "stock", "2.2 kg", what="bone"), cut="pork-loin"),
     ["meat_for_the_cure"]),
    (body_of("10 kg", part("a", "cure", "0.05 kg"), part("b", "sell", "9.95 kg"), scale_step=mass("60 g")),
     ["weight_not_told"]),
    (body_of("10 kg", part("a", "cure", "0.4 kg"), part("b", "sell", "9.6 kg"), scale_step=mass("60 g")),
     ["meat_for_the_cure"]),
    (body_of("10 kg", part("a", "cure", "0.1 kg", "0.1 kg"), part("b", "sell", "9.9 kg")), ["weight_not_told"]),
    (body_of("20 kg", part("ham", "cure", "14 kg", what="meat"), part("bone", "stock", "2.5 kg", what="bone"),
             part("skin", "waste", "1.5 kg", what="skin"), part("fat", "render", "2 kg", what="fat"),
             cut="pork-leg-skinned", pieces=1), ["weight_not_told"]),
    (body_of("10 kg", part("a", "cure", "10.1 kg")), ["weight_not_told"]),
]  # fmt: skip


@pytest.mark.parametrize(("body", "codes"), ASKED)
def test_a_token_is_no_answer_and_a_doubt_says_why(book: RuleBook, body: dict[str, Any], codes: list[str]):
    """Less skin or bone than is published asks still, and a weight that is kept back says what for."""
    follows = cut_test(CutTestRequest.model_validate(body), book).follows

    assert [one.code for one in follows] == codes


DOUBTED: list[tuple[dict[str, Any], dict[str, Any]]] = [
    (body_of("3 kg", part("neck", "cure", "3.5 kg")), body_of("3.5 kg", part("neck", "cure", "3.5 kg"))),
    (body_of("4.2 kg", part("neck", "cure", "3.5 kg")), body_of("3.55 kg", part("neck", "cure", "3.5 kg"))),
    (body_of("10 kg", part("neck", "cure", "10.2 kg")), body_of("10 kg", part("neck", "cure", "10 kg"))),
    (
        body_of("10 kg", part("neck", "cure", "10 kg"), part("bone", "waste")),
        body_of("10 kg", part("neck", "cure", "9 kg"), part("bone", "waste")),
    ),
    (
        body_of("10 kg", part("neck", "cure", "8 lb"), BONE, SKIN, cut="pork-leg"),
        body_of("10 kg", part("neck", "cure", "8 kg"), BONE, SKIN, cut="pork-leg"),
    ),
    (
        body_of("10 kg", part("neck", "cure", "9.9 kg"), scale_step=mass("20 kg")),
        body_of("10 kg", part("neck", "cure", "9.9 kg"), scale_step=mass("20 g")),
    ),
    (
        body_of("10 kg", part("ham", "cure", "8 kg"), BONE, SKIN, cut="cured-ham"),
        body_of("10 kg", part("ham", "cure", "8 kg"), BONE, SKIN, cut="pork-leg"),
    ),
]


@pytest.mark.parametrize(("doubtful", "twin"), DOUBTED)
def test_no_weight_goes_into_a_cure_out_of_doubt(book: RuleBook, doubtful: dict[str, Any], twin: dict[str, Any]):
    """A wrong weight would be a wrong dose: where the test does not close, or a weight is called out, none is told."""
    handed_on = [
        "meat_for_the_cure" in {one.code for one in cut_test(CutTestRequest.model_validate(body), book).follows}
        for body in (doubtful, twin)
    ]

    assert handed_on == [False, True]
