"""Chains that are refused, and requests that are not read."""

import re
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.butchery.chain import CHAIN, ChainRequest
from service.rules.loader import load_book
from tests.calculations.butchery.chain_bodies import lawful_body
from tests.calculations.butchery.chain_proofs import faults_of_chain
from tests.calculations.butchery.chain_refusals import faults_of_refusal
from tests.calculations.butchery.chains import (
    Body,
    answer_to,
    bought,
    corned,
    gained,
    left,
    lost,
    made_of,
    mass,
    own_test,
    portions_wanted,
    refusal_of,
    smoke,
    stage,
    told_of,
    weight_wanted,
)

BOOK = load_book("test")
TRIM, PUMP, COOK, SLICE = stage("trim", lost(12)), stage("cure", gained(9)), smoke(left(62)), stage("slice", lost(3))
PLAN: Body = {"task": weight_wanted(5), "stages": [TRIM, PUMP, COOK, SLICE]}
FORWARDS: Body = {**PLAN, "task": bought(10)}


def named_ham(cut: str) -> Body:
    """A country ham of the caller's own name for its cut."""
    return made_of("whole_muscle", species="pork", cut=cut, sold_as="country_ham")


HAM = named_ham("ham")
REFUSED: list[tuple[str, Body]] = [
    ("unknown_cut", {"cut": "beef-brisket"}),
    ("unknown_cut", {"cut": "Rinderbrust \u2764"}),
    ("unknown_cut", {"cut": "beef_brisket_flat"}),
    ("no_published_yield", {"stages": [stage("cook", method="steam")]}),
    ("no_published_yield", {"stages": [smoke()]}),
    ("no_published_yield", {"stages": [TRIM, PUMP, smoke()]}),
    ("no_published_yield", {"stages": [stage("chill"), stage("other", name="pressed")]}),
    ("no_published_yield", {"stages": [stage("slice")]}),
    ("no_published_yield", {"stages": [stage("trim"), smoke()], "cut": "pork-belly"}),
    ("no_published_yield", {"stages": [smoke()], "cut": "beef-eye-of-round", "bought_as": "trimmed"}),
    ("pick_up_not_stated", {"stages": [TRIM, stage("cure"), COOK]}),
    ("pick_up_not_stated", {"stages": [stage("cure"), stage("chill"), smoke()], "cut": "corned-beef-brisket"}),
    ("weighed_in_a_plan", {"stages": [TRIM, smoke(left(60), weighed=mass(4))]}),
    ("weighed_in_a_plan", {"task": portions_wanted(9, 100, "g"), "stages": [stage("chill", weighed=mass(4))]}),
    ("range_out_of_order", {"stages": [smoke(left(60, 62, 70))]}),
    ("range_out_of_order", {"stages": [smoke(left(60, 50, 59.99))]}),
    ("range_out_of_order", {"stages": [stage("trim", lost(12, 15, 10))]}),
    ("range_out_of_order", {"pieces": {"low": mass(3), "high": mass(2.99)}}),
    ("range_out_of_order", {"pieces": {"low": mass(3), "high": mass(6, "lb")}}),
    ("share_out_of_range", {"stages": [smoke(own_test(5, 0.2))]}),
    ("share_out_of_range", {"stages": [smoke({**own_test(5, 3), "after": mass(3000)})]}),
    ("share_out_of_range", {"task": bought(10), "stages": [TRIM, stage("cure", weighed=mass(11000))]}),
    ("share_out_of_range", {"task": bought(10), "stages": [smoke(left(60), weighed=mass(6, "g"))]}),
    ("wrong_basis", {"stages": [PUMP, smoke({**left(85), "of_weight": "trimmed"})], "bought_as": "trimmed"}),
    ("wrong_basis", {"stages": [TRIM, smoke({**left(50), "of_weight": "as_purchased"})]}),
    ("wrong_basis", {"stages": [smoke({**left(59.3), "of_weight": "trimmed"})]}),
    ("wrong_basis", {"stages": [COOK, stage("slice", {**left(97), "of_weight": "sold"})]}),
    ("cured_after_cooking", {"stages": [COOK, PUMP]}),
    ("cured_after_cooking", {"stages": [PUMP], "bought_as": "cooked"}),
    ("cured_after_cooking", {"stages": [stage("chill", left(99)), PUMP], "cut": "pastrami-beef"}),
    ("cut_of_another_product", {"cut": "beef-eye-of-round", "standard": corned("brisket")}),
    ("cut_of_another_product", {"cut": "beef-brisket-flat", "standard": corned("round")}),
    ("cut_of_another_product", {"cut": "pork-butt", "standard": corned("other")}),
    ("cut_of_another_product", {"standard": corned("other", sold_as="country_ham")}),
    ("cut_of_another_product", {"cut": "pork-loin", "standard": HAM}),
    ("cut_of_another_product", {"cut": "pork-butt", "standard": HAM}),
    ("cut_of_another_product", {"standard": named_ham("Loin")}),
    ("cut_of_another_product", {"standard": named_ham("pork belly, smoked")}),
    (
        "cut_of_another_product",
        {"cut": "turkey-bacon", "standard": made_of("bacon", skin="off"), "bought_as": "trimmed"},
    ),
    ("cut_of_another_product", {"cut": "pork-leg", "standard": made_of("whole_muscle", species="beef")}),
    ("cut_of_another_product", {"cut": "turkey-leg", "standard": made_of("sausage", species="pork")}),
    ("cut_of_another_product", {"cut": "duck-whole", "standard": made_of("poultry", species="goose")}),
    ("too_much_to_buy", {"task": weight_wanted(1e6), "stages": [smoke(left(5))] * 4}),
    ("too_much_to_buy", {"task": portions_wanted(10_000, 1e6, "kg"), "stages": [smoke(left(5))] * 5}),
    ("too_much_to_buy", {"task": weight_wanted(1e6), "stages": [smoke(left(5))] * 10}),
]


