"""Each limit: reached and not passed, by its own rule, in its own place."""

from typing import Any

import pytest

from service.calculations.refusals import Impossible, LimitExceeded
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import (
    BACON,
    COVERED,
    DRY,
    ERYTHORBATE,
    LOIN,
    MIXED,
    POTASSIUM,
    PUMPED,
    SAUSAGE,
    SOAKED,
    answer_to,
    dose_of,
    grams,
    refusing,
)

CEILINGS = [
    # 9 CFR 424.21(c) and 424.22(b), text of 2018
    ("us-nitrite-pickled-max", 200, {"product": LOIN, "method": PUMPED}),
    ("us-nitrite-pickled-max", 200, {"product": LOIN, "method": SOAKED}),
    ("us-nitrite-comminuted-max", 156.25, {"product": SAUSAGE, "method": MIXED}),
    ("us-nitrite-drycured-max", 625, {"product": LOIN, "method": DRY}),
    ("us-bacon-dry-max", 200, {"product": BACON, "method": DRY}),
    ("us-bacon-dry-kmax", 246, {"product": BACON, "method": DRY, "curing_salt": POTASSIUM}),
    ("us-bacon-immersion-max", 120, {"product": BACON, "method": SOAKED}),
    ("us-bacon-pumped-nitrite-max", 120, {"product": BACON, "method": PUMPED, "accelerator": ERYTHORBATE}),
    (
        "us-bacon-pumped-knitrite",
        148,
        {"product": BACON, "method": PUMPED, "accelerator": ERYTHORBATE, "curing_salt": POTASSIUM},
    ),
    # Regulation (EU) 1333/2008 Annex II until 8 October 2025 (EFSA Journal 2017;15(6):4786, table 5)
    (
        "eu-0832-nitrite-added",
        150,
        {"jurisdiction": "EU", "on": "2025-10-08", "product": {**SAUSAGE, "finish": "cooked"}, "method": MIXED},
    ),
]


@pytest.mark.parametrize(("rule", "ceiling", "changes"), CEILINGS, ids=[f"{r}-{c}" for r, c, _ in CEILINGS])
def test_a_dose_reaches_a_ceiling_and_not_a_hair_more(
    book: RuleBook, rule: str, ceiling: float, changes: dict[str, Any]
) -> None:
    """The limit itself is allowed; a ten-thousandth more is refused by the rule of that name."""
    by_batch = rule.startswith("eu-")
    reached = ceiling * 1.0001 if not by_batch else ceiling * 1.01

    assert answer_to(book, dose_of(ceiling, **changes)).weigh[0].amount.value > 0
    assert rule in refusing(book, dose_of(reached, **changes))


def test_ceilings_elsewhere_are_of_the_batch(book: RuleBook) -> None:
    """Denmark allows 60 mg/kg sodium nitrite added (French ministry page, 2023): of the batch, not of the meat."""
    cooked = {"jurisdiction": "DK", "product": {**SAUSAGE, "finish": "cooked"}, "method": MIXED}
    answer = answer_to(book, dose_of(60.01, **cooked))
    weighed = grams(answer)

    assert weighed["curing_salt"] * 0.0625 / sum(weighed.values()) * 1e6 == pytest.approx(59.95, abs=0.01)
    assert "dk-default-nitrite" in refusing(book, dose_of(60.2, **cooked))


def test_a_ceiling_of_a_wider_place_does_not_permit(book: RuleBook) -> None:
    """The European Union allows 80 as ion in matured sausage; Denmark's own derogations were not read: no dose."""
    with pytest.raises(Impossible) as refusal:
        answer_to(book, dose_of(50, jurisdiction="DK", product={**SAUSAGE, "finish": "matured"}, method=MIXED))

    assert refusal.value.code == "no_rule_in_force"


FLOORS = [
    # FSIS Directive 7620.3 p. 12, quoted: 120 ppm in what is kept refrigerated; Canada: 100 ppm of the batch
    ("us-nitrite-keeprefrigerated-min", 119.99, {"product": LOIN, "method": PUMPED}),
    ("us-nitrite-keeprefrigerated-min", 119.99, {"product": SAUSAGE, "method": MIXED}),
    ("ca-nitrite-min", 100, {"jurisdiction": "CA", "product": SAUSAGE, "method": MIXED}),
    ("us-bacon-pumped-nitrite-min", 119.99, {"product": BACON, "method": PUMPED, "accelerator": ERYTHORBATE}),
    ("us-bacon-pumped-ascorbate-min", 120, {"product": BACON, "method": PUMPED}),
]


