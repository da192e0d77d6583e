"""The chart of a calculation's answer, and its calendar: the same request, answered in another form.

Calculating and drawing are both done by the workers, whatever the calculation costs: a drawing takes too long for the
event loop.
"""

from collections.abc import Iterator, Mapping, Sequence
from hashlib import sha256
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from service.api.calculations import HEAVY_PROBLEMS, CalculationEndpoint, Kitchen, tag_of
from service.api.faults import require_no_parameters
from service.api.negotiation import CALENDAR, PNG, SVG, chosen, require_acceptable
from service.api.replies import reply
from service.api.routes import Example, Handler, Operation
from service.api.telling import InCalendar, Teller, in_png, in_svg
from service.calculations.declaration import AnyCalculation
from service.quantities.models import Request as RequestModel

FORMS: Mapping[str, Teller] = {SVG: in_svg, PNG: in_png}
"""The forms of a chart; the first is for those who take any."""
CONTENT_SECURITY_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
BEGINNING = "starts_at"
DETAIL = "detail"
CHART = (
    "The answer of `POST %s` to the same body, as a chart: SVG, or PNG for whoever accepts that rather. It is declined "
    "for the same reasons. The notes on the chart belong to it: pass them on with it."
)
SCHEDULE = (
    "What the answer of `POST %s` to the same body says is to be done, as a calendar (RFC 5545) with an alarm for each "
    "step. It is declined for the same reasons. Asked again with the same body, the events keep their names, so that "
    "a calendar replaces them."
)
FROM_NOW = " Without `starts_at` it begins now; state it to be able to ask again."


def chart_path(calculation: AnyCalculation) -> str | None:
    """Where its chart is asked for, if it has one."""
    return f"/v1/{calculation.name}/chart" if calculation.drawing else None


def calendar_path(calculation: AnyCalculation) -> str | None:
    """Where its calendar is asked for, if it has one."""
    return f"/v1/{calculation.name}/calendar" if calculation.schedule else None


class ChartEndpoint:
    """Answers with a picture."""

    def __init__(self, endpoint: CalculationEndpoint) -> None:
        self._endpoint = endpoint

    async def __call__(self, request: Request) -> Response:
        require_no_parameters(request)
        media_type = chosen(request, tuple(FORMS))
        asked = self._endpoint.checked(await self._endpoint.read(request))
        picture = await self._endpoint.heavy(in_full(asked), FORMS[media_type])
        return _svg_reply(request, picture) if media_type == SVG else _png_reply(picture)


def in_full(asked: RequestModel) -> RequestModel:
    """The same request with all its detail: what a brief answer leaves out is what a chart draws."""
    return asked.model_copy(update={DETAIL: "full"}) if DETAIL in type(asked).model_fields else asked


def _svg_reply(request: Request, picture: bytes) -> Response:
    response = reply(request, picture, SVG)
    response.headers["vary"] = "Accept, Accept-Encoding"
    response.headers["content-security-policy"] = CONTENT_SECURITY_POLICY
    return response


def _png_reply(picture: bytes) -> Response:
    """As it is: it is compressed already."""
    return Response(picture, headers={"vary": "Accept"}, media_type=PNG)


class CalendarEndpoint:
    """Answers with events."""

    def __init__(self, endpoint: CalculationEndpoint, kitchen: Kitchen) -> None:
        self._endpoint = endpoint
        self._kitchen = kitchen
        self._file_name = endpoint.calculation.name.replace("/", "-") + ".ics"

    async def __call__(self, request: Request) -> Response:
        require_no_parameters(request)
        require_acceptable(request, CALENDAR)
        body = await self._endpoint.read(request)
        self._begin(body)
        asked = self._endpoint.checked(body)
        events = await self._endpoint.heavy(asked, InCalendar(self._seed(asked), self._kitchen.now()))
        response = reply(request, events, CALENDAR)
        response.headers["content-disposition"] = f'attachment; filename="{self._file_name}"'
        return response

    def _begin(self, body: Any) -> None:
        """Write the moment into a body that has none where one is asked for: a calendar needs a beginning."""
        begins = BEGINNING in self._endpoint.calculation.request.model_fields
        if begins and isinstance(body, dict) and BEGINNING not in body:
            body[BEGINNING] = self._kitchen.now().isoformat()

    def _seed(self, asked: RequestModel) -> str:
        """Names a request by what it states, in the units that it states it in."""
        stated = asked.model_dump_json(exclude_defaults=True, exclude={DETAIL})
        return sha256(f"{self._endpoint.calculation.name} {stated}".encode()).hexdigest()


def picture_operations(endpoints: Sequence[CalculationEndpoint], kitchen: Kitchen) -> Iterator[Operation]:
    """The charts and calendars of all that have one."""
    for endpoint in endpoints:
        calculation = endpoint.calculation
        own = f"/v1/{calculation.name}"
        if path := chart_path(calculation):
            yield _operation(endpoint, path, ChartEndpoint(endpoint), told_as=tuple(FORMS), description=CHART % own)
        if path := calendar_path(calculation):
            means = SCHEDULE % own + (FROM_NOW if BEGINNING in calculation.request.model_fields else "")
            handle = CalendarEndpoint(endpoint, kitchen)
            yield _operation(endpoint, path, handle, told_as=(CALENDAR,), description=means)


def _operation(
    endpoint: CalculationEndpoint, path: str, handle: Handler, *, told_as: tuple[str, ...], description: str
) -> Operation:
    calculation, what = endpoint.calculation, path.rpartition("/")[2]

    def asked() -> tuple[Example, ...]:
        return tuple(example for example in endpoint.examples() if example.status == 200)

    return Operation(
        id=f"{calculation.operation_id}_{what}", method="POST", path=path, tag=tag_of(calculation),
        summary=f"{calculation.summary}, as a {what}", description=description, handle=handle,
        answer=calculation.answer, answer_means=f"The {what}.", told_as=told_as, request=calculation.request,
        problems=HEAVY_PROBLEMS, examples=asked,
    )  # fmt: skip
