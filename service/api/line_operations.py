"""The operations that take lines: one for each calculation, and one for all of them."""

from collections.abc import Sequence

from service.api.calculations import CalculationEndpoint, Kitchen, tag_of
from service.api.line_examples import line_examples
from service.api.line_kinds import answered_line, mixed_line
from service.api.line_models import AnsweredLine, BrokenLine, DeclinedLine, SummaryLine
from service.api.lines import Desk, LinesEndpoint
from service.api.negotiation import LINES
from service.api.routes import Operation, Tag

LINE_PROBLEMS = (
    "unreadable-query", "not-acceptable", "request-timeout", "uri-too-long", "unsupported-media-type",
    "unsupported-content-encoding", "invalid-request", "headers-too-large", "internal-error",
)  # fmt: skip
CALCULATIONS = Tag("calculations", "Every calculation there is, and many of them at once.")
HOW = (
    'Send a JSON object on each line, `{"id": "your name for it", %s"request": {...}}`; `id` may be left out, and '
    "`request` is the body that the calculation takes on its own path. The answers come back in order while you send, "
    'one for each line that is not blank: `{"line": 3, "id": "your name for it", "answer": {...}}`, or `"problem"` in '
    'place of `"answer"`, which stops nothing. The last line is `{"summary": {...}}`: **without it the stream broke**, '
    "and what has no line was not answered. Read while you send. A line without `on` is about the day on which the "
    "stream began. Lines may be 64 KiB long, the whole as long as you like."
)
BROKEN = '{"id": "torn", "request": '


def line_operations(endpoints: Sequence[CalculationEndpoint], kitchen: Kitchen) -> tuple[Operation, ...]:
    """Lines for each calculation on its own path, and lines for any of them on one."""
    desks = [Desk(endpoint) for endpoint in endpoints]
    return (*(_own(desk, kitchen) for desk in desks), *([_mixed(desks, kitchen)] if desks else []))


def lines_path(name: str) -> str:
    """The path that takes lines for a calculation."""
    return f"/v1/{name}/lines"


def _own(desk: Desk, kitchen: Kitchen) -> Operation:
    calculation = desk.endpoint.calculation
    return Operation(
        id=f"{calculation.operation_id}_lines",
        method="POST",
        path=lines_path(calculation.name),
        tag=tag_of(calculation),
        summary=f"{calculation.summary}, line by line",
        description=HOW % "",
        handle=LinesEndpoint(kitchen, [desk], desk.line, own=calculation.name),
        answer=answered_line(calculation),
        answer_means="A line for each line, and the summary.",
        request=desk.line,
        media_type=LINES,
        other_lines=(DeclinedLine, SummaryLine, BrokenLine),
        problems=LINE_PROBLEMS,
        examples=lambda: line_examples([desk.endpoint], is_named=False),
    )


def _mixed(desks: Sequence[Desk], kitchen: Kitchen) -> Operation:
    endpoints = [desk.endpoint for desk in desks]
    line = mixed_line(tuple(endpoint.calculation.name for endpoint in endpoints))
    return Operation(
        id="calculations_lines",
        method="POST",
        path="/v1/calculations/lines",
        tag=CALCULATIONS,
        summary="Any calculations, line by line",
        description=HOW % f'"calculation": "{endpoints[0].calculation.name}", ',
        handle=LinesEndpoint(kitchen, desks, line),
        answer=AnsweredLine,
        answer_means="A line for each line, and the summary.",
        request=line,
        media_type=LINES,
        other_lines=(DeclinedLine, SummaryLine, BrokenLine),
        problems=LINE_PROBLEMS,
        examples=lambda: line_examples(endpoints, is_named=True),
    )
