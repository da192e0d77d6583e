"""The table of problems, as published."""

import pytest
from starlette.testclient import TestClient

from service.api.fault_sentences import FIELD_CODES
from service.api.problems import KINDS
from tests.api.problem_checks import problem_of
from tests.api.test_hostile_bodies import UNREADABLE


@pytest.mark.parametrize("slug", KINDS)
def test_every_kind_of_problem_is_described(client: TestClient, slug: str):
    """The type of a problem leads to its meaning and to what can be done."""
    described = client.get(KINDS[slug].type).json()

    assert described["type"] == f"/problems/{slug}"
    assert described["status"] == KINDS[slug].status
    assert len(described["meaning"]) > 20
    assert len(described["remedy"]) > 10


def test_another_kind_is_not_found(client: TestClient):
    """There are no other kinds."""
    assert problem_of(client.get("/problems/full-moon"))["status"] == 404


def test_every_code_of_unreadable_json_is_described(client: TestClient):
    """Each code that a hostile body is declined with stands in the description, and no code stands there in vain."""
    described = {code["code"] for code in client.get("/problems/unreadable-json").json()["codes"]}

    assert described == {code for _, code in UNREADABLE}


def test_every_code_of_a_field_is_described(client: TestClient):
    """The codes of errors are published with the problem they come with."""
    described = {code["code"] for code in client.get("/problems/invalid-request").json()["codes"]}

    assert described == FIELD_CODES.keys()


def test_slugs_and_codes_keep_their_spelling():
    """Slugs are parts of paths and have hyphens; codes are words in a body and have underscores."""
    assert all("_" not in slug and slug.islower() for slug in KINDS)
    assert all("-" not in code and code.islower() for code in FIELD_CODES)
