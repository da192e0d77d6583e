"""What a scaled recipe does not take on trust: names, labels, wet lines, table figures, scales. Each with its twin."""

from typing import Any

import pytest

from service.calculations.refusals import Impossible
from service.calculations.seasoning.scale import ScaleAnswer
from service.rules.book import RuleBook
from tests.calculations.seasoning.scale_bodies import amount, limiting, line, meat_at_hand
from tests.calculations.seasoning.test_scale import HALF, PAPRIKA, SALT, WATER, answer_to, codes, ids

AS_WRITTEN = [meat_at_hand(5)]


def lines_of(answer: ScaleAnswer, code: str) -> tuple[int, ...]:
    """The lines that an advice is about; none where it is not given."""
    return next((one.lines for one in answer.advice if one.code == code), ())


def strength_of(book: RuleBook, *lines: dict[str, Any]) -> tuple[float, float, float | None] | None:
    """The strength of a brine; None where it is not told."""
    liquid = answer_to(book, *lines, at_hand=AS_WRITTEN).liquid
    told = liquid.brine_strength if liquid else None
    return (told.low_percent, told.typical_percent, told.high_percent) if told else None


@pytest.mark.parametrize(
    "name",
    [
        "House rub",
        "Larch Yard No. 3",
        "Wurstzauber",
        "red salt",
        "香料",
        "bacon seasoning",
        "spices",
        "pink sugar",
        "kale powder",
        "dehydrated leek",
        "parsley powder",
        "carrot juice concentrate",
        "cured ham",
    ],
)
def test_a_name_that_is_not_known_wants_its_label_read(book: RuleBook, name: str):
    """First of all the advice, with the line, what to look for, and where to go."""
    first = answer_to(book, SALT, line(name, 20, "g"), at_hand=HALF).advice[0]

    assert (first.code, first.lines) == ("label_not_read", (2,))
    assert all(word in first.text for word in (name, "E 249 to E 252", "celery", "POST /v1/curing/dose"))


@pytest.mark.parametrize(
    "name",
    [
        "Table Salt",
        "Meersalz",
        "black pepper",
        "ice",
        "apple juice",
        "celery",
        "bouillon",
        "kale",
        "carrot",
        "dried dill",
        "dried parsley",
        "sugar",
        "pink rock salt",
    ],
)
def test_a_name_that_says_what_it_is_does_not(book: RuleBook, name: str):
    """Listed, plain salt in some language, or a plain substance of labels."""
    assert "label_not_read" not in codes(answer_to(book, line(name, 20, "g"), at_hand=HALF))


