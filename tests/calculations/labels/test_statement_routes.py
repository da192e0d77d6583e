"""The ways in which allergens come into cured meat: recalls and the trade know them (FSIS alerts, trade review)."""

from service.rules.book import RuleBook
from tests.calculations.labels.asking import contained, told, verdicts, ways
from tests.calculations.labels.statement_bodies import line, parts, recipe, specified

PORK = line("pork shoulder", 5000, animal="pork")


def test_soy_and_celery_come_in_through_stock_powder(book: RuleBook):
    """Both are found below the powder, with the way they came."""
    powder = line("stock powder", 60, sub_ingredients=parts("salt", "hydrolyzed soy protein", "celery seed"))

    answer = told(recipe(PORK, powder, place="EU"), book)

    assert contained(answer) == {"soybeans", "celery"}
    assert ways(answer, "celery") == [("stock powder", "celery seed")]


def test_mustard_comes_in_as_a_binder(book: RuleBook):
    """Free text in the United States, declarable in Europe: it is told in both, and named in one."""
    binder = line("binder", 90, sub_ingredients=parts("mustard flour", "potato starch"))

    here, there = (told(recipe(PORK, binder, place=place), book) for place in ("US", "EU"))

    assert contained(here) == contained(there) == {"mustard"}
    assert here.allergen_statement.verdict == "does_not_contain"
    assert there.allergen_statement.text == "Contains: mustard."


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
    seasoning = line("seasoning", 60, specification=specified())

    before, after = (told({**recipe(PORK, seasoning), "on": on}, book) for on in ("2022-12-31", "2023-01-01"))

    assert (verdicts(before)["sesame"], verdicts(after)["sesame"]) == ("cannot_tell", "does_not_contain")


def test_a_specification_that_names_no_cereal_leaves_wheat_open(book: RuleBook):
    """Cereals with gluten may be wheat: the United States want to know which."""
    seasoning = line("seasoning", 60, specification=specified("gluten_cereals", "tree_nuts", by_list="EU"))

    answer = told(recipe(PORK, seasoning), book)

    assert verdicts(answer)["wheat"] == "cannot_tell"
    assert "cereal_not_named" in [one.code for one in answer.open_ingredients]


def test_a_word_beats_a_specification(book: RuleBook):
    """Whey under a specification that declares no milk: it is in, and the contradiction is told."""
    powder = line("binder", 60, specification=specified(), sub_ingredients=parts("whey", "salt"))

    answer = told(recipe(PORK, powder), book)

    assert contained(answer) == {"milk"}
    assert answer.lines[1].contradicted == ("milk",)


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
    answer = told(recipe(PORK, place="EU", sulphites_mg_per_kg=40), book)

    assert answer.allergen_statement.text == "Contains: sulphites."


def test_an_id_of_an_ingredient_says_what_it_is(book: RuleBook):
    """A house name with its id is known; a mix with its id stays open and is warned of."""
    pepper = told(recipe(PORK, line("our pepper no 2 grind", 20, ingredient="black-pepper-ground")), book)
    sauce = told(recipe(PORK, line("our sauce", 20, ingredient="soy-sauce")), book)

    assert pepper.lines[1].composition == "cannot_tell"
    assert contained(sauce) == {"soybeans", "wheat", "gluten_cereals"}
    assert sauce.allergen_statement.verdict == "cannot_tell"


def test_where_no_list_is_held_nothing_is_complete(book: RuleBook):
    """For Canada everything found is told, and nothing of the law."""
    answer = told(recipe(PORK, line("whey powder", 40), place="CA"), book)

    assert answer.allergen_statement.found == ("milk",)
    assert answer.allergen_statement.verdict == "cannot_tell"
    assert not answer.rules_held
    assert answer.required == ()
