"""Contradictory, huge, tiny and odd requests: each is refused for its reason, and what is named as nearest is true."""

from typing import Any

import pytest
from pydantic import ValidationError

from service.calculations.butchery.blend import BLEND
from service.calculations.butchery.blending.asked import REASONS as ASKED_REASONS
from service.calculations.butchery.blending.salting import REASONS as SALTING_REASONS
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from tests.calculations.butchery.blend_bodies import Body, kg, material, two_trims, usd
from tests.calculations.butchery.blend_proofs import faults_of_blend
from tests.calculations.butchery.blend_refusals import faults_of_refusal, with_nearest
from tests.calculations.butchery.blends import answer_to, grams_of, problem_of, refusal_of, told_by

ENDS, LEG = two_trims(24)["materials"]
EURO = {**usd("2"), "currency": "EUR"}
USE_UP = {"kind": "use_up", "material": "leg trim"}
TWICE = {"kind": "group_share", "materials": ["suet"], "bound": "at_most", "percent": 10}

SHORT = {"materials": [{**ENDS, "on_hand": kg(3)}, {**LEG, "on_hand": kg(3)}]}
OVERFULL = {"materials": [{**one, "least_share_percent": 60} for one in (ENDS, LEG)]}
HALF = {"kind": "group_ratio", "materials": ["leg trim"], "bound": "at_most", "times": 0.5, "of": ["belly ends"]}
LITTLE = {"kind": "group_weight", "materials": ["belly ends", "leg trim"], "bound": "at_most", "weight": kg(5)}
LOOSE = {"kind": "at_most", "percent": 60}

RENDERED = {"jurisdiction": "US", "sausage_class": "cooked_sausage", "rendered_fat_percent": 8}

REFUSED: list[tuple[str, Body]] = [
    ("same_name_twice", {"materials": [ENDS, ENDS]}),
    ("same_name_twice", {"materials": [LEG, {**LEG, "name": " leg  trim "}]}),
    ("unknown_material", {"rules": [TWICE]}),
    ("unknown_material", {"block": {"kind": "use_up", "material": "suet"}}),
    ("prices_missing", {"materials": [ENDS, {**LEG, "price": usd("2")}]}),
    ("several_currencies", {"materials": [{**ENDS, "price": EURO}, {**LEG, "price": usd("2")}]}),
    ("composition_adds_up_to_more", {"materials": [ENDS, {**LEG, "moisture_percent": 90}]}),
    ("empty_range", {"fat": {"kind": "between", "least_percent": 30, "most_percent": 20}}),
    ("empty_range", {"block": {"kind": "any_weight", "at_least": kg(30), "at_most": {"value": 30, "unit": "lb"}}}),
    ("stock_not_stated", {"block": USE_UP}),
    ("rendered_more_than_lost", {"batch": {**RENDERED, "cook_yield_percent": 95}}),
    ("rendered_more_than_lost", {"batch": {**RENDERED, "cook_yield_percent": 50, "rendered_fat_percent": 40}}),
    ("nothing_to_blend", {"animals": ["beef"]}),
    ("nothing_to_blend", {"oldest_d": 4}),
    ("wanted_and_left_out", {"materials": [ENDS, {**LEG, "on_hand": {"value": 0, "unit": "g"}, "least": kg(1)}]}),
    ("wanted_and_left_out", {"materials": [ENDS, {**LEG, "on_hand": {"value": 0, "unit": "g"}}], "block": USE_UP}),
    ("no_such_blend", {"fat": {"kind": "exactly", "percent": 50}}),
    ("no_such_blend", {"fat": {"kind": "at_most", "percent": 0}}),
    ("no_such_blend", {"materials": [ENDS, {**LEG, "on_hand": kg(3)}]}),
    ("no_such_blend", {**SHORT, "fat": LOOSE}),
    ("no_such_blend", {"materials": [{**ENDS, "least": kg(8)}, LEG]}),
    ("no_such_blend", {**OVERFULL, "fat": LOOSE}),
    ("no_such_blend", {"rules": [{**TWICE, "materials": ["leg trim"], "percent": 20}]}),
    ("no_such_blend", {"rules": [HALF]}),
    ("no_such_blend", {"rules": [LITTLE]}),
    ("no_weight_asked", {"block": {"kind": "any_weight"}}),
    ("no_weight_asked", {"block": {"kind": "any_weight", "at_most": kg(5)}, "scale_step": {"value": 1, "unit": "g"}}),
    ("scale_too_coarse", {"scale_step": {"value": 50, "unit": "kg"}}),
]  # fmt: skip


@pytest.mark.parametrize(("code", "changed"), REFUSED)
def test_what_cannot_be_blended_is_refused_for_its_reason(book: RuleBook, code: str, changed: Body):
    """Each has its code, and what the request says proves it."""
    body = {**two_trims(24), **changed}

    refusal = refusal_of(book, body)

    assert isinstance(refusal, Impossible)
    assert refusal.code == code
    assert refusal.reason
    assert faults_of_refusal(body, problem_of(refusal)) == []


