"""Charts and calendars in the OpenAPI document, and its examples executed."""

import json
from collections.abc import Iterator
from typing import Any

import pytest
from openapi_spec_validator import validate
from starlette.testclient import TestClient

from service.app import create_app
from service.rules.book import RuleBook
from service.settings import Settings
from tests.api.picture_toys import PICTURE_TOYS

TOLD_AS = {
    "toys_rest_chart": {"image/svg+xml", "image/png"},
    "toys_look_chart": {"image/svg+xml", "image/png"},
    "toys_rest_calendar": {"text/calendar"},
    "toys_wait_calendar": {"text/calendar"},
}
FIRST_BYTES = {"image/svg+xml": b"<?xml", "image/png": b"\x89PNG\r\n", "text/calendar": b"BEGIN:VCALENDAR\r\n"}


@pytest.fixture(scope="module")
def caller(book: RuleBook) -> Iterator[TestClient]:
    """A caller of the service around the toys."""
    with TestClient(create_app(Settings(log="off"), book, PICTURE_TOYS)) as client:
        yield client


@pytest.fixture(scope="module")
def operations(caller: TestClient) -> dict[str, tuple[str, dict[str, Any]]]:
    """Path and description of each operation that is told in another form."""
    app: Any = caller.app
    document = json.loads(json.dumps(app.openapi()))
    validate(document)
    published = {
        one["post"]["operationId"]: (path, one["post"]) for path, one in document["paths"].items() if "post" in one
    }
    return {id: told for id, told in published.items() if id.endswith(("_chart", "_calendar"))}


def test_each_form_is_an_operation_of_its_own(operations: dict[str, tuple[str, dict[str, Any]]]):
    """With its media types, which are no JSON, and the request of the calculation."""
    told = {id: set(operation["responses"]["200"]["content"]) for id, (_, operation) in operations.items()}

    assert told == TOLD_AS
    for id, (_, operation) in operations.items():
        (asked,) = operation["requestBody"]["content"].values()
        assert asked["schema"] == {"$ref": "#/components/schemas/RestRequest"}
        assert operation["summary"].endswith("as a " + id.rpartition("_")[2])


def test_dots_are_bytes_and_the_rest_is_text(operations: dict[str, tuple[str, dict[str, Any]]]):
    """So that a client made of the document hands out the one as bytes and the other as text."""
    chart, events = (
        operations[id][1]["responses"]["200"]["content"] for id in ("toys_rest_chart", "toys_rest_calendar")
    )

    assert chart["image/png"]["schema"] == {"type": "string", "format": "binary"}
    assert chart["image/svg+xml"]["schema"] == {"type": "string", "contentMediaType": "image/svg+xml"}
    assert events["text/calendar"]["schema"] == {"type": "string", "contentMediaType": "text/calendar"}


def test_they_may_be_refused_and_have_to_wait(operations: dict[str, tuple[str, dict[str, Any]]]):
    """What a long calculation may answer is documented for each of them."""
    for _, operation in operations.values():
        assert {"400", "406", "413", "415", "422", "500", "503"} <= operation["responses"].keys()


@pytest.mark.parametrize(("id", "media_type"), [(id, one) for id, forms in TOLD_AS.items() for one in sorted(forms)])
def test_every_example_is_answered(
    caller: TestClient, operations: dict[str, tuple[str, dict[str, Any]]], id: str, media_type: str
):
    """Each example of a request gets a picture or a calendar; those that would be refused are not shown."""
    path, operation = operations[id]
    examples = operation["requestBody"]["content"]["application/json"]["examples"]

    assert list(examples) == ["shank"]
    response = caller.post(path, json=examples["shank"]["value"], headers={"accept": media_type})
    assert response.status_code == 200, response.text
    assert response.headers["content-type"].partition(";")[0] == media_type
    assert response.content.startswith(FIRST_BYTES[media_type])
