"""The lists of allergens and of words against what is printed outside this project."""

from datetime import date

import pytest

from service.calculations.labels.labelling.place import place_of
from service.rules.book import RuleBook
from tests.calculations.labels.asking import told
from tests.calculations.labels.statement_bodies import line, recipe

TODAY = date(2026, 12, 1)

# Food Allergen Labeling and Consumer Protection Act of 2004, section 203, with the FASTER Act of 2021.
NINE = {"milk", "eggs", "fish", "crustaceans", "tree_nuts", "peanuts", "wheat", "soybeans", "sesame"}

# Regulation (EU) No 1169/2011, Annex II, in its order.
FOURTEEN = {
    1: "gluten_cereals", 2: "crustaceans", 3: "eggs", 4: "fish", 5: "peanuts", 6: "soybeans", 7: "milk", 8: "tree_nuts",
    9: "celery", 10: "mustard", 11: "sesame", 12: "sulphites", 13: "lupin", 14: "molluscs",
}  # fmt: skip


def listed(book: RuleBook, place: str, on: date = TODAY) -> set[str]:
    """What the law of a place lists on a day."""
    return set(place_of(book, place, on).listed)


def test_the_united_states_list_nine(book: RuleBook):
    """Nine, and neither mustard nor celery."""
    assert listed(book, "US") == NINE


@pytest.mark.parametrize("place", ["EU", "DK", "GB", "GB-NI"])
def test_europe_lists_fourteen(place: str, book: RuleBook):
    """Fourteen, each with its number in the annex."""
    assert listed(book, place) == set(FOURTEEN.values())
    for number, allergen in FOURTEEN.items():
        listing = book.allergens[allergen].listing("EU", TODAY)
        assert listing is not None
        assert f"item {number}," in listing.citation


# FASTER Act: food introduced from 1 January 2023 on. FALCPA: 1 January 2006. Regulation 1169/2011: 13 December 2014.
@pytest.mark.parametrize(
    ("place", "on", "count"),
    [
        ("US", date(2005, 12, 31), 0),
        ("US", date(2006, 1, 1), 8),
        ("US", date(2022, 12, 31), 8),
        ("US", date(2023, 1, 1), 9),
        ("EU", date(2014, 12, 12), 0),
        ("EU", date(2014, 12, 13), 14),
        ("CA", TODAY, 0),
    ],
)
def test_a_list_holds_from_its_day(place: str, on: date, count: int, book: RuleBook):
    """Sesame is on the list from its first day, and not a day before."""
    assert len(listed(book, place, on)) == count


def test_sulphites_are_listed_above_ten(book: RuleBook):
    """Annex II, item 12: more than 10 mg/kg or 10 mg/l in terms of the total SO2."""
    listing = book.allergens["sulphites"].listing("EU", TODAY)

    assert listing is not None
    assert listing.above_mg_per_kg == 10


# FDA guidance, edition 5 (6 January 2025), table 1, as told in secondary texts.
TWELVE_NUTS = [
    "Almond", "Black walnut", "Brazil nut", "California walnut", "Cashew", "Filbert", "Hazelnut", "Heartnut",
    "Macadamia nut", "Pecan", "Pine nut", "Pistachio", "Walnut",
]  # fmt: skip
OFF_THE_LIST = [
    "Beech nut", "Butternut", "Chestnut", "Chinquapin", "Coconut", "Ginkgo nut", "Hickory nut", "Palm nut", "Pili nut",
    "Shea nut", "Cola nut",
]  # fmt: skip
# Annex II, item 8.
EIGHT_NUTS = [
    "Almonds",
    "Hazelnuts",
    "Walnuts",
    "Cashews",
    "Pecan nuts",
    "Brazil nuts",
    "Pistachio nuts",
    "Macadamia nuts",
]


@pytest.mark.parametrize(("place", "names"), [("US", TWELVE_NUTS), ("EU", EIGHT_NUTS)])
def test_every_nut_of_a_list_is_one(place: str, names: list[str], book: RuleBook):
    """Each is found, by its kind."""
    for name in names:
        assert {one.allergen for one in place_of(book, place, TODAY).facts(name).carried} == {"tree_nuts"}


