"""The import contracts in pyproject.toml: they hold, and each of them can be broken."""

import os
import re
import subprocess
import sys
import tomllib
from collections.abc import Sequence
from pathlib import Path

import pytest

from tests.architecture.house import ROOT

pytest.importorskip("importlinter")

LINT = "from importlinter.cli import lint_imports_command as lint; lint(['--no-cache', '--no-logo'])"
CONTRACTS = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
SKELETON = [
    "__init__.py", "__main__.py", "app.py", "settings.py", "access/keys.py", "api/problems.py",
    "calculations/curing/dose.py", "exports/epcis.py", "observability/metrics.py", "quantities/units.py",
    "records/lots.py", "rules/book.py", "rules/checker.py", "rules/loader.py",
]  # fmt: skip
LAWFUL = {
    "app.py": "import fastapi, starlette, uvicorn, typer\nfrom service.observability import metrics",
    "settings.py": "import pydantic_settings",
    "api/problems.py": "import fastapi, starlette\nfrom service.calculations.curing import dose",
    "access/keys.py": "import sqlalchemy\nfrom service.quantities import units",
    "records/lots.py": "import sqlalchemy, pydantic\nfrom service.access import keys",
    "exports/epcis.py": "from service.records import lots\nfrom service.calculations.curing import dose",
    "calculations/curing/dose.py": "import math, numpy, scipy, pydantic, datetime\nfrom service.rules import book",
    "rules/book.py": "import datetime\nfrom service.quantities import units",
    "rules/loader.py": "import yaml, pathlib\nfrom service.rules import book",
    "quantities/units.py": "import pint, pydantic, decimal",
}
PLANTED = [
    (
        "Each room imports only",
        "quantities/units.py",
        "from service.rules import book",
        "service.quantities.units -> service.rules.book (",
    ),
    (
        "Each room imports only",
        "rules/book.py",
        "from service.calculations.curing import dose",
        "service.rules.book -> service.calculations.curing.dose (",
    ),
    (
        "Each room imports only",
        "calculations/curing/dose.py",
        "from service.access import keys",
        "service.calculations.curing.dose -> service.access.keys (",
    ),
    (
        "Each room imports only",
        "access/keys.py",
        "from service.calculations.curing import dose",
        "service.access.keys -> service.calculations.curing.dose (",
    ),
    (
        "Each room imports only",
        "records/lots.py",
        "from service.exports import epcis",
        "service.records.lots -> service.exports.epcis (",
    ),
    (
        "Each room imports only",
        "exports/epcis.py",
        "from service.api import problems",
        "service.exports.epcis -> service.api.problems (",
    ),
    (
        "Each room imports only",
        "api/problems.py",
        "from service.observability import metrics",
        "service.api.problems -> service.observability.metrics (",
    ),
    (
        "Each room imports only",
        "api/problems.py",
        "from service import settings",
        "service.api.problems -> service.settings (",
    ),
    ("Each room imports only", "pantry/shelf.py", "", "service.pantry"),
    (
        "access builds on",
        "access/keys.py",
        "from service.rules import book",
        "service.access.keys -> service.rules.book (",
    ),
    (
        "exports sees",
        "exports/epcis.py",
        "from service.rules import book",
        "service.exports.epcis -> service.rules.book (",
    ),
    (
        "exports sees",
        "exports/epcis.py",
        "from service.access import keys",
        "service.exports.epcis -> service.access.keys (",
    ),
    (
        "observability imports no",
        "observability/metrics.py",
        "from service.quantities import units",
        "service.observability.metrics -> service.quantities.units (",
    ),
    (
        "observability imports no",
        "observability/metrics.py",
        "from service.records import lots",
        "service.observability.metrics -> service.records.lots (",
    ),
    (
        "observability is imported by",
        "__main__.py",
        "from service.observability import metrics",
        "service.__main__ -> service.observability.metrics (",
    ),
    ("HTTP is known", "calculations/curing/dose.py", "import fastapi", "service.calculations.curing.dose -> fastapi ("),
    ("HTTP is known", "records/lots.py", "import starlette", "service.records.lots -> starlette ("),
    ("HTTP is known", "settings.py", "import uvicorn", "service.settings -> uvicorn ("),
    ("The database is known", "api/problems.py", "import sqlalchemy", "service.api.problems -> sqlalchemy ("),
    ("The database is known", "exports/epcis.py", "import sqlalchemy.orm", "service.exports.epcis -> sqlalchemy ("),
    ("The database is known", "app.py", "import sqlalchemy", "service.app -> sqlalchemy ("),
    ("Every other library", "api/problems.py", "import pint", "service.api.problems -> pint ("),
    ("Every other library", "records/lots.py", "import yaml", "service.records.lots -> yaml ("),
    ("Every other library", "rules/book.py", "import numpy", "service.rules.book -> numpy ("),
    ("Formats and measuring", "exports/epcis.py", "import pydantic", "service.exports.epcis -> pydantic ("),
    (
        "What a number means",
        "calculations/curing/dose.py",
        "from os import environ",
        "service.calculations.curing.dose -> os (",
    ),
    (
        "What a number means",
        "calculations/curing/dose.py",
        "import pathlib",
        "service.calculations.curing.dose -> pathlib (",
    ),
    ("What a number means", "calculations/curing/dose.py", "import time", "service.calculations.curing.dose -> time ("),
    (
        "What a number means",
        "calculations/curing/dose.py",
        "import random",
        "service.calculations.curing.dose -> random (",
    ),
    ("What a number means", "quantities/units.py", "import urllib.request", "service.quantities.units -> urllib ("),
    ("What an authority set", "rules/checker.py", "import time", "service.rules.checker -> time ("),
]


