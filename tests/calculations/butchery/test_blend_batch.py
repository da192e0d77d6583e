"""The finished batch: limits of the law that the blend keeps, or is refused by."""

from typing import Any

import pytest

from service.calculations.butchery.blending.finishing import FinishedBatch
from service.calculations.refusals import LimitExceeded
from service.rules.book import RuleBook
from tests.calculations.butchery.blend_bodies import Body, kg, material, two_trims, usd
from tests.calculations.butchery.blends import answer_to, refusal_of

US: Body = {"jurisdiction": "US", "operator": "retail", "salt_percent": 1.8}
LEAN = {"animal": "beef", "price": usd("6"), "protein_percent": 20, "moisture_percent": 70}
FAT = {"animal": "beef", "price": usd("1"), "protein_percent": 8, "moisture_percent": 31}
BEEF: Body = {
    "block": {"kind": "whole_block", "weight": kg(10)},
    "materials": [material("round", 9, **LEAN), material("plate", 60, **FAT)],
}


def batch_of(book: RuleBook, body: Body, **batch: Any) -> FinishedBatch:
    """The batch of a block, in the United States."""
    told = answer_to(book, body, batch={**US, **batch}).batch
    assert told is not None
    return told


def verdicts(batch: FinishedBatch) -> dict[str, str]:
    """Each rule with its verdict."""
    return {finding.rule: finding.verdict for finding in batch.findings}


def test_the_cheapest_blend_stays_within_the_law(book: RuleBook):
    """Fresh beef sausage: 30 percent fat of 101.8 parts are 30.54 of the block (9 CFR 319.142), and the law binds."""
    answer = answer_to(book, BEEF, batch={**US, "sausage_class": "fresh_beef_sausage"})

    assert answer.composition.fat_percent == pytest.approx(30.54, abs=1e-6)
    (fat,) = (one for one in answer.limits if one.code == "lawful_fat")
    assert fat.binds
    assert fat.rule == "us-freshbeef-fat"
    assert fat.saving is not None
    assert answer.batch is not None
    assert [(one.rule, one.verdict, one.code) for one in answer.batch.findings] == [
        ("us-freshbeef-fat", "met", "at_limit"), ("us-freshbeef-water", "met", "within_limit"),
    ]  # fmt: skip


def test_rounding_to_the_scale_stays_within_the_law(book: RuleBook):
    """Whatever the step, the batch as weighed keeps the limit that the exact blend lies at."""
    for step_g in (1, 7, 50, 130, 333):
        answer = answer_to(
            book, BEEF, batch={**US, "sausage_class": "fresh_beef_sausage"}, scale_step={"value": step_g, "unit": "g"}
        )
        assert answer.batch is not None
        assert answer.batch.fat_percent is not None
        assert 26 < answer.batch.fat_percent <= 30


def test_what_no_blend_keeps_is_refused_by_the_law(book: RuleBook):
    """A target of 40 percent: with the findings, and the fat that the law leaves, which is then answered."""
    wanted = {**BEEF, "fat": {"kind": "exactly", "percent": 40}}
    batch = {**US, "sausage_class": "fresh_beef_sausage"}

    refusal = refusal_of(book, wanted, batch=batch)

    assert isinstance(refusal, LimitExceeded)
    assert [one.rule for one in refusal.findings if one.refuses] == ["us-freshbeef-fat"]
    assert refusal.advice == "Ask for less fat in the block, or state leaner materials. Set fat.percent to 30.54."
    assert refusal_of(book, wanted, batch=batch, fat={"kind": "exactly", "percent": 30.54}) is None


def test_water_over_the_limit_is_refused(book: RuleBook):
    """3 percent of all ingredients in fresh pork sausage (9 CFR 319.141): 3.2 of 105 are over, 3.1 of 104.9 are not."""
    asked = {"sausage_class": "fresh_pork_sausage"}

    refusal = refusal_of(book, two_trims(30), batch={**US, **asked, "water_percent": 3.2})

    assert isinstance(refusal, LimitExceeded)
    assert refusal.advice == "Set batch.water_percent lower."
    assert batch_of(book, two_trims(30), **asked, water_percent=3.1).poured_water_percent == pytest.approx(
        2.9552, abs=1e-4
    )


def test_little_meat_in_an_italian_sausage_is_refused(book: RuleBook):
    """At least 85 percent meat of all ingredients (9 CFR 319.145, reported)."""
    asked = {**US, "sausage_class": "italian_sausage", "seasoning_percent": 17}

    refusal = refusal_of(book, two_trims(25), batch=asked)

    assert isinstance(refusal, LimitExceeded)
    assert [one.rule for one in refusal.findings if one.refuses] == ["us-italian-meat"]
    enough = batch_of(book, two_trims(25), sausage_class="italian_sausage", seasoning_percent=15)
    assert verdicts(enough)["us-italian-meat"] == "met"


def test_a_limit_from_memory_only_warns(book: RuleBook):
    """Breakfast sausage of 55 percent fat is answered, with the caution that a recalled limit is passed."""
    fat = two_trims(55, fatter_percent=70)

    answer = answer_to(book, fat, batch={**US, "sausage_class": "breakfast_sausage"})

    assert answer.batch is not None
    assert verdicts(answer.batch)["us-breakfast-fat"] == "cannot_tell"
    assert "recalled-limit-passed" in [one.id for one in answer.cautions]


