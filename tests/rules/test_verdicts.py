"""What a figure comes to under a rule of the book: by its limit, its evidence and its force."""

from datetime import date
from math import nan

import pytest

from service.rules.book import RuleBook
from service.rules.checker import RuleInForce, in_force
from service.rules.finding import Finding, judge

TODAY = date(2026, 12, 1)
OZ_TO_100_LB_PPM = 1e6 / 16 / 100
"""One ounce (avoirdupois, 16 to the pound) to 100 lb."""


def standing(book: RuleBook, id: str, on: date = TODAY) -> RuleInForce:
    """The rule as it stands on the day."""
    rule = book.rule(id)
    return next(in_force(rule, dated, on) for dated in rule.values if dated.in_force(on))


def held(book: RuleBook, id: str, figure: float | None, on: date = TODAY) -> Finding:
    """The figure held against the rule."""
    return judge(standing(book, id, on), figure)


def test_a_limit_includes_itself(book: RuleBook):
    """9 CFR 424.21(c): 1/4 oz to 100 lb chopped meat, 156.25 ppm, is allowed."""
    finding = held(book, "us-nitrite-comminuted-max", 0.25 * OZ_TO_100_LB_PPM)

    assert finding.verdict == "met"
    assert finding.at_limit
    assert finding.margin == 0
    assert finding.cautions == ()


def test_a_limit_is_compared_at_full_precision(book: RuleBook):
    """9 CFR 424.21(c): a hair more than 1/4 oz to 100 lb is over, although it prints as 156.25 ppm."""
    finding = held(book, "us-nitrite-comminuted-max", 156.2500001)

    assert finding.verdict == "not_met"
    assert finding.refuses
    assert finding.code == "over_limit"
    assert finding.margin == pytest.approx(-1e-7, rel=1e-3)


def test_an_ion_limit_is_not_rounded(book: RuleBook):
    """Reg. (EU) 2023/2108: 120 ppm sodium nitrite is 80.02 of the ion (46.0055/68.9953), over 80."""
    kept = held(book, "eu-0832-nitrite-added", 119.9 * 46.0055 / 68.9953)
    over = held(book, "eu-0832-nitrite-added", 120 * 46.0055 / 68.9953)

    assert kept.verdict == "met"
    assert over.verdict == "not_met"
    assert over.refuses


def test_a_minimum_is_kept_from_above(book: RuleBook):
    """9 CFR 424.22(b)(1): 550 ppm ascorbate is needed in pumped bacon; less is not met, and refuses."""
    assert held(book, "us-bacon-pumped-ascorbate-min", 550).verdict == "met"
    assert held(book, "us-bacon-pumped-ascorbate-min", 549.9).refuses
    assert held(book, "us-bacon-pumped-ascorbate-min", 549.9).code == "under_limit"


@pytest.mark.parametrize(("figure", "verdict"), [(148, "met"), (148.1, "not_met"), (147.9, "not_met")])
def test_a_level_is_kept_from_both_sides(book: RuleBook, figure: float, verdict: str):
    """9 CFR 424.22(b)(1): pumped bacon 'shall be used at' 148 ppm potassium nitrite."""
    assert held(book, "us-bacon-pumped-knitrite", figure).verdict == verdict


@pytest.mark.parametrize(("figure", "verdict"), [(118, "met"), (117.9, "not_met"), (0, "not_met")])
def test_the_design_band_takes_a_rounded_dose(book: RuleBook, figure: float, verdict: str):
    """A dose rounded down may fall to 118 ppm (this project's own band) under 9 CFR 424.22(b)(1), not below."""
    rule = standing(book, "us-bacon-pumped-nitrite-min")

    assert judge(rule, figure, floor=rule.design_floor).verdict == verdict
    assert judge(rule, figure).verdict == "not_met"


@pytest.mark.parametrize("figure", [1, 699, 701, 5000])
def test_a_recalled_limit_only_warns(book: RuleBook, figure: float):
    """The 700 ppm of nitrate in pumped meat is from memory: nothing passes it and nothing is refused by it."""
    finding = held(book, "us-nitrate-pickled-max", figure)

    assert (finding.verdict, finding.code, finding.refuses) == ("cannot_tell", "recalled_only", False)


def test_a_reported_limit_refuses(book: RuleBook):
    """A limit from a secondary source (Canada, side bacon, 120 ppm) refuses what breaks it."""
    finding = held(book, "ca-nitrite-bacon-max", 121)

    assert finding.verdict == "not_met"
    assert finding.refuses
    assert finding.cautions == ()


def test_a_reported_limit_passes_with_a_caution(book: RuleBook):
    """What keeps a limit from a secondary source passes, and says whose word it was."""
    finding = held(book, "ca-nitrite-bacon-max", 119)

    assert finding.verdict == "met"
    assert finding.cautions == ("reported-source",)


