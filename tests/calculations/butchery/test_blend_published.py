"""Published blends: squares, programmes of textbooks, a manual of 1966, and slips that are printed as answers."""

import pytest

from service.calculations.refusals import LimitExceeded
from service.rules.book import RuleBook
from tests.calculations.butchery.blend_bodies import G_PER, Body, kg, material, two_trims, usd
from tests.calculations.butchery.blends import answer_to, grams_of, refusal_of

LB = G_PER["lb"]


def lb(value: float) -> Body:
    """A weight."""
    return {"value": value, "unit": "lb"}


def pounds(book: RuleBook, body: Body) -> dict[str, float]:
    """Pounds of each material that is used."""
    return {name: mass_g / LB for name, mass_g in grams_of(answer_to(book, body)).items()}


def test_boneless_cow_and_lean_trimmings(book: RuleBook):
    """Teaching slides on meat calculations: 10 and 25 percent to 20, 1,000 lb, 0.99 and 0.79 a pound.

    The inputs are printed, the answer is the square's: 333.33 and 666.67 lb, 0.8567 a pound; to 1e-9.
    """
    cow, trim = material("cow", 10, price=usd("0.99", "lb")), material("trimmings", 25, price=usd("0.79", "lb"))
    block = {"kind": "whole_block", "weight": lb(1000)}

    answer = answer_to(
        book, {"block": block, "fat": {"kind": "exactly", "percent": 20}, "materials": [cow, trim]}, units="us"
    )

    weighed = {name: mass_g / LB for name, mass_g in grams_of(answer).items()}
    assert weighed == pytest.approx({"cow": 1000 / 3, "trimmings": 2000 / 3}, rel=1e-9)
    assert answer.total.cost_of_one is not None
    assert answer.total.cost_of_one.amount == "0.8567"


def test_fat_to_add_to_ten_pounds_of_lean(book: RuleBook):
    """A web note and a public thread ("the wrong way"): 4.2857 lb of pure fat make 30 percent, 3 lb do not."""
    lean, fat = material("lean", 0, on_hand=lb(10)), material("fat", 100)

    used = {"block": {"kind": "use_up", "material": "lean"}, "materials": [lean, fat]}

    assert pounds(book, {**used, "fat": {"kind": "exactly", "percent": 30}})["fat"] == pytest.approx(4.2857, abs=5e-5)


def test_three_pounds_of_fat_in_ten_of_lean_are_23_percent(book: RuleBook):
    """The slip of the same thread, as a negative test: 3 / 13 is 23.08 percent, not 30."""
    lean = material("lean", 0, least=lb(10), most=lb(10))
    body: Body = {"block": {"kind": "whole_block", "weight": lb(13)}, "materials": [lean, material("fat", 100)]}

    answer = answer_to(book, body)

    assert answer.composition.fat_percent == pytest.approx(23.08, abs=5e-3)
    assert refusal_of(book, body, fat={"kind": "exactly", "percent": 30}) is not None


def test_fat_is_not_pure(book: RuleBook):
    """Back fat is 88.7 percent fat (USDA SR28, as reported): more of it is added than of pure fat, 3 / 0.587 lb."""
    lean, fat = material("lean", 0, on_hand=lb(10)), material("back fat", 88.7)
    body = {"block": {"kind": "use_up", "material": "lean"}, "materials": [lean, fat]}

    added = pounds(book, {**body, "fat": {"kind": "exactly", "percent": 30}})["back fat"]

    assert added == pytest.approx(10 * 30 / 58.7, rel=1e-9)
    assert added > 4.2857


def test_pork_at_most_a_quarter_of_the_beef(book: RuleBook):
    """An algebra question and answer, worked: 50 kg, fat at most 10 kg, prices 6, 4 and 2: 32, 8, 10 kg; 244."""
    beef, pork = material("beef", 10, price=usd("6"), animal="beef"), material("pork", 10, price=usd("4"))
    fat = material("fat", 90, price=usd("2"), most=kg(10))
    rule = {"kind": "group_ratio", "materials": ["pork"], "bound": "at_most", "times": 0.25, "of": ["beef"]}

    answer = answer_to(
        book, {"block": {"kind": "whole_block", "weight": kg(50)}, "materials": [beef, pork, fat]}, rules=[rule]
    )

    assert grams_of(answer) == pytest.approx({"beef": 32000, "pork": 8000, "fat": 10000}, rel=1e-9)
    assert answer.total.cost is not None
    assert answer.total.cost.amount == "244.00"


PRECALCULUS = [
    ("0.75", "0.45", {}, {"beef": 100, "pork": 50}, "97.50"),
    ("2.25", "1.35", {"at_least": lb(180)}, {"beef": 120, "pork": 60}, "351.00"),
]


@pytest.mark.parametrize(("beef_price", "pork_price", "block", "weights", "cost"), PRECALCULUS)
def test_at_least_seventy_percent_lean(
    book: RuleBook, beef_price: str, pork_price: str, block: Body, weights: dict[str, float], cost: str
):
    """A precalculus textbook, two editions: 75 and 60 percent lean to 70 or more, pork from 50 lb, beef to 200.

    The first is worked there (100 and 50 lb, 97.50); of the later one the limits are printed, solved by hand: 351.
    Lean is what is not fat there, because its materials are nothing else.
    """
    beef = material("beef", 25, animal="beef", price=usd(beef_price, "lb"), most=lb(200))
    pork = material("pork", 40, price=usd(pork_price, "lb"), least=lb(50))
    body = {
        "block": {"kind": "any_weight", **block},
        "fat": {"kind": "at_most", "percent": 30},
        "materials": [beef, pork],
    }

    answer = answer_to(book, body, units="us")

    assert {name: g / LB for name, g in grams_of(answer).items()} == pytest.approx(weights, rel=1e-9)
    assert answer.total.cost is not None
    assert answer.total.cost.amount == cost