@pytest.mark.parametrize("one", [line("House rub", 2, "tbsp"), line("House rub", 2)])
def test_what_is_asked_for_in_place_of_a_spoon_is_its_label_too(book: RuleBook, one: dict[str, Any]):
    """To state a weight leads around no refusal unread: the label is asked for there, and in the answer."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, one, at_hand=HALF)
    weighed = answer_to(book, line("House rub", 20, "g"), at_hand=HALF)

    assert "E 249 to E 252" in str(refused.value.nearest)
    assert "label_not_read" in codes(weighed)


def test_ice_is_water(book: RuleBook):
    """150 g of salt in 2 l of water (1996.4 g) and 1 kg of ice: 4.77 percent, not 6.99."""
    strength = strength_of(book, WATER, line("ice", 1, "kg"), line("table-salt", 150, "g"))

    assert strength is not None
    assert strength[1] == pytest.approx(100 * 150 / (150 + 1996.4 + 1000), abs=0.06)


@pytest.mark.parametrize(
    "wet",
    [
        line("apple juice", 2, "kg", label={"salt_percent": 0}),
        line("soy-sauce", 1, "l"),
        line("red wine", 500, "g"),
        line("Nanna's pickle juice", 400, "g"),
    ],
)
def test_a_wet_line_withholds_the_strength(book: RuleBook, wet: dict[str, Any]):
    """What may be water, and is not counted, would make the brine weaker than it is told."""
    told = answer_to(book, WATER, line("table-salt", 150, "g"), wet, at_hand=AS_WRITTEN)

    assert told.liquid is not None
    assert told.liquid.brine_strength is None
    assert lines_of(told, "brine_by_water") == (3,)
    assert strength_of(book, WATER, line("table-salt", 150, "g")) is not None


def test_a_little_honey_widens_the_strength(book: RuleBook):
    """50 g to 2 l may be water or not: low has it, high has it not."""
    with_honey = strength_of(book, WATER, line("table-salt", 150, "g"), line("honey", 50, "g"))
    without = strength_of(book, WATER, line("table-salt", 150, "g"))

    assert with_honey is not None
    assert without is not None
    assert with_honey[0] < without[0]
    assert with_honey[1:] == without[1:]


@pytest.mark.parametrize(("water_g", "is_told"), [(250, False), (1249, False), (1250, True)])
def test_a_sausage_has_no_brine(book: RuleBook, water_g: float, is_told: bool):
    """Less water than a quarter of the meat is mixed into it."""
    assert (strength_of(book, line("water", water_g, "g"), SALT) is not None) is is_told


@pytest.mark.parametrize("name", ["table-salt", "Salz", "coarse sea salt", "fleur de sel", "flor de sal", "sel gris"])
@pytest.mark.parametrize("label", [{"salt_percent": 0.98}, {"salt_percent": 0}, {"sodium_mg_per_100g": 387}])
def test_a_salt_that_its_label_denies_is_refused(book: RuleBook, name: str, label: dict[str, float]):
    """A slip of the point; without the label it is answered."""
    with pytest.raises(Impossible) as refused:
        answer_to(book, line(name, 100, "g", label=label), at_hand=AS_WRITTEN)

    assert refused.value.code == "label_contradicts"
    assert answer_to(book, line(name, 100, "g"), at_hand=AS_WRITTEN).salt.of_salts.typical == 100
    assert answer_to(book, line(name, 100, "g", label={"salt_percent": 98}), at_hand=AS_WRITTEN).salt.weight.low == 98


def test_a_salt_substitute_goes_by_its_own_name(book: RuleBook):
    """As the refusal says, and it is answered."""
    told = answer_to(book, line("Salt substitute", 100, "g", label={"salt_percent": 40}), at_hand=AS_WRITTEN)

    assert told.salt.of_others.typical == 40


@pytest.mark.parametrize(
    ("one", "differs"),
    [
        (line("soy-sauce", 100, "g", label={"sodium_mg_per_100g": 0}), True),
        (line("water", 1, "l", label={"salt_percent": 20}), True),
        (line("bouillon", 50, "g", label={"salt_percent": 0.55}), True),
        (line("soy-sauce", 100, "g", label={"salt_percent": 9}), False),
        (line("water", 1, "l", label={"salt_percent": 0.5}), False),
        (line("House rub", 50, "g", label={"salt_percent": 90}), False),
    ],
)
def test_a_label_far_from_the_table_is_asked_about(book: RuleBook, one: dict[str, Any], differs: bool):
    """Twice as much or half; of a name of which nothing is known, any label is taken."""
    assert lines_of(answer_to(book, SALT, one, at_hand=HALF), "label_differs") == ((2,) if differs else ())


@pytest.mark.parametrize(
    "other",
    [line("Salz", 100, "g"), line("House rub", 30, "g"), line("Larch mix", 100, "g", label={"salt_percent": 97})],
)
def test_no_salt_of_its_own_is_not_said_lightly(book: RuleBook, other: dict[str, Any]):
    """Not beside a salt in another language, a line that nobody knows, or one that its label calls salt."""
    stock = line("bouillon", 20, "g")

    assert "salt_from_powders" not in codes(answer_to(book, other, stock, at_hand=HALF))
    assert "salt_from_powders" in codes(answer_to(book, PAPRIKA, stock, at_hand=HALF))


@pytest.mark.parametrize(
    ("name", "salt_g"),
    [
        ("Salz", 100), ("Meersalz", 100), ("sel", 100), ("gros sel", 100), ("sal", 100), ("sale", 100), ("sól", 100),
        ("соль", 100), ("塩", 100), ("소금", 100), ("เกลือ", 100),
        ("smoked sea salt", 100), ("table_salt", 100), ("Table - Salt", 100), ("sugar", 0), ("black pepper", 0),
        ("Black peppercorns", 0), ("paprika", 0), ("garlic", 0), ("cumin", 0), ("vinegar", 0),
    ],
)  # fmt: skip
def test_a_plain_name_is_taken_for_what_it_is(book: RuleBook, name: str, salt_g: float):
    """Salt in other words, and what can only be a spice, a sugar or a liquid of the table."""
    salt = answer_to(book, line(name, 100, "g"), at_hand=AS_WRITTEN).salt

    assert (salt.verdict, salt.weight.typical) == ("known", salt_g)


@pytest.mark.parametrize(
    "name", ["mustard", "celery", "milk", "ground", "seasoned salt", "salted butter", "salt and vinegar"]
)
def test_a_name_that_leaves_its_salt_open_does_too(book: RuleBook, name: str):
    """Mustard is a seed or a paste; salted is no salt."""
    assert answer_to(book, line(name, 100, "g"), at_hand=AS_WRITTEN).salt.verdict == "cannot_tell"


def test_a_table_figure_is_called_one(book: RuleBook):
    """46.2639 g of salt in 40 g x 2 of stock powder is no knowledge of the cook's own jar; its label is."""
    table = answer_to(book, line("bouillon", 40, "g"), at_hand=HALF)
    label = answer_to(book, line("bouillon", 40, "g", label={"salt_percent": 55}), at_hand=HALF)

    assert lines_of(table, "table_figure") == (1,)
    assert "table_figure" not in codes(label)
    assert "table_figure" not in codes(answer_to(book, SALT, PAPRIKA, at_hand=HALF))