@pytest.mark.parametrize(("rule", "ppm", "changes"), FLOORS, ids=[row[0] for row in FLOORS])
def test_a_dose_under_a_floor_is_refused(book: RuleBook, rule: str, ppm: float, changes: dict[str, Any]) -> None:
    """Too little is refused as well, and so is pumped bacon without its accelerator."""
    assert rule in refusing(book, dose_of(ppm, **changes))


def test_a_shelf_stable_product_states_that_the_floor_does_not_bind(book: RuleBook) -> None:
    """The policy binds what is labelled to be kept refrigerated (same page); 60 ppm may be stated for another."""
    answer = answer_to(book, dose_of(60, product={**LOIN, "storage": "shelf_stable"}, method=DRY))

    assert "us-nitrite-keeprefrigerated-min" not in {finding.rule for finding in answer.findings}
    assert "too-little-is-dangerous" in {caution.id for caution in answer.cautions}


def test_a_dose_that_rounds_under_a_floor_is_refused(book: RuleBook) -> None:
    """121 ppm on 500 g is 0.968 g of curing salt, which a scale of 0.1 g shows as 0.9: 112.5 ppm."""
    body = dose_of(121, meat={"value": 500, "unit": "g"}, method=DRY, scale_step={"value": 0.1, "unit": "g"})

    with pytest.raises(LimitExceeded) as refusal:
        answer_to(book, body)

    assert "finer" in refusal.value.advice


def test_a_required_level_has_a_band_below(book: RuleBook) -> None:
    """Pumped bacon at 120 rounds down to within 118 to 120 (own band), or is refused."""
    fine = answer_to(book, dose_of(120, product=BACON, method=PUMPED, accelerator=ERYTHORBATE))
    coarse = dose_of(120, product=BACON, method=PUMPED, accelerator=ERYTHORBATE, scale_step={"value": 5, "unit": "g"})

    level = next(finding for finding in fine.findings if finding.rule == "us-bacon-pumped-nitrite-min")
    assert level.verdict == "met"
    assert 118 <= (level.figure or 0) <= 120
    assert "us-bacon-pumped-nitrite-min" in refusing(book, coarse)


def test_other_levels_of_pumped_bacon_need_a_plan(book: RuleBook) -> None:
    """100 ppm, or 40 to 80 with sugar and starter, are shown as needing a plan and never as met (9 CFR 424.22(b))."""
    answer = answer_to(book, dose_of(120, product=BACON, method=PUMPED, accelerator=ERYTHORBATE))
    options = [finding for finding in answer.findings if "-opt" in finding.rule]

    assert len(options) == 4
    assert {(finding.verdict, finding.code) for finding in options} == {("cannot_tell", "plan_needed")}


def test_a_pick_up_does_not_excuse_the_whole_system(book: RuleBook) -> None:
    """At 10 percent pick-up 150 ppm puts some 800 ppm into meat and pickle together: the guard refuses."""
    basis = {"kind": "pick_up", "percent": 10}

    rules = refusing(book, dose_of(150, method={**SOAKED, "basis": basis}))

    assert "guard-immersion-both-readings" in rules


def test_a_cover_counts_double_against_ceilings_only(book: RuleBook) -> None:
    """Pump and cover are added for the ceiling; for the floor the vessel's own 110 ppm count, and refuse."""
    rules = refusing(book, dose_of(122, method={**COVERED, "pump_percent": 20}))

    assert rules == {"us-nitrite-keeprefrigerated-min"}


def test_nitrate_is_held_to_its_own_limits(book: RuleBook) -> None:
    """No nitrate in bacon (9 CFR 424.21(c)); in a pumped loin its limit is from memory, so there is no dose."""
    with_nitrate = {
        "nitrite": {"salt": "sodium_nitrite", "percent": 6.25},
        "nitrate": {"salt": "sodium_nitrate", "percent": 4},
    }

    assert "us-nitrate-bacon-max" in refusing(book, dose_of(150, product=BACON, method=DRY, curing_salt=with_nitrate))
    with pytest.raises(Impossible) as refusal:
        answer_to(book, dose_of(150, method=PUMPED, curing_salt=with_nitrate))
    assert refusal.value.code == "no_rule_in_force"
    assert answer_to(book, dose_of(150, method=DRY, curing_salt=with_nitrate)).figures.nitrate_on_every_basis


