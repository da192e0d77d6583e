"""The page that measurements are written to: each table between two marks that bear its name."""

from pathlib import Path

PAGE = Path(__file__).parents[2] / "docs/performance.md"


def write_down(name: str, table: str) -> None:
    """Put a table in the place of the one of this name, and show it."""
    begin, end = f"<!-- {name}: begin -->", f"<!-- {name}: end -->"
    before, found, rest = PAGE.read_text().partition(begin)
    assert found, f"docs/performance.md has no mark for {name}"
    PAGE.write_text(f"{before}{begin}\n{table}\n{end}{rest.partition(end)[2]}")
    print(table)
