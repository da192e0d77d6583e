"""Blends of any kind, against another programme, another solver, and blends found by brute force."""

import json
from itertools import product
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.butchery.blending.asked import BlendRequest
from service.calculations.butchery.blending.choosing import choose
from service.calculations.butchery.blending.line_solving import LineSolver, lies_on_a_line
from service.calculations.butchery.blending.programme import programme_of
from service.calculations.butchery.blending.rules_of import limits_of, terms_of
from service.calculations.butchery.blending.savings import Prices
from service.calculations.butchery.blending.solution import wishes_of
from service.calculations.butchery.blending.solving import SimplexSolver
from service.calculations.butchery.blending.sorting import sorted_out
from service.calculations.refusals import Impossible
from service.rules.loader import load_book
from tests.calculations.butchery.blend_bodies import Body, kg, lawful_body, material, two_trims, usd, wild_body
from tests.calculations.butchery.blend_matrices import in_play, is_feasible, least_cost, prices_per_g
from tests.calculations.butchery.blend_proofs import amounts_of, faults_of_blend
from tests.calculations.butchery.blend_refusals import faults_of_refusal, with_nearest, without
from tests.calculations.butchery.blends import answer_to, grams_of, problem_of, refusal_of, told_by

BOOK = load_book("test")
SEEDS = st.integers(0, 10**9)


def faults_of(body: Body) -> list[str]:
    """What is wrong with what is told of a blend, answered or refused."""
    refusal = refusal_of(BOOK, body)
    if refusal is not None:
        return faults_of_refusal(body, problem_of(refusal))
    return faults_of_blend(body, told_by(BOOK, body), looks=99)


@settings(max_examples=300, deadline=None)
@given(SEEDS)
def test_a_lawful_blend_is_proved(seed: int):
    """Sums, limits, least cost, every saving, every price at which a material comes in, and the next-best blend."""
    body = lawful_body(Random(seed))

    assert faults_of(body) == []


@settings(max_examples=300, deadline=None)
@given(SEEDS)
def test_any_blend_is_proved_or_refused_for_a_true_reason(seed: int):
    """With many ties and many contradictions; what is named as nearest is followed."""
    body = wild_body(Random(seed))

    assert faults_of(body) == []


@settings(max_examples=150, deadline=None)
@given(SEEDS)
def test_what_is_named_as_nearest_is_answered(seed: int):
    """Followed to the letter: numbers set, or fields and rules left out."""
    body = wild_body(Random(seed))
    refusal = refusal_of(BOOK, body)
    if not isinstance(refusal, Impossible) or refusal.code != "no_such_blend":
        return

    nearest = refusal.nearest or ""

    assert refusal_of(BOOK, with_nearest(body, nearest) or without(body, nearest)) is None


@settings(max_examples=200, deadline=None)
@given(st.floats(0, 100), st.floats(0, 100), st.floats(0, 1), st.floats(0.01, 1e5))
def test_two_trims_are_shared_by_the_square(one: float, other: float, share: float, block_kg: float):
    """Share of the first = (target - second) / (first - second), to 1e-9; and the shares make the block."""
    target = min(max(share * one + (1 - share) * other, min(one, other)), max(one, other))
    body = two_trims(
        target, fatter_percent=one, leaner_percent=other, block={"kind": "whole_block", "weight": kg(block_kg)}
    )

    grams = grams_of(answer_to(BOOK, body))

    assert sum(grams.values()) == pytest.approx(1000 * block_kg, rel=1e-12)
    if abs(one - other) > 1e-3:
        shared = (target - other) / (one - other)
        assert grams.get("belly ends", 0.0) == pytest.approx(
            1000 * block_kg * shared, rel=1e-9, abs=1e-9 * block_kg * 1000
        )


@settings(max_examples=200, deadline=None)
@given(st.floats(0, 40), st.floats(60, 100), st.floats(0.01, 0.99), st.floats(0.01, 1e4))
def test_fat_is_added_until_the_lean_is_used_up(lean: float, fat: float, share: float, lean_kg: float):
    """x = m (T - p) / (f - T), to 1e-9."""
    target = lean + share * (fat - lean)
    materials = [material("lean", lean, on_hand=kg(lean_kg)), material("fat", fat)]
    body = {"block": {"kind": "use_up", "material": "lean"}, "materials": materials}

    grams = grams_of(answer_to(BOOK, body, fat={"kind": "exactly", "percent": target}))

    assert grams["lean"] == pytest.approx(1000 * lean_kg, rel=1e-12)
    assert grams["fat"] == pytest.approx(1000 * lean_kg * (target - lean) / (fat - target), rel=1e-9)


def line_bodies() -> list[Body]:
    """Requests about two materials whose blends lie on a line."""
    bodies = [make(Random(seed)) for seed in range(900) for make in (lawful_body, wild_body)]
    return [body for body in bodies if len(in_play(body)) == 2 == len(body["materials"])]