@pytest.mark.parametrize(("code", "changed"), REFUSED)
def test_what_cannot_be_answered_is_refused_for_its_reason(code: str, changed: Body):
    """Each has its code, and what the request says proves it."""
    body = {**PLAN, **changed}

    refusal = refusal_of(BOOK, body)

    assert refusal is not None
    assert refusal.code == code
    assert faults_of_refusal(body, {"code": code, "nearest": refusal.nearest}) == []


def test_every_reason_is_tried():
    """No code is declared that no request brings about."""
    assert {code for code, _ in REFUSED} == set(CHAIN.reasons)


@pytest.mark.parametrize("code", [*sorted(CHAIN.reasons), "because"])
def test_a_refusal_that_is_not_true_is_found(code: str):
    """The proof fails for a chain that is answered, whatever the code."""
    assert refusal_of(BOOK, PLAN) is None
    assert faults_of_refusal(PLAN, {"code": code, "nearest": "Do."}) != []


@pytest.mark.parametrize(
    "cut", ["beef-brisket", "pork-but", "corned-brisket", "turkey", "bacon-slices", "Eye of round", "fresh ham"]
)
def test_a_cut_that_is_near_is_answered(cut: str):
    """Each id that is offered is one, and leaving the cut out is answered as well."""
    refusal = refusal_of(BOOK, {**PLAN, "cut": cut})

    assert refusal is not None
    offered = str(refusal.nearest).partition(". ")[0].split(", ")
    assert [id for id in offered if refusal_of(BOOK, {**PLAN, "cut": id, "bought_as": "untrimmed"})] == []


@pytest.mark.parametrize(
    "changed", [changed for code, changed in REFUSED if code in ("no_published_yield", "pick_up_not_stated")]
)
def test_the_stages_that_are_asked_for_are_enough(changed: Body):
    """With a share for each stage that the refusal names, and for no other, it is answered."""
    body = {**PLAN, **changed}
    refusal = refusal_of(BOOK, body)
    assert refusal is not None

    (named,) = re.findall(r"State change for stages? ([0-9 and]+):", str(refusal.nearest))
    numbers = {int(number) for number in named.split(" and ")}
    stages = [{**one, "change": left(80)} if n in numbers else one for n, one in enumerate(body["stages"], 1)]

    assert refusal_of(BOOK, {**body, "stages": stages}) is None


