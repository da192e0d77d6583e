"""Every way in which a request is declined: one table, the only place that knows error statuses.

Problem            raised anywhere in this room, by slug
Refusal            raised by a calculation (limit-exceeded, impossible), translated here
untaken            what the router has no route for (not-found, method-not-allowed)
anything else      internal-error, by the shell
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from starlette.responses import Response

from service.api.problem_bodies import ImpossibleProblem, InvalidRequestProblem, LimitExceededProblem, ProblemDetails
from service.calculations.refusals import Impossible, LimitExceeded, Refusal
from service.quantities.models import written

PROBLEM_JSON = "application/problem+json"


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of problem, as published at /problems/{slug}."""

    slug: str
    status: int
    title: str
    meaning: str
    remedy: str
    body: type[ProblemDetails] = ProblemDetails
    headers: tuple[str, ...] = ()
    """Headers that may come with it."""

    @property
    def type(self) -> str:
        return f"/problems/{self.slug}"


KINDS: dict[str, Kind] = {
    kind.slug: kind
    for kind in (
        Kind(
            "unreadable-json", 400, "The body is not readable JSON",
            "The body is empty, not UTF-8, or not JSON as RFC 8259 and RFC 7493 have it: no byte order mark, no NaN or "
            "Infinity, no key twice in one object, no lone surrogate, at most 32 levels deep.",
            "Send one JSON object, written by a JSON library, in UTF-8.",
        ),
        Kind(
            "unreadable-query", 400, "The query string is not readable",
            "A parameter stands twice, or its percent-encoding is not UTF-8.",
            "Send each parameter once, percent-encoded as UTF-8.",
        ),
        Kind(
            "not-found", 404, "Nothing is here",
            "The path is not one of this service, or nothing goes by the name in it.",
            "See /docs for the paths, and the list that the name should be in.",
        ),
        Kind(
            "method-not-allowed", 405, "The path does not take this method",
            "The path exists; the Allow header lists its methods.",
            "Use one of the methods in the Allow header.",
        ),
        Kind(
            "not-acceptable", 406, "No form of the answer that the caller takes",
            "The Accept header leaves out every media type on offer here.",
            "Accept application/json (application/x-ndjson for lines, image/svg+xml or image/png for charts, "
            "text/calendar for calendars), or leave the header out.",
        ),
        Kind(
            "request-timeout", 408, "The body took too long to arrive",
            "The rest of the body did not come before the deadline; the connection is closed.",
            "Send the body at once; over a slow connection, send less at a time.",
        ),
        Kind(
            "body-too-large", 413, "The body is too long",
            "The body is longer than is read here; the connection is closed.",
            "Split the work over several requests.",
        ),
        Kind(
            "line-too-long", 413, "The line is too long",
            "One line of many is longer than is read here. It was passed over; the lines after it are answered.",
            "Ask for less on one line.",
        ),
        Kind(
            "uri-too-long", 414, "The address is too long",
            "Path and query string together are longer than 8 KiB.",
            "Shorten the address; data belongs in the body.",
        ),
        Kind(
            "unsupported-media-type", 415, "The body is of another media type",
            "A body is read as application/json, lines as application/x-ndjson, in UTF-8, and as nothing else.",
            "Send Content-Type: application/json, or application/x-ndjson to a path that ends in /lines.",
            headers=("Accept",),
        ),
        Kind(
            "unsupported-content-encoding", 415, "The body is compressed",
            "A body is read as it is; the Content-Encoding header names a coding.",
            "Send the body without Content-Encoding.",
            headers=("Accept-Encoding",),
        ),
        Kind(
            "invalid-request", 422, "The request is not what is asked for here",
            "The request is readable, but a field or parameter is unknown, missing, of another type or out of range. "
            "Nothing was computed.",
            "Mend what the list of errors points at.",
            InvalidRequestProblem,
        ),
        Kind(
            "limit-exceeded", 422, "This would break a limit",
            "No amounts are given, because they would break a limit that binds here; findings lists each limit, kept "
            "and broken, with its source.",
            "Follow the advice. Where the limit does not bind this kitchen, state what does.",
            LimitExceededProblem,
        ),
        Kind(
            "impossible", 422, "This cannot be done",
            "The request is well formed, but no amounts do what it asks for; code names the reason.",
            "Ask for the nearest thing, where one is named.",
            ImpossibleProblem,
        ),
        Kind(
            "headers-too-large", 431, "The headers are too long",
            "There are more than 100 headers, or they are longer than 32 KiB together.",
            "Send fewer headers.",
        ),
        Kind(
            "internal-error", 500, "The service failed",
            "A fault in the service, not in the request. It was recorded under the name in instance.",
            "Try again once; then report the fault, quoting instance.",
        ),
        Kind(
            "overloaded", 503, "Too much is waiting already",
            "As many long calculations are waiting as may wait.",
            "Try again after the time in the Retry-After header.",
            headers=("Retry-After",),
        ),
        Kind(
            "deadline-passed", 503, "The calculation took too long",
            "The calculation was not done by its deadline and was given up.",
            "Try again when there is less to do, or ask for less at a time.",
        ),
        Kind(
            "not-ready", 503, "The service is not ready",
            "The service is starting, stopping, or its database does not answer.",
            "Send requests to another instance, or try again shortly.",
            headers=("Retry-After",),
        ),
    )
}  # fmt: skip

