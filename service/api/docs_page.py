"""The document itself, and the pages for people that are made of it. All of it comes from here."""

import asyncio
from functools import cache
from importlib.resources import files
from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response

from service.api.faults import require_no_parameters
from service.api.pages import Page, answer_page
from service.api.problems import Problem
from service.api.routes import OperationRoute

ASSETS = {
    "swagger-ui-bundle.js": "text/javascript; charset=utf-8",
    "swagger-ui.css": "text/css; charset=utf-8",
    "docs.js": "text/javascript; charset=utf-8",
}
CONTENT_SECURITY_POLICY = "default-src 'self'; img-src 'self' data:; base-uri 'none'; frame-ancestors 'none'"


def committed_document() -> bytes:
    """The OpenAPI document as it was committed: beside the package when installed, above it in a working tree."""
    packaged = files("service") / "openapi" / "openapi.json"
    if packaged.is_file():
        return packaged.read_bytes()
    return (Path(__file__).parents[2] / "openapi" / "openapi.json").read_bytes()


@cache
def _document_page() -> Page:
    return Page(committed_document())


@cache
def _asset_page(name: str) -> Page:
    body = (files("service.api") / "assets" / name).read_bytes()
    return Page(body, ASSETS.get(name, "text/html; charset=utf-8"))


async def _answer_document(request: Request) -> Response:
    require_no_parameters(request)
    return answer_page(request, _document_page())


async def _answer_docs(request: Request) -> Response:
    response = answer_page(request, _asset_page("docs.html"))
    response.headers["content-security-policy"] = CONTENT_SECURITY_POLICY
    return response


async def _answer_asset(request: Request) -> Response:
    name = request.path_params["name"]
    if name not in ASSETS:
        raise Problem("not-found", "Nothing goes by this path.")
    # Compressing the largest of them takes long enough to be felt by others.
    return await asyncio.to_thread(answer_page, request, _asset_page(name))


def undocumented_routes() -> tuple[OperationRoute, ...]:
    """The document itself, and pages for people."""
    return (
        OperationRoute("/openapi.json", "GET", _answer_document, "openapi"),
        OperationRoute("/docs", "GET", _answer_docs, "docs"),
        OperationRoute("/docs/{name}", "GET", _answer_asset, "docs_asset"),
    )
