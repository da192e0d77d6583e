"""The packaged rule book, and data folders to spoil."""

from collections.abc import Callable
from pathlib import Path

import pytest

from service.rules.book import RuleBook
from service.rules.loader import LISTS, load_book

DATA = Path(__file__).parents[2] / "service" / "rules" / "data"

Shelf = Callable[[dict[str, str]], Path]


@pytest.fixture(scope="session")
def book() -> RuleBook:
    """The rule book as it is packaged."""
    return load_book("0.0.0")


@pytest.fixture
def shelf(tmp_path: Path) -> Shelf:
    """Makes a data folder of one good limit, the packaged lists, and the files given by name."""

    def fill(files: dict[str, str]) -> Path:
        good = "limits/us/us-nitrite-drycured-max.yaml"
        names = (*(f"{one}.yaml" for one in LISTS), good)
        for name, text in {**{name: (DATA / name).read_text("utf-8") for name in names}, **files}.items():
            (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
            (tmp_path / name).write_text(text, "utf-8")
        return tmp_path

    return fill
