"""Each confusion is called out, and its near twin stays silent."""

from typing import Any

import pytest

from service.calculations.butchery.chain import ChainAnswer
from service.calculations.butchery.chaining.calling_out import CALL_OUTS
from service.rules.book import RuleBook
from tests.calculations.butchery.chains import (
    Body,
    answer_to,
    bought,
    codes,
    corned,
    gained,
    left,
    lost,
    mass,
    own_test,
    portions_wanted,
    smoke,
    stage,
)

TRIM, SLICE, CHILL = stage("trim", lost(12)), stage("slice", lost(3)), stage("chill", lost(2))
COOK, PUMP = smoke(left(62)), stage("cure", gained(9))
PAN = stage("cook", left(40), method="pan_fry")
AGE = stage("other", lost(6), name="aged", takes="moisture")
STEAM = stage("cook", left(95), method="steam")
SERVED, PLATES = bought(10, portion=mass(150, "g")), portions_wanted(40, 150, "g")


def asked(book: RuleBook, stages: list[Body], more: Body) -> ChainAnswer:
    """The answer to ten kilograms, or to another task."""
    others = {name: value for name, value in more.items() if name != "task"}
    return answer_to(book, more.get("task", bought(10)), *stages, **others)


def raw(**product: Any) -> Body:
    """A product that is sold raw."""
    return {"standard": {"jurisdiction": "US", "product": {"kind": "whole_muscle", "species": "pork", **product}}}


