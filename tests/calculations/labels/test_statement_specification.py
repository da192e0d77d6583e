"""What suppliers' specifications and ids of ingredients say: how far they reach, and how the list prints them."""

import pytest

from service.rules.book import RuleBook
from tests.calculations.labels.asking import contained, told, verdicts
from tests.calculations.labels.statement_bodies import line, parts, recipe, specified

PORK = line("pork shoulder", 5000, animal="pork")


def test_a_specification_settles_a_generic_word(book: RuleBook):
    """By the list of the place it tells; an empty one says that it declares none."""
    seasoning = line("seasoning", 60, specification=specified("wheat"))

    answer = told(recipe(PORK, seasoning), book)

    assert answer.allergen_statement.text == "Contains: wheat."
    assert answer.lines[1].composition == "declared"
    assert answer.ingredients[1].text == "seasoning (contains wheat)"


def test_a_specification_by_the_nine_says_nothing_of_celery(book: RuleBook):
    """In Europe an American specification leaves open what only the fourteen list."""
    answer = told(recipe(PORK, line("seasoning", 60, specification=specified()), place="EU"), book)

    open_to = {"gluten_cereals", "celery", "mustard", "sulphites", "lupin", "molluscs"}

    assert set(answer.open_ingredients[0].may_bring_in) == open_to
    assert answer.allergen_statement.verdict == "cannot_tell"


def test_a_european_specification_leaves_pine_nuts_open_in_the_united_states(book: RuleBook):
    """Its eight nuts are fewer than the twelve."""
    answer = told(recipe(PORK, line("seasoning", 60, specification=specified(by_list="EU"))), book)

    assert answer.open_ingredients[0].may_bring_in == ("tree_nuts",)


def test_a_specification_of_before_its_list_says_nothing(book: RuleBook):
    """Sesame came on the American list in 2023: a specification of 2022 leaves it open."""
    before, after = (
        told({**recipe(PORK, line("seasoning", 60, specification=specified(dated=on))), "on": on}, book)
        for on in ("2022-12-31", "2023-01-01")
    )

    assert (verdicts(before)["sesame"], verdicts(after)["sesame"]) == ("cannot_tell", "does_not_contain")


def test_a_specification_that_names_no_cereal_leaves_wheat_open(book: RuleBook):
    """Cereals with gluten may be wheat: the United States want to know which."""
    seasoning = line("seasoning", 60, specification=specified("gluten_cereals", "tree_nuts", by_list="EU"))

    answer = told(recipe(PORK, seasoning), book)

    assert verdicts(answer)["wheat"] == "cannot_tell"
    assert "kind_not_named" in [one.code for one in answer.open_ingredients]


def test_a_word_beats_a_specification(book: RuleBook):
    """Whey under a specification that declares no milk: it is in, and the contradiction is told."""
    powder = line("binder", 60, specification=specified(), sub_ingredients=parts("whey", "salt"))

    answer = told(recipe(PORK, powder), book)

    assert contained(answer) == {"milk"}
    assert answer.lines[1].contradicted == ("milk",)


@pytest.mark.parametrize(
    ("declared", "by_list", "text"),
    [
        (["wheat"], "EU", "seasoning (contains WHEAT)"),
        (["wheat"], "US", "seasoning (contains WHEAT)"),
        (["gluten_cereals", "wheat"], "EU", "seasoning (contains WHEAT)"),
        (["gluten_cereals"], "EU", "seasoning (contains CEREALS WITH GLUTEN)"),
        (["milk"], "EU", "seasoning (contains MILK)"),
        ([], "EU", "seasoning"),
    ],
)
def test_what_a_specification_declares_stands_in_the_european_list(
    declared: list[str], by_list: str, text: str, book: RuleBook
):
    """In Europe the list is the label: wheat stands there for the cereals with gluten."""
    answer = told(
        recipe(PORK, line("seasoning", 60, specification=specified(*declared, by_list=by_list)), place="EU"), book
    )

    assert answer.ingredients[1].text == text


def test_a_word_that_looks_like_an_allergen_does_not_name_it(book: RuleBook):
    """Rice milk holds the word and no milk: what the specification declares is added all the same."""
    twin = line("rice milk seasoning", 60, specification=specified("milk"))

    here, there = (told(recipe(PORK, twin, place=place), book) for place in ("US", "EU"))

    assert here.ingredients[1].text == "rice milk seasoning (contains milk)"
    assert there.ingredients[1].text == "rice milk seasoning (contains MILK)"


