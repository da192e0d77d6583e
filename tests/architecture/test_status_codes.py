"""Only service/api/problems.py knows which status an error has."""

import ast
import re
from http import HTTPStatus

import pytest

from tests.architecture.house import Source, listed, sources

TABLE = "service/api/problems.py"
SUCCESS = {200, 201, 204, 304}
BOUNDS = {"ge", "gt", "le", "lt", "max_length"}
ERRORS = {status.value for status in HTTPStatus if status >= HTTPStatus.OK} - SUCCESS


def statuses(source: Source) -> list[str]:
    """Where a status is written that belongs in the table."""
    speaks_http = source.place.startswith(("service/api/", "service/app.py"))
    bounds = {id(node.value) for node in ast.walk(source.tree) if isinstance(node, ast.keyword) and node.arg in BOUNDS}
    return [
        source.at(node, ast.unparse(node))
        for node in ast.walk(source.tree)
        if isinstance(node, ast.expr | ast.alias | ast.keyword) and id(node) not in bounds
        if _named(node) or (speaks_http and _written(node))
    ]


def _written(node: ast.AST) -> bool:
    """A number, or text such as "404" or "4XX", that is the status of an error."""
    value = node.value if isinstance(node, ast.Constant) else None
    if isinstance(value, str):
        return re.fullmatch(r"[45]XX", value) is not None or (value.isdecimal() and int(value) in ERRORS)
    return type(value) is int and value in ERRORS


def _named(node: ast.AST) -> bool:
    """HTTPStatus, starlette's names, or a status given by keyword."""
    if isinstance(node, ast.keyword):
        return node.arg == "status_code" and isinstance(node.value, ast.Constant) and node.value.value not in SUCCESS
    name = node.name if isinstance(node, ast.alias) else getattr(node, "attr", getattr(node, "id", ""))
    return name == "HTTPStatus" or bool(re.fullmatch(r"HTTP_[2345]\d\d_\w+", name))


def test_statuses_are_written_in_one_place():
    """Outside the table of problems nobody knows a status but 200, 201, 204 and 304."""
    elsewhere = [source for source in sources("service") if source.place != TABLE]

    faults = [fault for source in elsewhere for fault in statuses(source)]

    assert not faults, listed(faults)


@pytest.mark.parametrize(
    ("place", "planted"),
    [
        ("service/api/curing.py", "answer(422)"),
        ("service/api/curing.py", "responses = {'404': problem}"),
        ("service/api/curing.py", "responses = {'4XX': problem}"),
        ("service/app.py", "answer(status=503)"),
        ("service/records/lots.py", "from http import HTTPStatus"),
        ("service/records/lots.py", "status = http.HTTPStatus.CONFLICT"),
        ("service/exports/epcis.py", "raise Refused(status_code=409)"),
        ("service/api/curing.py", "raise Refused(status.HTTP_409_CONFLICT)"),
    ],
)
def test_a_status_elsewhere_is_found(place: str, planted: str):
    """Each way to write the status of an error is named."""
    assert statuses(Source(place, planted)) != []


@pytest.mark.parametrize(
    ("place", "lawful"),
    [
        ("service/api/curing.py", "answer(201)\nanswer(status_code=204)\nlimit = 1000\nField(ge=400, le=500)"),
        ("service/calculations/curing/dose.py", "limit_ppm = 200.0\nweight_g = 500"),
    ],
)
def test_success_and_figures_are_no_statuses(place: str, lawful: str):
    """A route may say that it created something, and 500 g of meat is no server error."""
    assert statuses(Source(place, lawful)) == []
