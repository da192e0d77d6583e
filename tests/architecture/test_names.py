"""Files are named for the kitchen or for what they are, and the top level is closed."""

import re
from pathlib import Path, PurePosixPath

import pytest

from tests.architecture.house import files, listed

SAY_NOTHING = {"common", "core", "helper", "helpers", "manager", "managers", "misc", "util", "utils"}
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "service", "migrations", "tests", "openapi", "deploy", "docs"}


def names_that_say_nothing(places: tuple[str, ...]) -> list[str]:
    """The files with a word in their path that would hold anything."""
    return [place for place in places if SAY_NOTHING & set(re.split(r"[/._-]", place.lower()))]


def strangers(places: tuple[str, ...]) -> set[str]:
    """What lies on the top level without a place there."""
    tops = {PurePosixPath(place).parts[0] for place in places}
    return {top for top in tops if top not in TOP and not top.startswith(".")}


def test_every_name_says_what_it_is():
    """No file or folder is called utils, helpers, common, core, manager or misc."""
    faults = names_that_say_nothing(files())

    assert not faults, listed(faults)


def test_the_top_level_is_closed():
    """The top level holds what the map of the project lists, and dot-files."""
    assert strangers(files()) == set()


@pytest.mark.parametrize(
    "place", ["service/utils/salt.py", "service/brine_manager.py", "tests/core.py", "docs/misc.md"]
)
def test_a_name_that_says_nothing_is_found(place: str):
    """A banned word is found as a folder, as a file and as a part of a name."""
    assert names_that_say_nothing((place, "service/coreopsis.py")) == [place]


def test_a_stranger_on_the_top_level_is_found(tmp_path: Path):
    """A new folder on the top level is named; what .gitignore lists is not."""
    (tmp_path / ".gitignore").write_text("build/\n*.sqlite3*\n")
    for place in ("scripts/run.sh", "build/pellicle.whl", "book.sqlite3-wal", "service/app.py", ".ci/run"):
        (tmp_path / place).parent.mkdir(exist_ok=True)
        (tmp_path / place).touch()

    assert strangers(files(tmp_path)) == {"scripts"}
