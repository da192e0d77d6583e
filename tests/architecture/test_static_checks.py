"""The type checker, the linter and the formatter have nothing to say."""

import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

import pytest

from tests.architecture.house import ROOT

CONFIGURATION = str(ROOT / "pyproject.toml")
COMMANDS = {
    "mypy --strict service": ("mypy", "--strict", "--config-file", CONFIGURATION, "service"),
    "mypy tests": ("mypy", "--config-file", CONFIGURATION, "tests"),
    "ruff check": ("ruff", "check", "--no-cache", "--config", CONFIGURATION),
    "ruff format": ("ruff", "format", "--check", "--no-cache", "--config", CONFIGURATION),
}
PLANTED = {
    "mypy --strict service": ("service/salt.py", "def salt_g(meat_g):\n    return meat_g\n", "no-untyped-def"),
    "mypy tests": ("tests/salt.py", 'SALT_G: float = "much"\n', "assignment"),
    "ruff check": ("service/salt.py", "from math import *\n", "F403"),
    "ruff format": ("service/salt.py", "SALT  =  'much'\n", "would be reformatted"),
}


def complaint(name: str, root: Path) -> str:
    """What the tool prints about the tree at this place; empty when it is content."""
    tool, *options = COMMANDS[name]
    if find_spec(tool) is None:
        pytest.skip(f"{tool} is not installed")
    result = subprocess.run(
        [sys.executable, "-m", tool, *options], cwd=root, capture_output=True, text=True, check=False
    )
    return result.stdout + result.stderr if result.returncode else ""


@pytest.mark.slow
@pytest.mark.parametrize("name", COMMANDS)
def test_a_tool_is_content(name: str):
    """Nothing is left to complain about in the whole tree."""
    found = complaint(name, ROOT)

    assert not found, found


@pytest.mark.slow
@pytest.mark.parametrize("name", COMMANDS)
def test_a_tool_finds_a_planted_mistake(name: str, tmp_path: Path):
    """The same command with the same configuration complains about a tree with one mistake."""
    place, text, expected = PLANTED[name]
    (tmp_path / place).parent.mkdir()

    (tmp_path / place).write_text(text)

    assert expected in complaint(name, tmp_path)
