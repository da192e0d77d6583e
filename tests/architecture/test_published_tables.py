"""Every setting, problem, rule and calculation has its line in docs/. A failure prints the lines to paste."""

from collections.abc import Callable

import pytest

from service.calculations.registry import CALCULATIONS
from tests.architecture.house import ROOT, listed
from tests.architecture.published_tables import (
    missing,
    problem_lines,
    rule_lines,
    setting_lines,
    silent_sections,
    stale,
)

TABLES = {"docs/settings.md": setting_lines, "docs/problems.md": problem_lines, "docs/rules.md": rule_lines}


@pytest.mark.parametrize("place", TABLES)
def test_a_table_is_complete(place: str):
    """Everything there is has its line, as it is."""
    lines = TABLES[place]()

    absent = missing((ROOT / place).read_text(), lines)

    assert lines
    assert not absent, listed(absent)


@pytest.mark.parametrize("place", TABLES)
def test_a_table_has_nothing_else(place: str):
    """What was removed or changed has no line left."""
    left = stale((ROOT / place).read_text(), TABLES[place]())

    assert not left, listed(left)


def test_every_calculation_has_its_section():
    """What each registered calculation is for is told in docs/calculations.md."""
    absent = silent_sections((ROOT / "docs/calculations.md").read_text(), [one.name for one in CALCULATIONS])

    assert not absent, listed(absent)


@pytest.mark.parametrize("lines", TABLES.values(), ids=TABLES)
def test_a_missing_and_a_changed_line_are_found(lines: Callable[[], list[str]]):
    """A table without its last line, and one with another default, value or text, are told apart from the right one."""
    *most, last = lines()

    changed = "\n".join([*most, last.replace(" |", " or so |", 1)])

    assert missing("\n".join([*most, last]), lines()) == []
    assert missing(changed, lines()) == [last]
    assert len(stale(changed, lines())) == 1


def test_a_missing_and_an_empty_section_are_found():
    """A calculation without a heading of its own, or with nothing below it, is named."""
    document = "# All\n\n## curing/dose\n\nWhat to weigh.\n\n## curing/time\n\n## curing/soak-more\nText.\n"

    assert silent_sections(document, ["curing/dose", "curing/time", "curing/soak"]) == [
        "## curing/time",
        "## curing/soak",
    ]
