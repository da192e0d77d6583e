"""A stay in a pickle in a recipe as it is written: held for its end, or not credited; never refused."""

from typing import Any

import pytest

from service.rules.book import RuleBook
from tests.calculations.curing.test_stays import GUARD, guard_in, stay_of
from tests.calculations.curing.written import amount, line, recipe, salt_of, soaked, told

Body = dict[str, Any]


def written(stay: Body, **changes: Any) -> Body:
    """The recipe of a pick-up of 20 percent from 2.1 kg of pickle, 150 ppm of it taken up."""
    basis = {"kind": "pick_up", "percent": 20, "stay": stay}
    body = recipe(
        meat=amount(3.4, "kg"),
        method=soaked(amount(2, "kg"), basis),
        curing_salts=[salt_of({"nitrite": {"salt": "sodium_nitrite", "percent": 6.25}}, 25.2)],
        ingredients=[line("pickling-salt", 74.8)],
    )
    return {**body, **changes}


ROUND = {"kind": "sphere", "diameter": amount(18, "cm")}


def test_a_recipe_is_held_for_the_end_of_its_stay(book: RuleBook) -> None:
    """Met after a day, with its reading beside the others; broken where the cure lasts longer than the stay."""
    day = told(book, written(stay_of(1, ROUND)))
    longer = told(book, written(stay_of(1, ROUND), cured_for=amount(12, "d")))

    readings = {one.reading: one for one in day.figures.readings if one.expressed_as == "sodium_nitrite"}
    assert (day.verdicts.going_in, guard_in(day.findings).basis) == ("met", "whole_system_after_stay")
    assert readings["after_stay"].low == pytest.approx(guard_in(day.findings).figure, abs=1e-4)
    assert readings["pick_up"].high <= readings["after_stay"].high < readings["equilibrium"].high
    assert "take-out-in-time" in {caution.id for caution in day.cautions}
    assert any(step.startswith("After stay: nitrite x 0.") for step in day.steps)
    assert longer.verdicts.going_in_by == (GUARD,)


def test_a_stay_that_is_not_credited_leaves_the_guard_of_today(book: RuleBook) -> None:
    """A check refuses nothing: what is too warm is held as if it stayed in, and called out."""
    warm = told(book, written(stay_of(1, ROUND, cold_c=12)))

    assert [one.code for one in warm.call_outs] == ["stay_not_credited"]
    assert (guard_in(warm.findings).basis, guard_in(warm.findings).verdict) == ("whole_system", "not_met")
    assert "after_stay" not in {one.reading for one in warm.figures.readings}
