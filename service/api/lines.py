"""Many requests in one: a line of JSON each, answered in order, a line of JSON each.

Which calculation a line asks is found here; line_work.py answers it, stream.py reads and writes at the same time.
"""

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Any

from pydantic import ValidationError
from starlette.requests import Request
from starlette.responses import Response

from service.api.calculations import CalculationEndpoint, Kitchen
from service.api.faults import invalid_body, require_no_parameters
from service.api.line_kinds import line_of
from service.api.line_models import Line
from service.api.line_work import LineWork
from service.api.negotiation import LINES, require_acceptable, require_body
from service.api.shell import request_id
from service.api.stream import StreamReply
from service.quantities.models import Request as RequestModel


class Desk:
    """One calculation, and what a line for it looks like."""

    def __init__(self, endpoint: CalculationEndpoint) -> None:
        self.endpoint = endpoint
        self.line = line_of(endpoint.calculation)


class LinesEndpoint:
    """Answers lines for these calculations; where there is only one of them, no line need name it."""

    def __init__(self, kitchen: Kitchen, desks: Iterable[Desk], line: type[Line], own: str | None = None) -> None:
        self.desks: Mapping[str, Desk] = {desk.endpoint.calculation.name: desk for desk in desks}
        self.line = line
        self.own = own
        self.kitchen = kitchen

    async def __call__(self, request: Request) -> Response:
        require_no_parameters(request)
        require_acceptable(request, LINES)
        require_body(request, LINES)
        work = LineWork(self, request_id(request.scope))
        return StreamReply(work, media_type=LINES, idle_s=self.kitchen.line_limits.idle_s)

    def desk(self, envelope: Any) -> Desk:
        """The calculation that a line asks for."""
        name = envelope.get("calculation", self.own) if isinstance(envelope, dict) else None
        found = self.desks.get(name) if isinstance(name, str) else None
        return found or self.desks[_checked(self.line, envelope).calculation]

    def asked(self, envelope: Any, id: str | int | None, today: date) -> tuple[CalculationEndpoint, RequestModel]:
        """The calculation that a line asks for, and its checked request."""
        desk = self.desk(envelope)
        request = envelope.get("request")
        desk.endpoint.date(request, lambda: today)
        known = ("request" in envelope) + ("calculation" in envelope) + (id is not None)
        if len(envelope) == known:
            try:
                return desk.endpoint, desk.endpoint.validate(request)
            except ValidationError:
                pass  # the model of the whole line says where
        return desk.endpoint, _checked(desk.line, envelope).request  # type: ignore[return-value]


def _checked(model: type[Line], envelope: Any) -> Line:
    try:
        return model.model_validate(envelope)
    except ValidationError as error:
        raise invalid_body(error, envelope, model) from None
