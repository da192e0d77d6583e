"""Nobody who reads the answer salts or cures twice."""

from typing import Any

import pytest

from service.calculations.butchery.blend import BlendAnswer
from service.calculations.butchery.blending.batch import UNCURED
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from tests.calculations.butchery.blend_bodies import CURE, Body, kg, material
from tests.calculations.butchery.blends import answer_to, refusal_of

US: Body = {"jurisdiction": "US", "operator": "retail"}
PPM_150 = {**CURE, "target": {"kind": "ingoing_nitrite", "ppm": 150}}


def pork(salt_percent: float = 0, **stated: Any) -> Body:
    """10 kg of one trim."""
    trim = material("trim", 25, salt_percent=salt_percent, **stated)
    return {"block": {"kind": "whole_block", "weight": kg(10)}, "materials": [trim]}


def told_cautions(answer: BlendAnswer) -> set[str]:
    """Their ids."""
    return {caution.id for caution in answer.cautions}


def test_salt_that_was_stated_is_not_said_to_be_missing(book: RuleBook):
    """4 percent are inside and 1.8 were asked for; where none is stated the caution stands."""
    stated = answer_to(book, pork(4), batch={**US, "salt_percent": 1.8, "cure": PPM_150})
    silent = answer_to(book, pork(4), batch={**US, "cure": PPM_150})

    assert "salt-not-stated" not in told_cautions(stated)
    assert "salt-not-stated" in told_cautions(silent)


def test_the_salt_of_the_cure_is_all_the_salt(book: RuleBook):
    """400 g in the meat and 22.5 g in 24 g of curing salt, of 10,024 g: 4.215 percent."""
    answer = answer_to(book, pork(4), batch={**US, "salt_percent": 1.8, "cure": PPM_150})

    assert answer.batch is not None
    assert answer.batch.cure is not None
    assert answer.batch.cure.figures.salt_in_piece_percent == pytest.approx(100 * 422.5 / 10024, abs=6e-4)
    assert answer.batch.salt_percent == pytest.approx(4.225)


@pytest.mark.parametrize("cure", [{}, {"cure": PPM_150}])
def test_the_salt_has_one_sum_and_it_begins_with_what_was_asked(book: RuleBook, cure: Body):
    """180 g, less 100 g inside, less what comes with the cure; no other line is on how much salt to add."""
    answer = answer_to(book, pork(1), batch={**US, "salt_percent": 1.8, **cure})

    assert answer.batch is not None
    cured = answer.batch.cure.steps if answer.batch.cure else ()
    (salt,) = (step for step in (*answer.steps, *cured) if step.startswith("Salt"))
    less, left = (" - 22.5 g in the curing salt", "57.5") if cure else ("", "80")
    assert salt == f"Salt to add: 1.8 % of 10000 g block - 100 g inside the materials{less} = {left} g."


@pytest.mark.parametrize(("percent", "codes"), [(1.8, []), (1.79, []), (1.81, ["salt_already_inside"])])
def test_salt_that_is_just_what_was_asked_is_not_called_out(book: RuleBook, percent: float, codes: list[str]):
    """A hundredth more is, and the two numbers can be told apart."""
    batch = answer_to(book, pork(percent), batch={**US, "salt_percent": 1.8}).batch

    assert batch is not None
    assert [one.code for one in batch.call_outs] == codes


def test_the_one_number_that_mends_too_little_salt_is_named(book: RuleBook):
    """24 g of curing salt bring 22.5 g, 0.225 percent: never a stronger curing salt; followed, it is answered."""
    asked = {**US, "salt_percent": 0.15, "cure": PPM_150}

    refusal = refusal_of(book, pork(), batch=asked)

    assert isinstance(refusal, Impossible)
    assert (refusal.code, refusal.nearest) == ("salt_comes_with_the_cure", "Set batch.salt_percent to 0.225.")
    assert "powder" not in refusal.reason
    assert refusal_of(book, pork(), batch={**asked, "salt_percent": 0.225}) is None
    assert refusal_of(book, pork(), batch={**asked, "salt_percent": 0.224}) is not None