JSON_CODES = {
    "json_empty": "The body is empty.",
    "json_syntax": "A mistake in writing, at the line and column named.",
    "json_not_a_number": "NaN, Infinity and -Infinity are not JSON.",
    "json_duplicate_key": "A key stands twice in one object.",
    "json_lone_surrogate": "A \\u escape is half of a character.",
    "json_too_deep": "Nested deeper than 32 levels.",
    "json_not_utf8": "The bytes are not UTF-8.",
    "json_byte_order_mark": "The body starts with a byte order mark.",
}
QUERY_CODES = {
    "query_not_utf8": "The percent-encoding is not UTF-8.",
    "query_repeated": "A parameter stands twice.",
}

SAMPLE_REQUEST_ID = "3f2a9c0d5b7e4861a0c4d2e6f8b91357"
"""Names the requests in examples."""

Headers = Sequence[tuple[str, str]]


def instance_of(request_id: str) -> str:
    """The instance of a problem: a name for the request, nothing that can be fetched."""
    return f"urn:pellicle:request:{request_id}"


class Problem(Exception):
    """A request is declined. Members are those of the body model of its kind."""

    def __init__(
        self, slug: str, detail: str, *, code: str | None = None, headers: Headers = (), **members: Any
    ) -> None:
        self.kind = KINDS[slug]
        self.detail = detail
        self.code = code or slug.replace("-", "_")
        self.headers = headers
        self.members = members

    def body(self, request_id: str) -> ProblemDetails:
        return self.kind.body.of(
            type=self.kind.type, title=self.kind.title, status=self.kind.status, detail=self.detail,
            instance=instance_of(request_id), code=self.code, **self.members,
        )  # fmt: skip


def answer_problem(problem: Problem, request_id: str) -> Response:
    """The HTTP answer to a request that is declined."""
    return Response(
        written(problem.body(request_id)),
        status_code=problem.kind.status,
        headers=dict(problem.headers),
        media_type=PROBLEM_JSON,
    )


def untaken(allow: str) -> Problem:
    """What no route takes: a path that does not exist or, where methods are allowed on it, another method."""
    if not allow:
        return Problem("not-found", "Nothing goes by this path. The paths are at /docs.")
    return Problem("method-not-allowed", f"Allowed here: {allow}.", headers=(("allow", allow),))


def declined(refusal: Refusal) -> Problem:
    """What a calculation refused, as a problem."""
    if isinstance(refusal, LimitExceeded):
        return Problem("limit-exceeded", refusal.advice, findings=refusal.findings, advice=refusal.advice)
    if isinstance(refusal, Impossible):
        detail = f"{refusal.reason} Nearest: {refusal.nearest}" if refusal.nearest else refusal.reason
        return Problem(
            "impossible", detail, code=refusal.code,
            reason=refusal.reason, nearest=refusal.nearest, findings=refusal.findings,
        )  # fmt: skip
    raise refusal