@pytest.mark.parametrize("changed", [changed for code, changed in REFUSED if code == "no_such_blend"])
def test_the_nearest_is_answered_when_it_is_followed(book: RuleBook, changed: Body):
    """A number to set, at a place of the request; and a hair before it there is no blend yet."""
    body = {**two_trims(24), **changed}
    refusal = refusal_of(book, body)
    assert isinstance(refusal, Impossible)

    followed = with_nearest(body, refusal.nearest or "")

    assert followed is not None, refusal.nearest
    assert refusal_of(book, followed) is None
    assert faults_of_blend(followed, told_by(book, followed)) == []


def test_where_no_one_number_helps_several_are_named(book: RuleBook):
    """Two contradictions at once: of each, one limit has to give way; with both moved there is a blend."""
    body = two_trims(24)
    wanted = [
        ("leg trim", "at_least", 4),
        ("leg trim", "at_most", 3),
        ("belly ends", "at_least", 5),
        ("belly ends", "at_most", 4),
    ]
    body["rules"] = [
        {"kind": "group_weight", "materials": [name], "bound": bound, "weight": kg(weight)}
        for name, bound, weight in wanted
    ]
    body["fat"] = {"kind": "at_most", "percent": 90}
    body["block"] = {"kind": "any_weight"}

    refusal = refusal_of(book, body)

    assert isinstance(refusal, Impossible)
    followed = with_nearest(body, refusal.nearest or "")
    assert followed is not None
    assert refusal_of(book, followed) is None
    assert faults_of_refusal(body, problem_of(refusal)) == []


def test_stock_is_taken_for_what_it_is(book: RuleBook):
    """81.8 kg are on hand of 100 wanted, and they hold 47.65 percent fat where 20 to 30 are wanted: both are named."""
    body = two_trims(0, fat={"kind": "between", "least_percent": 20, "most_percent": 30})
    body["block"] = {"kind": "whole_block", "weight": kg(100)}
    body["materials"] = [material("a", 55.7, on_hand=kg(27.4)), material("b", 43.6, on_hand=kg(54.4))]

    refusal = refusal_of(book, body)

    assert isinstance(refusal, Impossible)
    assert refusal.nearest == "Set block.weight to 81.8 kg and fat.most_percent to 47.66."
    assert "a on hand at most 27.4 kg" in refusal.reason
    assert refusal_of(book, with_nearest(body, refusal.nearest) or {}) is None


def test_the_same_block_is_answered_without_what_was_changed(book: RuleBook):
    """So each of them is refused for what was changed."""
    assert refusal_of(book, two_trims(24)) is None


def test_every_reason_is_tried():
    """No code is declared that no request brings about."""
    assert {code for code, _ in REFUSED} | set(SALTING_REASONS) == set(BLEND.reasons)
    assert set(ASKED_REASONS) < set(BLEND.reasons)


@pytest.mark.parametrize("code", [*sorted(set(BLEND.reasons) - set(SALTING_REASONS)), "limit_exceeded", "because"])
def test_a_refusal_that_is_not_true_is_found(book: RuleBook, code: str):
    """The proof fails for a blend that is answered, whatever the code."""
    body = two_trims(24)

    assert refusal_of(book, body) is None
    assert faults_of_refusal(body, {"code": code, "nearest": "Set fat.percent to 24.", "findings": []}) != []


@pytest.mark.parametrize("factor", [0.9, 1.001])
@pytest.mark.parametrize("place", [("weigh", 0, "exact_g"), ("total", "exact_g"), ("composition", "fat_percent")])
def test_a_wrong_figure_is_found(book: RuleBook, place: tuple[Any, ...], factor: float):
    """The proof fails when a weight or the fat is told a thousandth too much."""
    body = two_trims(24)
    told = told_by(book, body)
    *way, last = place
    spot: Any = told
    for part in way:
        spot = spot[part]

    spot[last] *= factor

    assert faults_of_blend(body, told) != []


def test_a_careless_verdict_and_a_silent_scale_are_found(book: RuleBook):
    """The proof fails when added water is called met, a law has two figures, or a passed limit is not called out."""
    wet = {**LEG, "fat_percent": 28, "protein_percent": 15, "moisture_percent": 56}
    cooked = {"jurisdiction": "US", "sausage_class": "cooked_sausage", "water_percent": 22, "cook_yield_percent": 94.5}
    open_ = two_trims(28, materials=[wet], batch=cooked)
    fixed = {**open_, "batch": {**cooked, "rendered_fat_percent": 0}}
    coarse = two_trims(0, fat={"kind": "between", "least_percent": 26, "most_percent": 27}, scale_step=kg(4))
    met, twice, silent = (told_by(book, body) for body in (open_, fixed, coarse))
    assert [faults_of_blend(*pair) for pair in ((open_, met), (fixed, twice), (coarse, silent))] == [[], [], []]

    met["batch"]["findings"][0] |= {"verdict": "met", "figure": 9.79}
    twice["limits"][-1]["figure"] += 0.01
    silent["call_outs"] = []

    assert all(faults_of_blend(*pair) for pair in ((open_, met), (fixed, twice), (coarse, silent)))


