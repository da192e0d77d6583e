"""What a blend tells: how it was chosen, what binds, why a material is out, and what a scale makes of it."""

from itertools import count
from math import ceil, log2
from typing import Any

import pytest

from service.calculations.butchery.blending import solving
from service.calculations.butchery.blending.nearest import DECIMALS, MOST_OFFERS, MOST_ROUNDS
from service.calculations.butchery.blending.savings import MOST_SAVINGS, PARTS
from service.calculations.refusals import Impossible
from service.calculations.registry import CALCULATIONS
from service.rules.book import RuleBook
from tests.calculations.butchery.blend_bodies import Body, kg, material, two_trims, usd
from tests.calculations.butchery.blends import answer_to, grams_of, refusal_of

SHOULDER = material("shoulder", 16, price=usd("5.80"), age_d=2)
BACK_FAT = material("back fat", 88, price=usd("1.90"), age_d=1)
NECK = material("neck trim", 40, price=usd("3.90"), age_d=4)
TEN_KG: Body = {"block": {"kind": "whole_block", "weight": kg(10)}, "fat": {"kind": "exactly", "percent": 30}}


def blended(*materials: Body, **other: Any) -> Body:
    """A block of 10 kg, of 30 percent fat unless something else is said."""
    return {**TEN_KG, "materials": list(materials), **other}


def unpriced(*materials: Body) -> list[Body]:
    """The same without prices."""
    return [{name: value for name, value in one.items() if name != "price"} for one in materials]


def test_two_trims_are_told_with_their_square(book: RuleBook):
    """(24 - 12) / (48 - 12) is a third of the fatter one, by hand."""
    answer = answer_to(book, two_trims(24))

    assert grams_of(answer) == pytest.approx({"belly ends": 10000 / 3, "leg trim": 20000 / 3})
    assert answer.steps[0] == "Share of belly ends: (24 - 12) / (48 - 12) = 0.333333 of the block."
    assert answer.composition.fat_percent == 24
    assert (answer.chosen.by, answer.chosen.only_one) == ("only_blend", True)


def test_brief_leaves_out_arithmetic_sources_and_limits_that_do_not_bind(book: RuleBook):
    """Everything else stays as it is."""
    body = blended(SHOULDER, BACK_FAT, {**NECK, "on_hand": kg(50)})
    full, brief = answer_to(book, body), answer_to(book, body, detail="brief")

    assert full.steps
    assert full.sources
    assert (brief.steps, brief.sources) == ((), ())
    assert [one.code for one in full.limits] == ["block_weight", "fat", "on_hand"]
    assert [one.code for one in brief.limits] == ["block_weight", "fat"]
    assert (brief.weigh, brief.total, brief.left_out, brief.next_best) == (
        full.weigh, full.total, full.left_out, full.next_best,
    )  # fmt: skip


def test_us_units_are_pounds(book: RuleBook):
    """Weights, the price of one, and the limit on the block: 10 kg are 22.046 lb by definition."""
    answer = answer_to(book, blended(SHOULDER, BACK_FAT), units="us")

    assert (answer.total.weight.value, answer.total.weight.unit, answer.total.per) == (22.046, "lb", "lb")
    assert answer.limits[0].value == pytest.approx(22.0462262, abs=1e-7)


def test_the_cheaper_way_to_the_same_fat_is_taken(book: RuleBook):
    """Shoulder with back fat costs 5.042 a kilogram at 30 percent, with neck 4.692: by hand, from the two squares."""
    answer = answer_to(book, blended(SHOULDER, BACK_FAT, NECK))

    assert set(grams_of(answer)) == {"shoulder", "neck trim"}
    assert answer.total.cost is not None
    assert answer.total.cost.amount == "46.92"
    assert answer.next_best is not None
    assert (answer.next_best.without, answer.next_best.costs_more.amount) == ("neck trim", "3.50")


def test_a_limit_that_binds_says_what_moving_it_saves(book: RuleBook):
    """Of shoulder and neck a percent more fat saves 10 kg x (5.80 - 3.90) / (40 - 16) = 0.7917, by hand."""
    limits = {one.code: one for one in answer_to(book, blended(SHOULDER, NECK)).limits}

    saving = limits["fat"].saving
    assert saving is not None
    assert (saving.by, saving.for_one.amount, saving.holds_to) == ("raising", "0.7917", 31.0)
    assert limits["fat"].binds


def test_a_price_says_when_a_material_comes_in(book: RuleBook):
    """Back fat must cost what makes 10/48 of it worth 10/24 more of neck: 0.2200, and at 0.21 it is used."""
    left_out = answer_to(book, blended(SHOULDER, BACK_FAT, NECK)).left_out

    (dear,) = left_out
    assert (dear.name, dear.code) == ("back fat", "too_dear")
    assert dear.comes_in_below is not None
    price = float(dear.comes_in_below.amount)
    cheap, dearer = ({**BACK_FAT, "price": usd(f"{price + change:.4f}")} for change in (-0.01, 0.01))
    assert "back fat" in grams_of(answer_to(book, blended(SHOULDER, cheap, NECK)))
    assert "back fat" not in grams_of(answer_to(book, blended(SHOULDER, dearer, NECK)))


