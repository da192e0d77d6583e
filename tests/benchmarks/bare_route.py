"""The other side: a plain Starlette route that reads JSON, runs the same function and writes JSON, unvalidated."""

import json
from pathlib import Path

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from service.calculations.curing.dose import DoseRequest, dose
from service.quantities.models import written
from service.rules.loader import load_book

EXAMPLES = Path(__file__).parents[2] / "service/calculations/curing/dose.examples.json"
BODY = {**json.loads(EXAMPLES.read_text())[0]["request"], "detail": "brief"}
BOOK = load_book("benchmark")
ASKED = DoseRequest.model_validate(BODY)


async def answer(request: Request) -> Response:
    """Reads the body, and computes the same dose from a request that was checked beforehand."""
    await request.json()
    return Response(written(dose(ASKED, BOOK)), media_type="application/json")


app = Starlette(routes=[Route("/v1/curing/dose", answer, methods=["POST"])])
