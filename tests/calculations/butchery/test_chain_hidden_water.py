"""Water that is taken up behind a cut, and cooks that a standard does not mean, are never a pass."""

import pytest

from service.rules.book import RuleBook
from tests.calculations.butchery.chain_pieces import (
    BACON,
    BARBECUE,
    HAM,
    asks,
    judged,
    other,
    roasted,
    smoked,
    weighed,
)  # fmt: skip
from tests.calculations.butchery.chains import Body, corned, gained, left, stage

CURED = weighed("cure", 10.9)
CUT, TUMBLED = other("cut", 10, takes="parts"), other("tumbled", 10.9, takes="moisture")


def simmered(kg: float) -> Body:
    """Out of the pot."""
    return weighed("cook", kg, method="simmer")


def fried(kg: float) -> Body:
    """Out of the pan."""
    return weighed("cook", kg, method="pan_fry")


# the stages of a corned round of ten kilograms, and the verdict on its gain
BEHIND_A_CUT: list[tuple[list[Body], str]] = [
    ([CURED, CUT, TUMBLED], "cannot_tell"),
    ([CURED, CUT, other("tumbled", 9.9, takes="moisture")], "met"),
    ([CURED, other("cut", 10), TUMBLED], "cannot_tell"),
    ([CURED, weighed("trim", 9), other("tumbled", 10.4)], "cannot_tell"),
    ([CURED, other("dip", 11.6, takes="parts")], "cannot_tell"),
    ([CURED, other("dip", 10.8, takes="parts")], "met"),
    ([CURED, other("dip", 10.95, takes="moisture")], "met"),
    ([CURED, weighed("slice", 10.8), weighed("chill", 10.85)], "cannot_tell"),
]


@pytest.mark.parametrize(("stages", "verdict"), BEHIND_A_CUT)
def test_water_taken_up_behind_a_cut_is_no_pass(book: RuleBook, stages: list[Body], verdict: str):
    """Less than was cut off may have come back as water: the whole piece is asked for."""
    answer = judged(book, corned("round"), stages)

    gain = next(one for one in answer.findings if one.measure == "weight_gain")
    assert gain.verdict == verdict
    assert verdict == "met" or asks(gain.message)


# what is made, its stages, the verdict on its finished weight, and the figure
FINISHED: list[tuple[Body, list[Body], str, float | None]] = [
    (BACON, [CURED, smoked(9.9), weighed("trim", 9), weighed("chill", 9.9)], "cannot_tell", None),
    (BACON, [CURED, smoked(9.9), weighed("trim", 9), weighed("chill", 8.9)], "met", 99),
    (BARBECUE, [smoked(6.9), weighed("slice", 6.8), other("sauced", 8)], "cannot_tell", None),
    (BARBECUE, [smoked(6.9), weighed("slice", 6.8), other("rested", 6.7)], "met", 69),
    (BACON, [weighed("cure", 11), smoked(10.5), fried(4)], "cannot_tell", None),
    (BACON, [weighed("cure", 11), fried(4)], "cannot_tell", None),
    (BACON, [weighed("cure", 11), smoked(10.5), simmered(9)], "cannot_tell", None),
    (BACON, [weighed("cure", 11), smoked(10.4), weighed("cook", 9.5, method="braise")], "cannot_tell", None),
    (BACON, [weighed("cure", 11), smoked(9.8), fried(4)], "met", 98),
    (BACON, [weighed("cure", 11), smoked(9.8)], "met", 98),
    (BACON, [weighed("cure", 11.5), smoked(10.5), roasted(10.2)], "not_met", 105),
    (BARBECUE, [simmered(6.5)], "cannot_tell", None),
    (BARBECUE, [fried(6.5)], "cannot_tell", None),
    (BARBECUE, [smoked(7.4), simmered(6.5)], "cannot_tell", None),
    (BARBECUE, [smoked(6.9), roasted(6.5)], "met", 69),
    (HAM, [weighed("cure", 9.5), weighed("chill", 6.4)], "cannot_tell", None),
    (HAM, [weighed("cure", 9.5), weighed("chill", 7.7)], "met", 23),
    (HAM, [weighed("cure", 8.1), weighed("chill", 6.4)], "met", 19),
]  # fmt: skip


@pytest.mark.parametrize(("standard", "stages", "verdict", "figure"), FINISHED)
def test_a_finished_weight_is_that_of_the_work_that_is_meant(
    book: RuleBook, standard: Body, stages: list[Body], verdict: str, figure: float | None
):
    """What is fried away is no smoking, and a third that a chill takes may be bone: both ways, or an open question."""
    (finding,) = judged(book, standard, stages).findings

    assert finding.verdict == verdict
    assert finding.figure == pytest.approx(figure)
    assert verdict != "cannot_tell" or asks(finding.message)


def test_a_loss_before_the_cure_is_not_to_be_dropped(book: RuleBook):
    """19 percent with what dripped off first, 10 without: nobody is told to begin the chain after it."""
    stages = [weighed("chill", 9), weighed("cure", 8.9), other("aged", 8.1, takes="moisture")]

    (finding,) = judged(book, HAM, stages).findings

    assert finding.verdict == "cannot_tell"
    assert "Ask your inspector" in finding.message
    assert "Begin the chain" not in finding.message


@pytest.mark.parametrize(("last", "outlook"), [(gained(15), None), (left(98), "expected")])
def test_a_plan_to_take_up_water_behind_a_cut_is_no_forecast(book: RuleBook, last: Body, outlook: str | None):
    """Nine percent in the cure, a tenth cut off, and then the drum."""
    stages = [stage("cure", gained(9)), stage("trim", left(90)), stage("other", last, name="tumbled")]

    answer = judged(book, corned("round"), stages)

    assert [one.outlook for one in answer.forecasts if one.measure == "weight_gain"] == ([outlook] if outlook else [])