OUT: list[tuple[str, Body, Body]] = [
    ("none_on_hand", {"on_hand": {"value": 0, "unit": "lb"}}, {}),
    ("animal_not_allowed", {"animal": "game"}, {"animals": ["pork"]}),
    ("too_old", {"age_d": 6}, {"oldest_d": 5}),
    ("too_dear", {"price": usd("7")}, {}),
    ("as_good", {"price": usd("3.90")}, {}),
    ("no_price_helps", {"fat_percent": 99}, {"fat": {"kind": "exactly", "percent": 16}}),
]


@pytest.mark.parametrize(("code", "stated", "asked"), OUT)
def test_a_material_that_is_left_out_says_why(book: RuleBook, code: str, stated: Body, asked: Body):
    """By its code, and in words with its name."""
    other = {**NECK, "name": "other trim", **stated}

    answer = answer_to(book, blended(SHOULDER, BACK_FAT, NECK, other, **asked))

    why = {one.name: one for one in answer.left_out}["other trim"]
    assert why.code == code
    assert "other trim" in why.text
    assert (why.comes_in_below is not None) == (code == "too_dear")


def test_what_is_not_known_of_a_material_leaves_it_out(book: RuleBook):
    """Where a rule needs its age, its protein or its water."""
    plain = material("mystery trim", 30, price=usd("0.10"))
    known = {**SHOULDER, "protein_percent": 17, "moisture_percent": 65}
    needs: dict[str, Body] = {
        "age_not_stated": {"oldest_d": 9},
        "protein_not_stated": {"protein": {"kind": "at_least", "percent": 5}},
        "moisture_not_stated": {"moisture": {"kind": "at_least", "percent": 5}},
    }

    for code, asked in needs.items():
        answer = answer_to(book, {**blended(known, plain), **asked, "fat": {"kind": "at_most", "percent": 40}})
        assert [(one.name, one.code) for one in answer.left_out] == [("mystery trim", code)]


def test_without_prices_the_oldest_stock_goes_first(book: RuleBook):
    """Then nothing is said of cost, saving or a next-best blend."""
    answer = answer_to(book, blended(*unpriced(SHOULDER, BACK_FAT, NECK)))

    assert answer.chosen.by == "oldest_stock"
    assert "neck trim" in grams_of(answer)
    assert (answer.total.cost, answer.next_best) == (None, None)
    assert all(one.saving is None for one in answer.limits)
    assert [one.code for one in answer.left_out] == ["not_needed"]


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_without_prices_and_ages_what_is_listed_first_goes_first(book: RuleBook, order: tuple[int, int]):
    """Two trims of one fat, either of which would do."""
    trims = [material("one", 30), material("other", 30)]

    answer = answer_to(book, blended(*(trims[number] for number in order)))

    assert answer.chosen.by == "listed_first"
    assert list(grams_of(answer)) == [trims[order[0]]["name"]]


def test_among_blends_as_cheap_the_oldest_stock_goes_first(book: RuleBook):
    """And the answer says that there are others."""
    young, old = ({**material(name, 30, price=usd("2")), "age_d": age} for name, age in (("young", 1), ("old", 5)))

    answer = answer_to(book, blended(young, old))

    assert grams_of(answer) == {"old": 10000}
    assert (answer.chosen.by, answer.chosen.only_one) == ("least_cost", False)
    assert "Others are as cheap" in answer.chosen.text


def test_as_little_as_need_be_is_added(book: RuleBook):
    """To use up 6 kg of 52 percent at most 28: shoulder of 16 to the limit and no further, 12 kg by hand."""
    ends = material("belly ends", 52, on_hand=kg(6))
    body = blended(ends, *unpriced(SHOULDER), block={"kind": "use_up", "material": "belly ends"})

    answer = answer_to(book, {**body, "fat": {"kind": "at_most", "percent": 28}})

    assert grams_of(answer) == pytest.approx({"belly ends": 6000, "shoulder": 12000})


@pytest.mark.parametrize("step", [{"value": 10, "unit": "g"}, {"value": 1, "unit": "oz"}, {"value": 0.1, "unit": "lb"}])
def test_amounts_are_whole_steps_and_make_the_block(book: RuleBook, step: Body):
    """Each is a multiple of the step, together as near to the block as steps allow, and no stock is passed."""
    answer = answer_to(book, blended(SHOULDER, BACK_FAT, {**NECK, "on_hand": kg(3.333)}), scale_step=step)
    step_g = step["value"] * {"g": 1, "oz": 28.349523125, "lb": 453.59237}[step["unit"]]

    for item in answer.weigh:
        assert item.exact_g / step_g == pytest.approx(round(item.exact_g / step_g), abs=1e-9)
        assert item.amount.unit == step["unit"]
    assert abs(answer.total.exact_g - 10000) <= step_g / 2 + 1e-6
    assert grams_of(answer)["neck trim"] <= 3333
    assert all(
        abs(one.figure - one.value) <= one.tolerance for one in answer.limits if one.code == "fat" and one.figure
    )


