"""The table of ingredients over HTTP."""

import pytest
from starlette.testclient import TestClient

from service.rules.book import RuleBook
from tests.api.problem_checks import codes_of, problem_of


def entry(client: TestClient, id: str) -> dict:
    """One ingredient of the list."""
    return next(one for one in client.get("/v1/ingredients").json()["items"] if one["id"] == id)


def test_every_ingredient_is_listed_with_its_readings(client: TestClient, book: RuleBook):
    """All there are, each figure with source and evidence."""
    told = client.get("/v1/ingredients").json()

    assert [one["id"] for one in told["items"]] == list(book.ingredients)
    assert told["engine"]["rules"] == book.engine.rules
    assert all(reading["source"] and reading["evidence"] for one in told["items"] for reading in one["readings"])


def test_table_salt_is_told_by_spoon_and_cup(client: TestClient):
    """USDA SR28, 02047: 6 g, 18 g and 292 g; the heaviest cup that was weighed in public discussion is 304 g."""
    salt = entry(client, "table-salt")

    assert [salt[measure]["typical"] for measure in ("teaspoon", "tablespoon", "cup")] == [6, 18, 292]
    assert (salt["cup"]["high"], salt["cup"]["unit"], salt["piece"]) == (304, "g", None)
    assert salt["sodium"]["salt_equivalent_percent"] == pytest.approx(98.5, abs=0.1)


def test_curing_salt_is_listed_without_a_weight(client: TestClient):
    """Its spoons are a band; no measure of it has a typical weight."""
    told = client.get("/v1/ingredients?kind=curing_salt").json()["items"]

    assert {one["kind"] for one in told} == {"curing_salt"}
    assert {one[measure]["typical"] for one in told for measure in ("teaspoon", "tablespoon", "cup")} == {None}


def test_a_leaf_is_told_by_the_piece(client: TestClient):
    """No spoon of whole bay leaves; one leaf is 0.2 to 0.5 g (labels)."""
    leaf = entry(client, "bay-leaf")

    assert (leaf["teaspoon"], leaf["tablespoon"], leaf["cup"], leaf["readings"]) == (None, None, None, [])
    assert (leaf["piece"]["unit"], leaf["piece"]["weight"]["low"], leaf["piece"]["weight"]["high"]) == (
        "leaf",
        0.2,
        0.5,
    )


@pytest.mark.parametrize(
    ("query", "parameter", "code"),
    [("kind=salty", "kind", "value_not_allowed"), ("id=water", "id", "unknown_field")],
)
def test_a_kind_outside_the_list_is_pointed_at(client: TestClient, query: str, parameter: str, code: str):
    """A kind that there is not, and a parameter that there is not, are a 422 that names them."""
    problem = problem_of(client.get(f"/v1/ingredients?{query}"))

    assert problem["status"] == 422
    assert problem["errors"][0]["parameter"] == parameter
    assert codes_of(problem) == [code]
