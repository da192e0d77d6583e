"""The OpenAPI document: what is committed is what the service does."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from openapi_spec_validator import validate
from starlette.testclient import TestClient

from service.api.document import written
from service.api.problems import KINDS
from service.app import Pellicle, create_app, from_environment
from service.rules.book import RuleBook
from service.settings import Settings

COMMITTED = Path(__file__).parents[2] / "openapi" / "openapi.json"
DOCUMENT = json.loads(COMMITTED.read_bytes())
PICTURES = {"image/svg+xml", "image/png", "text/calendar"}


@pytest.fixture(scope="module")
def real(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A caller of the application as it is shipped."""
    database = f"sqlite:///{tmp_path_factory.mktemp('store')}/kitchen.sqlite3"
    with pytest.MonkeyPatch.context() as environment:
        environment.setenv("PELLICLE_DATABASE_URL", database)
        environment.setenv("PELLICLE_LOG", "off")
        with TestClient(from_environment()) as caller:
            yield caller


def operations() -> Iterator[tuple[str, str, dict[str, Any]]]:
    """Method, path and description of every operation."""
    for path, item in DOCUMENT["paths"].items():
        for method, operation in item.items():
            yield method.upper(), path, operation


def examples() -> Iterator[tuple[str, str, dict[str, Any], str]]:
    """Every example that is to be answered in JSON or lines of it, by name."""
    for method, path, operation in operations():
        if not is_picture(operation):
            ((_, told),) = operation["responses"]["200"]["content"].items()
            yield from ((method, path, operation, name) for name in told.get("examples", {}))


def is_picture(operation: dict[str, Any]) -> bool:
    """Whether the answer is a chart or a calendar."""
    return bool(operation["responses"]["200"]["content"].keys() <= PICTURES)


def pictures() -> Iterator[tuple[str, str, Any]]:
    """Path, media type and body of every example that is to be answered in another form."""
    for _, path, operation in operations():
        if is_picture(operation):
            shown = operation["requestBody"]["content"]["application/json"]["examples"].values()
            forms = operation["responses"]["200"]["content"]
            yield from ((path, media_type, example["value"]) for example in shown for media_type in forms)


def without_engine(answer: Any) -> Any:
    """An answer, or lines of answers, but for what computed it and the name of the request."""
    if isinstance(answer, str):
        return [without_engine(json.loads(line)) for line in answer.splitlines()]
    if not isinstance(answer, dict):
        return answer
    inside = ("answer", "problem", "summary")
    kept = {key: value for key, value in answer.items() if key not in ("engine", "instance")}
    return {key: without_engine(value) if key in inside else value for key, value in kept.items()}