@pytest.mark.parametrize(
    ("id", "text"),
    [
        ("nonfat-dry-milk", "zzz (MILK)"),
        ("celery-salt", "zzz (CELERY)"),
        ("mustard-ground", "zzz (MUSTARD)"),
        ("soy-sauce", "zzz (SOYBEANS, WHEAT)"),
        ("black-pepper-ground", "zzz"),
    ],
)
def test_what_an_id_brings_in_stands_in_the_european_list(id: str, text: str, book: RuleBook):
    """The house name says nothing of it."""
    answer = told(recipe(PORK, line("zzz", 20, ingredient=id), place="EU"), book)

    assert answer.ingredients[1].text == text


def test_ice_with_another_id_is_not_merged_with_water(book: RuleBook):
    """What the id says is printed beside the name."""
    answer = told(recipe(PORK, line("ice", 20, ingredient="celery-salt"), line("water", 30), place="EU"), book)

    assert [one.text for one in answer.ingredients] == ["pork shoulder", "water", "ice (CELERY)"]


def test_one_name_with_two_ids_stays_two(book: RuleBook):
    """A house name with an id and without are not added up: the list would lose what the id brings in."""
    answer = told(recipe(line("our sauce", 20), line("our sauce", 30, ingredient="celery-salt"), place="EU"), book)

    assert [one.text for one in answer.ingredients] == ["our sauce (CELERY)", "our sauce"]


def test_a_name_that_says_it_is_not_told_it_again(book: RuleBook):
    """Milk powder with its id is MILK powder."""
    answer = told(recipe(PORK, line("milk powder", 20, ingredient="nonfat-dry-milk"), place="EU"), book)

    assert answer.ingredients[1].text == "MILK POWDER"


@pytest.mark.parametrize(
    ("dated", "verdict"),
    [
        ("2019-05-01", "cannot_tell"),
        ("2022-12-31", "cannot_tell"),
        ("2023-01-01", "does_not_contain"),
    ],
)
def test_a_sheet_says_nothing_of_what_its_list_took_up_later(dated: str, verdict: str, book: RuleBook):
    """FASTER Act: sesame came on the American list on 1 January 2023."""
    answer = told(recipe(PORK, line("seasoning", 60, specification=specified(dated=dated))), book)

    assert verdicts(answer)["sesame"] == verdict
    assert verdicts(answer)["milk"] == "does_not_contain"


@pytest.mark.parametrize(
    ("dated", "verdict"),
    [
        (None, "cannot_tell"),
        ("2006-06-01", "cannot_tell"),
        ("2031-03-03", "cannot_tell"),
        ("2026-12-01", "does_not_contain"),
        ("2020-01-01", "does_not_contain"),
    ],
)
@pytest.mark.parametrize("by_list", ["US", "EU"])
def test_a_sheet_of_no_day_or_of_a_day_to_come_excludes_nothing(
    by_list: str, dated: str | None, verdict: str, book: RuleBook
):
    """Leaving an old date out buys no proof; what the sheet declares is in all the same."""
    sheet = specified("milk", by_list=by_list, dated=dated)
    answer = told(recipe(PORK, line("seasoning", 60, specification=sheet), place=by_list), book)

    assert (verdicts(answer)["milk"], answer.lines[1].contains) == ("contains", ("milk",))
    assert verdicts(answer)["soybeans"] == (verdict if (by_list, dated) != ("US", "2006-06-01") else "does_not_contain")


def test_an_id_of_an_ingredient_says_what_it_is(book: RuleBook):
    """A house name with its id is known; a mix with its id stays open and is warned of."""
    pepper = told(recipe(PORK, line("our pepper no 2 grind", 20, ingredient="black-pepper-ground")), book)
    sauce = told(recipe(PORK, line("our sauce", 20, ingredient="soy-sauce")), book)

    assert pepper.lines[1].composition == "cannot_tell"
    assert contained(sauce) == {"soybeans", "wheat", "gluten_cereals"}
    assert sauce.allergen_statement.verdict == "cannot_tell"
