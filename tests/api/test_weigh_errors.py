"""Faults of a kitchen measure: each is pointed at where it stands, whatever the kind of measure."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from service.app import create_app
from service.rules.book import RuleBook
from service.settings import Settings
from tests.api.problem_checks import problem_of

WEIGH = "/v1/measures/weigh"
LABEL = {"nitrite": {"salt": "sodium_nitrite", "percent": 62.5}}
FAULTY: list[tuple[dict[str, Any], list[tuple[str, str]]]] = [
    (
        {"kind": "by_volume", "ingredient": 5, "volume": {"value": -1, "unit": "tsp"}, "swap_for": None},
        [("ingredient", "wrong_type"), ("volume/value", "number_out_of_range"), ("swap_for", "null_not_allowed")],
    ),
    (
        {"kind": "by_volume", "volume": {"value": 1, "unit": "spoon"}, "heaped": True},
        [("ingredient", "missing_field"), ("volume/unit", "unit_unknown"), ("heaped", "unknown_field")],
    ),
    (
        {"kind": "by_piece", "ingredient": "", "count": 0, "volume": {"value": 1, "unit": "tsp"}},
        [("ingredient", "text_too_short"), ("count", "number_out_of_range"), ("volume", "unknown_field")],
    ),
    (
        {"kind": "curing_salt_by_volume", "volume": {"value": 1}, "curing_salt": LABEL, "meat": 4},
        [("volume/unit", "missing_field"), ("curing_salt/nitrite/percent", "number_out_of_range"),
         ("meat", "wrong_type")],
    ),
]  # fmt: skip


@pytest.fixture(scope="module")
def real(book: RuleBook, tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A caller of the real calculations."""
    database: Path = tmp_path_factory.mktemp("store") / "kitchen.sqlite3"
    with TestClient(create_app(Settings(log="off", database_url=f"sqlite:///{database}"), book)) as caller:
        yield caller


@pytest.mark.parametrize(("what", "faults"), FAULTY)
def test_each_of_three_faults_has_its_own_pointer(
    real: TestClient, what: dict[str, Any], faults: list[tuple[str, str]]
):
    """None is swallowed, and each leads to the field that is wrong."""
    sent = {"what": what}

    errors = problem_of(real.post(WEIGH, json=sent), sent)["errors"]

    assert sorted((error["pointer"], error["code"]) for error in errors) == sorted(
        (f"#/what/{place}", code) for place, code in faults
    )


def test_unknown_text_is_answered_with_ids_once(real: TestClient):
    """The detail says Nearest one time, and the ids follow."""
    volume = {"value": 1, "unit": "tsp"}
    sent = {"what": {"kind": "by_volume", "ingredient": "Kosher Salt", "volume": volume}}

    problem = problem_of(real.post(WEIGH, json=sent), sent)

    assert problem["code"] == "unknown_ingredient"
    assert "Nearest: kosher-salt, " in problem["detail"]
    assert problem["detail"].lower().count("near") == 1
