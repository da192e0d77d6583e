"""What a check asks for: take one fact out of a complete recipe, and that fact is asked for, and nothing else."""

from copy import deepcopy
from typing import Any

import pytest

from service.calculations.curing.check import CheckAnswer
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import BACON, DAY, LOIN, STRONG_SALT
from tests.calculations.curing.written import (
    EQUILIBRIUM,
    amount,
    finding_on,
    line,
    pumped,
    recipe,
    salt_of,
    soaked,
    told,
)

Body = dict[str, Any]
ABSENT = object()

DRY_LOIN = recipe()
PUMPED_BACON = recipe(
    product=BACON,
    meat=amount(8.3, "kg"),
    method=pumped(amount(3000), 12),
    curing_salts=[salt_of(STRONG_SALT, 55.9)],
    ingredients=[line("pickling-salt", 330), line("dextrose", 110)],
    accelerators=[{"kind": "sodium_erythorbate", "amount": amount(16.06)}],
    weights={"cured": amount(9.3, "kg"), "finished": amount(8.2, "kg")},
)
SOAKED_LOIN = recipe(
    method=soaked(amount(2500), EQUILIBRIUM),
    curing_salts=[salt_of(STRONG_SALT, 12)],
    ingredients=[line("pickling-salt", 180), line("white wine syrup", 60, dissolves=True)],
)
BARELY = {
    **SOAKED_LOIN,
    "curing_salts": [salt_of(STRONG_SALT, 9.6)],
    "ingredients": [line("salt", 180), line("syrup", 900, dissolves=False)],
}
"""A hair above the least nitrite."""
PICKED_UP = {
    **SOAKED_LOIN,
    "method": soaked(amount(2500), {"kind": "pick_up", "percent": 59}),
    "curing_salts": [salt_of(STRONG_SALT, 13.5)],
}
BRISKET = recipe(
    product={"kind": "corned_beef", "cut": "brisket", "finish": "cooked"},
    method={**pumped(amount(2000), 10), "kind": "injected_then_covered", "cover": EQUILIBRIUM},
    curing_salts=[salt_of(STRONG_SALT, 10.5)],
    ingredients=[line("pickling-salt", 150)],
    weights={"cured": amount(2.5, "kg"), "finished": amount(2.1, "kg"), "smallest_piece": amount(2.2, "kg")},
)
EUROPEAN = recipe(jurisdiction="EU", product={**LOIN, "finish": "cooked"}, curing_salts=[salt_of(STRONG_SALT, 3.2)])
CANADIAN = recipe(
    jurisdiction="CA",
    product={**LOIN, "finish": "cooked"},
    method={"kind": "comminuted"},
    ingredients=[line("table-salt", 40)],
    curing_salts=[salt_of(STRONG_SALT, 4)],
)


GAPS: list[Any] = [
    # pointer, complete recipe, what the recipe says there instead
    ("#/meat", DRY_LOIN, ABSENT),
    ("#/meat", PUMPED_BACON, ABSENT),
    ("#/curing_salts", DRY_LOIN, ABSENT),
    ("#/curing_salts", SOAKED_LOIN, ABSENT),
    ("#/curing_salts/0/label", DRY_LOIN, ABSENT),
    ("#/curing_salts/0/label", PUMPED_BACON, ABSENT),
    ("#/curing_salts/0/label", DRY_LOIN, {**STRONG_SALT, "sugar_percent": 95}),
    ("#/curing_salts/0/amount", DRY_LOIN, ABSENT),
    ("#/curing_salts/0/amount", BRISKET, ABSENT),
    (
        "#/curing_salts/0/amount",
        {**DRY_LOIN, "meat": amount(3.2, "kg"), "curing_salts": [salt_of(STRONG_SALT, 7)]},
        amount(1, "tsp"),
    ),
    ("#/accelerators", PUMPED_BACON, ABSENT),
    ("#/ingredients", SOAKED_LOIN, ABSENT),
    ("#/ingredients", CANADIAN, ABSENT),
    ("#/ingredients/0", DRY_LOIN, line("pink salt", 48)),
    ("#/ingredients/0/amount", BARELY, amount(16, "tbsp")),
    ("#/ingredients/1/dissolves", BARELY, ABSENT),
    ("#/method/water", SOAKED_LOIN, ABSENT),
    ("#/method/water", PUMPED_BACON, ABSENT),
    ("#/method/pump_percent", PUMPED_BACON, ABSENT),
    ("#/method/pump_percent", PUMPED_BACON, 3.9),
    ("#/method/basis", SOAKED_LOIN, ABSENT),
    ("#/method/basis/percent", PICKED_UP, 3.9),
    ("#/method/cover", BRISKET, ABSENT),
    ("#/product/finish", EUROPEAN, ABSENT),
    ("#/weights/cured", BRISKET, ABSENT),
    ("#/weights/finished", BRISKET, ABSENT),
    ("#/weights/finished", PUMPED_BACON, ABSENT),
    ("#/weights/smallest_piece", BRISKET, ABSENT),
]
NOT_THE_RECIPES = {"laboratory_only", "plan_needed", "recalled_only", "statement"}
"""Codes of what no weighing would settle."""