@pytest.mark.parametrize(
    ("method", "cut", "offered"),
    [("roast", "beef-eye-of-round", ["trimmed"]), ("simmer", "corned-beef-brisket", ["cured"]),
     ("smoke", None, ["trimmed"]), ("steam", "beef-eye-of-round", [])],
)  # fmt: skip
def test_what_would_come_in_is_offered_and_answered(method: str, cut: str | None, offered: list[str]):
    """A yield of the trimmed weight fits a piece that is bought trimmed."""
    body: Body = {"task": bought(10), "stages": [stage("cook", method=method)], **({"cut": cut} if cut else {})}
    body |= {"bought_as": "untrimmed"}

    refusal = refusal_of(BOOK, body)

    assert refusal is not None
    told = re.findall(r"Or state bought_as ([a-z]+),", str(refusal.nearest))
    assert told == offered
    assert [one for one in told if refusal_of(BOOK, {**body, "bought_as": one})] == []


@pytest.mark.parametrize(("percent", "pump"), [(85, 12), (70.5, 20), (58, 9.5), (99.9, 25)])
def test_a_share_told_of_the_right_weight_comes_to_the_same(percent: float, pump: float):
    """What is left of the green weight after following the refusal is what was meant."""
    cook = {**left(percent), "of_weight": "trimmed"}
    pumped = stage("cure", gained(pump))

    refusal = refusal_of(BOOK, {"task": bought(10), "bought_as": "trimmed", "stages": [pumped, smoke(cook)]})

    assert refusal is not None
    (told,) = re.findall(r"State ([0-9.]+) percent", str(refusal.nearest))
    answer = answer_to(BOOK, bought(10), pumped, smoke(left(float(told))), bought_as="trimmed")
    assert answer.sold.typical == pytest.approx(100 * percent, rel=1e-3)


@pytest.mark.parametrize("changed", [changed for code, changed in REFUSED if code == "too_much_to_buy"])
def test_as_much_as_is_offered_can_be_bought(changed: Body):
    """The weight that the refusal names is answered, a fiftieth more is not."""
    refusal = refusal_of(BOOK, {**PLAN, **changed})
    assert refusal is not None
    ((most, unit),) = re.findall(r"at most ([0-9.]+) (k?g)\.", str(refusal.nearest))

    asked: list[Body] = [{**PLAN, **changed, "task": weight_wanted(float(most) * part, unit)} for part in (1, 1.02)]

    assert refusal_of(BOOK, asked[0]) is None
    assert refusal_of(BOOK, asked[1]) is not None


@pytest.mark.parametrize(
    ("task", "stages", "more"),
    [
        (bought(0.001, "g"), [smoke(left(5))] * 10, {}),
        (bought(1e6, "lb", portion=mass(0.001, "g")), [stage("cure", left(250))] * 10, {"bought_as": "trimmed"}),
        (weight_wanted(0.001, "g"), [smoke(left(5))] * 10, {}),
        (weight_wanted(1e6, "kg"), [PUMP] * 10, {"pieces": {"low": mass(0.001, "g"), "high": mass(1e6)}}),
        (bought(10), [stage("trim", lost(95, 1, 95))] * 10, {"units": "us"}),
        (bought(10), [stage("other", left(100), name="Käse\u00a0Ä \u4e2d\u6587 \U0001f969")], {}),
        (bought(10), [stage("slice", left(99.999999999999))], {"bought_as": "cooked"}),
        (bought(1e-3, "oz"), [stage("chill", weighed=mass(0.07, "g"))], {"units": "us"}),
        (portions_wanted(10_000, 0.001, "g"), [COOK], {}),
        (bought(12, "lb"), [TRIM, TRIM, TRIM, COOK, COOK, SLICE, SLICE], {"units": "us"}),
    ],
)  # fmt: skip
def test_what_is_odd_and_lawful_is_answered_and_proved(task: Body, stages: list[Body], more: Body):
    """The ends of the bounds, duplicates, other scripts, a crumb and a herd."""
    answer = answer_to(BOOK, task, *stages, **more)

    assert faults_of_chain({"task": task, "stages": stages, **more}, told_of(answer)) == []


