"""What a reader of the rule book is told."""

from datetime import date

import pytest
from pydantic import TypeAdapter

from service.rules.book import RuleBook, UnknownRule
from service.rules.listing import DatedLimit, RuleDetail, RuleList, describe_rule, list_rules

LAST_OLD_DAY, FIRST_NEW_DAY = date(2025, 10, 8), date(2025, 10, 9)


def test_a_rule_tells_what_stands_on_the_day(book: RuleBook):
    """Reg. (EU) 2023/2108: 80 mg/kg of the ion from 9 October 2025, 150 mg/kg of the salt before."""
    before = describe_rule(book, "eu-0832-nitrite-added", LAST_OLD_DAY).in_force
    after = describe_rule(book, "eu-0832-nitrite-added", FIRST_NEW_DAY).in_force

    assert before is not None
    assert after is not None
    assert (before.value, before.expressed_as) == (150, "sodium_nitrite")
    assert (after.value, after.expressed_as) == (80, "nitrite_ion")


def test_a_rule_tells_its_history(book: RuleBook):
    """The history is told oldest first, the same on any day, each value with its source."""
    early = describe_rule(book, "eu-0832-nitrite-added", LAST_OLD_DAY)
    late = describe_rule(book, "eu-0832-nitrite-added", FIRST_NEW_DAY)

    assert early.history == late.history
    assert [dated.since for dated in late.history] == [date(2013, 6, 1), FIRST_NEW_DAY]
    assert all("1333/2008" in dated.citation for dated in late.history)


def test_a_rule_that_is_over_has_nothing_in_force(book: RuleBook):
    """On a day on which no value stands there is none."""
    assert describe_rule(book, "eu-old-dryham-nitrite", FIRST_NEW_DAY).in_force is None
    assert describe_rule(book, "eu-old-dryham-nitrite", LAST_OLD_DAY).in_force is not None


def test_a_rule_that_is_not_held_is_not_described(book: RuleBook):
    """An unknown id is an error, not an empty answer."""
    with pytest.raises(UnknownRule):
        describe_rule(book, "us-nitrite-moon", FIRST_NEW_DAY)


def test_without_a_question_every_rule_is_listed(book: RuleBook):
    """The list of everything is the book, in its order, with the engine that answered."""
    everything = list_rules(book, on=FIRST_NEW_DAY)

    assert [item.id for item in everything.items] == list(book.rules)
    assert everything.engine == book.engine


def test_a_place_is_told_what_binds_it(book: RuleBook):
    """Denmark is told its own rules, those of the European Union and the guards; not those of Canada."""
    found = list_rules(book, jurisdiction="DK", on=FIRST_NEW_DAY).items

    assert {item.jurisdiction for item in found} == {"DK", "EU", "ANY"}
    assert {"dk-default-nitrite", "eu-0832-nitrite-added"} <= {item.id for item in found}


def test_a_place_is_not_told_what_is_not_held_there(book: RuleBook):
    """The advice for places without a minimum is listed for Great Britain, not for Canada, which has one."""
    british = list_rules(book, jurisdiction="GB", on=FIRST_NEW_DAY).items
    canadian = list_rules(book, jurisdiction="CA", on=FIRST_NEW_DAY).items

    assert "guard-min-nitrite-any" in {item.id for item in british}
    assert "guard-min-nitrite-any" not in {item.id for item in canadian}


def test_a_measure_narrows_the_list(book: RuleBook):
    """Asked for nitrate in the United States, only nitrate is told."""
    found = list_rules(book, jurisdiction="US", measure="nitrate", on=FIRST_NEW_DAY).items

    assert {item.measure for item in found} == {"nitrate"}
    assert {item.jurisdiction for item in found} == {"US"}
    assert "us-nitrate-bacon-max" in {item.id for item in found}


def test_what_is_told_keeps_its_schema(book: RuleBook):
    """Every rule, written as JSON, is read back as the same answer."""
    told = list_rules(book, on=FIRST_NEW_DAY)

    again = TypeAdapter(RuleList).validate_json(told.model_dump_json())

    assert again == told


@pytest.mark.parametrize("answer", [DatedLimit, RuleDetail, RuleList])
def test_every_field_is_described(answer: type[DatedLimit | RuleDetail | RuleList]):
    """Each field of the answers says what it means."""
    assert [name for name, field in answer.model_fields.items() if not field.description] == []
