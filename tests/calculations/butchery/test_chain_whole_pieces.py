"""A legal weight is that of a whole piece against the fresh one: what is cut off, or left open, is never a pass."""

import pytest

from service.rules.book import RuleBook
from tests.calculations.butchery.chain_pieces import (
    BACON,
    BARBECUE,
    HAM,
    UNRIPE,
    asks,
    judged,
    other,
    roasted,
    smoked,
    weighed,
)  # fmt: skip
from tests.calculations.butchery.chains import (
    Body,
    answer_to,
    bought,
    corned,
    gained,
    left,
    lost,
    mass,
    smoke,
    stage,
)

CURED, AGED = weighed("cure", 9.5), other("aged", 8.1, takes="moisture")


# what is made, its stages, the verdict on its first rule with a number, and the figure
CUT_OFF: list[tuple[Body, list[Body], str, float | None]] = [
    (HAM, [CURED, AGED, other("boned", 7.2, takes="parts")], "met", 19),
    (HAM, [CURED, other("aged", 8.4, takes="moisture"), other("boned", 7.4, takes="parts")], "not_met", 16),
    (HAM, [CURED, other("aged", 8.4), other("boned", 7.4)], "cannot_tell", None),
    (HAM, [CURED, weighed("chill", 8.4), weighed("trim", 7.4)], "not_met", 16),
    (HAM, [CURED, weighed("chill", 8.1), weighed("slice", 7.9)], "met", 19),
    (HAM, [CURED, roasted(7)], "not_met", 5),
    (HAM, [other("salted and aged", 8, takes="moisture"), weighed("trim", 7)], "cannot_tell", None),
    (HAM, [CURED, smoked(9.3), AGED, roasted(6)], "met", 19),
    (BACON, [weighed("cure", 11), smoked(10.2), weighed("trim", 9.5)], "not_met", 102),
    (BACON, [weighed("cure", 11), smoked(9.9), weighed("trim", 9.5)], "met", 99),
    (BACON, [weighed("cure", 11), smoked(10.5), weighed("slice", 10.2), smoke(weighed=mass(4))], "not_met", 105),
    (BACON, [weighed("cure", 11), weighed("trim", 10.2), smoked(9.5)], "cannot_tell", None),
    (BACON, [weighed("cure", 11), weighed("slice", 10.2), smoked(9.5)], "cannot_tell", None),
    (BARBECUE, [smoked(7.4), other("pulled", 6.8)], "cannot_tell", None),
    (BARBECUE, [smoked(7.4), other("pulled", 6.8, takes="parts")], "not_met", 74),
    (BARBECUE, [smoked(7.4), other("drained", 6.8, takes="moisture")], "met", 68),
    (BARBECUE, [smoked(6.9), other("pulled", 6.8)], "met", 69),
    (BARBECUE, [smoked(7.4), other("pulled", 7.1)], "not_met", 74),
    (BARBECUE, [other("boned", 9), smoked(6.5)], "cannot_tell", None),
    (BARBECUE, [weighed("slice", 9), smoked(6.1)], "met", 61 / 0.9),
    (BARBECUE, [other("boned", 9, takes="parts"), smoked(6.5)], "not_met", 65 / 0.9),
    (BARBECUE, [weighed("cure", 9.5), other("desalted", 9), smoked(6)], "cannot_tell", None),
    (BARBECUE, [weighed("cure", 9.5), other("desalted", 9, takes="moisture"), smoked(6)], "met", 60),
]  # fmt: skip


@pytest.mark.parametrize(("standard", "stages", "verdict", "figure"), CUT_OFF)
def test_a_piece_is_judged_before_anything_is_cut_off(
    book: RuleBook, standard: Body, stages: list[Body], verdict: str, figure: float | None
):
    """Bone, skin, crumbs and ends are no shrinkage; a stage that may be either is held both ways, and asked about."""
    (finding,) = judged(book, standard, stages).findings

    assert finding.verdict == verdict
    assert finding.figure == pytest.approx(figure)
    assert asks(finding.message) is (verdict == "cannot_tell")


@pytest.mark.parametrize(
    ("standard", "stages"),
    [(BACON, [weighed("cure", 11)]), (BACON, [weighed("cure", 9.4)]),
     (BACON, [weighed("cure", 11), weighed("trim", 9)]),
     (UNRIPE, [weighed("cure", 9.5)]), (UNRIPE, [weighed("cure", 9.5), smoked(8.4)])],
)  # fmt: skip
def test_a_batch_half_done_is_not_judged_as_finished(book: RuleBook, standard: Body, stages: list[Body]):
    """Nothing says that it is finished: neither met nor condemned, until the cook or the finish is stated."""
    (half,) = judged(book, standard, stages).findings
    ripe = {**standard, "product": {**standard["product"], "finish": "matured"}}

    (done,) = judged(book, ripe, stages).findings

    assert (half.verdict, half.refuses) == ("cannot_tell", False)
    assert "state product.finish matured" in half.message or "product.finish fresh or matured" in half.message
    assert done.verdict in ("met", "not_met")


UNTRIMMED: list[tuple[list[Body], Body]] = [
    ([weighed("cure", 10.95), weighed("trim", 9)], {"bought_as": "untrimmed"}),
    ([weighed("cure", 10.95)], {"cut": "beef-eye-of-round", "bought_as": "untrimmed"}),
    ([stage("cure", gained(9))], {"bought_as": "untrimmed"}),
    ([weighed("trim", 10.5), weighed("cure", 11)], {"bought_as": "untrimmed"}),
    ([weighed("cure", 10.5)], {"bought_as": "cured"}),
    ([weighed("cure", 10.5)], {"cut": "corned-beef-brisket"}),
]


