"""Which value stands on which day, where, and for whom."""

from datetime import date

import pytest

from service.rules.book import DayNotStated, Question, RuleBook, UnknownRule
from service.rules.checker import RuleInForce
from service.rules.vocabulary import Fact, Jurisdiction, Measure, Operator

LAST_OLD_DAY, FIRST_NEW_DAY = date(2025, 10, 8), date(2025, 10, 9)
MEASURES: frozenset[Measure] = frozenset({"nitrite", "nitrate", "label_strength"})


def applying(
    book: RuleBook, place: Jurisdiction, on: date, *facts: Fact, operator: Operator = "retail"
) -> dict[str, RuleInForce]:
    """What binds, by id, of everything that goes in or is left."""
    binding = book.binding(Question(place, on, operator, frozenset(facts), MEASURES))
    return {rule.id: rule for rule in binding.rules}


# Reg. (EU) 2023/2108: the new limits, as the ion, apply from 9 October 2025; until then Reg. (EC) 1333/2008
# Annex II as set by Reg. (EU) 1129/2011, as the sodium salt.
@pytest.mark.parametrize(
    ("id", "fact", "old", "new"),
    [
        ("eu-0831-nitrite-added", "not_heat_treated", (150, "sodium_nitrite"), (80, "nitrite_ion")),
        ("eu-0832-nitrite-added", "heat_treated", (150, "sodium_nitrite"), (80, "nitrite_ion")),
        ("eu-0832s-nitrite-added", "sterilised", (100, "sodium_nitrite"), (55, "nitrite_ion")),
        ("eu-0831-nitrate-added", "not_heat_treated", (150, "sodium_nitrate"), (90, "nitrate_ion")),
    ],
)
def test_a_limit_changes_on_its_day(book: RuleBook, id: str, fact: Fact, old: object, new: object):
    """The old number stands until the last old day, the new one from its first day, each with its substance."""
    before = applying(book, "EU", LAST_OLD_DAY, fact)[id]
    after = applying(book, "EU", FIRST_NEW_DAY, fact)[id]

    assert (before.limit, before.expressed_as) == old
    assert (after.limit, after.expressed_as) == new


def test_a_limit_begins_on_its_day(book: RuleBook):
    """Nothing of a rule binds before its first day."""
    first_day = date(2013, 6, 1)  # Reg. (EU) 1129/2011, date of application

    assert "eu-0832-nitrite-added" in applying(book, "EU", first_day, "heat_treated")
    assert "eu-0832-nitrite-added" not in applying(book, "EU", date(2013, 5, 31), "heat_treated")


def test_a_limit_ends_on_its_day(book: RuleBook):
    """A row without a successor is gone on the day it ends, and words stand in its place."""
    before = applying(book, "EU", LAST_OLD_DAY, "dry_cured_ham")
    after = applying(book, "EU", FIRST_NEW_DAY, "dry_cured_ham")

    assert {"eu-old-dryham-nitrite", "eu-old-dryham-nitrate"} <= before.keys()
    assert "eu-new-no-row" not in before
    assert after["eu-new-no-row"].bound == "statement"
    assert not any(id.startswith("eu-old") for id in after)


def test_no_two_values_stand_on_one_day(book: RuleBook):
    """On the edges of every history at most one value of a rule is in force."""
    for rule in book.rules.values():
        edges = {day for dated in rule.values for day in (dated.since, dated.until) if day}

        assert all(sum(dated.in_force(day) for dated in rule.values) <= 1 for day in edges), rule.id


def test_a_value_of_unknown_age_holds_for_any_day(book: RuleBook):
    """A rule without a first day binds on an early day as well."""
    assert "ca-nitrite-max" in applying(book, "CA", date(1970, 1, 1), "wet_cured")


def test_an_amendment_counts_from_its_day(book: RuleBook):
    """90 FR 27973 amended 9 CFR 424.22(b)(1) on 1 July 2025: from that day the row is marked."""
    facts: tuple[Fact, ...] = ("bacon_pumped", "sodium_nitrite")

    before = applying(book, "US", date(2025, 6, 30), *facts)["us-bacon-pumped-nitrite-max"]
    after = applying(book, "US", date(2025, 7, 1), *facts)["us-bacon-pumped-nitrite-max"]

    assert not before.amended
    assert after.amended


def test_bacon_is_never_under_the_limit_of_its_method(book: RuleBook):
    """9 CFR 424.22(b)(3): dry-cured bacon is held to 200 ppm, not to the 625 ppm of other dry-cured meat."""
    bound = applying(book, "US", FIRST_NEW_DAY, "bacon_dry", "sodium_nitrite")

    assert bound["us-bacon-dry-max"].limit == 200
    assert "us-nitrite-drycured-max" not in bound
    assert "us-bacon-dry-kmax" not in bound


