"""Verdicts on a batch take the careful side of whatever is not known, and one law has one figure."""

from typing import Any

import pytest

from service.calculations.butchery.blending.batch import LOSES_WEIGHT, UNCURED, SausageClass
from service.calculations.butchery.blending.lawful import MEASURES
from service.calculations.refusals import LimitExceeded
from service.rules.book import Question, RuleBook
from service.rules.finding import Finding
from tests.calculations.butchery.blend_bodies import Body, kg, material, usd
from tests.calculations.butchery.blends import ON, answer_to, refusal_of

US: Body = {"jurisdiction": "US", "operator": "retail"}
WET = {"protein_percent": 15, "moisture_percent": 56}
FRANK = {"sausage_class": "frankfurter_type", "cook_yield_percent": 95}


def block_of(*materials: Body) -> Body:
    """10 kg of these."""
    return {"block": {"kind": "whole_block", "weight": kg(10)}, "materials": list(materials)}


def findings_on(book: RuleBook, body: Body, **batch: Any) -> dict[str, Finding]:
    """Each finding by its rule."""
    told = answer_to(book, body, batch={**US, **batch}).batch
    assert told is not None
    return {finding.rule: finding for finding in told.findings}


@pytest.mark.parametrize(
    "added", [{"water_percent": 12}, {"water_percent": 5}, {"seasoning_percent": 3, "salt_percent": 2}]
)
def test_nothing_that_is_added_makes_room_for_fat_in_ground_beef(book: RuleBook, added: Body):
    """31 percent of the beef are over 30 (9 CFR 319.15(a), reported), whatever is mixed with it."""
    beef = block_of(material("trim", 31, animal="beef"))

    refusal = refusal_of(book, beef, batch={**US, "sausage_class": "ground_beef", **added})

    assert isinstance(refusal, LimitExceeded)
    assert "us-groundbeef-fat" in [one.rule for one in refusal.findings if one.refuses]


def test_ground_beef_holds_no_water(book: RuleBook):
    """Lean enough, and with a little water: refused for the water; seasoned without any, it is answered."""
    beef = block_of(material("trim", 20, animal="beef"))
    batch = {**US, "sausage_class": "ground_beef"}

    refusal = refusal_of(book, beef, batch={**batch, "water_percent": 0.5})

    assert isinstance(refusal, LimitExceeded)
    assert [one.rule for one in refusal.findings if one.refuses] == ["us-groundbeef-water"]
    assert refusal.advice == "Set batch.water_percent to 0."
    assert {
        one.verdict for one in findings_on(book, beef, sausage_class="ground_beef", seasoning_percent=1).values()
    } == {"met"}


@pytest.mark.parametrize("named", sorted(UNCURED | LOSES_WEIGHT | {"italian_sausage"}))
def test_every_class_has_a_rule_on_its_water(book: RuleBook, named: SausageClass):
    """So that none is passed whose water nobody looked at."""
    rules = book.binding(Question("US", ON, "retail", frozenset({named}), MEASURES)).rules

    assert [rule.id for rule in rules if "added_water" in rule.measure]


def test_added_water_is_met_only_whatever_the_loss_is(book: RuleBook):
    """10 kg, 22 % water poured in, 12.2 kg raw, 5.5 % lost: 5.6 + 2.2 - 0.671 - 6 = 1.129 of 11.529 kg, 9.7927 %.

    Were all the 0.671 kg fat, 15.6128 %; a tenth of them, 10.37 %: the one field that decides is asked for.
    """
    wet, asked = block_of(material("pork", 28, **WET)), {"sausage_class": "cooked_sausage", "cook_yield_percent": 94.5}

    water = findings_on(book, wet, **asked, water_percent=22)["us-cooked-sausage-generic-water"]

    assert (water.verdict, water.code, water.figure) == ("cannot_tell", "band_across_limit", None)
    assert "Between 9.7927 and 15.6128 percent" in water.message
    assert "batch.rendered_fat_percent" in water.message


@pytest.mark.parametrize(("rendered", "figure"), [(0, 9.792697), (0.1, 9.898517)])
def test_added_water_is_told_where_the_fat_that_runs_out_is_stated(book: RuleBook, rendered: float, figure: float):
    """The same with nothing run out, and with 12.2 g of fat: 1.1412 of 11.529 kg; and the fat is less by them."""
    wet, asked = block_of(material("pork", 28, **WET)), {"sausage_class": "cooked_sausage", "cook_yield_percent": 94.5}

    told = answer_to(book, wet, batch={**US, **asked, "water_percent": 22, "rendered_fat_percent": rendered})

    assert told.batch is not None
    assert told.batch.findings[0].figure == pytest.approx(figure, abs=1e-6)
    assert told.batch.fat_percent == pytest.approx(100 * (2800 - 122 * rendered) / 11529, abs=1e-4)
    assert any(step.startswith("Added water: 5600 g in the meat + 2200 g poured in") for step in told.steps)


