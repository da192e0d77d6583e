"""What else a label has to say, and whether the label in use says it."""

from typing import Any

import pytest

from service.rules.book import RuleBook
from tests.calculations.labels.asking import required, told
from tests.calculations.labels.statement_bodies import line, parts, recipe, specified

PORK = line("pork leg", 5000, animal="pork")
CURE = line("curing salt", 12, sub_ingredients=parts("salt", "sodium nitrite"))
CELERY = line("cultured celery powder", 20)
HAM = {"name": "Ham", "kind": "whole_piece", "state": "raw", "kept": "refrigerated", "standard": "with_nitrite"}
LABEL = {"version": "3", "ingredients": [], "allergens": [], "items": []}


def test_added_solution_stands_in_the_name(book: RuleBook):
    """9 CFR 317.2(e)(2)(i)-(ii): solution by the raw meat, as a number with its sign, ingredients by weight."""
    lines = (
        line("salt", 60, in_solution=True),
        line("pork loin", 4000, animal="pork"),
        line("water", 540, in_solution=True),
    )
    product = {"name": "Pork loin", "state": "raw", "standard": "none"}

    answer = told(recipe(*lines, product=product), book)

    assert answer.added_solution_percent == 15
    assert required(answer, "added_solution").words == ("containing 15% added solution of water, salt",)


def test_what_the_solution_consists_of_stands_in_the_name(book: RuleBook):
    """Parts of parts, and the common name of an additive; what is allergenic in it is not lost."""
    seasoning = line("seasoning", 10, in_solution=True, sub_ingredients=parts("salt", "whey"))
    brine = (line("water", 100, in_solution=True), seasoning, line("E451", 3, in_solution=True))
    product = {"name": "Turkey breast", "state": "raw", "standard": "none"}

    answer = told(recipe(line("turkey breast", 1000, animal="turkey"), *brine, product=product), book)

    assert required(answer, "added_solution").words == (
        "containing 11.3% added solution of water, seasoning (salt, whey), sodium tripolyphosphate",
    )


@pytest.mark.parametrize(("grams", "percent"), [(50.01, 5.1), (50, 5), (0.3, 0.1), (113, 11.3)])
def test_the_share_of_solution_is_rounded_up_to_a_tenth(grams: float, percent: float, book: RuleBook):
    """No label says less than went in, and none says thousandths."""
    answer = told(recipe(line("pork", 1000, animal="pork"), line("water", grams, in_solution=True)), book)

    assert answer.added_solution_percent == percent


def test_a_share_that_cannot_be_reckoned_says_why(book: RuleBook):
    """No line says what meat the solution went into."""
    product = {"name": "Turkey breast", "state": "raw", "standard": "none"}

    answer = told(recipe(line("turkey breast", 1000), line("water", 50, in_solution=True), product=product), book)

    assert (required(answer, "added_solution").code, required(answer, "added_solution").words) == (
        "meat_not_stated",
        (),
    )


@pytest.mark.parametrize(
    ("state", "standard", "asked"),
    [
        ("raw", "none", "yes"),
        ("raw", None, "cannot_tell"),
        (None, "none", "cannot_tell"),
        ("ready_to_eat", "none", None),
        ("raw", "with_nitrite", None),
    ],
)
def test_added_solution_is_asked_for_of_raw_meat_without_a_standard(
    state: str | None, standard: str | None, asked: str | None, book: RuleBook
):
    """Where one of the two was not stated it cannot be told."""
    stated = {name: value for name, value in (("state", state), ("standard", standard)) if value}

    answer = told(recipe(PORK, line("brine", 50, in_solution=True), product={"name": "Leg", **stated}), book)

    asked_for = required(answer, "added_solution")
    assert (asked_for.asked_for if asked_for else None) == asked


def test_no_share_of_solution_without_meat(book: RuleBook):
    """Without a line that states an animal nothing is divided by."""
    answer = told(recipe(line("water", 50, in_solution=True), line("salt", 5)), book)

    assert answer.added_solution_percent is None


@pytest.mark.parametrize(("name", "verdict"), [("Enhanced pork leg", "not_met"), ("Pork leg", "met")])
def test_the_word_enhanced_is_barred(name: str, verdict: str, book: RuleBook):
    """9 CFR 317.2(e)(2)(v): it cannot be used in the product name."""
    product = {"name": name, "state": "raw", "standard": "none"}

    answer = told(recipe(PORK, line("water", 500, in_solution=True), product=product), book)

    assert required(answer, "no_word_enhanced").verdict == verdict


