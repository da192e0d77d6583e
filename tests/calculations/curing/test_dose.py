"""What a dose answers and refuses, limit by limit."""

from typing import Any

import pytest

from service.calculations.refusals import Impossible, LimitExceeded
from service.rules.book import RuleBook
from tests.calculations.curing.kitchen import answer_to, grams, request_for

BACON = {"kind": "bacon", "skin": "off"}
SAUSAGE = {"kind": "sausage", "species": "pork"}
LOIN = {"kind": "whole_muscle", "species": "pork"}
DRY, MIXED = {"kind": "dry"}, {"kind": "comminuted"}
SOAKED = {"kind": "immersion", "water": {"value": 3, "unit": "kg"}, "basis": {"kind": "equilibrium"}}
PUMPED = {"kind": "injected", "pump_percent": 12, "water": {"value": 2, "unit": "kg"}}
ERYTHORBATE = {"kind": "sodium_erythorbate", "ppm": 550}
POTASSIUM = {"nitrite": {"salt": "potassium_nitrite", "percent": 6.25}}
FINE = {"value": 0.001, "unit": "g"}


def dose_of(ppm: float, **changes: Any) -> dict[str, Any]:
    """A request for so many ppm, weighed finely."""
    return request_for(**{"target": {"kind": "ingoing_nitrite", "ppm": ppm}, "scale_step": FINE, **changes})


def refusing(book: RuleBook, body: dict[str, Any]) -> set[str]:
    """The rules that refuse a request."""
    with pytest.raises(LimitExceeded) as refusal:
        answer_to(book, body)
    return {finding.rule for finding in refusal.value.findings if finding.refuses}


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
    covered = {**PUMPED, "kind": "injected_then_covered", "pump_percent": 20, "cover": {"kind": "equilibrium"}}

    assert refusing(book, dose_of(122, method=covered)) == {"us-nitrite-keeprefrigerated-min"}


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


def test_a_strong_pickle_warns_and_then_refuses(book: RuleBook) -> None:
    """A pickle above 2,400 ppm warns, above 4,000 it is refused (own guard; 9 CFR prints 2 lb to 100 gal)."""
    weak_pump = {**PUMPED, "pump_percent": 5}
    warned = answer_to(book, dose_of(140, method=weak_pump))

    assert "early-warning" in {caution.id for caution in warned.cautions}
    assert "guard-pickle-strength" in refusing(book, dose_of(199, method={**PUMPED, "pump_percent": 4.5}))


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

    on_skin = answer_to(book, body).figures.nitrite_on_every_basis[2]

    assert on_skin.basis == "skin_on_green_weight"
    assert on_skin.value * 120 / 160 == pytest.approx(103.125, abs=0.02)


def test_monohydrate_is_scaled(book: RuleBook) -> None:
    """550 ppm of erythorbate is 600 ppm of its monohydrate (molar masses 198.11 and 216.12, from memory)."""
    dry = dose_of(120, product=BACON, method=PUMPED, accelerator={**ERYTHORBATE, "form": "monohydrate"})
    answer = answer_to(book, dry)
    erythorbate = next(item for item in answer.weigh if item.what == "sodium_erythorbate")
    curing_salt = answer.weigh[0]

    assert erythorbate.exact_g / (curing_salt.exact_g * 0.0625) == pytest.approx(600 / 120, rel=1e-3)


WEAK = {"nitrite": {"salt": "sodium_nitrite", "percent": 0.5}}
IMPOSSIBLE = [
    ("salt_comes_with_the_cure", {"curing_salt": WEAK, "salt_percent": 2.2, "method": DRY}),
    ("no_rule_in_force", {"jurisdiction": "GB", "method": DRY}),
    ("no_rule_in_force", {"jurisdiction": "US", "on": "1999-12-22", "method": DRY}),
    ("no_rule_in_force", {"jurisdiction": "EU", "method": DRY}),
    ("not_enough_pickle", {"method": {**PUMPED, "water": {"value": 100, "unit": "g"}}}),
    ("pickle_over_saturated", {"salt_percent": 3.2}),
    ("no_room_for_water", {"salt_percent": 13}),
    ("curing_salt_too_weak", {"curing_salt": {"nitrite": {"salt": "sodium_nitrite", "percent": 0.2}}}),
    ("below_scale_step", {"meat": {"value": 10, "unit": "g"}, "method": DRY, "scale_step": {"value": 1, "unit": "g"}}),
    ("heavier_without_skin", {"product": {"kind": "bacon", "skin": "on", "skin_free": {"value": 9, "unit": "kg"}}}),
]  # fmt: skip


@pytest.mark.parametrize(("code", "changes"), IMPOSSIBLE, ids=[f"{row[0]}{n}" for n, row in enumerate(IMPOSSIBLE)])
def test_what_cannot_be_done_says_why(book: RuleBook, code: str, changes: dict[str, Any]) -> None:
    """Each reason has its code, and a sentence with the numbers."""
    with pytest.raises(Impossible) as refusal:
        answer_to(book, dose_of(150, **changes))

    assert refusal.value.code == code
    assert len(refusal.value.reason) > 20


def test_reported_and_amended_rules_pass_with_a_caution(book: RuleBook) -> None:
    """What is second-hand, or amended unread on 1 July 2025 (90 FR 27973), is said to be."""
    answer = answer_to(book, dose_of(120, product=BACON, method=PUMPED, accelerator=ERYTHORBATE))
    before = answer_to(book, dose_of(120, product=BACON, method=PUMPED, accelerator=ERYTHORBATE, on="2025-06-30"))

    assert "amendment-not-read" in {caution.id for caution in answer.cautions}
    assert "amendment-not-read" not in {caution.id for caution in before.cautions}


def test_salt_inside_other_things_counts(book: RuleBook) -> None:
    """2 percent of 4.2 kg is 84 g, of which curing salt and 40 g of stock powder at 55 percent bring their part."""
    powder = {"mass": {"value": 40, "unit": "g"}, "salt_percent": 55}
    weighed = grams(answer_to(book, dose_of(150, method=DRY, salt_percent=2, stock_powder=powder)))

    total = weighed["salt"] + weighed["curing_salt"] * 0.9375 + 22

    assert total == pytest.approx(84, abs=0.002)


def test_brief_leaves_out_the_arithmetic(book: RuleBook) -> None:
    """Brief has the same weights and findings."""
    full, brief = answer_to(book, request_for()), answer_to(book, request_for(detail="brief"))

    assert brief.steps == brief.sources == ()
    assert full.steps
    assert full.sources
    assert [item.amount for item in brief.weigh] == [item.amount for item in full.weigh]
    assert brief.findings == full.findings


def test_the_same_request_gives_the_same_bytes(book: RuleBook) -> None:
    """An answer depends on the request and the engine only."""
    first, second = answer_to(book, request_for()), answer_to(book, request_for())

    assert first.model_dump_json() == second.model_dump_json()


def test_rounding_the_salt_never_lifts_the_nitrite(book: RuleBook) -> None:
    """A salt that is rounded down leaves a lighter pickle: a curing salt a hair over a whole step loses that step."""
    body = dose_of(200, method=PUMPED, salt_percent=2, scale_step={"value": 1, "unit": "g"})
    per_water = answer_to(book, body).weigh[0].exact_g / 2000
    for steps in range(60, 100):
        water = {"value": (steps + 1e-4) / per_water, "unit": "g"}

        weighed = grams(answer_to(book, {**body, "method": {**PUMPED, "water": water}}))

        pickle = sum(weighed.values()) - weighed["meat"]
        assert weighed["curing_salt"] * 0.0625 * 0.12 / pickle * 1e6 <= 200
