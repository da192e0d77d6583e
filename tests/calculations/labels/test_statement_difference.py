"""The recipe against the label in use: what is left off first."""

from typing import Any

import pytest

from service.calculations.labels.labelling.comparing import LabelDifference
from service.rules.book import RuleBook
from tests.calculations.labels.asking import required, told
from tests.calculations.labels.statement_bodies import line, parts, recipe, specified

LINES = (
    line("pork shoulder", 5000, animal="pork"),
    line("water", 400),
    line("house cover", 200, sub_ingredients=parts("wheat flour", "whey")),
    line("salt", 90),
    line("garlic", 30),
)
COVER = "house cover (wheat flour, whey)"
RIGHT = {
    "version": "7",
    "ingredients": ["Pork shoulder", "water", COVER, "Salt", "garlic"],
    "allergens": ["wheat", "milk"],
    "items": [],
}


def difference(book: RuleBook, *lines: dict[str, Any], place: str = "US", **label: Any) -> LabelDifference:
    """The difference of a label that is right but for what is stated."""
    answer = told(recipe(*(lines or LINES), place=place, label_in_use={**RIGHT, **label}), book)
    assert answer.difference is not None
    return answer.difference


def test_a_label_that_says_the_same_is_met(book: RuleBook):
    """In whatever letters."""
    told_of = difference(book)

    assert (told_of.verdict, told_of.missing, told_of.extra, told_of.out_of_order) == ("met", (), (), ())


def test_an_allergen_that_is_left_off_is_not_met(book: RuleBook):
    """It is named with the way it came in, and the law on allergens is not met."""
    answer = told(recipe(*LINES, label_in_use={**RIGHT, "allergens": ["wheat"]}), book)

    assert answer.difference is not None
    assert [(one.allergen, one.came_from[0].path) for one in answer.difference.left_off] == [
        ("milk", ("house cover", "whey"))
    ]
    assert required(answer, "allergens").code == "allergen_left_off"


def test_an_allergen_that_was_not_found_is_said_carefully(book: RuleBook):
    """Not in what was stated is no reason to take it off; and it does not make the label wrong."""
    told_of = difference(book, allergens=["wheat", "milk", "soybeans"])

    assert [(one.allergen, one.code) for one in told_of.not_found] == [("soybeans", "not_in_what_was_stated")]
    assert told_of.verdict == "met"


def test_what_stays_open_cannot_be_excluded(book: RuleBook):
    """With a seasoning of unknown composition the label is neither right nor wrong."""
    told_of = difference(
        book, *LINES, line("seasoning", 20), allergens=["wheat", "milk", "soybeans"],
        ingredients=[*RIGHT["ingredients"], "seasoning"],
    )  # fmt: skip

    assert [one.code for one in told_of.not_found] == ["cannot_be_excluded"]
    assert told_of.verdict == "cannot_tell"


def test_what_is_missing_and_what_is_extra_is_named(book: RuleBook):
    """As the recipe has it, and as the label has it."""
    told_of = difference(book, ingredients=["pork shoulder", "water", "house cover", "salt", "Black pepper"])

    assert (told_of.missing, told_of.extra) == (("garlic",), ("Black pepper",))
    assert told_of.verdict == "not_met"


def test_what_stands_before_a_heavier_one_is_named(book: RuleBook):
    """Garlic before salt; what is free to stand anywhere is not counted."""
    head, mixed = ["pork shoulder", "water", COVER], ["garlic", "salt"]
    clause = {"percent": "2", "ingredients": mixed}

    without, within = (
        difference(book, **label) for label in ({"ingredients": head + mixed}, {"ingredients": head, "clause": clause})
    )

    assert (without.verdict, without.out_of_order) == ("not_met", ("garlic",))
    assert (within.verdict, within.out_of_order) == ("met", ())