def test_uncured_with_a_natural_source_is_qualified(book: RuleBook):
    """9 CFR 319.2 and 317.17, the qualifier as told by the agency's spokesman in 2019; the rule making is named."""
    answer = told(recipe(PORK, CELERY, product=HAM), book)

    assert required(answer, "uncured").words == ("Uncured Ham",)
    assert required(answer, "no_nitrite_added").words == (
        "No Nitrate or Nitrite Added except for those naturally occurring in cultured celery powder",
    )
    assert "RIN 0583-AD92" in required(answer, "no_nitrite_added").note


def test_with_nitrite_it_is_not_uncured(book: RuleBook):
    """Nitrite anywhere in the recipe, however deep."""
    answer = told(recipe(PORK, CURE, product=HAM), book)

    assert required(answer, "uncured") is None
    assert required(answer, "not_preserved") is None


def test_a_mix_may_bring_nitrite_in_unseen(book: RuleBook):
    """A specification of allergens does not say that there is no nitrite in it."""
    answer = told(recipe(PORK, line("seasoning", 60, specification=specified()), product=HAM), book)

    assert required(answer, "uncured").asked_for == "cannot_tell"


@pytest.mark.parametrize(
    ("kept", "words"), [("refrigerated", ("Keep Refrigerated",)), ("frozen", ("Keep Frozen",)), ("shelf_stable", None)]
)
def test_keep_cold_follows_from_how_it_is_kept(kept: str, words: tuple[str, ...] | None, book: RuleBook):
    """9 CFR 317.2(k), with the policy that the words set off."""
    answer = told(recipe(PORK, product={**HAM, "kept": kept}), book)

    asked = required(answer, "keep_cold")
    assert (asked.words if asked else None) == words
    assert asked is None or "us-nitrite-keeprefrigerated-min" in asked.note


@pytest.mark.parametrize(("state", "is_asked"), [("raw", True), ("heated_not_ready", True), ("ready_to_eat", False)])
def test_raw_meat_has_its_handling_instructions(state: str, is_asked: bool, book: RuleBook):
    """9 CFR 317.2(l): a heading, why, and four statements, on meat that is not ready to eat."""
    asked = required(told(recipe(PORK, product={**HAM, "state": state}), book), "raw_handling")

    assert (asked is not None) == is_asked
    if asked is not None:
        assert asked.words[0].endswith("Handling Instructions")
        assert len(asked.words) == 8
        assert "Thaw in refrigerator or microwave" in asked.words[4]


def test_the_words_on_inspected_meat_are_not_put_on_game(book: RuleBook):
    """Game need not be inspected (from memory): whether the words are true hangs on that."""
    venison = line("venison", 5000, animal="game")

    wild, tame = (
        required(
            told(recipe(meat, product=HAM, label_in_use={**LABEL, "items": ["raw_handling"]}), book), "raw_handling"
        )
        for meat in (venison, PORK)
    )

    assert (wild.verdict, wild.code, wild.words) == ("cannot_tell", "game_is_in", ())
    assert (tame.verdict, len(tame.words)) == ("met", 8)


@pytest.mark.parametrize(
    ("names", "asked"),
    [(("salt", "pepper"), None), (("salt", "seasoning"), "cannot_tell"), (("pork", "salt"), "yes")],
)
def test_a_rub_has_no_handling_instructions(names: tuple[str, ...], asked: str | None, book: RuleBook):
    """9 CFR 317.2(l) is of meat: none in it, maybe some in it, or some by its name."""
    product = {"name": "Rub", "kind": "other", "state": "raw", "kept": "shelf_stable"}

    handling = required(told(recipe(*(line(name, 50) for name in names), product=product), book), "raw_handling")

    assert (handling.asked_for if handling else None) == asked


@pytest.mark.parametrize(
    ("meats", "words"),
    [
        ([("venison", "game"), ("pork belly", "pork")], ("venison", "pork")),
        ([("wild boar shoulder", "game"), ("pheasant", "game")], ("wild boar", "pheasant")),
        ([("venison neck", "game"), ("venison haunch", "game")], None),
        ([("pork belly", "pork"), ("pork leg", "pork")], None),
    ],
)
def test_game_is_named_by_its_animal(meats: list[tuple[str, str]], words: tuple[str, ...] | None, book: RuleBook):
    """Boar and pheasant are two, and "game" is no species."""
    lines = [line(name, 900, animal=animal) for name, animal in meats]

    species = required(told(recipe(*lines, product={"name": "Links", "kind": "sausage"}), book), "species")

    assert (species.words if species else None) == words


