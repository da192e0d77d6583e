"""The table of cuts against what is published of them, and against the item numbers as they were read."""

import pytest

from service.rules.book import RuleBook
from service.rules.cut import Cut, PartShare
from tests.rules.published_cuts import ANALYSED, COOKED, MEASURED, REFUSE, SALTED, SMOKED, TRIMMED

# Item number, words of its name, and the weight ranges in pounds where a source has them; where each was read stands
# beside the number in the table. A teaching page on pork by item number, after an earlier edition of the Institutional
# Meat Purchase Specifications: 401, 402, 402B, 403, 405, 410, 412, 413A with their ranges.
ON_PORK = [
    ("401", "leg fresh ham", [(10, 14), (14, 17), (17, 20)]),
    ("402", "leg skinned", [(10, 14), (14, 17), (17, 20)]),
    ("402B", "leg boneless tied", [(6, 8), (8, 10), (10, 12)]),
    ("403", "shoulder", [(8, 12), (12, 16), (16, 20)]),
    ("405", "shoulder picnic", [(4, 6), (6, 8), (8, 12)]),
    ("410", "loin bone-in", [(10, 14), (14, 17), (17, 20)]),
    ("412", "loin center-cut", [(4, 6), (6, 8), (8, 10)]),
    ("413A", "loin boned tied", [(6, 8), (8, 10), (10, 12)]),
]
# USDA Market News, boxed beef (LM_XB403) and boxed lamb (LM_XL500); a beef manual (120 to 120C); catalogues and pages
# that quote the specifications (118, 123A, 405A to 416A).
NUMBERED = [
    ("114", "beef shoulder clod"), ("116A", "beef chuck roll"), ("120", "beef brisket deckle off"),
    ("120A", "beef brisket flat"), ("120B", "beef brisket point"), ("120C", "beef flat and point"),
    ("118", "beef brisket bone-in"), ("123A", "beef short plate short ribs"), ("130", "beef chuck short ribs"),
    ("109", "beef rib roast-ready"), ("167A", "beef knuckle peeled"), ("168", "beef top inside round"),
    ("170", "beef bottom gooseneck"), ("171B", "beef outside round"), ("171C", "beef eye of round"),
    ("193", "beef flank steak"), ("207", "lamb shoulder square-cut"), ("208", "lamb shoulder boneless"),
    ("209", "lamb breast"), ("210", "lamb foreshank"), ("232", "lamb loin trimmed"), ("233A", "lamb leg trotter off"),
    ("405A", "pork picnic boneless"), ("406", "pork boston butt"), ("406A", "pork boston butt boneless"),
    ("408", "pork belly"),
    ("409", "pork belly skinless"), ("413", "pork loin boneless"), ("415", "pork tenderloin"),
    ("416", "pork spareribs"), ("416A", "pork spareribs st. louis"),
]  # fmt: skip
FROM_MEMORY = {"119", "121", "418"}


def numbered(book: RuleBook, number: str) -> Cut:
    """The only cut with this item number."""
    (cut,) = (one for one in book.cuts.values() if one.item_number == number)
    return cut


@pytest.mark.parametrize(("number", "words"), [*NUMBERED, *((number, words) for number, words, _ in ON_PORK)])
def test_an_item_number_is_that_of_its_source(book: RuleBook, number: str, words: str):
    """Each number stands once, beside a cut of that name, as reported: the text of the items itself was not read."""
    cut = numbered(book, number)

    name = f"{cut.animal} {cut.name}".lower().replace("(", "").replace(")", "")
    assert all(word in name for word in words.split())
    assert cut.item_evidence == "reported"


def test_numbers_from_memory_say_so(book: RuleBook):
    """Nothing else is recalled, and no number is said to be read."""
    evidence = {one.item_number: one.item_evidence for one in book.cuts.values() if one.item_number}

    assert {number for number, known in evidence.items() if known == "recalled"} == FROM_MEMORY
    assert set(evidence.values()) == {"reported", "recalled"}
    assert len(evidence) == len(NUMBERED) + len(ON_PORK) + len(FROM_MEMORY)


def test_no_number_stands_twice(book: RuleBook):
    """One item, one row."""
    numbers = [one.item_number for one in book.cuts.values() if one.item_number]

    assert len(numbers) == len(set(numbers))


@pytest.mark.parametrize(("number", "words", "ranges_lb"), ON_PORK)
def test_weight_ranges_of_pork_are_those_of_the_page(book: RuleBook, number: str, words: str, ranges_lb: list):
    """In pounds, in the order of the page."""
    weights = [one for one in numbered(book, number).weights if "Teaching page" in one.source]

    assert [(one.low_lb, one.high_lb) for one in weights] == ranges_lb
    assert {one.evidence for one in weights} == {"reported"}


@pytest.mark.parametrize(("id", "method", "raw_g", "cooked_g", "row"), COOKED)
def test_every_cooked_yield_is_held(book: RuleBook, id: str, method: str, raw_g: float, cooked_g: float, row: str):
    """Cooked by raw weight, to the tenth of a percent that is held."""
    percent = pytest.approx(100 * cooked_g / raw_g, abs=0.055)
    found = [one for one in book.cuts[id].yields if one.source.endswith(f"weight file, {row}")]

    (held,) = (one for one in found if one.method == method and one.low_percent == one.high_percent == percent)

    assert held.evidence == "read"
    assert held.usable is (row != "07063/07064")