@pytest.mark.parametrize("named", ["smoked_pork_sausage", "cooked_sausage", "frankfurter_type"])
def test_what_is_cooked_needs_its_yield(book: RuleBook, named: str):
    """Without it no limit on the finished product is told, met or not."""
    body = two_trims(28) if named == "smoked_pork_sausage" else BEEF

    without, stated = (batch_of(book, body, sausage_class=named, **more) for more in ({}, {"cook_yield_percent": 90}))

    assert {one.verdict for one in without.findings if one.basis == "finished_product"} == {"cannot_tell"}
    assert {one.verdict for one in stated.findings if one.basis == "finished_product"} == {"met"}
    assert (without.fat_percent, without.finished_weight) == (None, None)


def test_what_is_sold_raw_is_judged_raw(book: RuleBook):
    """An Italian sausage that is cooked is judged uncooked (9 CFR 319.145(c), reported); its cooked weight is told."""
    raw, cooked = (
        batch_of(book, two_trims(25), sausage_class="italian_sausage", **more)
        for more in ({}, {"cook_yield_percent": 70})
    )

    assert raw.findings == cooked.findings
    assert raw.fat_percent == cooked.fat_percent
    assert raw.finished_weight is None
    assert cooked.finished_weight is not None
    assert cooked.finished_weight.value == pytest.approx(0.7 * raw.weight.value, abs=0.1)


def test_added_water_is_moisture_less_four_times_the_protein(book: RuleBook):
    """9 CFR 318.22 from memory, MCL 289.7113(b) reported. 10 kg, 9 % fat, 20 % protein, 70 % water; 2.5 kg water.

    180 g of salt; of 12.68 kg 95 percent are left, 0.634 kg of water lost: (7 + 2.5 - 0.634 - 8) / 12.046 = 7.189 %.
    """
    body = {**BEEF, "materials": BEEF["materials"][:1]}

    batch = batch_of(book, body, sausage_class="frankfurter_type", water_percent=25, cook_yield_percent=95)

    figures = {one.rule: one.figure for one in batch.findings}
    assert figures["us-frank-fat"] == pytest.approx(100 * 0.9 / 12.046, abs=1e-9)
    assert figures["us-frank-fatwater"] == pytest.approx(100 * (0.9 + 0.866) / 12.046, abs=1e-9)


def test_a_batch_without_added_water_has_none(book: RuleBook):
    """Cooked so far that it holds less than its meat by nature: fat and added water are the fat alone, never less."""
    batch = batch_of(book, BEEF, sausage_class="frankfurter_type", cook_yield_percent=75)

    figures = {one.rule: one.figure for one in batch.findings}
    assert figures["us-frank-fatwater"] == figures["us-frank-fat"] == 30


def test_added_water_of_poultry_is_not_told_by_its_protein(book: RuleBook):
    """The rule of four times the protein is not for poultry (MCL 289.7113(b), reported)."""
    hen = material("hen", 9, **{**LEAN, "animal": "chicken"}, least=kg(1))

    batch = batch_of(
        book,
        {**BEEF, "materials": [*BEEF["materials"], hen]},
        sausage_class="frankfurter_type",
        cook_yield_percent=90,
    )

    assert verdicts(batch) == {"us-frank-fat": "met", "us-frank-fatwater": "cannot_tell", "us-frank-poultry": "met"}
    assert "there is poultry in it" in batch.findings[1].message
    assert "stated" not in batch.findings[1].message


def test_added_water_cannot_be_told_without_analyses(book: RuleBook):
    """Fat alone can."""
    body = {**BEEF, "materials": [material("round", 9, animal="beef"), material("plate", 60, animal="beef")]}

    batch = batch_of(book, body, sausage_class="frankfurter_type", cook_yield_percent=90)

    assert verdicts(batch)["us-frank-fatwater"] == "cannot_tell"
    assert "State moisture_percent and protein_percent of round." in batch.findings[1].message


ANIMALS = [
    ("fresh_pork_sausage", "beef"), ("whole_hog_sausage", "veal"), ("fresh_beef_sausage", "pork"),
    ("ground_beef", "veal"), ("breakfast_sausage", "chicken"),
    ("breakfast_sausage", "game"), ("italian_sausage", "turkey"), ("smoked_pork_sausage", "other_bird"),
]  # fmt: skip


@pytest.mark.parametrize(("named", "animal"), ANIMALS)
def test_an_animal_that_a_class_does_not_hold_is_called_out(book: RuleBook, named: str, animal: str):
    """By name; and a block of what it holds is not."""
    held = "beef" if "beef" in named else "pork"
    trims = [{**one, "animal": kind} for one, kind in zip(two_trims(20)["materials"], (held, animal), strict=True)]
    right = [{**one, "animal": held} for one in trims]

    wrong = batch_of(book, two_trims(20, materials=trims), sausage_class=named)

    assert [one.code for one in wrong.call_outs] == ["animal_not_of_class"]
    assert animal.replace("_", " ") in wrong.call_outs[0].message
    assert batch_of(book, two_trims(20, materials=right), sausage_class=named).call_outs == ()


def test_where_no_rule_is_held_that_is_said(book: RuleBook):
    """No rule is not a pass: a class of sausage outside the United States has no finding, and a call-out."""
    batch = batch_of(book, two_trims(24), jurisdiction="GB", sausage_class="fresh_pork_sausage")

    assert batch.findings == ()
    assert [one.code for one in batch.call_outs] == ["no_rule_held"]
