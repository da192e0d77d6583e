"""The list of ingredients: order, clause, joined meats, one word for spices, and what Europe adds."""

import pytest

from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from tests.calculations.labels.asking import told
from tests.calculations.labels.statement_bodies import line, parts, recipe

CURE = line("curing salt", 20, sub_ingredients=parts("salt", "sodium nitrite"))


def test_the_heaviest_comes_first(book: RuleBook):
    """9 CFR 317.2(f)(1): descending order of predominance by weight; parts of a part in parentheses."""
    answer = told(recipe(line("water", 300), CURE, line("pork shoulder", 4000, animal="pork"), line("salt", 80)), book)

    assert answer.ingredient_statement == (
        "Ingredients: pork shoulder, water, salt, curing salt (salt, sodium nitrite)."
    )


def test_equal_weights_stand_in_the_order_of_the_lines(book: RuleBook):
    """Also where one of them was added up from parts that are no round numbers in binary."""
    lines = (line("paprika", 0.1), line("garlic", 0.3), line("paprika", 0.2), line("salt", 0.3))

    answer = told(recipe(*lines), book)

    assert [one.name for one in answer.ingredients] == ["paprika", "garlic", "salt"]


def test_the_same_thing_is_added_up(book: RuleBook):
    """Two lines of salt are one ingredient, in whatever letters; salt in a compound stays there."""
    answer = told(recipe(line("Salt", 40), line("water", 60), line("SALT", 30), CURE), book)

    assert [(one.name, one.lines) for one in answer.ingredients] == [
        ("Salt", (1, 3)),
        ("water", (2,)),
        ("curing salt", (4,)),
    ]


def test_one_name_of_two_compositions_stays_two(book: RuleBook):
    """Two rubs that consist of different things are told apart."""
    rubs = [line("rub", 50, sub_ingredients=parts(*names)) for names in (("salt", "paprika"), ("salt", "cumin"))]

    answer = told(recipe(*rubs), book)

    assert [one.text for one in answer.ingredients] == ["rub (salt, paprika)", "rub (salt, cumin)"]


# 9 CFR 317.2(f)(1)(vi): 2 percent, or 1.5, 1.0 or 0.5; none may be above it. 21 CFR 101.4(a)(2) says the same.
@pytest.mark.parametrize(
    ("threshold", "tail"),
    [
        ("2", "salt, paprika, garlic, cumin"),
        ("1.5", "paprika, garlic, cumin"),
        ("1", "garlic, cumin"),
        ("0.5", "cumin"),
    ],
)
def test_the_clause_holds_what_is_at_or_under_its_threshold(threshold: str, tail: str, book: RuleBook):
    """Ten kilograms with 2, 1.5, 1 and 0.5 percent: the limit itself is in."""
    spices = [line("salt", 200), line("paprika", 150), line("garlic", 100), line("cumin", 50)]

    answer = told(recipe(line("pork shoulder", 9500), *spices, clause_percent=threshold), book)

    assert answer.ingredient_statement.endswith(f"Contains {threshold}% or less of: {tail}.")


def test_the_thresholds_are_those_of_the_rule(book: RuleBook):
    """What may be asked for is what the regulation allows."""
    rule = book.label_rules["us-two-percent"]

    assert rule.figures_percent == (2.0, 1.5, 1.0, 0.5)


def test_a_hair_over_the_threshold_stays_out(book: RuleBook):
    """200.001 g of 10 kg are over 2 percent."""
    answer = told(recipe(line("pork shoulder", 9799.999), line("salt", 200.001), clause_percent="2"), book)

    assert answer.ingredient_statement == "Ingredients: pork shoulder, salt."


def test_two_meats_change_places(book: RuleBook):
    """9 CFR 317.2(f)(1): each at least 30 percent, both at least 70 percent of the meat: in the order of the lines."""
    lines = (line("lamb leg", 3000, animal="lamb"), line("pork shoulder", 4000, animal="pork"), line("water", 3500))

    answer = told(recipe(*lines, join_meats=True), book)

    assert answer.ingredient_statement == "Ingredients: lamb leg and pork shoulder, water."
    assert [one.name for one in answer.ingredients] == ["pork shoulder", "water", "lamb leg"]


@pytest.mark.parametrize(
    ("grams", "is_joined"),
    [((3000, 7000), True), ((2999, 7001), False), ((3500, 3500, 3000), True), ((3400, 3300, 3300), False)],
)
def test_thirty_and_seventy_percent_of_the_meat(grams: tuple[float, ...], is_joined: bool, book: RuleBook):
    """At the limits they are joined, under them refused with the figures."""
    animals = ("pork", "lamb", "beef")
    meats = [line(animal, weight, animal=animal) for animal, weight in zip(animals, grams, strict=False)]

    if is_joined:
        assert " and " in told(recipe(*meats, join_meats=True), book).ingredient_statement
    else:
        with pytest.raises(Impossible) as refused:
            told(recipe(*meats, join_meats=True), book)
        assert refused.value.code == "meats_not_joined"


def test_one_meat_is_not_joined(book: RuleBook):
    """There is nothing to join it with."""
    with pytest.raises(Impossible) as refused:
        told(recipe(line("pork", 50, animal="pork"), join_meats=True), book)

    assert refused.value.code == "meats_not_joined"