def test_the_closed_form_and_the_simplex_method_agree():
    """Over every kind of question about two materials: the same blend, the same savings, entries and next best."""
    compared = 0
    for body in line_bodies():
        asked = BlendRequest.model_validate(body)
        terms = terms_of(asked, sorted_out(asked))
        limits, wishes = limits_of(asked, terms), wishes_of(asked, terms)
        programme = programme_of(limits, 2)
        if not lies_on_a_line(programme):
            continue
        solvers = LineSolver(programme), SimplexSolver(programme)
        one, other = (choose(solver, wishes, 2) for solver in solvers)
        assert (one is None) == (other is None), body
        if one is None or other is None:
            continue
        assert one.amounts == pytest.approx(other.amounts, abs=1e-9)
        assert (one.by, one.only_one) == (other.by, other.only_one)
        compared += _compared(solvers, limits, wishes.costs, one.amounts)
    assert compared > 100


def _compared(solvers: tuple[LineSolver, SimplexSolver], limits: tuple, costs: tuple | None, amounts: tuple) -> int:
    """What would be otherwise, by both; 1 where there are prices."""
    if costs is None:
        return 0
    for solver in solvers:
        solver.restore()
    one, other = (Prices(solver, limits, costs, amounts) for solver in solvers)
    for mine, theirs in zip(one.savings(holding=True), other.savings(holding=True), strict=True):
        assert mine[:2] == theirs[:2]
        assert mine.for_one == pytest.approx(theirs.for_one, rel=1e-4, abs=1e-6)
    assert [(each.penalty is None) for each in one.entries()] == [(each.penalty is None) for each in other.entries()]
    best, theirs_best = one.next_best(), other.next_best()
    assert (best is None) == (theirs_best is None)
    if best and theirs_best:
        assert best.cost == pytest.approx(theirs_best.cost, abs=1e-9)
    return 1


@settings(max_examples=60, deadline=None)
@given(SEEDS)
def test_the_same_request_gives_the_same_bytes(seed: int):
    """Also where several blends cost the same."""
    body = wild_body(Random(seed)) | {"rules": []}
    for one in body["materials"]:
        one["price"] = usd("2")
    if refusal_of(BOOK, body) is None:
        assert json.dumps(told_by(BOOK, body)) == json.dumps(told_by(BOOK, body))


@settings(max_examples=40, deadline=None)
@given(SEEDS)
def test_no_blend_on_a_grid_is_cheaper(seed: int):
    """Three materials in steps of a twentieth of the block: none that keeps the fat costs less than the answer."""
    random = Random(seed)
    materials = [material(f"trim {n}", random.randint(2, 80), price=usd(f"{random.randint(1, 9)}")) for n in range(3)]
    body: Body = {"block": {"kind": "whole_block", "weight": kg(20)}, "materials": materials}
    body["fat"] = {"kind": "at_most", "percent": random.randint(20, 60)}
    if refusal_of(BOOK, body) is not None:
        assert min(one["fat_percent"] for one in materials) > body["fat"]["percent"]
        return

    cost = float(prices_per_g(body) @ amounts_of(body, told_by(BOOK, body)))

    for a, b in product(range(21), repeat=2):
        shares = np.array([a, b, 20 - a - b])
        if shares.min() >= 0 and shares @ [one["fat_percent"] for one in materials] <= 20 * body["fat"]["percent"]:
            assert cost <= float(prices_per_g(body) @ shares) * 1000 * (1 + 1e-9)


@settings(max_examples=60, deadline=None)
@given(st.floats(0, 60), st.floats(0, 60), st.floats(0, 100), st.floats(0.5, 20))
def test_no_fat_nearer_to_what_is_wanted_can_be_had(one: float, other: float, wanted: float, stock_kg: float):
    """Against brute force: every share of the first that its stock allows, in steps of a thousandth."""
    body = two_trims(wanted, fatter_percent=one, leaner_percent=other)
    body["materials"][0]["on_hand"] = kg(stock_kg)
    reached = [one * n / 1000 + other * (1 - n / 1000) for n in range(1001) if n * 10 <= 1000 * stock_kg + 1e-9]
    refusal = refusal_of(BOOK, body)

    if refusal is None:
        assert min(reached) - 1e-6 <= wanted <= max(reached) + 0.1
        return
    nearest = problem_of(refusal)["nearest"]
    offered = float(nearest.removeprefix("Set fat.percent to ").removesuffix("."))
    assert (
        refusal_of(BOOK, two_trims(offered, fatter_percent=one, leaner_percent=other, materials=body["materials"]))
        is None
    )
    assert abs(offered - wanted) <= min(abs(each - wanted) for each in reached) + 0.0101


def test_two_in_a_hundred_thousand_are_not_lost():
    """A share of a few grams in a tonne is weighed, and told apart from nothing."""
    body = two_trims(12.0002, block={"kind": "whole_block", "weight": kg(1000)})

    assert grams_of(answer_to(BOOK, body))["belly ends"] == pytest.approx(1e6 * 0.0002 / 36, rel=1e-9)


def test_scipy_agrees_that_most_wild_blends_are_no_accident():
    """The bodies of these tests hold both: blends that can be made, many of them, and blends that cannot."""
    bodies = [wild_body(Random(seed)) for seed in range(400)]

    possible = [body for body in bodies if in_play(body) and is_feasible(body)]

    assert 40 < len(possible) < 360
    assert sum(prices_per_g(body) is not None and least_cost(body) is not None for body in possible) > 20
