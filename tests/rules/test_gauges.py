"""A rule made ready for many figures says of each what the rule says when it is asked alone."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.rules.book import RuleBook
from service.rules.checker import ROUNDING_SLACK, RuleInForce, breaks, clear_of, in_force, verdict_of
from service.rules.finding import Finding, gauge_of

TODAY = date(2026, 12, 1)
NEAR = [0.0, 0.5, *(1 + n * ROUNDING_SLACK for n in (-3, -2, -1.5, -1, -0.5, 0, 0.5, 1, 1.5, 2, 3)), 2.0]
"""Shares of a limit, on both sides of the room that is left for the last bits."""


@pytest.fixture(scope="module")
def standing(book: RuleBook) -> list[RuleInForce]:
    """Every rule that stands today."""
    dated = [(rule, value) for rule in book.rules.values() for value in rule.values if value.in_force(TODAY)]
    return [in_force(rule, value, TODAY) for rule, value in dated]


def test_a_figure_near_a_limit_is_judged_as_the_rule_judges_it(standing: list[RuleInForce]):
    """The look that sees at a glance that a figure is clear never sees otherwise than the rule."""
    for rule in standing:
        for floor in {None, rule.design_floor}:
            for share in NEAR:
                figure = share * (rule.limit or 100.0)
                finding = gauge_of(rule, floor).finding(figure)

                assert (finding.verdict, finding.code) == verdict_of(rule, figure, floor=floor), (rule.id, figure)
                assert gauge_of(rule, floor).breaks(figure) == breaks(rule, figure), (rule.id, figure)


@given(st.floats())
def test_any_number_is_judged_as_the_rule_judges_it(standing: list[RuleInForce], figure: float):
    """Whatever the number, and also what is no number."""
    for rule in standing[::7]:
        assert gauge_of(rule).finding(figure).code == verdict_of(rule, figure)[1]


def test_what_only_warns_is_never_clear(standing: list[RuleInForce]):
    """A rule from memory, under a plan or in words lets no figure through at a glance, nor does a level."""
    unclear = [rule for rule in standing if clear_of(rule)[0] == clear_of(rule)[1]]

    assert {rule.id for rule in unclear} >= {
        rule.id
        for rule in standing
        if not rule.witnessed or rule.plan_needed or rule.bound in ("statement", "level") or rule.limit is None
    }
    assert len(unclear) < len(standing)


@pytest.mark.parametrize("figure", [None, 0.0, 119.0, 120.0, 121.0])
def test_a_finding_has_every_field_in_order(standing: list[RuleInForce], figure: float | None):
    """Each finding says all that the contract says, in the order in which it says it."""
    for rule in standing:
        assert list(vars(gauge_of(rule).finding(figure))) == list(Finding.model_fields), rule.id


def test_findings_do_not_share_what_hangs_on_the_figure(standing: list[RuleInForce]):
    """A second figure changes nothing in the finding on the first."""
    rule = next(rule for rule in standing if rule.id == "us-nitrite-pickled-max")
    first = gauge_of(rule).finding(150.0)

    second = gauge_of(rule).finding(250.0)

    assert (first.figure, first.margin, first.verdict) == (150, 50, "met")
    assert (second.figure, second.margin, second.verdict) == (250, -50, "not_met")
    assert gauge_of(rule).finding(None).figure is None