def test_more_fat_run_out_than_the_water_bears_is_refused(book: RuleBook):
    """0.4 percent of 12.2 kg: 1.1778 of 11.529 kg are 10.2 percent of added water."""
    wet, asked = block_of(material("pork", 28, **WET)), {"sausage_class": "cooked_sausage", "cook_yield_percent": 94.5}

    refusal = refusal_of(book, wet, batch={**US, **asked, "water_percent": 22, "rendered_fat_percent": 0.4})

    assert isinstance(refusal, LimitExceeded)
    assert refusal.findings[0].figure == pytest.approx(100 * 1177.8 / 11529, abs=1e-6)


TRIMS = [
    (material("pork", 28, protein_percent=20, moisture_percent=51),),
    (
        material("fat", 60, protein_percent=8, moisture_percent=31, price=usd("1")),
        material("lean", 8, protein_percent=20, moisture_percent=71, price=usd("6")),
    ),
]


@pytest.mark.parametrize("trims", TRIMS)
def test_one_law_has_one_figure_in_one_answer(book: RuleBook, trims: tuple[Body, ...]):
    """Added water is never less than none, among the limits as among the findings; and the law gives no room."""
    batch = {**US, **FRANK, "water_percent": 5, "salt_percent": 1.8}

    answer = answer_to(book, block_of(*trims), batch=batch, scale_step={"value": 10, "unit": "g"})

    assert answer.batch is not None
    lawful = {one.rule: one for one in answer.limits if one.rule}
    assert {one.rule for one in answer.batch.findings} == set(lawful)
    assert [lawful[one.rule].figure for one in answer.batch.findings] == [one.figure for one in answer.batch.findings]
    assert {one.tolerance for one in lawful.values()} == {0.0}


@pytest.mark.parametrize("animal", ["chicken", "turkey", "goose"])
def test_a_frankfurter_of_poultry_is_none(book: RuleBook, animal: str):
    """15 percent of all but the water may be poultry (9 CFR 319.180(a), reported): 16 of 101.8 are more, 15 are not."""
    pork = material("pork", 15, protein_percent=18, moisture_percent=66)
    much, some = (block_of(pork, material("hen", 15, animal=animal, least_share_percent=share)) for share in (16, 15))

    refusal = refusal_of(book, much, batch={**US, **FRANK, "salt_percent": 1.8})

    assert isinstance(refusal, LimitExceeded)
    assert [one.rule for one in refusal.findings if one.refuses] == ["us-frank-poultry"]
    assert findings_on(book, some, **FRANK, salt_percent=1.8)["us-frank-poultry"].verdict == "met"


@pytest.mark.parametrize(("animal", "codes"), [("game", ["animal_not_of_class"]), ("lamb", [])])
def test_game_is_no_meat_of_a_frankfurter(book: RuleBook, animal: str, codes: list[str]):
    """Called out; lamb is meat."""
    told = answer_to(book, block_of(material("trim", 20, animal=animal)), batch={**US, **FRANK}).batch

    assert told is not None
    assert [one.code for one in told.call_outs] == codes


def test_fat_that_is_too_much_at_any_yield_is_refused_without_one(book: RuleBook):
    """70 percent are 63.6 even of a batch that gained a tenth; of 50 the yield is asked for (9 CFR 319.160)."""
    over, open_ = (block_of(material("pork", percent)) for percent in (70, 50))
    asked = {"sausage_class": "smoked_pork_sausage"}

    refusal = refusal_of(book, over, batch={**US, **asked})

    assert isinstance(refusal, LimitExceeded)
    assert refusal.findings[0].figure == pytest.approx(70 / 1.1)
    fat = findings_on(book, open_, **asked)["us-smokedpork-fat"]
    assert (fat.verdict, fat.figure) == ("cannot_tell", None)
    assert "State batch.cook_yield_percent." in fat.message


def test_only_what_is_there_is_to_be_lowered(book: RuleBook):
    """Too little meat in an Italian sausage without water: the seasoning and the salt are named, and no water."""
    pork = block_of(material("pork", 20))
    batch = {**US, "sausage_class": "italian_sausage", "seasoning_percent": 17.6, "salt_percent": 0.1}

    refusal = refusal_of(book, pork, batch=batch)

    assert isinstance(refusal, LimitExceeded)
    assert refusal.advice == "Set batch.seasoning_percent or batch.salt_percent lower."


@pytest.mark.parametrize(("operator", "is_told"), [("home", True), ("retail", False)])
def test_at_home_the_name_can_be_left_out(book: RuleBook, operator: str, is_told: bool):
    """The standard of a sausage binds what is sold; without the class it is answered."""
    fat, batch = block_of(material("trim", 40, animal="beef")), {"jurisdiction": "US", "operator": operator}

    refusal = refusal_of(book, fat, batch={**batch, "sausage_class": "fresh_beef_sausage"})

    assert isinstance(refusal, LimitExceeded)
    assert ("for your own table" in refusal.advice) == is_told
    assert refusal_of(book, fat, batch=batch) is None