def lint(root: Path) -> subprocess.CompletedProcess[str]:
    """Check the contracts over the tree at this place."""
    wide = {**os.environ, "COLUMNS": "200"}
    return subprocess.run([sys.executable, "-c", LINT], cwd=root, env=wide, capture_output=True, text=True, check=False)


def build(root: Path, written: Sequence[tuple[str, str]]) -> Path:
    """A service of the same rooms with these imports, and our contracts."""
    for place, line in [*((place, LAWFUL.get(place, "")) for place in SKELETON), *written]:
        module = root / "service" / place
        module.parent.mkdir(parents=True, exist_ok=True)
        for package in module.relative_to(root).parents[:-1]:
            (root / package / "__init__.py").touch()
        module.write_text(f"{module.read_text() if module.exists() else ''}{line}\n")
    (root / "pyproject.toml").write_text((ROOT / "pyproject.toml").read_text())
    return root


@pytest.fixture(scope="module")
def complaints(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """What is reported of each contract when everything forbidden was planted at once."""
    root = build(tmp_path_factory.mktemp("planted"), [(place, line) for _, place, line, _ in PLANTED])
    headed = re.split(r"\n(.+)\n-{5,}\n", lint(root).stdout.partition("Broken contracts")[2])
    return dict(zip(headed[1::2], headed[2::2], strict=True))


def test_every_import_contract_holds():
    """No room imports what it must not know."""
    result = lint(ROOT)

    assert result.returncode == 0, result.stdout + result.stderr
    assert f"Contracts: {len(CONTRACTS)} kept, 0 broken." in result.stdout


def test_a_tree_that_keeps_the_table_keeps_the_contracts(tmp_path: Path):
    """Everything that the table of rooms allows is allowed by the contracts."""
    result = lint(build(tmp_path, []))

    assert result.returncode == 0, result.stdout + result.stderr


@pytest.mark.parametrize(("contract", "place", "line", "reported"), PLANTED)
def test_a_planted_import_breaks_its_contract(
    complaints: dict[str, str], contract: str, place: str, line: str, reported: str
):
    """One import too many is reported by the contract that forbids it."""
    complaint = next(text for name, text in complaints.items() if name.startswith(contract))

    assert reported in complaint


def test_every_contract_has_been_broken_once():
    """No contract is here that no planted import breaks."""
    unbroken = [
        contract["name"]
        for contract in CONTRACTS
        if not any(contract["name"].startswith(beginning) for beginning, *_ in PLANTED)
    ]

    assert unbroken == []