@pytest.mark.parametrize(("stages", "more"), UNTRIMMED)
def test_what_was_never_trimmed_has_no_green_weight(book: RuleBook, stages: list[Body], more: Body):
    """The weight as purchased does not become the fresh trimmed one without a word."""
    part = "brisket" if more.get("cut") == "corned-beef-brisket" else "round"

    answer = judged(book, corned(part), stages, **more)

    gain = next(one for one in answer.findings if one.measure == "weight_gain")
    assert (gain.verdict, answer.forecasts) == ("cannot_tell", ())
    begins = more.get("bought_as") == "untrimmed"
    assert ("bought_as trimmed" if begins else "begin the chain with the fresh piece") in gain.message


GAINS: list[tuple[list[Body], str, float | None]] = [
    ([weighed("cure", 11.5), weighed("cure", 10.9)], "cannot_tell", None),
    ([weighed("cure", 11.5), other("drained", 10.9)], "cannot_tell", None),
    ([weighed("cure", 11.5), weighed("chill", 10.9)], "cannot_tell", None),
    ([weighed("cure", 10.5), weighed("cure", 10.9)], "met", 9),
    ([weighed("cure", 10.5), weighed("cure", 11.2)], "not_met", 12),
    ([weighed("cure", 10.9), weighed("chill", 10.8)], "met", 9),
    ([weighed("cure", 11.5), weighed("chill", 11.2), smoked(8)], "not_met", 15),
    ([weighed("cure", 11.5), weighed("trim", 10.5)], "not_met", 15),
    ([weighed("cure", 10.5), other("boned", 8), weighed("cure", 8.9)], "cannot_tell", None),
    ([weighed("cure", 10.5), other("rinsed", 10.2, takes="moisture"), weighed("cure", 10.9)], "met", 9),
    ([weighed("cure", 10.5), weighed("trim", 8), weighed("cure", 8.9)], "cannot_tell", None),
    ([other("pump", 11.5)], "cannot_tell", None),
    ([other("pump", 11.5), weighed("cure", 10.9)], "cannot_tell", None),
    ([weighed("chill", 9.8), weighed("cure", 10.9)], "cannot_tell", None),
    ([weighed("chill", 9.95), weighed("cure", 10.9)], "met", 100 * (10.9 / 9.95 - 1)),
]


@pytest.mark.parametrize(("stages", "verdict", "figure"), GAINS)
def test_a_gain_cannot_hide_in_the_stages(book: RuleBook, stages: list[Body], verdict: str, figure: float | None):
    """Met only where every weight of the whole raw piece out of the cure keeps 10: same weights, one verdict."""
    answer = judged(book, corned("round"), stages)

    gain = next(one for one in answer.findings if one.measure == "weight_gain")
    assert gain.verdict == verdict
    assert gain.figure == pytest.approx(figure)
    assert asks(gain.message) is (verdict == "cannot_tell")


def test_a_pump_by_another_name_is_no_green_weight(book: RuleBook):
    """11.5 of 10 kg are 115 percent of green, whatever the stage is called."""
    answer = judged(book, corned("round"), [other("pump", 11.5)])

    assert [one.of_green.typical for one in answer.stages if one.of_green] == [115.0]


def test_what_may_be_cut_off_in_a_plan_widens_the_forecast(book: RuleBook):
    """Pulled meat planned at 92 percent of 7.4 kg: 68.08 to 74 of the fresh ten."""
    answer = judged(book, BARBECUE, [smoked(7.4), stage("other", lost(8), name="pulled")])

    (forecast,) = answer.forecasts
    assert (forecast.low, forecast.high, forecast.outlook) == (68.08, 74.0, "at_risk")


def test_a_missing_piece_weight_is_asked_for_by_its_name(book: RuleBook):
    """And gone once it is stated."""
    asked, told = (
        next(one for one in judged(book, corned("round", **more), [weighed("cure", 10.5)]).findings if one.unit == "lb")
        for more in ({}, {"smallest_piece": mass(2)})
    )

    assert "standard.smallest_piece" in asked.message
    assert told.verdict == "met"


@pytest.mark.parametrize(("piece", "verdict"), [(mass(50), "cannot_tell"), (mass(10), "met"), (mass(0.4), "not_met")])
def test_a_piece_is_no_heavier_than_its_batch(book: RuleBook, piece: Body, verdict: str):
    """Fifty kilograms of ten are a slip of the unit, and no pass."""
    findings = judged(book, corned("round", smallest_piece=piece), [weighed("cure", 10.5)]).findings

    assert [one.verdict for one in findings if one.unit == "lb"] == [verdict]


@pytest.mark.parametrize(
    ("cured_kg", "figure", "margin", "told"),
    [(7.04, 10.0, 0.0, "10 percent against maximum 10 percent: kept, exactly at the limit."),
     (7.040001, 10.000015625, pytest.approx(-1.5625e-5), "10.000015625 percent against maximum 10 percent: over it.")],
)  # fmt: skip
def test_a_figure_agrees_with_its_verdict(book: RuleBook, cured_kg: float, figure: float, margin: float, told: str):
    """6.4 kg to 7.04 is 10 percent without crumbs; a milligram more is told with the digits that it takes."""
    answer = answer_to(book, bought(6.4), weighed("cure", cured_kg), bought_as="trimmed", standard=corned("round"))

    gain = next(one for one in answer.findings if one.measure == "weight_gain")
    assert (gain.figure, gain.margin, gain.message) == (figure, margin, told)


def test_a_forecast_tells_its_ends_apart_from_the_limit(book: RuleBook):
    """10.00001 percent breaks 10 visibly."""
    answer = judged(book, corned("round"), [stage("cure", left(110, 109, 110.00001))])

    assert answer.forecasts[0].message.startswith("9 to 10.00001 percent against maximum 10 percent")
