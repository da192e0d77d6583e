"""A label in use is met only where everything on it was read, and where it says what the law wants said."""

from typing import Any

import pytest

from service.calculations.labels.labelling.comparing import LabelDifference
from service.calculations.labels.statement import StatementAnswer
from service.rules.book import RuleBook
from tests.calculations.labels.asking import required, told
from tests.calculations.labels.statement_bodies import line, parts, recipe, specified

PORK = line("pork", 1000, animal="pork")
OURS = line("house cover", 20, sub_ingredients=parts("salt", "sugar"))
EVERYTHING = ["ingredients", "allergens", "allergens_emphasised", "additives_by_category"]


def held(
    book: RuleBook, ours: dict[str, Any], label: str, *allergens: str, place: str = "US", **more: Any
) -> StatementAnswer:
    """Pork with one other line, against a label."""
    stated = {"version": "7", "ingredients": ["pork", label], "allergens": list(allergens), "items": EVERYTHING, **more}
    return told(recipe(PORK, ours, place=place, label_in_use=stated), book)


def compared(answer: StatementAnswer) -> LabelDifference:
    """How the label differs."""
    assert answer.difference
    return answer.difference


def verdict(answer: StatementAnswer) -> str:
    """Whether it does."""
    return str(compared(answer).verdict)


@pytest.mark.parametrize(
    "label",
    [
        "house cover (salt, sugar) with whey", "house cover (salt, sugar), whey", "house cover (salt, sugar) whey",
        "house cover (salt, sugar", "house cover (salt, sugar (cane) whey)", "house cover (salt, sugar) (",
    ],
)  # fmt: skip
def test_text_outside_the_parentheses_is_not_passed_by(label: str, book: RuleBook):
    """What was not read is told, and nothing is met with it."""
    answer = held(book, OURS, label)

    assert verdict(answer) in ("cannot_tell", "not_met")
    assert verdict(answer) == "not_met" or "not_read" in [one.code for one in compared(answer).not_compared]


@pytest.mark.parametrize(
    "label", ["house cover (salt, sugar)", "House cover (salt, sugar).", "house cover (salt) (sugar)"]
)
def test_text_in_parentheses_is_read_whole(label: str, book: RuleBook):
    """The innocent twin: nothing stands outside."""
    assert verdict(held(book, OURS, label)) == "met"


@pytest.mark.parametrize(
    ("ours", "label"),
    [("whey", "whey (soybeans)"), ("salt", "salt (milk)"), ("salt", "salt (contains milk)"), ("salt", "salt (E 250)")],
)
def test_an_allergen_in_parentheses_is_compared(ours: str, label: str, book: RuleBook):
    """The label says of an ingredient what the recipe does not."""
    answer = held(book, line(ours, 10), label, "milk")

    assert (verdict(answer), [one.code for one in compared(answer).not_compared]) == (
        "cannot_tell", ["parts_not_in_recipe"],
    )  # fmt: skip


@pytest.mark.parametrize("label", ["whey (milk)", "whey (MILK)", "whey (contains milk)"])
def test_a_true_allergen_in_parentheses_is_no_part(label: str, book: RuleBook):
    """The innocent twin."""
    assert verdict(held(book, line("whey", 10), label, "milk")) == "met"


# Regulation (EU) No 1169/2011, Articles 18 and 21, Annex VII part C, as told in secondary texts.
@pytest.mark.parametrize(
    ("ours", "allergens", "label", "named"),
    [
        ("semolina", ["gluten_cereals"], "SEMOLINA", False),
        ("semolina", ["gluten_cereals"], "SEMOLINA (WHEAT)", True),
        ("whey", ["milk"], "WHEY", False),
        ("whey", ["milk"], "WHEY (MILK)", True),
        ("ghee", ["milk"], "GHEE", False),
        ("ghee", ["milk"], "GHEE (MILK)", True),
    ],
)
def test_europe_wants_the_allergen_beside_its_ingredient(
    ours: str, allergens: list[str], label: str, *, named: bool, book: RuleBook
):
    """The list that the service prints is what the label is held against."""
    answer = held(book, line(ours, 30), label, *allergens, place="EU", kinds=["wheat"] if ours == "semolina" else [])

    assert (verdict(answer) == "met") is named
    assert (required(answer, "allergens_emphasised").verdict == "met") is named


def test_another_name_of_whey_is_not_whey(book: RuleBook):
    """Serum is an ingredient that the recipe has not."""
    assert verdict(held(book, line("whey", 30), "serum", "milk", place="EU")) == "not_met"


@pytest.mark.parametrize(
    ("label", "expected"),
    [
        ("preservative: E 250", "met"),
        ("preservative: sodium nitrite", "met"),
        ("preservative: sodium nitrite (E 250)", "met"),
        ("sodium nitrite", "not_met"),
        ("colour: sodium nitrite", "cannot_tell"),
        ("preservative: E 251", "not_met"),
    ],
)
def test_europe_wants_to_know_what_an_additive_does(label: str, expected: str, book: RuleBook):
    """By its name or its number, with what it does."""
    answer = held(book, line("sodium nitrite", 1), label, place="EU")

    assert verdict(answer) == expected


@pytest.mark.parametrize(
    ("ours", "label", "expected"),
    [
        ("ice", "ice", "not_met"), ("ice", "water", "met"),
        ("E250", "E250", "not_met"), ("E250", "sodium nitrite", "met"),
    ],
)  # fmt: skip
def test_a_label_of_the_united_states_has_common_names(ours: str, label: str, expected: str, book: RuleBook):
    """Water for ice, the name of an additive for its number."""
    answer = held(book, line(ours, 1), label)

    assert (verdict(answer), required(answer, "ingredients").verdict) == (expected, expected)


