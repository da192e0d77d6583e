"""Salt that is counted once, and a cure that is a dose."""

from typing import Any

import pytest

from service.calculations.butchery.blending.finishing import CureTold, FinishedBatch
from service.calculations.butchery.blending.materials import Material
from service.calculations.butchery.blending.salting import REASONS, species_of
from service.calculations.curing.dose import DoseRequest, dose
from service.calculations.refusals import Impossible, LimitExceeded
from service.rules.book import RuleBook
from tests.calculations.butchery.blend_bodies import CURE, Body, material, two_trims
from tests.calculations.butchery.blends import ON, answer_to, refusal_of

US: Body = {"jurisdiction": "US", "salt_percent": 1.8}


def batch_of(book: RuleBook, body: Body, **batch: Any) -> FinishedBatch:
    """The batch of a block, in the United States."""
    told = answer_to(book, body, batch={**US, **batch}).batch
    assert told is not None
    return told


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
    ("cure_contradicts_class", {"sausage_class": "ground_beef"}, {}),
    ("finish_contradicts_class", {"sausage_class": "cooked_sausage"}, {"product": {"finish": "fresh"}}),
    ("below_scale_step", {}, {"scale_step": {"value": 1, "unit": "kg"}}),
]  # fmt: skip


@pytest.mark.parametrize(("code", "batch", "cure"), DECLINED)
def test_what_the_dose_declines_is_declined(book: RuleBook, code: str, batch: Body, cure: Body):
    """With its code, and what it names as nearest said of the cure."""
    refusal = refusal_of(book, two_trims(24), batch={**US, **batch, "cure": {**CURE, **cure}})

    assert isinstance(refusal, Impossible)
    assert refusal.code == code
    assert refusal.nearest is None or refusal.nearest.startswith(
        ("In batch.cure: ", "Set batch.", "Leave batch.cure out")
    )


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
