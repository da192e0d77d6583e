"""The ways in which allergens come into cured meat: recalls and the trade know them (FSIS alerts, trade review)."""

import pytest

from service.rules.book import RuleBook
from tests.calculations.labels.asking import contained, required, told, verdicts, ways
from tests.calculations.labels.statement_bodies import line, parts, recipe

PORK = line("pork shoulder", 5000, animal="pork")


def test_soy_and_celery_come_in_through_stock_powder(book: RuleBook):
    """Both are found below the powder, with the way they came."""
    powder = line("stock powder", 60, sub_ingredients=parts("salt", "hydrolyzed soy protein", "celery seed"))

    answer = told(recipe(PORK, powder, place="EU"), book)

    assert contained(answer) == {"soybeans", "celery"}
    assert ways(answer, "celery") == [("stock powder", "celery seed")]


def test_mustard_comes_in_as_a_binder(book: RuleBook):
    """Free text in the United States, declarable in Europe: it is told in both, and named in one."""
    binder = line("binder", 90, sub_ingredients=parts("mustard flour", "corn starch"))

    here, there = (told(recipe(PORK, binder, place=place), book) for place in ("US", "EU"))

    assert contained(here) == contained(there) == {"mustard"}
    assert here.allergen_statement.verdict == "does_not_contain"
    assert here.allergen_statement.not_listed == there.allergen_statement.found == ("mustard",)


def test_fish_comes_in_through_a_sauce(book: RuleBook):
    """A Worcestershire-type sauce with anchovies, two steps down."""
    sauce = line("brown sauce", 70, sub_ingredients=[{"name": "table sauce", "sub_ingredients": parts("anchovies")}])

    answer = told(recipe(PORK, sauce), book)

    assert ways(answer, "fish") == [("brown sauce", "table sauce", "anchovies")]
    assert answer.allergen_statement.text == "Contains: fish (anchovy)."


def test_milk_comes_in_under_a_butter_flavor(book: RuleBook):
    """The name alone proves nothing and warns of milk; its parts tell."""
    bare = told(recipe(PORK, line("butter flavor", 8)), book)
    stated = told(recipe(PORK, line("butter flavor", 8, sub_ingredients=parts("maltodextrin", "milk fat"))), book)

    assert verdicts(bare)["milk"] == "cannot_tell"
    assert bare.open_ingredients[0].usually_brings_in[0] == "milk"
    assert contained(stated) == {"milk"}


def test_wheat_and_soy_come_in_with_a_barbecue_pack(book: RuleBook):
    """Soy protein concentrate and wheat flour, as in recalled packs."""
    pack = line("barbecue pack", 300, sub_ingredients=parts("sugar", "wheat flour", "soy protein concentrate", "salt"))

    answer = told(recipe(PORK, pack), book)

    assert answer.allergen_statement.text == "Contains: wheat, soybeans."


def test_wheat_of_a_seasoning_supplier_is_not_excluded(book: RuleBook):
    """A seasoning whose maker says nothing leaves everything open and warns of wheat."""
    answer = told(recipe(PORK, line("seasoning", 60)), book)

    assert answer.allergen_statement.verdict == "cannot_tell"
    assert answer.open_ingredients[0].usually_brings_in[0] == "wheat"
    assert set(verdicts(answer).values()) == {"cannot_tell"}


def test_what_was_found_is_told_beside_what_stays_open(book: RuleBook):
    """Milk is in, whatever the seasoning brings: the statement has no text, and milk is named."""
    answer = told(recipe(PORK, line("whey powder", 40), line("seasoning", 60)), book)

    assert answer.allergen_statement.found == ("milk",)
    assert answer.allergen_statement.text is None


def test_shared_equipment_is_no_ingredient(book: RuleBook):
    """It is told apart, and the recipe is what it was."""
    answer = told(recipe(PORK, line("salt", 90), shared_equipment=["sesame", "milk"]), book)

    assert {one.allergen: one.in_recipe for one in answer.shared_equipment or ()} == {
        "milk": "does_not_contain", "sesame": "does_not_contain",
    }  # fmt: skip
    assert answer.allergen_statement.verdict == "does_not_contain"


def test_parts_that_do_not_come_to_the_whole_leave_the_rest_open(book: RuleBook):
    """Eighty percent of a rub is stated: the rest may be anything."""
    rub = line("rub", 90, sub_ingredients=[{"name": "salt", "percent": 50}, {"name": "paprika", "percent": 30}])

    answer = told(recipe(PORK, rub), book)

    assert [one.code for one in answer.open_ingredients] == ["rest_not_stated"]
    assert answer.allergen_statement.verdict == "cannot_tell"


def test_sulphites_count_above_ten(book: RuleBook):
    """Regulation (EU) No 1169/2011, Annex II, item 12: above 10 mg/kg. Named until a figure is stated."""
    lines = (PORK, line("sodium metabisulfite", 2))

    unknown, over, at = (
        told(recipe(*lines, place="EU", **more), book).allergen_statement.found
        for more in ({}, {"sulphites_mg_per_kg": 10.01}, {"sulphites_mg_per_kg": 10})
    )

    assert unknown == over == ("sulphites",)
    assert at == ()


