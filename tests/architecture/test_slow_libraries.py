"""Slow libraries are imported by the functions that use them: a start, and a first answer, do not wait for them."""

import subprocess
import sys

from tests.architecture.house import ROOT

SLOW = {"highspy", "matplotlib", "icalendar", "numpy", "scipy", "sqlalchemy", "PIL"}


def slow_after(statement: str) -> set[str]:
    """The slow libraries that are there after a statement in a new process."""
    program = f"import sys\n{statement}\nprint(*{SLOW!r} & sys.modules.keys())"
    return set(
        subprocess.run(
            [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, check=True
        ).stdout.split()
    )


def test_the_application_starts_without_slow_libraries():
    """Importing it, and making it with everything that it answers."""
    make = "from service.app import create_app, load_book, Settings\ncreate_app(Settings(), load_book('0'))"

    assert slow_after(make) == set()


def test_a_service_that_runs_has_loaded_what_a_first_request_would_wait_for():
    """In the background, and what draws only where something is drawn."""
    run = (
        "from starlette.testclient import TestClient\nfrom service.app import create_app, load_book, Settings\n"
        "with TestClient(create_app(Settings(log='off'), load_book('0'))): pass"
    )

    assert slow_after(run) == {"numpy", "scipy"}


def test_the_formats_are_imported_without_slow_libraries():
    """Every module that writes another format."""
    assert slow_after("import service.exports.charts, service.exports.chart_sheet, service.exports.calendars") == set()


def test_a_slow_import_is_found():
    """What is loaded in the background at the start is slow indeed."""
    loading = "from service.calculations.libraries import load_libraries\nload_libraries()"

    assert slow_after(loading) == {"highspy", "numpy", "scipy"}