def test_parts_stand_in_the_order_of_the_supplier(book: RuleBook):
    """Also where no percents are stated."""
    turned = held(book, OURS, "house cover (sugar, salt)")

    assert compared(turned).out_of_order == ("house cover > sugar",)
    assert verdict(held(book, OURS, "house cover (salt, sugar)")) == "met"


def test_a_label_is_not_met_while_the_service_itself_warns(book: RuleBook):
    """Worcestershire sauce without fish among its parts; with a sheet that says so it is met."""
    ours = {"sub_ingredients": parts("water", "salt")}
    label = "Worcestershire sauce (water, salt)"

    warned = held(book, line("Worcestershire sauce", 30, **ours), label)
    settled = held(book, line("Worcestershire sauce", 30, **ours, specification=specified()), label)

    assert (verdict(warned), compared(warned).not_compared[0].code) == ("cannot_tell", "usual_not_in_parts")
    assert required(warned, "ingredients").verdict == "cannot_tell"
    assert verdict(settled) == "met"


def test_a_nut_that_is_not_in_it_is_not_met(book: RuleBook):
    """Walnut on the label, almond in the recipe."""
    almond = line("almond", 30)

    named = held(book, almond, "almond", "tree_nuts", kinds=["almond", "walnut"])

    assert (verdict(named), [one.name for one in compared(named).not_compared]) == ("cannot_tell", ["walnut"])
    assert verdict(held(book, almond, "almond", "tree_nuts", kinds=["Almonds"])) == "met"


def test_sulphites_that_were_measured_are_on_the_label(book: RuleBook):
    """In the United States by their own statement, in Europe in the list."""
    measured = {"lines": [PORK, line("salt", 20)], "sulphites_mg_per_kg": 50}
    label = {"version": "7", "ingredients": ["pork", "salt"], "allergens": [], "items": EVERYTHING}
    europe = {**label, "allergens": ["sulphites"]}
    sentence = {**europe, "ingredients": ["pork", "salt", "Contains SULPHITES"]}

    answers = [
        told(recipe(place=place) | measured | {"label_in_use": one}, book)
        for place, one in (("US", label), ("US", {**label, "items": [*EVERYTHING, "sulphites"]}), ("EU", europe),
                           ("EU", sentence))
    ]  # fmt: skip

    assert [verdict(one) for one in answers] == ["not_met", "met", "not_met", "met"]


def test_a_list_without_emphasis_is_a_difference(book: RuleBook):
    """What hangs on the ingredients counts, and what does not is told apart."""
    whey, label = line("whey", 30), "WHEY (MILK)"

    bare = held(book, whey, label, "milk", place="EU", items=[])

    assert (verdict(bare), compared(bare).required_items) == ("not_met", ("allergens_emphasised",))
    assert verdict(held(book, whey, label, "milk", place="EU", items=["allergens_emphasised"])) == "met"


@pytest.mark.parametrize(
    ("parts_", "items", "name", "code"),
    [
        (["salt", "sodium nitrite"], ["uncured"], "Bacon", "nitrite_is_in"),
        (["salt", "sodium nitrite"], [], "Uncured bacon", "nitrite_is_in"),
        (["salt", "sugar"], ["uncured"], "Uncured bacon", "on_label"),
    ],
)
def test_uncured_is_untrue_of_what_nitrite_is_in(
    parts_: list[str], items: list[str], name: str, code: str, book: RuleBook
):
    """The words are not asked for there; a label that has them is wrong."""
    label = {"version": "7", "ingredients": ["pork"], "allergens": [], "items": items}
    cover = line("house cover", 20, sub_ingredients=parts(*parts_))

    answer = told(recipe(PORK, cover, product={"name": name, "standard": "with_nitrite"}, label_in_use=label), book)

    assert required(answer, "uncured").code == code


def test_a_label_that_does_not_say_uncured_is_not_asked_to(book: RuleBook):
    """With nitrite in, and no word of it, nothing is told."""
    ours = line("sodium nitrite", 1)

    answer = told(recipe(PORK, ours, product={"name": "Bacon", "standard": "with_nitrite"}), book)

    assert required(answer, "uncured") is None


@pytest.mark.parametrize(
    ("name", "animal", "words"),
    [
        ("venison", {}, ()), ("rabbit", {}, ()), ("wild boar", {}, ()), ("bison", {}, ()), ("elk", {}, ()),
        ("venison neck", {"animal": "beef"}, ()), ("beef chuck", {"animal": "beef"}, None), ("beef chuck", {}, None),
    ],
)  # fmt: skip
def test_a_name_that_is_game_is_game(name: str, animal: dict[str, str], words: tuple[str, ...] | None, book: RuleBook):
    """It need not be inspected, whatever animal is stated."""
    answer = told(recipe(line(name, 1000, **animal), product={"name": "Roast", "state": "raw"}), book)
    raw = required(answer, "raw_handling")

    assert (raw.code == "game_is_in", raw.words == ()) == (words is not None, words is not None)


@pytest.mark.parametrize(
    ("percents", "code"),
    [((50, None), "rest_not_stated"), ((99.9, None), "rest_not_stated"), ((50, 50), None), ((None, None), None)],
)
def test_percents_of_some_parts_alone_do_not_come_to_the_whole(
    percents: tuple[float | None, ...], code: str | None, book: RuleBook
):
    """All of them, or none."""
    shares = [{"percent": one} if one else {} for one in percents]
    of = [{"name": name, **share} for name, share in zip(("salt", "pepper"), shares, strict=True)]

    answer = told(recipe(line("house cover", 20, sub_ingredients=of)), book)

    assert next((one.code for one in answer.open_ingredients), None) == code
