"""Words for a form, a treatment or a colour: they say nothing only beside what is known in that form."""

import pytest

from service.calculations.labels.labelling.place import place_of
from service.rules.book import RuleBook
from tests.calculations.labels.asking import told, verdicts
from tests.calculations.labels.statement_bodies import line, recipe
from tests.calculations.labels.test_statement_published import TODAY

PORK = line("pork shoulder", 1000)
EVERY = 15


def open_to(name: str, book: RuleBook, place: str = "EU") -> set[str]:
    """What a name leaves open."""
    return set(place_of(book, place, TODAY).facts(name).open_to)


@pytest.mark.parametrize(
    "name",
    [
        "Old Bay", "Red Bay", "Golden Bay", "Premium Bay", "Bay Point", "Red Sage", "corn flakes", "shredded suet",
        "chicken powder", "beef powder", "pork powder", "honey powder", "lemon powder", "vinegar powder",
        "coconut milk powder", "maple powder", "smoked duck", "smoked salmon", "pepper steak", "beef cubes",
        "chicken sticks", "cheese sticks", "garlic joint",
        "cultured tomato", "avocado powder", "apple flakes", "rum powder", "olive oil powder",
    ],
)  # fmt: skip
def test_a_form_in_which_it_is_not_known_leaves_everything_open(name: str, book: RuleBook):
    """A carrier, a coating, a starter or a brand may be in it."""
    facts = place_of(book, "EU", TODAY).facts(name)

    assert len(facts.open_to | {one.allergen for one in facts.carried}) == EVERY


@pytest.mark.parametrize(
    "name",
    [
        "smoked garlic", "dried thyme", "smoked paprika",
        "black pepper", "red onions", "brown rice", "sweet paprika", "flaked salt", "granulated sugar",
        "citric acid powder", "pork belly", "boneless pork shoulder", "minced beef", "beef trimmings", "grated nutmeg",
        "chopped parsley", "fresh ginger", "roasted coriander seeds", "bay leaves", "hot water",
    ],
)  # fmt: skip
def test_a_form_in_which_it_is_known_says_nothing(name: str, book: RuleBook):
    """A kitchen grinds, dries and slices it."""
    facts = place_of(book, "EU", TODAY).facts(name)

    assert (facts.why, facts.carried) == (None, ())


@pytest.mark.parametrize(
    ("name", "allergens"),
    [
        ("natamycin", {"milk"}), ("cultured sugar", {"milk"}), ("cultured cane sugar", {"milk"}),
        ("cultured rice", {"milk"}), ("icing sugar", {"wheat", "gluten_cereals"}),
        ("vinegar", {"gluten_cereals", "sulphites"}),
        ("grated carrot", {"wheat", "gluten_cereals", "eggs", "sulphites"}),
    ],
)  # fmt: skip
def test_some_forms_may_bring_in_something_of_their_own(name: str, allergens: set[str], book: RuleBook):
    """Only that stays open."""
    assert open_to(name, book) == allergens


# Regulation (EU) No 1169/2011, Annex II, item 12; which foods carry sulphites is common practice, no source.
@pytest.mark.parametrize(
    "name",
    [
        "dried apples", "dried mango", "dried peaches", "dried pears", "dried figs", "figs", "prunes", "apple powder",
        "potato flakes", "dehydrated potatoes", "desiccated coconut", "dried peppers", "bell pepper flakes",
        "dried mushrooms", "minced garlic", "chopped garlic", "garlic puree", "ginger puree", "shrimp", "frozen shrimp",
        "prawns", "lobster", "glucose syrup", "corn syrup", "soy protein isolate", "E150b", "E150c", "E150d",
        "caramel colour", "raisins", "golden raisins", "dried apricots", "molasses", "horseradish", "sauerkraut",
        "lemon juice", "wine", "peeled potatoes", "apple juice concentrate powder",
    ],
)  # fmt: skip
def test_what_often_carries_sulphites_leaves_them_open(name: str, book: RuleBook):
    """Neither in nor excluded in Europe."""
    assert "sulphites" in open_to(name, book)


@pytest.mark.parametrize(
    "name", ["apples", "mango", "potatoes", "mushrooms", "garlic", "ginger", "peppers", "E150a", "sugar"]
)
def test_the_fresh_twin_does_not(name: str, book: RuleBook):
    """Nothing is put on it."""
    assert "sulphites" not in open_to(name, book)


def test_a_stated_id_says_what_the_form_is(book: RuleBook):
    """As with words that are not known: the id is what it is."""
    answer = told(recipe(PORK, line("red granules of the house", 20, ingredient="onion-powder")), book)

    assert answer.lines[1].composition == "known"


@pytest.mark.parametrize(
    ("name", "allergens"),
    [("salted black beans", {"soybeans"}), ("crab sticks", {"fish"}),
     ("soyflour", {"soybeans"}), ("fishsauce", {"fish"}), ("hummus", {"sesame"}),
     ("Gouda", {"milk"}), ("Emmental", {"milk"}), ("brie", {"milk"}), ("provolone", {"milk"}), ("mayo", {"eggs"}),
     ("egg yolks", {"eggs"}), ("yolks", {"eggs"}), ("cheddar powder", {"milk"})],
)  # fmt: skip
def test_a_name_of_the_trade_is_found(name: str, allergens: set[str], book: RuleBook):
    """Run together, short, or by its own name."""
    assert {one.allergen for one in place_of(book, "EU", TODAY).facts(name).carried} == allergens


@pytest.mark.parametrize(
    "name",
    [
        "corn gluten", "butter bean flour", "water chestnut flour", "celery cabbage", "corn nuts", "sesame leaves",
        "cream soda", "cornflour", "polenta", "bicarbonate of soda", "nigella seeds", "tongue", "tripe",
        "pork trotters",
        "E339ii", "E450i", "E451(i)", "E 450(i) sodium diphosphate",
    ],
)  # fmt: skip
def test_a_twin_of_an_allergen_is_none(name: str, book: RuleBook):
    """Known, and nothing listed is in it."""
    facts = place_of(book, "US", TODAY).facts(name)

    assert (facts.why, facts.carried) == (None, ())


@pytest.mark.parametrize(
    ("name", "not_in"),
    [("root beer", "gluten_cereals"), ("ginger ale", "gluten_cereals"), ("ginger beer", "gluten_cereals"),
     ("ginger nuts", "tree_nuts"), ("grape nuts", "tree_nuts"), ("vegan cream", "milk"), ("nut milk", "milk"),
     ("oyster crackers", "molluscs"), ("chestnut flour", "wheat")],
)  # fmt: skip
def test_a_name_of_something_else_is_not_told_as_contained(name: str, not_in: str, book: RuleBook):
    """Open where it may be, never said to be in."""
    assert verdicts(told(recipe(PORK, line(name, 20), place="EU"), book))[not_in] != "contains"


def test_every_form_that_a_word_is_known_in_is_a_making(book: RuleBook):
    """The ids are those of rows, and every making is used."""
    makings = {one.id for one in book.substances.values() if one.kind == "making"}
    named = {form for one in book.substances.values() for form in one.forms}

    assert named == makings - {"joined"}