MANUAL = [
    material("bull", 8, animal="beef", protein_percent=20, price=usd("0.47", "lb")),
    material("cow", 15, animal="beef", protein_percent=18, price=usd("0.45", "lb")),
    material("pork trim", 50, protein_percent=10, price=usd("0.3", "lb")),
    material("fat pork", 70, protein_percent=5, price=usd("0.11", "lb")),
]


def test_the_figure_of_a_manual_of_1966(book: RuleBook):
    """Linear Programming - Meat Blending, a data-processing manual, 1966, figure 1; the limit is ours, solved by hand.

    Fat at most 30 percent of 100 lb: 64.516 lb of bull and 35.484 lb of fat pork, 34.2258, protein 14.677 percent.
    """
    body = {
        "block": {"kind": "whole_block", "weight": lb(100)},
        "fat": {"kind": "at_most", "percent": 30},
        "materials": MANUAL,
    }

    answer = answer_to(book, body, units="us")

    assert {n: g / LB for n, g in grams_of(answer).items()} == pytest.approx(
        {"bull": 64.516, "fat pork": 35.484}, abs=5e-4
    )
    assert answer.total.cost_of_one is not None
    assert float(answer.total.cost_of_one.amount) * 100 == pytest.approx(34.2258, abs=5e-3)
    assert answer.composition.protein_percent == pytest.approx(14.677, abs=5e-4)


CHART: list[tuple[str, float, float]] = [
    ("trimmings 95 % lean", 10, 18.9), ("trimmings 50 % lean", 55, 9.7), ("regular trimmings", 60, 8.4),
    ("jowls skinned", 70, 6.3), ("backfat untrimmed", 80, 4.2), ("picnic trimmings", 25, 15.6),
    ("ham boneless", 19, 16.9), ("blade meat", 8, 19.2),
]  # fmt: skip


@pytest.mark.parametrize(("name", "fat_percent", "protein_percent"), CHART)
def test_fat_comes_from_its_figure_never_from_its_name(
    book: RuleBook, name: str, fat_percent: float, protein_percent: float
):
    """A published chart of sausage ingredients from pork: "95 % lean" stands beside 10 percent fat, 50 beside 55."""
    one = material(name, fat_percent, protein_percent=protein_percent)

    answer = answer_to(book, {"block": {"kind": "whole_block", "weight": kg(5)}, "materials": [one]})

    assert answer.composition.fat_percent == fat_percent
    assert answer.composition.protein_percent == protein_percent


EXTENSION = [("fresh", 15, 10, 0.75, 1.93, 40), ("summer", 21, 4, 1.125, 2.89, 16), ("salami", 22, 3, 1.3125, 3.38, 12)]
"""A state university's extension file, 1997: pounds of lean and fat, cups of salt; percent of salt, of fat if pure."""


@pytest.mark.parametrize(("name", "lean_lb", "fat_lb", "cups", "salt_percent", "fat_percent"), EXTENSION)
def test_three_recipes_of_an_extension_file(
    book: RuleBook, name: str, lean_lb: float, fat_lb: float, cups: float, salt_percent: float, fat_percent: float
):
    """With table salt at 292 g a cup, and the fat taken as pure, as such recipes take it."""
    lean, fat = material("lean", 0, least=lb(lean_lb), most=lb(lean_lb)), material("fat", 100)
    batch = {"jurisdiction": "US", "salt_percent": salt_percent}

    answer = answer_to(
        book, {"block": {"kind": "whole_block", "weight": lb(25)}, "materials": [lean, fat], "batch": batch}
    )

    assert answer.composition.fat_percent == pytest.approx(fat_percent)
    assert answer.batch is not None
    assert answer.batch.add[0].exact_g == pytest.approx(292 * cups, rel=4e-3)


def test_the_cure_of_those_recipes_is_over_the_limit(book: RuleBook):
    """Two tablespoons of 17 g in 25 lb are 187.4 ppm by the same file, over 156.25: the dose refuses it."""
    cure = {
        "curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 6.25}},
        "target": {"kind": "curing_salt", "percent": 100 * 34 / (25 * LB)},
        "scale_step": {"value": 0.1, "unit": "g"},
    }
    batch = {"jurisdiction": "US", "salt_percent": 2.89, "cure": cure}

    refusal = refusal_of(book, two_trims(16), batch=batch)

    assert isinstance(refusal, LimitExceeded)
    broken = {finding.rule: finding.figure for finding in refusal.findings if finding.refuses}
    assert broken["us-nitrite-comminuted-max"] == pytest.approx(187.4, abs=0.05)


def test_both_trims_on_one_side_of_the_target(book: RuleBook):
    """A square with its target outside has no answer (common practice, no source): 48 and 43 make no 40 percent."""
    assert refusal_of(book, two_trims(40, leaner_percent=43)) is not None
    assert refusal_of(book, two_trims(45, leaner_percent=43)) is None