def test_a_policy_refuses(book: RuleBook):
    """FSIS Directive 7620.3 p.12: less than 120 ppm in a product to keep refrigerated is refused."""
    finding = held(book, "us-nitrite-keeprefrigerated-min", 119)

    assert finding.force == "policy"
    assert finding.refuses


def test_advice_never_refuses(book: RuleBook):
    """FSIS Directive 7620.3 p.12: 40 ppm in shelf-stable products is useful, not required."""
    finding = held(book, "us-nitrite-shelfstable-effective", 39)

    assert finding.verdict == "not_met"
    assert not finding.refuses


@pytest.mark.parametrize(
    ("guard", "most"),
    [("guard-pickle-strength", 4000), ("guard-meat-nitrite-stop", 650), ("guard-label-strength", 6.25)],
)
def test_a_guard_refuses(book: RuleBook, guard: str, most: float):
    """This project's own guards refuse like a law; common practice, no source."""
    assert held(book, guard, most).verdict == "met"
    assert held(book, guard, most * 1.001).refuses


def test_a_guard_warns_early(book: RuleBook):
    """9 CFR 424.21(c): 2 lb to 100 gal of 8.33 lb is 2,400 ppm, the strongest pickle that it prints."""
    printed_ppm = 2 / 100 / 8.33 * 1e6

    assert "early-warning" not in held(book, "guard-pickle-strength", 2399).cautions
    assert "early-warning" in held(book, "guard-pickle-strength", printed_ppm).cautions


def test_a_guard_without_a_number_borrows_one(book: RuleBook):
    """The guard on immersion says nothing until it is given the ceiling of the class."""
    finding = held(book, "guard-immersion-both-readings", 150)

    assert (finding.verdict, finding.code, finding.refuses) == ("cannot_tell", "not_computed", False)


@pytest.mark.parametrize("id", ["us-nitrite-finished-max", "codex-0822-nitrite", "eu-new-083-nitrite-residual"])
def test_only_a_laboratory_can_tell_what_is_left(book: RuleBook, id: str):
    """No dose shows a residual: without a figure nothing can be told, and nothing is refused."""
    finding = held(book, id, None)

    assert (finding.verdict, finding.code, finding.refuses) == ("cannot_tell", "laboratory_only", False)


def test_a_laboratory_figure_is_judged(book: RuleBook):
    """Codex GSFA, nitrites, note 32: 80 mg/kg of the ion may be left in cooked ham."""
    assert held(book, "codex-0822-nitrite", 80).verdict == "met"
    assert held(book, "codex-0822-nitrite", 80.1).refuses


@pytest.mark.parametrize("figure", [None, 0, 40, 80, 100, 120])
def test_an_option_under_a_plan_is_never_met(book: RuleBook, figure: float | None):
    """9 CFR 424.22(b)(1)(ii): the lower levels for pumped bacon pass and refuse nothing by themselves."""
    options = [rule.id for rule in book.rules.values() if rule.plan_needed]

    findings = [held(book, id, figure) for id in options]

    assert len(options) == 4
    assert {finding.verdict for finding in findings} == {"cannot_tell"}
    assert not any(finding.refuses for finding in findings)


def test_an_amended_rule_passes_with_a_caution(book: RuleBook):
    """90 FR 27973 amended 9 CFR 424.22(b)(1) on 1 July 2025 unread: from that day a pass says so."""
    before = held(book, "us-bacon-pumped-nitrite-max", 120, date(2025, 6, 30))
    after = held(book, "us-bacon-pumped-nitrite-max", 120, date(2025, 7, 1))

    assert (before.verdict, before.cautions) == ("met", ())
    assert (after.verdict, after.cautions) == ("met", ("amendment-not-read",))


def test_an_amended_rule_still_refuses(book: RuleBook):
    """9 CFR 424.22(b)(1): 121 ppm is refused after the amendment as before it."""
    assert held(book, "us-bacon-pumped-nitrite-max", 121, date(2025, 7, 1)).refuses


def test_zero_is_a_limit(book: RuleBook):
    """9 CFR 424.21(c): no nitrate in bacon."""
    assert held(book, "us-nitrate-bacon-max", 0).verdict == "met"
    assert held(book, "us-nitrate-bacon-max", 1e-6).refuses


def test_words_are_not_judged(book: RuleBook):
    """A rule in words sends the reader to its text."""
    finding = held(book, "eu-new-no-row", 80)

    assert (finding.verdict, finding.code, finding.refuses) == ("cannot_tell", "statement", False)
    assert "/v1/rules/eu-new-no-row" in finding.message


@pytest.mark.parametrize("id", ["us-nitrite-comminuted-max", "us-bacon-pumped-nitrite-min", "us-bacon-pumped-knitrite"])
def test_what_is_no_number_never_passes(book: RuleBook, id: str):
    """A comparison with NaN does not hold."""
    assert held(book, id, nan).verdict == "not_met"