@pytest.mark.parametrize(
    "changed",
    [
        {"stages": [smoke({"kind": "left", "percent": 0.85})]},
        {"stages": [smoke({"kind": "left", "percent": 1.12})]},
        {"stages": [stage("trim", {"kind": "lost", "percent": 0.15})]},
        {"stages": [stage("cure", {"kind": "gained", "percent": 0.12})]},
        {"stages": [smoke(left(60, 0.56, 62))]},
        {"stages": [smoke(left(251))]},
        {"stages": [stage("trim", lost(96))]},
        {"stages": [smoke({"percent": 60})]},
        {"stages": [stage("cook", left(60))]},
        {"stages": [stage("other", left(60))]},
        {"stages": [stage("other", left(60), name="a\u202eb")]},
        {"stages": [{"kind": "rest"}]},
        {"stages": []},
        {"stages": [TRIM] * 11},
        {"stages": [smoke(left(60), weighed=None)]},
        {"stages": [smoke({**left(60), "of_weight": "green"})]},
        {"stages": [smoke({**own_test(5, 4), "percent": 80})]},
        {"task": {"kind": "bought"}},
        {"task": {**weight_wanted(5), "portion": mass(1)}},
        {"task": portions_wanted(0, 5, "oz")},
        {"task": {"kind": "portions_wanted", "how_many": 2.5, "portion": mass(1)}},
        {"task": weight_wanted(5, "l")},
        {"standard": {"jurisdiction": "US"}},
        {"pieces": {"low": mass(2)}},
        {"yield": 60},
        {"on": "01.12.2026"},
    ],
)
def test_what_breaks_the_schema_is_not_read(changed: Body):
    """Fractions in place of percents, volumes, fields that are not there, ranges with one end."""
    with pytest.raises(ValueError, match="validation error"):
        ChainRequest.model_validate({**PLAN, **changed})


@settings(max_examples=150, deadline=None)
@given(st.integers(0, 10**9), st.sampled_from(["of_weight", "weighed", "drop", "swap", "cut"]))
def test_whatever_is_refused_is_refused_truly(seed: int, how: str):
    """A lawful chain with something turned is answered and proved, or its refusal is."""
    random = Random(seed)
    body = lawful_body(random)
    _turn(random, body, how)

    refusal = refusal_of(BOOK, {"on": "2026-12-01", **body})

    if refusal is not None:
        assert faults_of_refusal(body, {"code": refusal.code, "nearest": refusal.nearest}) == []
    else:
        asked = {name: value for name, value in body.items() if name not in ("task", "stages", "on")}
        told = told_of(answer_to(BOOK, body["task"], *body["stages"], **asked))
        assert faults_of_chain(body, told) == []


def _turn(random: Random, body: dict[str, Any], how: str) -> None:
    one = random.choice(body["stages"])
    if how == "of_weight" and one.get("change", {}).get("kind") in ("left", "lost", "gained"):
        one["change"]["of_weight"] = random.choice(["as_purchased", "trimmed", "cured", "cooked", "sold"])
    if how == "weighed":
        one["weighed"] = mass(random.choice([0.001, 1, 5, 1000]))
    if how == "drop":
        one.pop("change", None)
    if how == "swap" and "low_percent" in one.get("change", {}):
        change = one["change"]
        change["low_percent"], change["high_percent"] = change["high_percent"], change["low_percent"]
    if how == "cut":
        body["cut"] = random.choice(["pork-belly", "pastrami-beef", "beef-eye-of-round", "brisket", "turkey-whole"])