@pytest.mark.parametrize(
    ("one", "is_salty"), [(line("celery-salt", 2, "tsp"), True), (line("bouillon", 1, "tbsp"), True), (PAPRIKA, False)]
)
def test_a_spoon_of_what_is_mostly_salt_is_warned_of(book: RuleBook, one: dict[str, Any], is_salty: bool):
    """A spoon of it is a spoon of salt."""
    told = answer_to(book, one, at_hand=HALF)

    assert ("spooned_salt" in codes(told), "weigh-not-spoon" in ids(told)) == (is_salty, is_salty)


def test_what_is_left_has_a_band_where_it_was_spooned(book: RuleBook):
    """3 tbsp of kosher salt may be 61 g: of 44 g nothing may be left. In one measure it is one number."""
    salt = line("kosher-salt", 3, "tbsp")
    mixed = answer_to(book, salt, at_hand=[*AS_WRITTEN, limiting("kosher-salt", 44, "g")])
    alike = answer_to(book, salt, at_hand=[*AS_WRITTEN, limiting("kosher-salt", 4, "tbsp")])

    left, same = mixed.limits[1].left_over, alike.limits[1].left_over
    assert left.low == 0 < left.typical < left.high
    assert (same.low, same.typical, same.high) == (1, 1, 1)
    assert mixed.lines[0].weight.high > 44


@pytest.mark.parametrize(
    ("lines", "is_much"),
    [
        ([line("table-salt", 5, "kg")], True),
        ([line("table-salt", 0.51, "kg")], True),
        ([line("table-salt", 0.5, "kg")], False),
        ([line("table-salt", 1, "kg"), line("water", 10, "l")], False),
    ],
)
def test_very_much_salt_is_asked_about(book: RuleBook, lines: list[dict[str, Any]], is_much: bool):
    """More than a tenth of the meat, where it is no brine."""
    assert ("much_salt" in codes(answer_to(book, *lines, at_hand=HALF))) is is_much


@pytest.mark.parametrize(("step_g", "is_far"), [(100, True), (10, False)])
def test_a_line_that_the_scale_changes_is_named(book: RuleBook, step_g: float, is_far: bool):
    """140 g on a scale of 100 g is 29 percent short; 3 kg of water is not."""
    step = amount(step_g, "g")
    told = answer_to(book, line("water", 3, "kg"), line("table-salt", 140, "g"), at_hand=AS_WRITTEN, scale_step=step)

    assert lines_of(told, "coarse_step") == ((2,) if is_far else ())


def test_nothing_is_off_by_less_than_nothing(book: RuleBook):
    """A measure that is right is off by 0, not by -0."""
    near = answer_to(book, line("cumin-seed", 3, "tsp"), at_hand=[meat_at_hand(5.0004)]).lines[0].nearest_measure

    assert near is not None
    assert str(near.off_percent) == "0.0"