def test_a_circumstance_adds_its_rule(book: RuleBook):
    """Bacon with its skin on is under the skin-on row as well, without it is not."""
    facts: tuple[Fact, ...] = ("bacon_pumped", "sodium_nitrite")

    assert "us-bacon-skinon-pumped" in applying(book, "US", FIRST_NEW_DAY, *facts, "skin_on")
    assert "us-bacon-skinon-pumped" not in applying(book, "US", FIRST_NEW_DAY, *facts, "skin_off")


def test_a_circumstance_lifts_a_rule(book: RuleBook):
    """The advice on nitrite and cold does not speak of shelf-stable products."""
    assert "guard-min-nitrite-any" in applying(book, "GB", FIRST_NEW_DAY, "not_heat_treated")
    assert "guard-min-nitrite-any" not in applying(book, "GB", FIRST_NEW_DAY, "not_heat_treated", "shelf_stable")


def test_a_place_with_its_own_law_is_not_told_twice(book: RuleBook):
    """Canada has a minimum of its own (CFIA, reported): the advice for places without one is not held there."""
    bound = applying(book, "CA", FIRST_NEW_DAY, "wet_cured")

    assert "ca-nitrite-min" in bound
    assert "guard-min-nitrite-any" not in bound


def test_only_what_is_asked_is_answered(book: RuleBook):
    """Asked for nitrate, nothing about nitrite binds."""
    question = Question("US", FIRST_NEW_DAY, "retail", frozenset({"dry_cured"}), frozenset({"nitrate"}))

    assert [rule.id for rule in book.binding(question).rules] == ["us-nitrate-drycured-max"]


def test_words_memory_and_guards_permit_nothing(book: RuleBook):
    """A place permits a dose by a ceiling of its own law that was read or reported, by nothing else."""
    facts: frozenset[Fact] = frozenset({"wet_cured", "not_heat_treated"})
    nitrite: frozenset[Measure] = frozenset({"nitrite"})
    places: tuple[Jurisdiction, ...] = ("US", "EU", "GB", "GB-NI", "DK", "CA", "CODEX", "AU-NZ")

    permitting = {
        place: book.binding(Question(place, FIRST_NEW_DAY, "retail", facts, nitrite)).permits(nitrite)
        for place in places
    }

    assert {place for place, permits in permitting.items() if permits} == {"US", "EU", "CA"}


def test_a_stated_label_lifts_its_guard(book: RuleBook):
    """Who states that the label says so may use a stronger curing salt; common practice, no source."""
    assert "guard-label-strength" in applying(book, "US", FIRST_NEW_DAY, "dry_cured")
    assert "guard-label-strength" not in applying(book, "US", FIRST_NEW_DAY, "dry_cured", "strength_on_label")


def test_a_rule_for_households_binds_nobody_else(book: RuleBook):
    """21 CFR 172.175(a)(3) speaks of meat cured at home."""
    assert "us-fda-homecure-nitrite" in applying(book, "US", FIRST_NEW_DAY, "wet_cured", operator="home")
    assert "us-fda-homecure-nitrite" not in applying(book, "US", FIRST_NEW_DAY, "wet_cured", operator="retail")


def test_denmark_keeps_the_union_too(book: RuleBook):
    """A Danish product is under the Danish limit and under the limit of the European Union."""
    bound = applying(book, "DK", FIRST_NEW_DAY, "heat_treated")

    assert bound["dk-default-nitrite"].limit == 60
    assert bound["eu-0832-nitrite-added"].limit == 80


@pytest.mark.parametrize("place", ["US", "EU", "GB", "GB-NI", "DK", "CA", "CODEX", "AU-NZ"])
def test_guards_hold_everywhere(book: RuleBook, place: Jurisdiction):
    """This project's own guards bind in every place; common practice, no source."""
    bound = applying(book, place, FIRST_NEW_DAY, "wet_cured", "pickle", "immersed")

    assert {
        "guard-immersion-both-readings",
        "guard-pickle-strength",
        "guard-meat-nitrite-stop",
        "guard-label-strength",
    } <= bound.keys()


def test_a_question_without_a_day_has_no_answer(book: RuleBook):
    """No day is invented."""
    with pytest.raises(DayNotStated):
        book.binding(Question("US", None, "retail", frozenset(), MEASURES))


def test_a_rule_that_is_not_held_is_named(book: RuleBook):
    """An unknown id is told back."""
    with pytest.raises(UnknownRule) as unknown:
        book.rule("us-nitrite-moon")

    assert unknown.value.id == "us-nitrite-moon"