def objects(node: Any, way: str = "#") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every object in the document that describes properties, with its place."""
    if isinstance(node, dict):
        if isinstance(node.get("properties"), dict):
            yield way, node
        for key, inside in node.items():
            yield from objects(inside, f"{way}/{key}")


def test_the_committed_document_is_the_application_s(real: TestClient):
    """Byte for byte. After a change: pellicle openapi --write openapi/openapi.json, and read the difference."""
    assert isinstance(real.app, Pellicle)
    assert written(real.app.openapi()) == COMMITTED.read_bytes()


def test_the_committed_document_is_served(real: TestClient):
    """What is served is what was read by whoever committed it."""
    assert real.get("/openapi.json").content == COMMITTED.read_bytes()


def test_the_document_is_valid():
    """OpenAPI 3.1, judged by openapi-spec-validator."""
    assert DOCUMENT["openapi"].startswith("3.1.")
    validate(DOCUMENT)


@pytest.mark.parametrize(("method", "path", "operation", "name"), list(examples()))
def test_every_example_gives_the_documented_answer(
    real: TestClient, method: str, path: str, operation: dict[str, Any], name: str
):
    """An example is executed as it stands and answers what stands beside it."""
    parameters = {one["name"]: one.get("example") for one in operation.get("parameters", ()) if "example" in one}
    asked = {key: value for key, value in parameters.items() if f"{{{key}}}" not in path}
    ((media_type, told),) = operation["responses"]["200"]["content"].items()
    sent = operation["requestBody"]["content"][media_type]["examples"][name]["value"] if method == "POST" else None
    body = sent if isinstance(sent, str) or sent is None else json.dumps(sent)

    headers = {"Content-Type": media_type} if body else {}
    response = real.request(method, path.format(**parameters), params=asked or None, content=body, headers=headers)

    documented = told["examples"][name]["value"]
    assert response.status_code == 200, response.text
    answer = response.text if isinstance(documented, str) else response.json()
    assert without_engine(answer) == without_engine(documented)


@pytest.mark.parametrize(("path", "media_type", "body"), list(pictures()))
def test_every_example_of_a_picture_gets_one(real: TestClient, path: str, media_type: str, body: Any):
    """In each of the forms that are documented; what is in them, tests/exports holds."""
    response = real.post(path, json=body, headers={"accept": media_type})

    assert response.status_code == 200, response.text
    assert response.headers["content-type"].partition(";")[0] == media_type


def test_every_operation_has_an_example():
    """Nothing is published that was not shown to work."""
    shown = {path for _, path, _, _ in examples()} | {path for path, _, _ in pictures()}

    assert shown == DOCUMENT["paths"].keys()


def test_every_calculation_is_published(real: TestClient):
    """Each declaration is an operation under its own name."""
    from service.calculations.registry import CALCULATIONS

    published = {operation["operationId"]: path for _, path, operation in operations()}

    assert all(published[one.operation_id] == f"/v1/{one.name}" for one in CALCULATIONS)
    assert all(published[f"{one.operation_id}_lines"] == f"/v1/{one.name}/lines" for one in CALCULATIONS)
    charts = {f"{one.operation_id}_chart" for one in CALCULATIONS if one.drawing}
    calendars = {f"{one.operation_id}_calendar" for one in CALCULATIONS if one.schedule}
    assert charts | calendars == {id for id in published if id.endswith(("_chart", "_calendar"))}


def test_every_response_is_documented_with_its_content():
    """No default response; problems by reference; each names its request."""
    statuses = {str(kind.status) for kind in KINDS.values()} | {"200", "304"}
    for _, path, operation in operations():
        assert operation["responses"].keys() <= statuses, path
        for status, response in operation["responses"].items():
            shared = DOCUMENT["components"]["responses"].get(response.get("$ref", "").rpartition("/")[2])
            assert (shared is not None) is (status not in {"200", "304"})
            assert "X-Request-ID" in (shared or response)["headers"]


def test_problems_are_shown_as_they_are():
    """The example of each problem has the type, title and status of the table."""
    for response in DOCUMENT["components"]["responses"].values():
        for slug, example in response["content"]["application/problem+json"]["examples"].items():
            assert example["value"]["type"] == KINDS[slug].type
            assert example["value"]["status"] == KINDS[slug].status
            assert example["value"]["title"] == KINDS[slug].title


def test_every_property_is_described():
    """A reader needs no other page to know what a field means."""
    silent = [
        f"{way}/{name}"
        for way, schema in objects(DOCUMENT["components"]["schemas"])
        for name, described in schema["properties"].items()
        if not described.get("description")
    ]

    assert silent == []


def test_requests_are_closed_and_nothing_is_titled():
    """Unknown fields are declined, and the document says so; titles would only repeat names."""
    bodies = [operation["requestBody"] for _, _, operation in operations() if "requestBody" in operation]
    schemas = [told["schema"] for body in bodies for told in body["content"].values()]
    names = [schema.get("contentSchema", schema)["$ref"].rpartition("/")[2] for schema in schemas]

    assert all(DOCUMENT["components"]["schemas"][name]["additionalProperties"] is False for name in names)
    assert not any(isinstance(schema.get("title"), str) for _, schema in objects(DOCUMENT["components"]["schemas"]))


def test_a_bound_is_published_in_standard_words(book: RuleBook):
    """A bound on a field that may be absent is a minimum or a maximum, as JSON Schema (2020-12) has it."""
    app = create_app(Settings(log="off"), book)
    found = json.dumps(app.openapi()["components"]["schemas"])

    assert not any(f'"{word}":' in found for word in ("ge", "le", "gt", "lt"))