def test_animals_are_told_the_most_first(book: RuleBook):
    """And what several of them ask for."""
    beef, hen = material("beef trim", 20, animal="beef", least=kg(7)), material("hen", 53.3333333333, animal="chicken")

    answer = answer_to(book, blended(beef, hen))

    assert [one.animal for one in answer.animals] == ["beef", "chicken"]
    assert [one.code for one in answer.call_outs] == ["several_animals", "poultry_with_meat"]
    assert [one.id for one in answer.cautions] == [
        "raw-meat-hygiene", "poultry", "grinding-record", "local-code",
    ]  # fmt: skip


def test_pork_alone_asks_for_no_grinding_record(book: RuleBook):
    """Nor for what birds and game ask for; it says what pork that is eaten raw needs."""
    told = [one.id for one in answer_to(book, two_trims(24)).cautions]

    assert told == ["raw-meat-hygiene", "pork-cured-raw", "local-code"]


ASKED = [("beef", "grinding-record"), ("veal", "grinding-record"), ("game", "game-and-pork-parasites")]


@pytest.mark.parametrize(("animal", "caution"), ASKED)
def test_each_animal_asks_for_what_is_its_own(book: RuleBook, animal: str, caution: str):
    """A record of ground beef and veal, a word on parasites with game; lamb beside pork asks for neither."""
    own, lamb = (
        answer_to(book, blended(material("a", 20, animal=one, least=kg(4)), material("b", 40)))
        for one in (animal, "lamb")
    )

    assert caution in [one.id for one in own.cautions]
    assert not {"grinding-record", "game-and-pork-parasites"} & {one.id for one in lamb.cautions}


def crowd(many: int) -> Body:
    """As many materials as may be, each with every limit of its own."""
    materials = [
        material(
            f"trim {n}", (7 * n) % 83, price=usd(f"{1 + (n * 13) % 17}.{n % 10}"), on_hand=kg(3 + n % 5), age_d=n % 9,
            most=kg(4), most_share_percent=15, least_share_percent=0.5, protein_percent=(5 * n) % 17,
        )
        for n in range(many)
    ]  # fmt: skip
    rules = [
        {"kind": "group_share", "materials": [f"trim {n}", f"trim {n + 1}"], "bound": "at_most", "percent": 25}
        for n in range(min(many - 1, 40))
    ]
    fat = {"kind": "between", "least_percent": 24, "most_percent": 30}
    return {
        "block": {"kind": "whole_block", "weight": kg(1.6 * many)},
        "materials": materials,
        "rules": rules,
        "fat": fat,
    }


def test_work_is_bounded(book: RuleBook, monkeypatch: pytest.MonkeyPatch):
    """The biggest request asks the solver no more than so often, and says nothing on the way."""
    asked, least = count(), solving.SimplexSolver.least
    monkeypatch.setattr(solving.SimplexSolver, "least", lambda *given: least(*given) if next(asked) >= 0 else None)

    answer = answer_to(book, crowd(60))

    assert len(answer.weigh) >= 25
    assert 60 < next(asked) <= 6 + 60 + 60 + MOST_SAVINGS * (2 + len(PARTS))


@pytest.mark.parametrize("many", [12, 60])
def test_work_on_a_refusal_is_bounded(book: RuleBook, monkeypatch: pytest.MonkeyPatch, many: int):
    """As many contradictions as there are materials: narrowed and offered with no more questions than these."""
    asked, least = count(), solving.SimplexSolver.least
    monkeypatch.setattr(solving.SimplexSolver, "least", lambda *given: least(*given) if next(asked) >= 0 else None)
    body = crowd(many)
    for one in body["materials"]:
        one["least"] = kg(4.5)

    refusal = refusal_of(book, body)

    assert isinstance(refusal, Impossible)
    narrowing, offering = many * (1 + ceil(log2(7 * many))), MOST_OFFERS * (2 * MOST_ROUNDS + len(DECIMALS))
    assert next(asked) <= 4 + narrowing + offering


def test_nothing_is_printed(book: RuleBook, capfd: pytest.CaptureFixture[str]):
    """The solver would greet on standard output, and report on every run."""
    answer_to(book, crowd(12))

    assert capfd.readouterr() == ("", "")


def test_it_is_light():
    """It is answered on the event loop, in milliseconds: docs/performance.md has the figures of its like."""
    assert {one.name: one.cost for one in CALCULATIONS}["butchery/blend"] == "light"