def test_a_wrong_saving_and_a_dearer_blend_are_found(book: RuleBook):
    """The proof fails when money is told wrong."""
    priced = [{**one, "price": usd(price)} for one, price in zip((ENDS, LEG), ("2", "5"), strict=True)]
    body = two_trims(24, materials=[*priced, material("neck", 30, price=usd("3"))])
    for change in ("saving", "price", "best"):
        told = told_by(book, body)
        if change == "saving":
            told["limits"][1]["saving"]["for_one"]["amount"] = "0.5000"
        elif change == "price":
            told["left_out"][0]["comes_in_below"]["amount"] = "2.2000"
        else:
            told["next_best"]["cost"]["amount"] = "41.00"
        assert faults_of_blend(body, told, looks=9) != [], change


@pytest.mark.parametrize(
    "changed",
    [
        {"materials": []},
        {"materials": [ENDS] * 61},
        {"materials": [{**ENDS, "fat_percent": 100.1}]},
        {"materials": [{**ENDS, "fat_percent": -0.1}]},
        {"materials": [{**ENDS, "fat_percent": float("nan")}]},
        {"materials": [{**ENDS, "fat_percent": "48"}]},
        {"materials": [{**ENDS, "animal": "fish"}]},
        {"materials": [{**ENDS, "price": {"amount": 3.2, "currency": "USD", "per": "kg"}}]},
        {"materials": [{**ENDS, "name": "trim\u202e"}]},
        {"materials": [{**ENDS, "name": ""}]},
        {"materials": [{**ENDS, "on_hand": None}]},
        {"fat": {"kind": "exactly", "percent": 1e400}},
        {"fat": {"kind": "about", "percent": 25}},
        {"block": {"kind": "whole_block", "weight": {"value": 2, "unit": "cup"}}},
        {"rules": [TWICE] * 41},
        {"batch": {"jurisdiction": "US", "cure": {"celery_powder": 2}}},
        {"celery": True},
    ],
)
def test_what_the_contract_does_not_allow_is_not_read(book: RuleBook, changed: Body):
    """Bounds, types, names, currencies, volumes, and anything that is not a field."""
    with pytest.raises(ValidationError):
        answer_to(book, {**two_trims(24), **changed})


@pytest.mark.parametrize(
    "name", ["Schweinebauch & Rücken", "五花肉", "a\"b'; drop", "{0}", "50 % lean", "$", "\U0001f416"]
)
def test_a_name_is_only_a_name(book: RuleBook, name: str):
    """Whatever it says, in whatever script."""
    answer = answer_to(book, two_trims(24, materials=[{**ENDS, "name": name}, LEG]))

    assert list(grams_of(answer)) == [name, "leg trim"]


@pytest.mark.parametrize(("value", "unit"), [(0.001, "g"), (1e6, "lb"), (1e6, "kg"), (0.001, "kg")])
def test_tiny_and_huge_blocks_are_blended_alike(book: RuleBook, value: float, unit: str):
    """Shares do not hang on the weight."""
    priced = [{**one, "price": usd(price)} for one, price in zip((ENDS, LEG), ("2", "5"), strict=True)]

    answer = answer_to(
        book, two_trims(24, materials=priced, block={"kind": "whole_block", "weight": {"value": value, "unit": unit}})
    )

    assert [one.share_percent for one in answer.weigh] == [33.333333, 66.666667]


def test_a_hair_outside_is_no_contradiction(book: RuleBook):
    """Two trims that hardly differ, and a target past one of them by less than any scale: the solver would take it."""
    body = two_trims(24.0010000001, fatter_percent=24.001, leaner_percent=24)

    assert grams_of(answer_to(book, body)) == pytest.approx({"belly ends": 10000}, rel=1e-6)
    assert refusal_of(book, two_trims(24.002, fatter_percent=24.001, leaner_percent=24)) is not None


def test_free_and_dear_materials_are_blended(book: RuleBook):
    """Prices of nothing, and of a thousand million for a gram's worth of weight."""
    free, dear = {**ENDS, "price": usd("0")}, {**LEG, "price": usd("999999999.9999", "lb")}

    answer = answer_to(book, two_trims(24, materials=[free, dear]))
    nothing = answer_to(book, two_trims(24, materials=[free, {**LEG, "price": usd("0")}]))

    assert answer.total.cost is not None
    assert answer.total.cost.amount.startswith("14697")
    assert nothing.total.cost is not None
    assert nothing.total.cost.amount == "0.00"


def test_materials_that_are_alike_are_told_apart_by_their_place(book: RuleBook):
    """Sixty of the same: the first takes all, and the others are as good."""
    alike = [material(f"trim {number}", 24, price=usd("3")) for number in range(60)]

    answer = answer_to(book, two_trims(24, materials=alike))

    assert grams_of(answer) == {"trim 0": 10000}
    assert answer.chosen.only_one is False
    assert {one.code for one in answer.left_out} == {"as_good"}