# code, the chain that sets it off, the twin that does not: stages, and what else is stated
TWINS: list[tuple[str, list[Body], Body, list[Body], Body]] = [
    ("gains_in_a_losing_stage", [TRIM, smoke(left(118))], {}, [TRIM, smoke(left(99))], {}),
    ("gains_in_a_losing_stage", [smoke(left(96, 90, 103))], {}, [smoke(left(96, 90, 100))], {}),
    ("gains_in_a_losing_stage", [stage("chill", own_test(5, 5.2))], {}, [stage("chill", own_test(5, 5))], {}),
    ("gains_in_a_losing_stage", [smoke(weighed=mass(10.4))], {}, [smoke(weighed=mass(10))], {}),
    ("gains_in_a_losing_stage", [stage("trim", left(104))], {}, [stage("other", left(104), name="tied")], {}),
    ("cooked_weight_as_raw", [TRIM, SLICE], {}, [TRIM, COOK, SLICE], {}),
    ("cooked_weight_as_raw", [SLICE], {}, [SLICE], {"bought_as": "cooked"}),
    ("cooked_weight_as_raw", [PUMP, SLICE], {}, [PUMP, SLICE], raw(finish="matured")),
    ("cooked_weight_as_raw", [PUMP, SLICE], raw(finish="cooked"), [PUMP, SLICE], raw(finish="fresh")),
    ("cooked_weight_as_raw", [TRIM, SLICE], {}, [TRIM], {}),
    ("cooked_weight_as_raw", [TRIM], {"task": SERVED}, [TRIM, COOK], {"task": SERVED}),
    ("cooked_weight_as_raw", [TRIM], {"task": PLATES}, [TRIM], {"task": PLATES, **raw(finish="fresh")}),
    ("pick_up_counted_twice", [PUMP, COOK], {"bought_as": "cured"}, [PUMP, COOK], {"bought_as": "trimmed"}),
    ("pick_up_counted_twice", [PUMP, COOK], {"cut": "corned-beef-brisket"}, [PUMP, COOK], {"cut": "beef-brisket-flat"}),
    ("pick_up_counted_twice", [PUMP], {"cut": "corned-beef-brisket", "bought_as": "trimmed"},
     [PUMP], {"cut": "beef-brisket-point", "bought_as": "trimmed"}),
    ("pick_up_counted_twice", [PUMP], {"bought_as": "cured"}, [stage("cure", lost(9))], {"bought_as": "cured"}),
    ("pick_up_counted_twice", [stage("cure", left(101, 98, 103))], {"bought_as": "cured"},
     [stage("cure", left(99, 96, 102))], {"bought_as": "cured"}),
    ("chill_counted_twice", [smoke(left(62), weighed_when="chilled"), CHILL], {},
     [smoke(left(62), weighed_when="hot"), CHILL], {}),
    ("chill_counted_twice", [smoke(left(62), weighed_when="rested"), CHILL, SLICE], {}, [COOK, CHILL, SLICE], {}),
    ("chill_counted_twice", [smoke(left(62), weighed_when="chilled"), CHILL], {},
     [CHILL, smoke(left(62), weighed_when="chilled"), SLICE], {}),
    ("chill_counted_twice", [smoke(left(62), weighed_when="chilled"), CHILL], {},
     [smoke(left(62), weighed_when="chilled"), stage("chill", weighed=mass(6))], {}),
    ("cooked_twice", [STEAM], {"bought_as": "cooked"}, [COOK, STEAM], {"bought_as": "cured"}),
    ("cooked_twice", [STEAM], {"cut": "pastrami-beef"}, [CHILL, SLICE], {"cut": "pastrami-beef"}),
    ("out_of_order", [SLICE, COOK], {}, [COOK, SLICE], {}),
    ("out_of_order", [PUMP, TRIM, COOK], {}, [TRIM, PUMP, COOK], {}),
    ("out_of_order", [PUMP, TRIM], {}, [PUMP, COOK, TRIM], {}),
    ("out_of_order", [COOK, SLICE, SLICE], {}, [COOK, CHILL, STEAM, SLICE], {}),
    ("weighed_outside_plan", [smoke(left(62, 60, 64), weighed=mass(6.6))], {},
     [smoke(left(62, 60, 64), weighed=mass(6.4))], {}),
    ("weighed_outside_plan", [smoke(left(62, 60, 64), weighed=mass(5.99))], {}, [smoke(weighed=mass(5.99))], {}),
    ("weighed_outside_plan", [stage("cure", gained(9), weighed=mass(11.13))], {},
     [stage("cure", gained(9), weighed=mass(10.91))], {}),
    ("cooked_twice", [COOK, smoke(left(95))], {}, [COOK, smoke(weighed=mass(6))], {}),
    ("pick_up_counted_twice", [PUMP, PUMP], {}, [PUMP, stage("cure", weighed=mass(11))], {}),
    ("pick_up_counted_twice", [PUMP, COOK, CHILL], {"bought_as": "cured"}, [PUMP, stage("cure", lost(2))], {}),
    ("out_of_order", [PUMP, SLICE, COOK], {}, [PUMP, COOK, SLICE, PAN], {}),
    ("out_of_order", [PUMP, SLICE, COOK], {}, [PUMP, SLICE, PAN], {}),
    ("bone_in_portions", [COOK], {"task": SERVED, "cut": "turkey-whole"},
     [TRIM, COOK], {"task": SERVED, "cut": "turkey-whole"}),
    ("bone_in_portions", [COOK, SLICE], {"cut": "pork-leg"}, [COOK, SLICE], {"cut": "pork-leg-boneless"}),
    ("bone_in_portions", [COOK, AGE], {"task": SERVED, "cut": "pork-leg"},
     [COOK, stage("other", lost(20), name="carved", takes="parts")], {"task": SERVED, "cut": "pork-leg"}),
    ("bone_in_portions", [COOK], {"task": SERVED, "cut": "pork-leg"}, [COOK], {"cut": "pork-leg"}),
    ("far_above_published", [PUMP, smoke(left(75))], {"cut": "turkey-whole"}, [PUMP, smoke(left(50))],
     {"cut": "turkey-whole"}),
    ("far_above_published", [stage("trim"), smoke(), stage("slice")], {"cut": "beef-brisket-deckle-off"},
     [TRIM, smoke(left(58)), SLICE], {"cut": "beef-brisket-deckle-off"}),
    ("far_above_published", [smoke(left(75))], {"cut": "turkey-whole"},
     [smoke(left(75))], {"cut": "turkey-whole", "bought_as": "trimmed"}),
    ("no_weight_rule", [PUMP], {"standard": {**corned("round"), "jurisdiction": "EU"}},
     [PUMP], {"standard": corned("round")}),
    ("usual_of_another_cut", [TRIM, smoke()], {}, [TRIM, smoke()], {"cut": "beef-brisket-two-piece"}),
    ("no_weight_rule", [PUMP], raw(finish="matured"), [PUMP], {}),
]  # fmt: skip


@pytest.mark.parametrize(("code", "stages", "more", "twin", "of_twin"), TWINS)
def test_a_confusion_is_called_out_and_its_twin_is_not(
    book: RuleBook, code: str, stages: list[Body], more: Body, twin: list[Body], of_twin: Body
):
    """Once, with its own code, whatever else is said."""
    called = codes(asked(book, stages, more))
    silent = codes(asked(book, twin, of_twin))

    assert called.count(code) == 1
    assert code not in silent


def test_every_code_has_its_twins():
    """No code is declared that nothing brings about."""
    assert {code for code, *_ in TWINS} == set(CALL_OUTS)


def test_a_plain_chain_calls_nothing_out(book: RuleBook):
    """The trade's own order, shares that lose, weights that were planned."""
    answer = answer_to(book, bought(10), TRIM, PUMP, COOK, CHILL, STEAM, SLICE)

    assert codes(answer) == []


def test_a_call_out_has_its_numbers(book: RuleBook):
    """What was planned, what was weighed, which stage."""
    answer = answer_to(book, bought(10), smoke(left(62, 60, 64), weighed=mass(6.6)))

    (call_out,) = answer.call_outs
    assert call_out.message == "Stage 1 (smoke) was planned to leave 6,000 to 6,400 g; 6,600 g were weighed."
