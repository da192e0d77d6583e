"""A weighed figure is judged, a planned one is a forecast, and nothing is met without a scale."""

import pytest

from service.calculations.butchery.chaining.judging import MESSAGES
from service.rules.book import RuleBook
from tests.calculations.butchery.chains import (
    Body,
    answer_to,
    bought,
    corned,
    gained,
    left,
    lost,
    mass,
    own_test,
    smoke,
    stage,
    weight_wanted,
)

TRIM = stage("trim", lost(10, 8, 12))
BRISKET_GAIN = "us-cornedbeef-brisket-gain"


@pytest.mark.parametrize(
    ("pump", "outlook", "code"),
    [
        (gained(15, 10, 20), "expected", "whole_range_keeps"),
        (gained(15, 10, 20.1), "at_risk", "part_breaks"),
        (gained(25, 21, 30), "at_risk", "whole_range_breaks"),
        (own_test(5, 5.9), "expected", "whole_range_keeps"),
        (own_test(5, 6.1), "at_risk", "whole_range_breaks"),
    ],
)
def test_a_planned_pump_is_a_forecast(book: RuleBook, pump: Body, outlook: str, code: str):
    """expected where the whole range keeps the limit; the test of another batch weighs nothing of this one."""
    answer = answer_to(book, bought(10), TRIM, stage("cure", pump), standard=corned("brisket"))

    (forecast,) = answer.forecasts
    assert (forecast.rule, forecast.outlook, forecast.code) == (BRISKET_GAIN, outlook, code)
    assert (forecast.limit, forecast.citation) == (20, "9 CFR 319.101")
    assert MESSAGES[code] in forecast.message


def test_a_plan_for_buying_is_never_judged(book: RuleBook):
    """Backwards everything is planned."""
    answer = answer_to(
        book, weight_wanted(5), stage("cure", gained(15)), stage("cook", left(80), method="steam"),
        bought_as="trimmed", standard=corned("brisket"),
    )  # fmt: skip

    assert {one.outlook for one in answer.forecasts} == {"expected"}
    assert {one.verdict for one in answer.findings} == {"cannot_tell"}


def test_a_weighed_cure_of_a_planned_trim_is_a_forecast(book: RuleBook):
    """The green weight was not weighed: 10.4 kg out of 8.8 to 9.2 are 13.04 to 18.18 percent more, by hand."""
    answer = answer_to(book, bought(10), TRIM, stage("cure", weighed=mass(10.4)), standard=corned("brisket"))

    (forecast,) = answer.forecasts
    assert [forecast.low, forecast.high] == pytest.approx([13.0434783, 18.1818182])


def test_a_weighed_trim_makes_it_a_finding(book: RuleBook):
    """Both weights come off a scale."""
    trimmed = stage("trim", lost(10), weighed=mass(9))

    answer = answer_to(book, bought(10), trimmed, stage("cure", weighed=mass(10.4)), standard=corned("brisket"))

    assert answer.forecasts == ()
    assert {one.rule: one.verdict for one in answer.findings}[BRISKET_GAIN] == "met"
    assert {one.rule: one.figure for one in answer.findings}[BRISKET_GAIN] == pytest.approx(1400 / 90)


def test_what_is_bought_cured_has_no_green_weight(book: RuleBook):
    """How much it was pumped cannot be told from here."""
    answer = answer_to(book, bought(10), smoke(left(70)), bought_as="cured", standard=corned("brisket"))

    assert answer.forecasts == ()
    assert {one.code for one in answer.findings} == {"not_computed"}
    assert len(answer.findings) == 3


def test_what_is_to_be_cooked_is_not_finished_before(book: RuleBook):
    """A cooked product in a chain that ends with the cure: its finished weight waits."""
    standard = {"jurisdiction": "US", "product": {"kind": "corned_beef", "cut": "round", "finish": "cooked"}}

    answer = answer_to(book, bought(10), stage("cure", weighed=mass(10.8)), bought_as="trimmed", standard=standard)

    assert {one.measure: one.verdict for one in answer.findings} == {
        "finished_weight": "cannot_tell", "weight_gain": "met", "piece_weight": "cannot_tell",
    }  # fmt: skip


def test_ends_and_crumbs_do_not_lighten_the_finished_piece(book: RuleBook):
    """The piece as it comes out of the steam is held against its ceiling, not the slices, whatever comes after."""
    packed = stage("other", lost(4), name="packed and dripped")
    answer = answer_to(
        book, bought(10), stage("cure", gained(15)), stage("cook", left(88), method="steam"), stage("slice", lost(5)),
        packed, bought_as="trimmed", standard=corned("brisket"),
    )  # fmt: skip

    assert {one.measure: one.high for one in answer.forecasts}["finished_weight"] == pytest.approx(101.2)


def test_a_product_without_a_standard_has_no_verdict(book: RuleBook):
    """Pastrami has none of its own, and no other place's weights are held here."""
    stages = stage("cure", weighed=mass(11)), smoke(weighed=mass(7.5))
    product = {"kind": "whole_muscle", "species": "beef"}

    here = answer_to(
        book, bought(10), *stages, standard={"jurisdiction": "US", "product": product, "sold_as": "pastrami"}
    )
    elsewhere = answer_to(book, bought(10), *stages, standard={**corned("brisket"), "jurisdiction": "CA"})

    assert [(one.rule, one.verdict) for one in here.findings] == [("us-pastrami", "cannot_tell")]
    assert (elsewhere.findings, elsewhere.forecasts) == ((), ())


def test_without_a_standard_nothing_is_judged(book: RuleBook):
    """No law is asked, whatever the weights."""
    answer = answer_to(book, bought(10), stage("cure", weighed=mass(14)))

    assert (answer.findings, answer.forecasts) == ((), ())
    assert "weigh_to_be_judged" not in {one.code for one in answer.advice}