@pytest.mark.parametrize(("id", "low_percent", "high_percent", "of", "left"), SMOKED)
def test_every_smoked_yield_is_held(
    book: RuleBook, id: str, low_percent: float, high_percent: float, of: str, left: str
):
    """Each with the weight that it is of, and the weight that was left."""
    held = [(one.low_percent, one.high_percent, one.of, one.left) for one in book.cuts[id].yields]

    assert (low_percent, high_percent, of, left) in held


@pytest.mark.parametrize(("id", "part", "low_percent", "high_percent"), TRIMMED)
def test_every_published_part_is_held(book: RuleBook, id: str, part: str, low_percent: float, high_percent: float):
    """By cut, part and share."""
    assert (part, low_percent, high_percent) in [
        (one.part, one.low_percent, one.high_percent) for one in book.cuts[id].parts
    ]


@pytest.mark.parametrize(("id", "part", "percent", "row"), REFUSE)
def test_every_refuse_description_is_held(book: RuleBook, id: str, part: str, percent: float, row: str):
    """What the nutrient database calls refuse of the raw cut, row by row."""
    (held,) = (
        one for one in book.cuts[id].parts if one.part == part and one.source.endswith(f"refuse description, {row}")
    )

    assert held.low_percent == held.high_percent == percent
    assert held.evidence == "read"


@pytest.mark.parametrize(("id", "measure", "low_in", "high_in"), MEASURED)
def test_every_measure_is_held(book: RuleBook, id: str, measure: str, low_in: float, high_in: float):
    """Thickness, diameter and length, in inches."""
    assert (measure, low_in, high_in) in [(one.measure, one.low_in, one.high_in) for one in book.cuts[id].sizes]


@pytest.mark.parametrize(("id", "row", "water", "protein", "fat"), ANALYSED)
def test_every_composition_is_held(book: RuleBook, id: str, row: str, water: float, protein: float, fat: float):
    """Water, protein and fat in percent; the three never come to more than the whole."""
    (held,) = (one for one in book.cuts[id].compositions if one.source.endswith(f", {row}"))

    assert (held.water_percent, held.protein_percent, held.fat_percent) == (water, protein, fat)
    assert water + protein + fat <= 100


@pytest.mark.parametrize(("id", "row", "mg_per_100g"), SALTED)
def test_every_sodium_is_held(book: RuleBook, id: str, row: str, mg_per_100g: float):
    """With the composition where that was read, else alone."""
    cut = book.cuts[id]
    beside = [one.sodium_mg_per_100g for one in cut.compositions if one.source.endswith(f", {row}")]
    alone = [one.sodium_mg_per_100g for one in cut.sodiums if one.source.endswith(f", {row}")]

    assert beside + alone == [mg_per_100g]


# National Pork Producers Council, breakdown of a hog carcass, handout of the University of Kentucky: pounds.
BROKEN_DOWN = {
    "pork-loin": (33.8, [10.7, 7.6, 5.7, 3.2, 1.6, 1.6, 3.4]),
    "pork-belly": (34.9, [19, 5.8, 9.1, 1]),
    "pork-picnic": (16.6, [12.6, 4]),
}


@pytest.mark.parametrize("id", BROKEN_DOWN)
def test_a_breakdown_comes_to_the_whole(book: RuleBook, id: str):
    """The parts of one published breakdown add up to the cut, and are held as shares of it."""
    whole_lb, parts_lb = BROKEN_DOWN[id]
    held = [one.low_percent for one in book.cuts[id].parts if "Producers Council" in one.source]

    assert sum(parts_lb) == pytest.approx(whole_lb)
    assert held == pytest.approx([100 * part_lb / whole_lb for part_lb in parts_lb], abs=0.005)
    assert sum(held) == pytest.approx(100, abs=0.04)


def test_a_part_that_is_compared_says_what_it_is(book: RuleBook):
    """What is weighed apart by one name is one kind; what is compared is no more than the whole piece."""
    kinds = {"bone": {"bone"}, "skin": {"skin"}, "separable fat": {"fat"}, "bone and skin": {"bone", "skin"}}
    parts: list[PartShare] = [one for cut in book.cuts.values() for one in cut.parts]

    assert all(set(one.consists_of) == kinds[one.part] for one in parts if one.part in kinds)
    assert sum(one.part in kinds for one in parts) > 30


def test_bone_in_the_name_is_bone_in_the_cut(book: RuleBook):
    """No name contradicts whether there is bone in it; every whole bird and every rib has some."""
    for one in book.cuts.values():
        if "boneless" in one.name or "boned" in one.name:
            assert one.bone_in is False, one.id
        if "bone-in" in one.name or "ribs" in one.name or "whole" in one.id:
            assert one.bone_in is True, one.id
        if "bone" in [part.part for part in one.parts]:
            assert one.bone_in is True, one.id


def test_poultry_has_no_number_of_the_specifications(book: RuleBook):
    """The specifications have no series for birds (list of the Agricultural Marketing Service: 11, 100 to 800)."""
    birds = [one for one in book.cuts.values() if one.animal in ("turkey", "chicken", "duck", "goose", "other_bird")]

    assert len(birds) >= 9
    assert {one.item_number for one in birds} == {None}
