"""The published document in the eyes of two linters that other people use."""

import json
import os
import re
import subprocess
from pathlib import Path

import pytest

from tests.architecture.house import ROOT

DOCUMENT = ROOT / "openapi/openapi.json"
LINTERS = Path(os.environ.get("PELLICLE_LINTERS", ROOT / ".ci/node_modules/.bin"))
QUIET = {"REDOCLY_TELEMETRY": "off", "REDOCLY_SUPPRESS_UPDATE_NOTICE": "true", "NO_COLOR": "1"}
COMMANDS = {
    "spectral": ["lint", "--ruleset", str(ROOT / ".ci/spectral.yaml"), "--fail-severity", "hint"],
    "redocly": ["lint", "--config", str(ROOT / ".ci/redocly.yaml")],
}
PLANTED = {
    "spectral": {"openapi": "3.1.0", "info": {"title": "Brine", "version": "1"}, "paths": {}},
    "redocly": {"openapi": "3.1.0", "info": {"title": "Brine", "version": "1"}, "paths": {"/brine": {"get": {}}}},
}


def complaint(linter: str, document: Path) -> str:
    """What the linter prints about a document; empty when it has neither errors nor warnings."""
    program = LINTERS / linter
    if not program.exists():
        pytest.skip(f"{linter} is not installed: npm ci --prefix .ci")
    result = subprocess.run(
        [program, *COMMANDS[linter], document], env={**os.environ, **QUIET}, capture_output=True, text=True, check=False
    )
    printed = result.stdout + result.stderr
    return printed if result.returncode or re.search(r"\b[1-9][0-9]* warning", printed) else ""


@pytest.mark.slow
@pytest.mark.parametrize("linter", COMMANDS)
def test_the_published_document_is_clean(linter: str):
    """Neither linter finds an error or a warning."""
    assert DOCUMENT.exists()

    found = complaint(linter, DOCUMENT)

    assert not found, found


@pytest.mark.slow
@pytest.mark.parametrize("linter", COMMANDS)
def test_a_poor_document_is_found(linter: str, tmp_path: Path):
    """The same command complains about a document with mistakes."""
    poor = tmp_path / "openapi.json"

    poor.write_text(json.dumps(PLANTED[linter]))

    assert complaint(linter, poor) != ""
