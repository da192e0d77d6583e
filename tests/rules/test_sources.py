"""docs/sources.md has its line for everything that the rule data cites."""

from pathlib import Path

from service.rules.book import RuleBook
from tests.rules.source_table import caution_lines, limit_lines

PAGE = Path(__file__).parents[2] / "docs" / "sources.md"


def rows() -> list[str]:
    """The rows of the tables of limits and of warnings, without their heads."""
    tables = PAGE.read_text("utf-8").partition("## Limits")[2].splitlines()
    return [line for line in tables if line.startswith("| ") and not line.startswith(("| Citation ", "| Source "))]


def test_everything_cited_has_its_line(book: RuleBook):
    """Each citation of a limit and each source of a warning stands on the page, in order, with what rests on it."""
    assert rows() == [*limit_lines(book), *caution_lines(book)]


def test_no_cell_breaks_its_table(book: RuleBook):
    """No citation holds the bar that ends a cell."""
    cited = [dated.citation for rule in book.rules.values() for dated in rule.values]
    sources = [caution.source for caution in book.cautions.values()]

    assert not [text for text in (*cited, *sources) if "|" in text or "\n" in text]
