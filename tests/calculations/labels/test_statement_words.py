"""Words that look like allergens, words that are them in another spelling, and words that say nothing."""

from datetime import date

import pytest

from service.calculations.labels.labelling.place import place_of
from service.calculations.labels.labelling.words import word_table
from service.rules.book import RuleBook
from service.rules.loader import load_book
from service.rules.spelling import folded
from tests.calculations.labels.asking import contained, told
from tests.calculations.labels.statement_bodies import line, recipe


def carried(
    name: str, book: RuleBook, *, place: str = "EU", on: date = date(2026, 12, 1)
) -> tuple[set[str], str | None]:
    """What a name brings in, and why it stays open."""
    facts = place_of(book, place, on).facts(name)
    return {one.allergen for one in facts.carried if one.counts}, facts.why


@pytest.mark.parametrize(
    "name",
    [
        "nutmeg",
        "butternut squash",
        "cocoa butter",
        "cream of tartar",
        "buckwheat flour",
        "eggplant",
        "oyster mushrooms",
        "milk thistle",
        "butter beans",
        "water chestnuts",
        "shea butter",
        "rice milk",
        "tiger nuts",
        "crab apple",
        "corn starch",
        "peppercorns",
        "fully refined soybean oil",
        "apple butter",
    ],
)
def test_a_near_twin_is_none(name: str, book: RuleBook):
    """It is known, and brings nothing in."""
    assert carried(name, book) == (set(), None)


@pytest.mark.parametrize(
    ("name", "allergen"),
    [
        ("Peanut butter", "peanuts"),
        ("almond milk", "tree_nuts"),
        ("soya milk", "soybeans"),
        ("oat milk", "gluten_cereals"),
        ("coconut cream cheese", "milk"),
        ("lactose free milk", "milk"),
        ("buttermilk powder", "milk"),
        ("free-range egg whites", "eggs"),
        ("Surimi", "fish"),
        ("oyster sauce", "molluscs"),
        ("lupini", "lupin"),
    ],
)
def test_what_is_in_a_name_is_told(name: str, allergen: str, book: RuleBook):
    """The allergen is found, and milk only where there is milk."""
    assert carried(name, book)[0] == {allergen}


@pytest.mark.parametrize(
    ("spellings", "allergen"),
    [
        (["Whey", "WHEY POWDER", "whey, dried", "\uff57\uff48\uff45\uff59", "sweet-whey"], "milk"),
        (["crème fraîche", "CREME FRAICHE", "cre\u0300me frai\u0302che"], "milk"),
        (["soybean", "Soya beans", "soy-bean flour", "hydrolysed soya protein", "hydrolyzed soy protein"], "soybeans"),
        (["E 220", "E220", "e-220", "sodium sulfite", "sodium sulphite", "sulfur dioxide"], "sulphites"),
        (["anchovy", "Anchovies", "anchovy fillet"], "fish"),
        (["celery", "celery seeds", "celeriac", "Celery-salt"], "celery"),
        (["mustard flour", "yellow mustard seeds", "MUSTARD BRAN"], "mustard"),
        (["whe\u00ady", "non-fat dry milk", "nonfat milk", "Skimmed milk powder"], "milk"),
    ],
)
def test_every_spelling_is_one(spellings: list[str], allergen: str, book: RuleBook):
    """Case, accents, plurals, hyphens, seen or not, E numbers, British and American."""
    assert [carried(name, book)[0] for name in spellings] == [{allergen}] * len(spellings)


@pytest.mark.parametrize(
    "name",
    [
        "soy-free seasoning",
        "gluten free flour",
        "nut free",
        "without milk",
        "no egg noodles",
        "non-dairy creamer",
        "free from soya",
    ],
)
def test_a_claim_proves_nothing(name: str, book: RuleBook):
    """What it denies is neither in nor excluded."""
    assert carried(name, book) == (set(), "claim_in_name")


def test_a_claim_covers_what_it_names_alone(book: RuleBook):
    """Gluten free soy sauce is of soybeans."""
    assert carried("gluten-free soy sauce", book) == ({"soybeans"}, "claim_in_name")


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("spices", "generic_word"),
        ("natural flavour", "generic_word"),
        ("butter flavor", "generic_word"),
        ("seasoning", "generic_word"),
        ("binder", "generic_word"),
        ("hydrolyzed vegetable protein", "generic_word"),
        ("stock powder", "generic_word"),
        ("starch", "generic_word"),
        ("vegetable oil", "generic_word"),
        ("sauce", "generic_word"),
        ("broth", "generic_word"),
        ("textured vegetable protein", "generic_word"),
        ("xylopia", "unknown_word"),
        ("preservative 220", "unknown_word"),
        ("ground", "unknown_word"),
        ("!!", "unknown_word"),
        ("пшеница", "unknown_word"),
        ("小麦", "unknown_word"),
        ("s\u043ey", "unknown_word"),
        ("protein", "unknown_word"),
        ("lecithin", "may_carry"),
        ("caramel color", "may_carry"),
        ("gelatin", "may_carry"),
        ("maltodextrin", "may_carry"),
        ("salt pork", "generic_word"),
        ("smoked beef", "generic_word"),
        ("mustard greens", "may_carry"),
    ],
)
def test_a_word_that_says_nothing_leaves_everything_open(name: str, why: str, book: RuleBook):
    """Generic words, unknown words and look-alike letters are never taken for none."""
    assert carried(name, book) == (set(), why)


# FDA guidance, edition 5 (6 January 2025), as told in secondary texts: coconut is off the list, pine nuts are on it.
@pytest.mark.parametrize(
    ("name", "place", "on", "is_nut"),
    [
        ("coconut", "US", date(2025, 1, 5), True),
        ("coconut", "US", date(2025, 1, 6), False),
        ("coconut", "EU", date(2024, 1, 1), False),
        ("chestnut", "US", date(2024, 1, 1), True),
        ("chestnut", "US", date(2026, 1, 1), False),
        ("pine nuts", "US", date(2026, 1, 1), True),
        ("pine nuts", "EU", date(2026, 1, 1), False),
        ("hazelnut", "EU", date(2026, 1, 1), True),
    ],
)
def test_what_counts_as_a_nut_hangs_on_place_and_day(name: str, place: str, on: date, is_nut: bool, book: RuleBook):
    """Each list has its own nuts."""
    assert carried(name, book, place=place, on=on)[0] == ({"tree_nuts"} if is_nut else set())


def test_no_words_mean_two_things(book: RuleBook):
    """Each phrase stands in one row, in whatever spelling."""
    phrases = [(folded(words), row.id) for row in book.substances.values() for words in row.words]

    assert len(dict(phrases)) == len({*phrases}) > 1500


def test_every_ingredient_of_the_table_is_a_word(book: RuleBook):
    """Each id of GET /v1/ingredients has one meaning here, and brings in what its own name does."""
    known = word_table(book).ingredients

    assert known.keys() == book.ingredients.keys()
    for id, ingredient in book.ingredients.items():
        bare, _, _ = ingredient.name.partition("(")
        assert carried(bare, book)[0] <= set(known[id].carries), id


def test_each_book_has_its_own_words(book: RuleBook):
    """The words of one book are not those of another: each is read once."""
    other = load_book("other")

    assert word_table(book) is word_table(book)
    assert word_table(other) is not word_table(book)


def test_a_name_may_hold_two(book: RuleBook):
    """Milk and wheat in one name are both told."""
    answer = told(recipe(line("milk and wheat flour paste", 50)), book)

    assert contained(answer) == {"milk", "wheat", "gluten_cereals"}