def test_infants_get_none(book: RuleBook) -> None:
    """No nitrite in foods for babies and toddlers (9 CFR 424.21(c))."""
    rules = refusing(book, dose_of(150, product={**LOIN, "for_infants": True}, method=DRY))

    assert "us-nitrite-babyfood-max" in rules


def test_strength_above_the_usual_has_to_be_stated(book: RuleBook) -> None:
    """An 8 percent curing salt is dosed once the caller says that the label says so (own guard)."""
    strong = {"nitrite": {"salt": "sodium_nitrite", "percent": 8}}

    assert refusing(book, dose_of(150, curing_salt=strong)) == {"guard-label-strength"}
    stated = answer_to(book, dose_of(150, curing_salt={**strong, "strength_on_label": True}))
    assert "guard-label-strength" not in {finding.rule for finding in stated.findings}


def test_corned_beef_may_gain_so_much(book: RuleBook) -> None:
    """Brisket may gain 20 percent, other cuts 10 (9 CFR 319.101, 319.102)."""
    pumped = {**PUMPED, "pump_percent": 15}

    brisket = answer_to(book, dose_of(150, product={"kind": "corned_beef", "cut": "brisket"}, method=pumped))
    rules = refusing(book, dose_of(150, product={"kind": "corned_beef", "cut": "round"}, method=pumped))
    assert "us-cornedbeef-brisket-gain" in {finding.rule for finding in brisket.findings if finding.verdict == "met"}
    assert rules == {"us-cornedbeef-other-gain"}


def test_skin_counts_as_a_tenth_until_it_is_weighed(book: RuleBook) -> None:
    """A belly of 12.80 lb is 11.0 lb without skin: 120 ppm is then 103.1 on the skin-on weight (a weighed example)."""
    skin_on = {"kind": "bacon", "skin": "on", "skin_free": {"value": 11.0, "unit": "lb"}}
    body = dose_of(160, product=skin_on, method=DRY, meat={"value": 12.8, "unit": "lb"})

    figures = answer_to(book, body).figures.nitrite_on_every_basis
    on_skin = next(figure for figure in figures if figure.basis == "skin_on_green_weight")

    assert on_skin.value * 120 / 160 == pytest.approx(103.125, abs=0.02)


def test_infants_get_none_anywhere(book: RuleBook) -> None:
    """What the United States forbid in foods for babies is not dosed elsewhere either (own guard)."""
    for place in ("CA", "EU"):
        product = {**SAUSAGE, "finish": "cooked", "for_infants": True}
        assert "guard-infant-nitrite" in refusing(book, dose_of(110, jurisdiction=place, product=product, method=MIXED))


def test_a_rub_dilutes_nothing_in_the_meat(book: RuleBook) -> None:
    """3 kg of honey on 1 kg of meat leave its nitrite where it is: 470 ppm are over the European 80 as the ion."""
    heavy = {"jurisdiction": "EU", "product": {**LOIN, "finish": "matured"}, "method": DRY}

    rules = refusing(book, dose_of(470, **heavy, other_ingredients={"value": 3, "unit": "kg"}))

    assert rules == {"eu-0831-nitrite-added"}


def test_a_pump_alone_may_gain_too_much(book: RuleBook) -> None:
    """Brisket may gain 20 percent (9 CFR 319.101): a pump of 40 breaks that, whatever the cover adds."""
    rules = refusing(
        book, dose_of(150, product={"kind": "corned_beef", "cut": "brisket"}, method={**COVERED, "pump_percent": 40})
    )

    assert "us-cornedbeef-brisket-gain" in rules


def test_solids_in_a_pickle_dilute_nothing(book: RuleBook) -> None:
    """1.5 kg of vegetables in a pickle leave its nitrite where it is: in the liquid that is pumped."""
    plain = grams(answer_to(book, dose_of(199)))
    full = grams(answer_to(book, dose_of(199, other_ingredients={"value": 1.5, "unit": "kg"})))

    assert full["curing_salt"] == plain["curing_salt"]


def test_skin_on_equilibrium_keeps_the_tenth(book: RuleBook) -> None:
    """120 ppm of the weight without skin is 108 of the weight with it (handbook ch. 3, quoted), in a bath too."""
    answer = answer_to(book, dose_of(120, product={"kind": "bacon", "skin": "on"}, method=SOAKED))

    skin_on = next(finding for finding in answer.findings if finding.rule == "us-bacon-skinon-immersion")
    assert skin_on.figure == pytest.approx(108, abs=0.01)
    assert "recalled-limit-passed" not in {caution.id for caution in answer.cautions}