@pytest.mark.parametrize("name", ["Uncured bacon", "uncured Ham"])
def test_uncured_is_said_once(name: str, book: RuleBook):
    """A name that has the word already keeps it."""
    answer = told(recipe(PORK, CELERY, product={**HAM, "name": name}), book)

    assert required(answer, "uncured").words == (name,)


@pytest.mark.parametrize(("count", "text"), [(1, "Contains: milk."), (2, None)])
def test_europe_has_no_statement_beside_its_list(count: int, text: str | None, book: RuleBook):
    """Article 21 of Regulation (EU) No 1169/2011: "contains" is for food without a list."""
    lines = (line("whey", 20), line("salt", 5))[:count]

    assert told(recipe(*lines, place="EU"), book).allergen_statement.text == text


def test_every_animal_of_a_sausage_is_named(book: RuleBook):
    """Known from memory alone, so it proves nothing, and is told."""
    lamb = line("lamb shoulder", 2000, animal="lamb")

    answer = told(recipe(PORK, lamb, product={"name": "Links", "kind": "sausage"}, label_in_use=LABEL), book)

    assert (required(answer, "species").verdict, required(answer, "species").code) == ("cannot_tell", "recalled_only")


@pytest.mark.parametrize(
    ("items", "verdict"), [(["raw_handling"], "met"), (["keep_cold"], "not_met"), (None, "cannot_tell")]
)
def test_a_statement_is_held_against_the_label(items: list[str] | None, verdict: str, book: RuleBook):
    """On it, not on it, and no label to look at."""
    body = recipe(PORK, product=HAM)
    label: dict[str, Any] = {} if items is None else {"label_in_use": {**LABEL, "items": items}}

    answer = told(body | label, book)

    assert required(answer, "raw_handling").verdict == verdict


@pytest.mark.parametrize(
    ("operator", "binds"),
    [("home", "no"), ("retail", "cannot_tell"), ("state_plant", "yes"), ("inspected_plant", "yes")],
)
def test_whom_the_rule_binds_is_told(operator: str, binds: str, book: RuleBook):
    """A household never; a plant under inspection always; a shop follows its state."""
    answer = told(recipe(PORK, line("salt", 60), operator=operator), book)

    assert required(answer, "ingredients").binds == binds


def test_one_ingredient_needs_no_list(book: RuleBook):
    """9 CFR 317.2(c)(2): a list where it is fabricated from two or more."""
    assert required(told(recipe(PORK), book), "ingredients") is None


def test_europe_asks_for_its_own(book: RuleBook):
    """Emphasis and categories where there is something to emphasise or to name; no handling instructions."""
    answer = told(recipe(PORK, CURE, line("whey", 20), place="EU", product=HAM), book)

    assert {one.item for one in answer.required} == {
        "ingredients",
        "allergens",
        "allergens_emphasised",
        "additives_by_category",
    }


def test_a_pass_by_a_reported_text_says_so(book: RuleBook):
    """The law on allergens was read second-hand: met, with the caution."""
    label = {**LABEL, "ingredients": ["pork leg", "whey"], "allergens": ["milk"]}

    answer = told(recipe(PORK, line("whey", 20), label_in_use=label), book)

    assert required(answer, "allergens").verdict == "met"
    assert "reported-source" in [one.id for one in answer.cautions]


def test_cautions_defer_to_authorities(book: RuleBook):
    """Always: nothing here approves a label, the local code. Allergens where there is something to look for; shared
    equipment until it is stated."""
    seasoned = (PORK, line("seasoning", 20))
    bodies = (recipe(*seasoned), recipe(*seasoned, shared_equipment=[]), recipe(PORK, shared_equipment=[]))

    silent, stated, plain = ([one.id for one in told(body, book).cautions] for body in bodies)

    assert silent == ["allergens", "shared-equipment", "label-approval", "local-code"]
    assert stated == ["allergens", "label-approval", "local-code"]
    assert plain == ["label-approval", "local-code"]