@pytest.mark.parametrize("named", sorted(UNCURED))
def test_what_is_sold_fresh_gets_no_cure(book: RuleBook, named: str):
    """Refused; answered without the cure, and with it without the class."""
    animal = "beef" if "beef" in named else "pork"
    body, batch = pork(animal=animal), {**US, "sausage_class": named, "salt_percent": 1.8, "cure": PPM_150}

    refusal = refusal_of(book, body, batch=batch)

    assert isinstance(refusal, Impossible)
    assert refusal.code == "cure_contradicts_class"
    for left_out in ("cure", "sausage_class"):
        assert refusal_of(book, body, batch={name: value for name, value in batch.items() if name != left_out}) is None


@pytest.mark.parametrize(("cure", "codes"), [({"cure": PPM_150}, ["cured_in_name"]), ({}, [])])
def test_a_cured_italian_sausage_is_called_so(book: RuleBook, cure: Body, codes: list[str]):
    """9 CFR 319.145(a)(4), read: the word cured is in its name."""
    batch = answer_to(book, pork(), batch={**US, "sausage_class": "italian_sausage", "salt_percent": 1.8, **cure}).batch

    assert batch is not None
    assert [one.code for one in batch.call_outs] == codes


def test_a_cooked_product_is_not_sold_raw(book: RuleBook):
    """Refused, and answered as the nearest says."""
    batch = {**US, "sausage_class": "cooked_sausage", "salt_percent": 1.8, "cook_yield_percent": 90}
    cure = {**PPM_150, "product": {"finish": "fresh"}}

    refusal = refusal_of(book, pork(), batch={**batch, "cure": cure})

    assert isinstance(refusal, Impossible)
    assert (refusal.code, refusal.nearest) == ("finish_contradicts_class", "Set batch.cure.product.finish to cooked.")
    assert refusal_of(book, pork(), batch={**batch, "cure": {**cure, "product": {"finish": "cooked"}}}) is None


@pytest.mark.parametrize("batch", [None, {**US, "salt_percent": 1.8}])
def test_what_was_cured_before_is_called_out(book: RuleBook, batch: Body | None):
    """Without a cure and without a batch: no curing salt is to be added; of fresh meat nothing is said."""
    more = {"batch": batch} if batch else {}

    cured, fresh = (answer_to(book, pork(cured=one), **more) for one in (True, False))

    assert [one.code for one in cured.call_outs] == ["cured_before"]
    assert "Add no curing salt" in cured.call_outs[0].message
    assert fresh.call_outs == ()


def test_a_fresh_class_holds_nothing_that_was_cured(book: RuleBook):
    """Called out by the class as well; where none of it is used nothing is said."""
    used, spare = pork(cured=True), pork()
    spare["materials"].append(material("ends", 90, cured=True, most_share_percent=0))
    batch = {**US, "sausage_class": "fresh_pork_sausage", "salt_percent": 1.8}

    told, other = (answer_to(book, body, batch=batch) for body in (used, spare))

    assert told.batch is not None
    assert other.batch is not None
    assert [one.code for one in told.batch.call_outs] == ["cured_not_of_class"]
    assert (other.call_outs, other.batch.call_outs) == ((), ())


@pytest.mark.parametrize(("other", "is_told"), [("beef", False), ("game", True)])
def test_the_cure_of_mixed_meat_says_nothing_of_game_that_is_not_there(book: RuleBook, other: str, is_told: bool):
    """A dose for mixed meat cannot know; the blend does."""
    body = pork()
    body["materials"].append(material("other", 20, animal=other, least=kg(3)))

    answer = answer_to(book, body, batch={**US, "salt_percent": 1.8, "cure": PPM_150})

    assert ("game-and-pork-parasites" in told_cautions(answer)) == is_told


def test_the_sum_of_the_salt_is_true_where_there_is_too_much(book: RuleBook):
    """180 g less 400 g inside and 22.5 g with the cure: 242.5 g too much, so none is added."""
    answer = answer_to(book, pork(4), batch={**US, "salt_percent": 1.8, "cure": PPM_150})

    (salt,) = (step for step in answer.steps if step.startswith("Salt"))
    assert salt.endswith("in the curing salt = -242.5 g; none is added.")
