"""The finished batch: limits of the law kept by the blend, salt counted once, and a cure that is a dose."""

from typing import Any

import pytest

from service.calculations.butchery.blending.finishing import CureTold, FinishedBatch
from service.calculations.butchery.blending.materials import Material
from service.calculations.butchery.blending.salting import REASONS, species_of
from service.calculations.curing.dose import DoseRequest, dose
from service.calculations.refusals import Impossible, LimitExceeded
from service.rules.book import RuleBook
from tests.calculations.butchery.blend_bodies import CURE, Body, kg, material, two_trims, usd
from tests.calculations.butchery.blends import ON, answer_to, refusal_of

US: Body = {"jurisdiction": "US", "salt_percent": 1.8}
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
    assert batch_of(book, two_trims(30), **asked, water_percent=3.1).added_water_percent == pytest.approx(
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
    assert verdicts(answer.batch) == {"us-breakfast-fat": "cannot_tell"}
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
    """9 CFR 318.22 from memory, MCL 289.7113(b) read. By hand: 10 kg, 9 % fat, 20 % protein, 70 % water; 2.5 kg water.

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


def test_added_water_cannot_be_told_without_analyses(book: RuleBook):
    """Fat alone can."""
    body = {**BEEF, "materials": [material("round", 9, animal="beef"), material("plate", 60, animal="beef")]}

    batch = batch_of(book, body, sausage_class="frankfurter_type", cook_yield_percent=90)

    assert verdicts(batch) == {"us-frank-fat": "met", "us-frank-fatwater": "cannot_tell"}


ANIMALS = [
    ("fresh_pork_sausage", "beef"), ("whole_hog_sausage", "veal"), ("fresh_beef_sausage", "pork"),
    ("ground_beef", "veal"), ("italian_sausage", "turkey"), ("smoked_pork_sausage", "other_bird"),
]  # fmt: skip


@pytest.mark.parametrize(("named", "animal"), ANIMALS)
def test_an_animal_that_a_class_does_not_hold_is_called_out(book: RuleBook, named: str, animal: str):
    """By name; and a block of what it holds is not."""
    held = "beef" if "beef" in named else "pork"
    trims = [{**one, "animal": kind} for one, kind in zip(two_trims(20)["materials"], (held, animal), strict=True)]
    right = [{**one, "animal": held} for one in trims]

    wrong = batch_of(book, two_trims(20, materials=trims), sausage_class=named)

    assert [one.code for one in wrong.call_outs] == ["animal_not_of_class"]
    assert animal.replace("_", " ") in wrong.call_outs[0].text
    assert batch_of(book, two_trims(20, materials=right), sausage_class=named).call_outs == ()


def salted(percent: float) -> Body:
    """Two trims of which the lean one, two thirds of the block at 24 percent fat, holds salt."""
    body = two_trims(24)
    return {**body, "materials": [body["materials"][0], {**body["materials"][1], "salt_percent": percent}]}


def test_salt_inside_is_not_added_again(book: RuleBook):
    """10 kg at 1.8 percent: 180 g, less 6,667 g x 1.2 percent = 80 g that are in the trim already, by hand."""
    batch = batch_of(book, salted(1.2))

    assert [one.what for one in batch.add] == ["salt"]
    assert batch.add[0].exact_g == pytest.approx(100)
    assert batch.salt_percent == pytest.approx(1.8)
    assert batch.call_outs == ()


def test_more_salt_inside_than_is_wanted_is_called_out(book: RuleBook):
    """Then none is added, with a cure and without."""
    plain, cured = (batch_of(book, salted(3.3), **more) for more in ({}, {"cure": CURE}))

    assert plain.add == ()
    assert plain.salt_percent == pytest.approx(2.2)
    assert [one.what for one in cured.add] == ["curing_salt"]
    assert cured.salt_percent == pytest.approx(2.2 + 0.224 * 0.9375, abs=1e-3)
    assert [one.code for one in (*plain.call_outs, *cured.call_outs)] == ["salt_already_inside"] * 2


def test_salt_of_the_curing_salt_may_be_enough(book: RuleBook):
    """1.65 of 1.8 percent are inside: the curing salt brings 0.21, so no more is added, and that is said."""
    batch = batch_of(book, salted(2.475), cure=CURE)

    assert [one.what for one in batch.add] == ["curing_salt"]
    assert [one.code for one in batch.call_outs] == ["salt_already_inside"]


def test_the_cure_is_the_dose(book: RuleBook):
    """Asked of the dose by itself, with the salt that is left to add, it is the same to the last field."""
    body = two_trims(24, scale_step={"value": 10, "unit": "g"}, detail="brief")
    method = {"kind": "comminuted", "water": {"value": 500.0, "unit": "g"}}
    asked = {
        "jurisdiction": "US", "on": ON, "product": {"kind": "sausage", "species": "pork"}, "detail": "brief",
        "meat": {"value": 10000.0, "unit": "g"}, "method": method,
        "curing_salt": CURE["curing_salt"], "target": CURE["target"], "scale_step": CURE["scale_step"],
        "salt_percent": 1.8, "sugar_percent": 0.4, "other_ingredients": {"value": 60.0, "unit": "g"},
    }  # fmt: skip

    batch = batch_of(book, body, cure=CURE, water_percent=5, sugar_percent=0.4, seasoning_percent=0.6)

    alone = dose(DoseRequest.model_validate(asked), book)
    assert batch.cure is not None
    assert vars(batch.cure) == {field: getattr(alone, field) for field in CureTold.model_fields}
    assert [one.what for one in batch.add] == ["curing_salt", "salt", "sugar", "water", "seasoning"]


SPECIES = [
    (("pork", "pork"), "pork"), (("beef", "pork"), "mixed"), (("duck", "turkey"), "poultry"),
    (("chicken", "veal"), "mixed"), (("game", "game"), "game"), (("goose", "goose"), "poultry"),
]  # fmt: skip


@pytest.mark.parametrize(("animals", "species"), SPECIES)
def test_the_dose_is_asked_for_the_animals_of_the_block(animals: tuple[str, str], species: str):
    """Birds are poultry, several are mixed, and what is not used does not count."""
    trims = [Material.model_validate(material("trim", 20, animal=animal)) for animal in animals]
    unused = Material.model_validate(material("other", 20, animal="lamb"))

    assert species_of((*trims, unused), (1.0, 1.0, 0.0)) == species


def test_cautions_of_the_dose_are_among_those_of_the_blend(book: RuleBook):
    """Each once, with what poultry asks for, and the local code last."""
    birds = [{**one, "animal": "turkey"} for one in two_trims(24)["materials"]]

    answer = answer_to(book, two_trims(24, materials=birds), batch={**US, "cure": CURE})

    told = [one.id for one in answer.cautions]
    assert {"poultry", "nitrite-toxic", "strength-from-label", "nitrite-emergency"} <= set(told)
    assert len(told) == len(set(told))
    assert told[-1] == "local-code"


def test_where_no_rule_is_held_that_is_said(book: RuleBook):
    """No rule is not a pass: a class of sausage outside the United States has no finding, and a call-out."""
    batch = batch_of(book, two_trims(24), jurisdiction="GB", sausage_class="fresh_pork_sausage")

    assert batch.findings == ()
    assert [one.code for one in batch.call_outs] == ["no_rule_held"]


def test_what_was_cured_before_gets_no_cure(book: RuleBook):
    """Its nitrite is not known: refused, and answered when the cure is left out."""
    body = salted(2)
    body["materials"][1]["cured"] = True

    refusal = refusal_of(book, body, batch={**US, "cure": CURE})

    assert isinstance(refusal, Impossible)
    assert refusal.code == "cured_material"
    assert refusal.nearest
    assert refusal.nearest.startswith("Leave batch.cure out")
    assert batch_of(book, body).cure is None


WEAK = {"nitrite": {"salt": "sodium_nitrite", "percent": 0.1}, "sugar_percent": 40}
SWEET = {"nitrite": {"salt": "sodium_nitrite", "percent": 6.25}, "sugar_percent": 40}
DECLINED: list[tuple[str, Body, Body]] = [
    ("no_rule_in_force", {"jurisdiction": "AU-NZ"}, {}),
    ("salt_comes_with_the_cure", {"salt_percent": 0.1}, {}),
    ("sugar_comes_with_the_cure", {"sugar_percent": 0.05}, {"curing_salt": SWEET}),
    ("curing_salt_too_weak", {"jurisdiction": "CA", "salt_percent": 20, "water_percent": 50},
     {"curing_salt": WEAK, "target": {"kind": "ingoing_nitrite", "ppm": 230}}),
    ("storage_contradicts_finish", {}, {"product": {"finish": "fresh", "storage": "shelf_stable"}}),
    ("below_scale_step", {}, {"scale_step": {"value": 1, "unit": "kg"}}),
]  # fmt: skip


@pytest.mark.parametrize(("code", "batch", "cure"), DECLINED)
def test_what_the_dose_declines_is_declined(book: RuleBook, code: str, batch: Body, cure: Body):
    """With its code, and what it names as nearest said of the cure."""
    refusal = refusal_of(book, two_trims(24), batch={**US, **batch, "cure": {**CURE, **cure}})

    assert isinstance(refusal, Impossible)
    assert refusal.code == code
    assert refusal.nearest is None or refusal.nearest.startswith("In batch.cure: ")


def test_a_dose_over_its_limit_refuses_the_blend(book: RuleBook):
    """A prescription never breaks a limit: 200 ppm in ground meat (156.25, 9 CFR 424.21(c))."""
    over = {**CURE, "target": {"kind": "ingoing_nitrite", "ppm": 200}}

    refusal = refusal_of(book, two_trims(24), batch={**US, "cure": over})

    assert isinstance(refusal, LimitExceeded)
    assert "us-nitrite-comminuted-max" in [one.rule for one in refusal.findings if one.refuses]
    assert refusal.advice == "In batch.cure: Set target.ppm to at most 156.2."


def test_every_code_of_a_batch_is_tried():
    """No reason of the dose is declared that no batch brings about."""
    assert {code for code, _, _ in DECLINED} | {"cured_material"} == set(REASONS)