def test_measured_sulphites_are_in(book: RuleBook):
    """A figure above the level says so without any word."""
    answer = told(recipe(PORK, line("salt", 90), place="EU", sulphites_mg_per_kg=40), book)

    assert answer.allergen_statement.found == ("sulphites",)
    assert answer.ingredient_statement == "Ingredients: pork shoulder, salt. Contains SULPHITES."


@pytest.mark.parametrize(
    ("mg_per_kg", "name"), [(10, "sodium metabisulphite"), (11, "SODIUM METABISULPHITE (SULPHITES)")]
)
def test_the_european_list_goes_by_the_same_level(mg_per_kg: float, name: str, book: RuleBook):
    """At ten it is an additive like another; above ten it stands out."""
    lines = (PORK, line("sodium metabisulphite", 2))

    answer = told(recipe(*lines, place="EU", sulphites_mg_per_kg=mg_per_kg), book)

    assert answer.ingredient_statement == f"Ingredients: pork shoulder, preservative: {name} (E 223)."
    assert (answer.allergen_statement.verdict == "contains") == (mg_per_kg > 10)


@pytest.mark.parametrize(
    ("more", "asked"),
    [({}, "yes"), ({"sulphites_mg_per_kg": 10}, "yes"), ({"sulphites_mg_per_kg": 9.9}, None)],
)
def test_the_united_states_want_sulphites_named_without_listing_them(more: dict, asked: str | None, book: RuleBook):
    """21 CFR 101.100(a)(4), as quoted: ten parts per million or more; it is no major allergen."""
    answer = told(recipe(PORK, line("sodium metabisulphite", 2), **more), book)

    sulphites = required(answer, "sulphites")
    assert (sulphites.asked_for if sulphites else None) == asked
    assert answer.allergen_statement.not_listed == ("sulphites",)
    assert answer.allergen_statement.verdict == "does_not_contain"
    assert "found-not-listed" in [one.id for one in answer.cautions]


def test_nothing_beside_the_statement_where_nothing_was_found(book: RuleBook):
    """Salt is no sulphite."""
    answer = told(recipe(PORK, line("salt", 90)), book)

    assert answer.allergen_statement.not_listed == ()
    assert required(answer, "sulphites") is None


@pytest.mark.parametrize(
    ("names", "not_listed"),
    [(("malted barley", "wheat flour"), "cereals with gluten (barley, wheat)"), (("mussels",), "molluscs")],
)
def test_what_another_law_lists_is_told_beside_the_statement(names: tuple[str, ...], not_listed: str, book: RuleBook):
    """The United States list neither barley nor molluscs; wheat is named already."""
    answer = told(recipe(PORK, *(line(name, 20) for name in names)), book)
    wheat = told(recipe(PORK, line("wheat flour", 20)), book)

    assert answer.allergen_statement.not_listed == (not_listed,)
    assert wheat.allergen_statement.not_listed == ()


@pytest.mark.parametrize(
    ("percents", "is_open"),
    [
        ([99], True), ([100], False), ([50, 49], True), ([33, 33, 33], False), ([33.3, 33.3, 33.3], False),
        ([33.4, 33, 33], False), ([50.5, 49], False), ([50.5, 48.9], True), ([98.9], True),
        ([20, 20, 20, 20, 18.5], True),
    ],
)  # fmt: skip
def test_no_more_is_missing_than_rounding_explains(percents: list[float], is_open: bool, book: RuleBook):
    """By half of the last digit of each, at most one percent; of one part nothing is missing."""
    of = [{"name": f"salt {number}", "percent": percent} for number, percent in enumerate(percents, 10)]

    answer = told(recipe(PORK, line("rub", 90, sub_ingredients=of)), book)

    assert [one.code for one in answer.open_ingredients] == (["rest_not_stated"] if is_open else [])


@pytest.mark.parametrize(
    ("name", "of", "missed"),
    [
        ("Worcestershire sauce", ("water", "salt"), "fish"),
        ("butter flavour", ("sunflower oil", "salt"), "milk"),
        ("Worcestershire sauce", ("water", "anchovies", "malt vinegar", "soy", "wheat"), None),
        ("brown liquor", ("water", "salt"), None),
    ],
)
def test_parts_without_what_the_name_usually_brings_are_doubted(
    name: str, of: tuple[str, ...], missed: str | None, book: RuleBook
):
    """The line says what is missing, and a caution says to look again."""
    answer = told(recipe(PORK, line(name, 20, sub_ingredients=parts(*of))), book)

    assert answer.lines[1].not_among_parts[:1] == ((missed,) if missed else ())
    assert ("usual-allergen-missing" in [one.id for one in answer.cautions]) == bool(missed)


def test_where_no_list_is_held_nothing_is_complete(book: RuleBook):
    """For Canada everything found is told, and nothing of the law."""
    answer = told(recipe(PORK, line("whey powder", 40), place="CA"), book)

    assert answer.allergen_statement.found == ("milk",)
    assert answer.allergen_statement.verdict == "cannot_tell"
    assert not answer.rules_held
    assert answer.required == ()
