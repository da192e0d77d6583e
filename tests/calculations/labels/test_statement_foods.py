"""One food in a name, or several: a dish and a mix are open, and so is what a maker may have put in."""

import pytest

from service.calculations.labels.labelling.place import place_of
from service.rules.book import RuleBook
from service.rules.vocabulary import AllergenName
from tests.calculations.labels.asking import told
from tests.calculations.labels.statement_bodies import line, recipe
from tests.calculations.labels.test_statement_published import TODAY

EVERY = 15


@pytest.mark.parametrize(
    "name",
    [
        "chicken salt", "beef salt", "sweet and sour pork", "buffalo chicken", "buffalo wings", "orange chicken",
        "lemon chicken", "hot chicken", "honey garlic pork", "ginger beef", "savory rice", "savoury rice",
        "yellow rice", "salted pork", "sugar pork", "pork with apple", "salt and pepper", "milk chicken",
        "condensed beef", "double lemon", "suet", "beef suet", "cherry powder", "acerola powder",
    ],
)  # fmt: skip
def test_several_foods_in_one_name_leave_everything_open(name: str, book: RuleBook):
    """A seasoning, a dish, a sauce: what binds them is not said."""
    facts = place_of(book, "EU", TODAY).facts(name)

    assert len(facts.open_to | {one.allergen for one in facts.carried}) == EVERY


@pytest.mark.parametrize(
    "name",
    [
        "kosher salt", "pork fat", "pork meat", "venison meat", "bay leaf", "chicken liver", "E 250 sodium nitrite",
        "sour cherry", "sweet onion", "red meat", "water buffalo", "hog casings", "leg of lamb",
        "chili pepper", "brown rice", "sweet paprika", "extra lean beef", "extra fine salt",
    ],
)  # fmt: skip
def test_one_food_by_two_words_is_known(name: str, book: RuleBook):
    """A cut, a form, or a pair that is listed."""
    facts = place_of(book, "US", TODAY).facts(name)

    assert (len(facts.carried), set(facts.open_to) - {"sulphites"}) == (0, set())


def test_two_foods_are_asked_after_by_their_own_code(book: RuleBook):
    """And a stated id says what it is."""
    answer = told(recipe(line("chicken salt", 10), line("house chicken salt", 5, ingredient="table-salt")), book)

    assert [(one.code, one.words) for one in answer.open_ingredients] == [("several_foods", ("chicken", "salt"))]


@pytest.mark.parametrize("name", ["cheddar cheese", "goat cheese", "sweet whey", "salted butter", "double cream"])
def test_milk_by_two_words_is_milk_and_nothing_else(name: str, book: RuleBook):
    """One food: nothing stays open beside it."""
    facts = place_of(book, "EU", TODAY).facts(name)

    assert ([*{str(one.allergen) for one in facts.carried}], len(facts.open_to)) == (["milk"], 0)


@pytest.mark.parametrize("name", ["custard", "lemon curd", "lime curd", "orange curd"])
def test_a_curd_of_fruit_has_eggs(name: str, book: RuleBook):
    """Eggs and milk are told, and what thickens it stays open."""
    facts = place_of(book, "US", TODAY).facts(name)

    assert ({one.allergen for one in facts.carried}, facts.why) == ({"eggs", "milk"}, "generic_word")


# Which foods a maker treats or dusts is common practice, no source.
@pytest.mark.parametrize(
    ("allergen", "names"),
    [
        ("gluten_cereals", ["mustard powder", "dried yeast", "inactive yeast", "corn tortillas", "buffered vinegar"]),
        ("sulphites", [
            "coconut milk", "dried garlic", "garlic flakes", "garlic powder", "granulated onion", "onion flakes",
            "dried leeks", "red pepper flakes", "paprika flakes", "chilli flakes", "dried chilli", "tomato powder",
            "tomato puree", "squid", "salt cod", "dates", "jalapenos", "banana peppers", "capers", "olives",
            "black olives", "lemon peel", "prepared mustard", "gelatin", "pork gelatin", "pectin", "collagen casings",
            "glucose", "corn sweetener", "golden syrup", "brown sugar", "caramel", "apple juice", "grapes",
            "cranberries",
        ]),
        ("celery", ["lovage"]),
        ("soybeans", ["tuna"]),
    ],
)  # fmt: skip
def test_what_a_maker_may_have_put_in_is_open(allergen: AllergenName, names: list[str], book: RuleBook):
    """Neither in nor excluded."""
    place = place_of(book, "EU", TODAY)

    assert [name for name in names if allergen not in place.facts(name).open_to] == []


@pytest.mark.parametrize(
    ("allergen", "names"),
    [
        ("gluten_cereals", ["mustard seeds", "baker's yeast", "distilled vinegar"]),
        ("sulphites", ["onions", "garlic", "tomatoes", "apples", "white sugar", "natural casings", "cod"]),
        ("celery", ["parsley"]),
        ("soybeans", ["salmon"]),
    ],
)
def test_the_plain_twin_is_not(allergen: AllergenName, names: list[str], book: RuleBook):
    """Nothing is put on it."""
    place = place_of(book, "EU", TODAY)

    assert [name for name in names if allergen in place.facts(name).open_to] == []


@pytest.mark.parametrize(
    "name",
    [
        "nutmeg butter", "cream sherry", "custard apple", "pea milk", "blood curd", "coconut water", "coconut sugar",
        "coconut vinegar", "coconut aminos", "nut grass", "peanut squash", "fish mint", "lobster mushroom",
        "egg fruit", "mustard yellow",
    ],
)  # fmt: skip
def test_a_harmless_twin_is_not_told_as_contained(name: str, book: RuleBook):
    """It has the word of an allergen and none of it."""
    facts = place_of(book, "US", TODAY).facts(name)

    assert (len(facts.carried), set(facts.open_to) - {"sulphites"}) == (0, set())


@pytest.mark.parametrize("name", ["cream style hominy", "celery wood", "soy wax"])
def test_a_twin_that_is_no_single_food_is_not_told_as_contained(name: str, book: RuleBook):
    """Open, and nothing is said to be in it."""
    assert place_of(book, "US", TODAY).facts(name).carried == ()


# Regulation (EU) No 1169/2011, Annex II, item 2, as copied by a university; FALCPA for the American name.
@pytest.mark.parametrize(("place", "name"), [("EU", "crustaceans"), ("US", "crustacean shellfish")])
def test_each_law_has_its_own_name_for_crustaceans(place: str, name: str, book: RuleBook):
    """In the list, in the statement, and beside the ingredient."""
    answer = told(recipe(line("pork", 100), line("prawns", 20), place=place), book)

    assert [one.name for one in answer.allergens if one.allergen == "crustaceans"] == [name]
    assert ("CRUSTACEAN SHELLFISH" in answer.ingredient_statement, name in str(answer.allergen_statement.found)) == (
        False, True,
    )  # fmt: skip
