"""What was asked is kept after rounding to the scale too, or it is said that it is not."""

from itertools import product
from typing import Any

import pytest

from service.rules.book import RuleBook
from tests.calculations.butchery.blend_bodies import Body, kg, material, usd
from tests.calculations.butchery.blends import answer_to, grams_of

LEAN, FAT = material("lean", 10, price=usd("5")), material("fat", 50, price=usd("1"))


def body(block: Body, step_g: float, **other: Any) -> Body:
    """Lean and fat on a scale."""
    return {"block": block, "materials": [LEAN, FAT], "scale_step": {"value": step_g, "unit": "g"}, **other}


def whole(weight_kg: float) -> Body:
    """A block of this weight."""
    return {"kind": "whole_block", "weight": kg(weight_kg)}


def test_the_step_beside_keeps_the_fat(book: RuleBook):
    """747.5 g of lean in 1.3 kg to 27 percent: 700 and 600 are 28.46 percent, 800 and 500 keep it."""
    answer = answer_to(book, body(whole(1.3), 100, fat={"kind": "at_most", "percent": 27}))

    assert grams_of(answer) == pytest.approx({"lean": 800, "fat": 500})
    assert answer.call_outs == ()


@pytest.mark.parametrize("percent", range(12, 50, 3))
@pytest.mark.parametrize("step_g", [100, 70, 13])
def test_a_limit_is_kept_wherever_whole_steps_keep_it(book: RuleBook, percent: int, step_g: float):
    """Against every pair of whole steps that make the block as near as steps allow."""
    answer = answer_to(book, body(whole(1.3), step_g, fat={"kind": "at_most", "percent": percent}))

    steps = floor_half(1300 / step_g)
    pairs = [(a * step_g, b * step_g) for a, b in product(range(steps + 1), repeat=2) if a + b == steps]
    assert any(10 * a + 50 * b <= percent * (a + b) for a, b in pairs)
    assert answer.composition.fat_percent <= percent + 1e-9


def floor_half(value: float) -> int:
    """The nearest whole number."""
    return int(value + 0.5)


def test_a_least_weight_is_not_rounded_away(book: RuleBook):
    """0.33 kg at least are 400 g on a scale of 100 g."""
    answer = answer_to(book, body({"kind": "any_weight", "at_least": kg(0.33)}, 100))

    assert answer.total.exact_g == pytest.approx(400)


def test_what_no_steps_keep_is_called_out(book: RuleBook):
    """26 to 27 percent of 1 kg in steps of 500 g: only 10, 30 and 50 can be had; with a finer scale nothing is said."""
    between = {"kind": "between", "least_percent": 26, "most_percent": 27}

    coarse, fine = (answer_to(book, body(whole(1), step_g, fat=between)) for step_g in (500, 10))

    assert [one.code for one in coarse.call_outs] == ["passed_by_rounding"]
    assert "comes to 30 percent; at most 27 percent is asked for" in coarse.call_outs[0].message
    assert fine.call_outs == ()


@pytest.mark.parametrize(("step_g", "is_told"), [(500, True), (10, False)])
def test_a_coarse_scale_is_told(book: RuleBook, step_g: float, is_told: bool):
    """600 and 400 g become 500 each."""
    answer = answer_to(book, body(whole(1), step_g, fat={"kind": "exactly", "percent": 26}))

    assert ("coarse-scale" in [one.id for one in answer.cautions]) == is_told


def test_an_exact_block_stays_as_near_as_steps_allow(book: RuleBook):
    """1200 g or 1300 g are both as near as can be, and nothing else is taken to keep the fat."""
    answer = answer_to(book, body(whole(1.25), 100, fat={"kind": "at_most", "percent": 11}))

    assert abs(answer.total.exact_g - 1250) <= 50 + 1e-6
    assert answer.composition.fat_percent <= 11