def test_what_is_too_heavy_for_the_clause_is_named(book: RuleBook):
    """Water is seven percent, and stands among what is two or less."""
    clause = {"percent": "2", "ingredients": ["salt", "water", "garlic"]}

    told_of = difference(book, ingredients=["pork shoulder", COVER], clause=clause)

    assert told_of.out_of_order == ("water",)


@pytest.mark.parametrize(("small", "early"), [(1, ()), (150, ("garlic",))])
def test_europe_lets_two_percent_stand_in_any_order_at_the_end(small: float, early: tuple[str, ...], book: RuleBook):
    """Regulation (EU) No 1169/2011, Annex VII part A (from memory): no clause is asked for."""
    lines = (line("pork", 5000), line("salt", 90 + small), line("garlic", 30))

    told_of = difference(book, *lines, place="EU", ingredients=["pork", "garlic", "salt"], allergens=[], kinds=[])

    assert told_of.out_of_order == early


@pytest.mark.parametrize(
    ("written", "missing", "extra", "unknown"),
    [
        (None, (), (), ["parts_not_on_label"]),
        ("water, soybeans, wheat, salt", (), (), []),
        ("wheat, water, salt", ("soy sauce > soybeans",), (), []),
        ("water, soybeans, wheat, salt, whey", (), ("soy sauce > whey",), []),
    ],
)
def test_what_stands_in_parentheses_is_read(
    written: str | None, missing: tuple[str, ...], extra: tuple[str, ...], unknown: list[str], book: RuleBook
):
    """Parts are compared one by one; a label that states none was not compared."""
    sheet = specified("soybeans", "wheat")
    sauce = line("soy sauce", 40, sub_ingredients=parts("water", "soybeans", "wheat", "salt"), specification=sheet)
    name = f"soy sauce ({written})" if written else "soy sauce"

    told_of = difference(book, line("pork", 900), sauce, ingredients=["pork", name], allergens=["soybeans", "wheat"])

    assert (told_of.missing, told_of.extra) == (missing, extra)
    assert [one.code for one in told_of.not_compared] == unknown
    assert told_of.verdict == ("not_met" if missing or extra else "cannot_tell" if unknown else "met")


def test_parts_that_only_the_label_has_are_not_compared(book: RuleBook):
    """The recipe says nothing of what the curing salt consists of."""
    told_of = difference(
        book, line("pork", 900), line("garlic", 9), allergens=[], ingredients=["pork", "garlic (garlic, whey)"]
    )

    assert [one.code for one in told_of.not_compared] == ["parts_not_in_recipe"]


def test_parts_stand_by_their_percents(book: RuleBook):
    """Ninety percent of salt before ten of pepper."""
    shares = [{"name": "pepper", "percent": 10}, {"name": "salt", "percent": 90}]
    lines = (line("pork", 900), line("rub", 9, sub_ingredients=shares))

    wrong, right = (
        difference(book, *lines, allergens=[], ingredients=["pork", name])
        for name in ("rub (pepper, salt)", "rub (salt, pepper)")
    )

    assert (wrong.out_of_order, right.out_of_order) == (("rub > pepper",), ())


@pytest.mark.parametrize(
    ("kinds", "verdict", "left_off"),
    [(None, "cannot_tell", ()), (["almond"], "not_met", ("anchovy",)), (["almonds", "anchovies"], "met", ())],
)
def test_kinds_are_compared_where_they_are_stated(
    kinds: list[str] | None, verdict: str, left_off: tuple[str, ...], book: RuleBook
):
    """Nuts, fish and crustaceans by their kind (FALCPA section 203): the ids alone do not show it."""
    lines = (line("pork", 900), line("anchovies", 20), line("almonds", 9))
    label = {**RIGHT, "ingredients": ["pork", "anchovies", "almonds"], "allergens": ["fish", "tree_nuts"]}
    stated = {} if kinds is None else {"kinds": kinds}

    answer = told(recipe(*lines, label_in_use={**label, **stated}), book)

    assert answer.difference is not None
    assert (answer.difference.verdict, answer.difference.kinds_left_off) == (verdict, left_off)
    assert required(answer, "allergens").verdict == verdict