def test_spices_may_stand_under_one_word(book: RuleBook):
    """9 CFR 317.2(f)(1)(i): never onion, garlic or celery; nor paprika and turmeric, which colour; nor sesame."""
    names = ("black pepper", "coriander", "garlic powder", "onion", "celery seed", "paprika", "sesame seeds")
    lines = [line(name, 10 - number) for number, name in enumerate(names)]

    answer = told(recipe(line("pork", 900, animal="pork"), *lines, spices="as_one_word"), book)

    assert answer.ingredient_statement == (
        "Ingredients: pork, spices, garlic powder, onion, celery seed, paprika, sesame seeds."
    )
    assert answer.ingredients[1].lines == (2, 3)


def test_parts_stand_by_their_percents(book: RuleBook):
    """Ninety percent of salt before ten of pepper; without every percent they stand as stated."""
    shares = [{"name": "pepper", "percent": 10}, {"name": "salt", "percent": 90}]
    known, unknown = (line("rub", 20, sub_ingredients=of) for of in (shares, [shares[0], {"name": "salt"}]))

    texts = [told(recipe(one), book).ingredients[0].text for one in (known, unknown)]

    assert texts == ["rub (salt, pepper)", "rub (pepper, salt)"]


@pytest.mark.parametrize("place", ["US", "EU"])
def test_ice_is_water(place: str, book: RuleBook):
    """A label has one name for both, and one share."""
    answer = told(recipe(line("pork", 900), line("ice", 60), line("salt", 50), line("water", 40), place=place), book)

    assert answer.ingredient_statement == "Ingredients: pork, water, salt."
    assert answer.ingredients[1].lines == (2, 4)


@pytest.mark.parametrize(
    ("place", "text"),
    [("US", "pork, sodium nitrite, antioxidant: sodium erythorbate"),
     ("EU", "pork, preservative: E250, antioxidant: E 316")],
)  # fmt: skip
def test_numbers_of_additives_are_for_europe(place: str, text: str, book: RuleBook):
    """The United States want the common or usual name (9 CFR 317.2(c)(2))."""
    answer = told(recipe(line("pork", 900), line("E250", 5), line("antioxidant: E 316", 4), place=place), book)

    assert answer.ingredient_statement == f"Ingredients: {text}."


def test_europe_names_additives_by_what_they_do(book: RuleBook):
    """Annex VII part C (as told by a trading standards office): category, then name or number."""
    lines = (line("pork", 900), CURE, line("E 301", 5), line("antioxidant: sodium erythorbate (E 316)", 4))

    answer = told(recipe(*lines, place="EU"), book)

    assert answer.ingredient_statement == (
        "Ingredients: pork, curing salt (salt, preservative: sodium nitrite (E 250)), antioxidant: E 301, "
        "antioxidant: sodium erythorbate (E 316)."
    )


def test_europe_emphasises_allergens(book: RuleBook):
    """Article 21(1)(b): the name of Annex II stands out; where the word does not hold it, it is added."""
    lines = (
        line("pork", 900),
        line("wheat flour", 50),
        line("whey powder", 40),
        line("anchovies", 30),
        line("pecans", 20),
    )

    answer = told(recipe(*lines, place="EU"), book)

    assert answer.ingredient_statement == (
        "Ingredients: pork, WHEAT FLOUR, WHEY powder (MILK), ANCHOVIES (FISH), PECANS."
    )


def test_the_united_states_list_names_as_they_are(book: RuleBook):
    """No capitals, no categories: the statement after the list names allergens."""
    answer = told(recipe(line("pork", 900), line("whey powder", 40), CURE), book)

    assert answer.ingredient_statement == "Ingredients: pork, whey powder, curing salt (salt, sodium nitrite)."


@pytest.mark.parametrize("option", [{"clause_percent": "2"}, {"join_meats": True}, {"spices": "as_one_word"}])
@pytest.mark.parametrize("place", ["EU", "GB", "CA"])
def test_the_liberties_of_one_law_are_not_taken_under_another(option: dict, place: str, book: RuleBook):
    """Refused, with the option to leave out."""
    with pytest.raises(Impossible) as refused:
        told(recipe(line("pork", 900), place=place, **option), book)

    assert refused.value.code == "united_states_only"
    assert next(iter(option)) in (refused.value.nearest or "")


def test_what_a_refusal_names_is_answered_once_it_is_left_out(book: RuleBook):
    """All options at once are named at once."""
    options = {"clause_percent": "2", "join_meats": True, "spices": "as_one_word"}
    body = recipe(line("pork", 900), place="EU")

    with pytest.raises(Impossible) as refused:
        told(body | options, book)

    assert refused.value.nearest == "Leave out clause_percent and join_meats and spices, or ask with jurisdiction US."
    assert told(body, book).ingredient_statement == "Ingredients: pork."


def test_an_unknown_id_is_refused_with_those_near_it(book: RuleBook):
    """The nearest ids are named."""
    with pytest.raises(Impossible) as refused:
        told(recipe(line("stock", 20, ingredient="bouillon-powder")), book)

    assert refused.value.code == "unknown_ingredient"
    assert "bouillon-powder-beef" in (refused.value.nearest or "")


def test_parts_over_the_whole_are_refused(book: RuleBook):
    """However deep they are; labels that round by a percent are not."""
    deep = [{"name": "b", "sub_ingredients": [{"name": "salt", "percent": 60}, {"name": "sugar", "percent": 42}]}]
    rounded = [{"name": "salt", "percent": 50.5}, {"name": "sugar", "percent": 50.4}]

    with pytest.raises(Impossible) as refused:
        told(recipe(line("a", 20, sub_ingredients=deep)), book)

    assert refused.value.code == "percents_over_whole"
    assert told(recipe(line("a", 20, sub_ingredients=rounded)), book).lines[0].composition == "stated"