@pytest.mark.parametrize("name", OFF_THE_LIST)
def test_what_went_off_the_list_is_known_and_no_longer_meant(name: str, book: RuleBook):
    """It counted the day before; it is still found, and told beside the statement."""
    before, after = (place_of(book, "US", day).facts(name) for day in (date(2025, 1, 5), date(2025, 1, 6)))

    assert [(one.allergen, one.counts) for one in before.carried] == [("tree_nuts", True)]
    assert [(one.allergen, one.counts) for one in after.carried] == [("tree_nuts", False)]
    assert after.why is None


# Nebraska and Minnesota departments of agriculture: ingredients that indicate allergens.
STATES = {
    "milk": "butter, butter fat, butter oil, buttermilk, casein, calcium caseinate, cheese, cream, cottage cheese, "
    "curds, custard, ghee, half & half, lactalbumin, lactoglobulin, lactose, lactulose, skimmed milk, "
    "sour cream, whey, yogurt",
    "eggs": "albumin, egg white, egg yolk, dried egg, eggnog, livetin, vitellin, lysozyme, mayonnaise, meringue, "
    "ovalbumin, ovoglobulin, ovomucoid, ovomucin, ovotransferrin, ovovitellin",
    "peanuts": "beer nuts, peanut oil, ground nuts, monkey nuts, peanut, peanut butter, peanut flour, peanut protein, "
    "goobers, mandelonas",
}
# A pharmacy's and doctors' lists of label words.
PATIENTS = {
    "soybeans": "edamame, miso, natto, okara, tamari, tempeh, tofu, yuba, kinako, soy albumin, soy flour, soy grits, "
    "soy lecithin, soy milk, soy nuts, soy protein isolate, soy sauce, soya flour, bean curd, textured soy protein, "
    "hydrolyzed soy protein",
    "fish": "anchovy, bass, carp, catfish, cod, eel, halibut, herring, mackerel, perch, pike, pollock, salmon, "
    "sardine, snapper, sole, swordfish, tilapia, trout, tuna",
    "sesame": "benne seed, gingelly oil, sesame seed, sesamol, sesamum indicum, sim sim, tahini",
    "molluscs": "calamari, clam, cockle, conch, mussels, octopus, escargot, snails, scallops, squid",
    "crustaceans": "crab, crayfish, lobster, prawns, shrimp",
    "wheat": "bulgur, couscous, durum, farina, semolina, seitan, spelt, kamut, wheat germ, rusk, flour",
}


@pytest.mark.parametrize(("allergen", "words"), [*STATES.items(), *PATIENTS.items()])
def test_every_published_word_is_found(allergen: str, words: str, book: RuleBook):
    """Each word of a published list brings its allergen in."""
    place = place_of(book, "EU", TODAY)
    silent = [word for word in words.split(", ") if allergen not in {one.allergen for one in place.facts(word).carried}]

    assert silent == []


# Lists of the same departments: these may bring in milk or eggs, or not.
@pytest.mark.parametrize(
    ("word", "allergen"),
    [
        ("natural flavoring", "milk"),
        ("margarine", "milk"),
        ("sausage", "milk"),
        ("lecithin", "eggs"),
        ("egg substitutes", "milk"),
    ],
)
def test_what_may_bring_it_in_is_open(word: str, allergen: str, book: RuleBook):
    """Neither in nor excluded."""
    answer = told(recipe(line(word, 50)), book)

    assert allergen in answer.open_ingredients[0].may_bring_in


# 9 CFR 317.2(e)(2)(i): "contains 15% added solution of water and salt".
def test_the_example_of_the_regulation_is_told(book: RuleBook):
    """Fifteen percent by the raw meat."""
    lines = (line("beef", 1000, animal="beef"), line("water", 145, in_solution=True), line("salt", 5, in_solution=True))

    answer = told(recipe(*lines), book)

    assert answer.added_solution_percent == 15


def test_what_is_from_memory_says_so(book: RuleBook):
    """Of every word, list and rule."""
    words = [(one.source, one.evidence) for one in book.substances.values()]
    rules = [(one.citation, one.evidence) for one in book.label_rules.values()]
    lists = [(each.citation, each.evidence) for one in book.allergens.values() for each in one.lists]

    assert [
        cited for cited, evidence in (*words, *rules, *lists) if (evidence == "recalled") != ("memory" in cited)
    ] == []
    assert all(rule.text_as_of for rule in book.label_rules.values() if rule.evidence == "read")
