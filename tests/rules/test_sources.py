"""docs/sources.md has its line for everything that the rule data cites."""

from pathlib import Path

from service.rules.book import RuleBook
from tests.rules.source_table import TABLES

PAGE = Path(__file__).parents[2] / "docs" / "sources.md"


def rows() -> list[str]:
    """The rows of the tables of limits, warnings, kitchen measures, cuts and labels, without their heads."""
    tables = PAGE.read_text("utf-8").partition("## Limits")[2].splitlines()
    return [line for line in tables if line.startswith("| ") and not line.startswith(("| Citation ", "| Source "))]


def test_everything_cited_has_its_line(book: RuleBook):
    """Each source of a limit, a warning, a measure, a cut, a yield and a label stands there, in order, with its ids."""
    assert rows() == [line for lines in TABLES for line in lines(book)]


def test_no_cell_breaks_its_table(book: RuleBook):
    """No citation holds the bar that ends a cell."""
    cited = [dated.citation for rule in book.rules.values() for dated in rule.values]
    sources = [caution.source for caution in book.cautions.values()]

    measured = [each.source for one in book.ingredients.values() for each in one.readings]

    cut = [each.source for one in book.cuts.values() for each in one.readings]
    usual = [one.source for one in book.usual_yields.values()]
    labels = [one.source for one in book.substances.values()] + [one.citation for one in book.label_rules.values()]

    assert not [text for text in (*cited, *sources, *measured, *cut, *usual, *labels) if "|" in text or "\n" in text]