def without(body: Body, pointer: str, instead: Any) -> Body:
    """The recipe with one thing left out, or written otherwise."""
    changed = deepcopy(body)
    *way, last = [int(part) if part.isdecimal() else part for part in pointer.split("/")[1:]]
    place: Any = changed
    for part in way:
        place = place[part]
    if instead is ABSENT:
        del place[last]
    else:
        place[last] = instead
    return changed


def verdicts(answer: CheckAnswer) -> dict[str, str]:
    """The verdict on each rule that a recipe could settle."""
    return {one.rule: one.verdict for one in answer.findings if one.code not in NOT_THE_RECIPES}


@pytest.mark.parametrize(("pointer", "complete", "instead"), GAPS)
def test_what_is_left_out_is_asked_for(book: RuleBook, pointer: str, complete: Body, instead: Any) -> None:
    """Complete, all is met and nothing is needed; without the fact, it is needed for each finding that it opened."""
    before, after = told(book, complete), told(book, without(complete, pointer, instead))

    assert set(verdicts(before).values()) == {"met"}
    assert before.needs == ()
    assert [need.field for need in after.needs] == [pointer]
    opened = {rule for rule, verdict in verdicts(after).items() if verdict == "cannot_tell"}
    assert set(after.needs[0].settles) == opened
    assert set(verdicts(after).values()) <= {"met", "cannot_tell"}
    assert opened or pointer == "#/product/finish"
    assert (before.verdicts.going_in, before.verdicts.afterwards) in (("met", None), ("met", "met"))
    decides = after.verdicts.afterwards if pointer.startswith("#/weights") else after.verdicts.going_in
    assert decides == "cannot_tell"


def test_an_empty_recipe_is_asked_everything(book: RuleBook) -> None:
    """Of a product and a method alone nothing is met, and what is asked for points into the request."""
    body = {"jurisdiction": "US", "on": DAY, "product": BACON, "method": {"kind": "injected"}}

    answer = told(book, body)

    assert {one.verdict for one in answer.findings} == {"cannot_tell"}
    assert {"#/meat", "#/curing_salts", "#/accelerators", "#/method/water", "#/method/pump_percent"} <= {
        need.field for need in answer.needs
    }
    assert all(need.how and need.settles for need in answer.needs)


def test_not_known_is_not_none(book: RuleBook) -> None:
    """An empty list says that there is no curing salt; leaving it out says nothing, and only that needs an answer."""
    none, unknown = told(book, recipe(curing_salts=[])), told(book, recipe(curing_salts=None))

    assert none.needs == ()
    assert [need.field for need in unknown.needs] == ["#/curing_salts"]
    assert none.verdicts.going_in == unknown.verdicts.going_in == "cannot_tell"


@pytest.mark.parametrize("more", [{}, {"salt_percent": 3}], ids=["unsalted", "salted"])
@pytest.mark.parametrize(
    ("stated", "verdict"),
    [({"dissolves": True}, "met"), ({"dissolves": False}, "not_met"), ({}, "cannot_tell")],
    ids=["dissolves", "does not", "not stated"],
)
def test_only_what_dissolves_dilutes(book: RuleBook, stated: Body, verdict: str, more: Body) -> None:
    """1.5 kg of something keeps a strong pickle under its ceiling only if it is said to dissolve in it."""
    pickle = {"method": soaked(amount(2000), EQUILIBRIUM), "curing_salts": [salt_of(STRONG_SALT, 15)]}

    answer = told(book, recipe(**pickle, ingredients=[line("something", 1500, **stated, **more)]))

    assert finding_on(answer, "us-nitrite-pickled-max").verdict == verdict
