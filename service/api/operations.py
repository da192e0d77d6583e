"""Running the service: is it alive, is it ready, and what does each kind of problem mean."""

from collections.abc import Callable
from functools import partial
from typing import Literal

from starlette.requests import Request
from starlette.responses import Response

from service.api.fault_sentences import FIELD_CODES
from service.api.faults import require_no_parameters
from service.api.negotiation import require_acceptable
from service.api.pages import READING_PROBLEMS, answer_page, page_of
from service.api.problem_bodies import CodeDescription, ProblemDescription
from service.api.problems import JSON_CODES, KINDS, QUERY_CODES, Problem
from service.api.readiness import Readiness
from service.api.replies import reply
from service.api.routes import Example, Operation, Tag
from service.calculations.registry import CALCULATIONS
from service.quantities.models import Answer, written
from service.quantities.models import Request as RequestModel

RUNNING = Tag("running", "Is the service alive and ready, and what do its problems mean.")
CODES: dict[str, dict[str, str]] = {
    "unreadable-json": JSON_CODES, "unreadable-query": QUERY_CODES, "invalid-request": FIELD_CODES,
    "impossible": {code: means for calculation in CALCULATIONS for code, means in calculation.reasons.items()},
}  # fmt: skip


class Alive(Answer):
    """The process answers."""

    status: Literal["alive"]
    """Always alive: a process that is not does not answer."""


class Ready(Answer):
    """Requests may be sent here."""

    status: Literal["ready"]
    """Always ready: a service that is not answers with a problem."""


class ProblemAddress(RequestModel):
    """Which kind of problem."""

    slug: Literal[tuple(KINDS)]  # type: ignore[valid-type]
    """The last part of the type of a problem."""


def describe_problem(slug: str) -> ProblemDescription:
    """What is published about a kind of problem."""
    if slug not in KINDS:
        raise Problem("not-found", "There is no such kind of problem.")
    kind = KINDS[slug]
    codes = CODES.get(slug, {}).items()
    return ProblemDescription.of(
        type=kind.type, title=kind.title, status=kind.status, meaning=kind.meaning, remedy=kind.remedy,
        codes=tuple(CodeDescription.of(code=code, meaning=meaning) for code, meaning in codes),
    )  # fmt: skip


async def _answer_alive(request: Request) -> Response:
    _require_plain(request)
    return reply(request, written(Alive.of(status="alive")))


async def _answer_ready(readiness: Readiness, request: Request) -> Response:
    _require_plain(request)
    obstacle = await readiness.obstacle()
    if obstacle:
        raise Problem("not-ready", obstacle, headers=(("retry-after", "1"),))
    return reply(request, written(Ready.of(status="ready")))


async def _answer_problem_page(request: Request) -> Response:
    _require_plain(request)
    return answer_page(request, page_of(describe_problem(request.path_params["slug"])))


def _require_plain(request: Request) -> None:
    require_no_parameters(request)
    require_acceptable(request)


def _problem_examples() -> tuple[Example, ...]:
    answer = describe_problem("limit-exceeded").model_dump(mode="json")
    return (Example("limit", "What limit-exceeded means", parameters={"slug": "limit-exceeded"}, answer=answer),)


def _probe_examples(status: str) -> Callable[[], tuple[Example, ...]]:
    return lambda: (Example(status, f"The service is {status}", answer={"status": status}),)


def running_operations(readiness: Readiness) -> tuple[Operation, ...]:
    """The documented operations here."""
    return (
        Operation(
            id="read_liveness", method="GET", path="/livez", tag=RUNNING, summary="Is the process alive",
            description="Answers as long as the process can answer at all; looks at nothing else.",
            handle=_answer_alive, answer=Alive, answer_means="It is.", problems=READING_PROBLEMS,
            examples=_probe_examples("alive"),
        ),
        Operation(
            id="read_readiness", method="GET", path="/readyz", tag=RUNNING, summary="Should requests be sent here",
            description="Whether the database answers and the service is not about to stop.",
            handle=partial(_answer_ready, readiness), answer=Ready, answer_means="They should.",
            problems=(*READING_PROBLEMS, "not-ready"), examples=_probe_examples("ready"),
        ),
        Operation(
            id="read_problem", method="GET", path="/problems/{slug}", tag=RUNNING, summary="What a problem means",
            description="What a kind of problem means, what to do about it, and its codes. The type of a problem is "
            "the path to ask here.",
            handle=_answer_problem_page, path_parameters=ProblemAddress, answer=ProblemDescription,
            answer_means="The description.", problems=(*READING_PROBLEMS, "not-found"), examples=_problem_examples,
            cacheable=True,
        ),
    )  # fmt: skip