def test_what_stands_twice_is_extra(book: RuleBook):
    """Onion twice on a label, once in the recipe."""
    lines = (line("pork", 900), line("onion", 20))

    twice, once = (
        difference(book, *lines, allergens=[], ingredients=["pork", *names])
        for names in (["onion", "onions"], ["onions"])
    )

    assert (twice.extra, once.extra) == (("onions",), ())


@pytest.mark.parametrize(
    ("written", "verdict"),
    [("preservative: salt", "met"), ("whey: salt", "not_met"), ("Contains 2% or less of: salt", "not_met")],
)
def test_only_a_category_may_stand_before_a_colon(written: str, verdict: str, book: RuleBook):
    """Anything else before it is on the label, and a clause is stated as one."""
    lines = (line("pork", 900), line("salt", 20))

    assert difference(book, *lines, allergens=[], ingredients=["pork", written]).verdict == verdict


@pytest.mark.parametrize("written", ["Pepper (black)", "pepper, black", "Black peppers"])
def test_words_may_stand_in_another_order(written: str, book: RuleBook):
    """Pepper (black) is black pepper."""
    lines = (line("pork", 900), line("black pepper", 20))

    assert difference(book, *lines, allergens=[], ingredients=["pork", written]).verdict == "met"


def test_what_is_not_known_in_the_recipe_is_not_met_by_a_name(book: RuleBook):
    """A seasoning that a specification clears has parts that nobody stated: the list was not compared with them."""
    lines = (line("pork", 900), line("seasoning", 20, specification=specified()))
    label = {**RIGHT, "ingredients": ["pork", "seasoning"], "allergens": []}

    answer = told(recipe(*lines, label_in_use=label), book)

    assert answer.difference is not None
    assert (answer.difference.verdict, required(answer, "ingredients").code) == ("cannot_tell", "composition_open")


def test_equal_weights_are_never_out_of_order(book: RuleBook):
    """Either may come first."""
    lines = (line("salt", 30), line("garlic", 30))

    assert difference(book, *lines, ingredients=["garlic", "salt"]).out_of_order == ()


def test_joined_meats_are_read_one_by_one(book: RuleBook):
    """In the order that the label has them."""
    lines = (line("lamb", 400, animal="lamb"), line("pork", 500, animal="pork"), line("water", 10))
    label = {**RIGHT, "ingredients": ["Lamb and pork", "water"], "allergens": []}

    answer = told(recipe(*lines, join_meats=True, label_in_use=label), book)

    assert answer.difference is not None
    assert answer.difference.verdict == "met"


def test_europe_wants_its_own_allergens(book: RuleBook):
    """A label that names wheat and milk names no cereal with gluten by the European list: it is left off."""
    told_of = difference(book, place="EU")

    assert [one.allergen for one in told_of.left_off] == ["gluten_cereals"]


@pytest.mark.parametrize("place", ["CA", "CODEX", "AU-NZ"])
def test_without_a_list_everything_found_is_held_against_the_label(place: str, book: RuleBook):
    """An allergen that is in and not on the label is told, whatever law there is."""
    told_of = difference(book, place=place, allergens=["wheat", "gluten_cereals"])

    assert [one.allergen for one in told_of.left_off] == ["milk"]


def test_additives_are_found_by_their_name(book: RuleBook):
    """A label writes the category before the name and the number after it."""
    lines = (line("pork", 900), line("sodium ascorbate", 4))

    told_of = difference(
        book,
        *lines,
        place="EU",
        ingredients=["pork", "antioxidant: sodium ascorbate (E 301)"],
        allergens=[],
        items=["additives_by_category"],
    )

    assert told_of.verdict == "met"
