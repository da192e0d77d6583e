"""Charts and calendars over HTTP: the request of the calculation, its refusals, another form of its answer."""

import os
import re
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from io import BytesIO
from time import perf_counter, sleep
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from httpx2 import Client, Response
from icalendar import Calendar
from PIL import Image

from service.app import Pellicle, create_app
from service.rules.book import RuleBook
from service.settings import Settings
from tests.api.conftest import NOON
from tests.api.picture_toys import PICTURE_TOYS, REST
from tests.api.problem_checks import codes_of, problem_of
from tests.api.serving import served

DEADLINE_S = 20.0
BODY: dict[str, Any] = {"meat": {"value": 1.7, "unit": "kg"}, "days": 9}
CHART, EVENTS = "/v1/toys/rest/chart", "/v1/toys/rest/calendar"


def made(book: RuleBook, **settings: Any) -> Pellicle:
    """The service around the toys that can be drawn."""
    return create_app(Settings(log="off", **settings), book, PICTURE_TOYS, now=lambda: NOON + timedelta(microseconds=9))


@contextmanager
def asking(app: Pellicle) -> Iterator[Client]:
    """A caller of a server for this application."""
    with served(app) as (host, port), Client(base_url=f"http://{host}:{port}", timeout=60) as client:
        yield client


@pytest.fixture(scope="module")
def caller(book: RuleBook) -> Iterator[Client]:
    """A caller of a server with one worker that has drawn before."""
    with asking(made(book, heavy_deadline_s=DEADLINE_S)) as client:
        assert client.post(CHART, json=BODY).status_code == 200
        yield client


def chart(caller: Client, accept: str = "*/*", **fields: Any) -> Response:
    """Ask for a chart."""
    return caller.post(CHART, json=BODY | fields, headers={"accept": accept})


def events(response: Response) -> list[Any]:
    """The events of a calendar."""
    assert response.status_code == 200, response.text
    return list(Calendar.from_ical(response.content).walk("VEVENT"))


def test_a_chart_is_an_svg(caller: Client):
    """With everything that the drawing has on it, and nothing that may run."""
    response = chart(caller)

    assert response.status_code == 200
    assert response.headers["content-type"] == "image/svg+xml"
    assert response.headers["content-security-policy"] == "default-src 'none'; style-src 'unsafe-inline'"
    assert response.headers["cache-control"] == "no-store"
    told = "".join(ET.fromstring(response.content).itertext())  # noqa: S314 - our own
    for text in ("Rest of shank", "Weight (%)", "Days at rest", "Expected", "Dry to damp room", "Turn"):
        assert text in told


def test_a_chart_is_a_png_for_those_who_want_one(caller: Client):
    """Dots that a library of pictures reads."""
    response = chart(caller, "image/png")

    assert response.headers["content-type"] == "image/png"
    assert Image.open(BytesIO(response.content)).size[0] == 1100


@pytest.mark.parametrize(
    ("accept", "told"),
    [
        ("", "image/svg+xml"),
        ("*/*", "image/svg+xml"),
        ("image/*", "image/svg+xml"),
        ("image/svg+xml", "image/svg+xml"),
        ("image/png", "image/png"),
        ("IMAGE/PNG", "image/png"),
        ("image/png, image/svg+xml", "image/svg+xml"),
        ("image/png;q=0.9, image/svg+xml;q=0.8", "image/png"),
        ("image/svg+xml;q=0.001, image/png;q=0.002", "image/png"),
        ("text/html, image/gif, image/jpeg, *; q=.2, */*; q=.2", "image/svg+xml"),
        ("image/png;q=1.0000, image/svg+xml;q=.5", "image/png"),
        ("image/svg+xml;q=0, */*", "image/png"),
        ("image/png;q=0, image/*;q=0.1", "image/svg+xml"),
        ("application/json, image/*;q=0.1", "image/svg+xml"),
        ("image/avif,image/webp,image/png,image/svg+xml,image/*;q=0.8,*/*;q=0.5", "image/svg+xml"),
        ("application/json", None),
        ("text/calendar", None),
        ("image/*;q=0", None),
        ("image/svg+xml;q=2", None),
    ],
)
def test_the_caller_chooses_the_form(caller: Client, accept: str, told: str | None):
    """The highest quality wins, the most exact range decides, SVG where it is all the same (RFC 9110, 12.5.1)."""
    response = chart(caller, accept)

    if told is None:
        assert problem_of(response)["type"] == "/problems/not-acceptable"
        assert response.status_code == 406
        assert "image/svg+xml, image/png" in response.json()["detail"]
    else:
        assert response.headers["content-type"] == told
        assert "Accept" in response.headers["vary"].split(", ")


def test_an_svg_is_compressed_and_a_png_is_not(caller: Client):
    """Text shrinks, dots are compressed already; the caches in between are told."""
    squeezed, dots = (
        caller.post(CHART, json=BODY, headers={"accept-encoding": "gzip", "accept": accept})
        for accept in ("image/svg+xml", "image/png")
    )

    assert squeezed.headers["content-encoding"] == "gzip"
    assert squeezed.headers["vary"] == "Accept, Accept-Encoding"
    assert "content-encoding" not in dots.headers
    assert squeezed.content == chart(caller).content


def test_charts_are_drawn_in_another_process(caller: Client):
    """Also for a calculation that is answered at once."""
    (first,), (second,) = (re.findall(r"Drawn by process (\d+)\.</desc>", chart(caller).text) for _ in range(2))

    assert REST.cost == "light"
    assert first == second != str(os.getpid())


def test_the_service_answers_while_charts_are_drawn(caller: Client):
    """Nobody waits for somebody else's picture."""
    waits_s = []
    with ThreadPoolExecutor() as threads:
        drawing = [threads.submit(chart, caller, "image/png") for _ in range(4)]
        while not all(one.done() for one in drawing):
            started = perf_counter()
            caller.get("/livez")
            waits_s.append(perf_counter() - started)
            sleep(0.01)

    assert [one.result().status_code for one in drawing] == [200] * 4
    assert sorted(waits_s)[len(waits_s) // 2] < 0.1


@pytest.mark.parametrize(("path", "accept"), [(CHART, "image/svg+xml"), (CHART, "image/png"), (EVENTS, "*/*")])
def test_the_same_request_gives_the_same_bytes(caller: Client, path: str, accept: str):
    """The clock stands still here, and nothing else is in them."""
    first, second = (caller.post(path, json=BODY, headers={"accept": accept}).content for _ in range(2))

    assert first == second


def test_a_calendar_holds_the_steps(caller: Client):
    """At their times, as a file to be taken in."""
    response = caller.post(EVENTS, json=BODY | {"starts_at": "2026-12-05T07:30:00+02:00", "piece": "K\u00e4se, 2; \\"})
    first, last = events(response)

    assert response.headers["content-type"] == "text/calendar; charset=utf-8"
    assert response.headers["content-disposition"] == 'attachment; filename="toys-rest.ics"'
    assert str(first["summary"]) == "Hang up K\u00e4se, 2; \\"
    assert first["dtstart"].dt == datetime(2026, 12, 5, 5, 30, tzinfo=UTC)
    assert last["dtend"].dt == datetime(2026, 12, 14, 5, 50, tzinfo=UTC)
    assert first["dtstamp"].dt == NOON
    assert Calendar.from_ical(response.content)["name"] == "Rest of a piece"


@pytest.mark.parametrize("zone", ["UTC", "Pacific/Kiritimati", "America/St_Johns"])
def test_a_calendar_without_a_beginning_begins_now(book: RuleBook, zone: str):
    """Now, to the second, wherever the kitchen is: from fourteen hours ahead to three and a half behind."""
    with asking(made(book, time_zone=zone)) as client:
        response = client.post(EVENTS, json=BODY)

    assert events(response)[0]["dtstart"].dt == NOON


def test_only_a_calendar_needs_a_beginning(caller: Client):
    """The answer as JSON says that none was stated, and the chart is drawn without."""
    assert caller.post("/v1/toys/rest", json=BODY).json()["starts_at"] is None
    assert chart(caller).status_code == 200


def test_a_beginning_that_is_stated_is_checked(caller: Client):
    """Null and half a moment are declined, at their place."""
    for wrong in (None, "2026-12-05", 5):
        body = BODY | {"starts_at": wrong}
        problem = problem_of(caller.post(EVENTS, json=body), body)

        assert problem["status"] == 422
        assert [error["pointer"] for error in problem["errors"]] == ["#/starts_at"]


def test_events_are_named_for_what_was_asked(caller: Client):
    """However the request is written; another request has other names."""
    stated = {"starts_at": "2026-12-05T07:30:00Z"}
    again = dict(reversed([*(BODY | stated).items()]))
    first, same, other = (
        [event["uid"] for event in events(caller.post(EVENTS, json=body))]
        for body in (BODY | stated, again | {"piece": "shank"}, BODY | stated | {"days": 10})
    )

    assert first == same
    assert len({*first, *other}) == 4


@pytest.mark.parametrize("path", [CHART, EVENTS])
@pytest.mark.parametrize(
    ("sent", "headers", "status", "code"),
    [
        (b"{", {}, 400, "json_syntax"),
        (b'{"days": 9, "days": 8}', {}, 400, "json_duplicate_key"),
        (b"{}", {}, 422, "missing_field"),
        (b"[]", {}, 422, None),
        (b"null", {}, 422, None),
        (b"{}", {"content-type": "text/plain"}, 415, "unsupported_media_type"),
        (b"{}", {"content-encoding": "gzip"}, 415, "unsupported_content_encoding"),
        (b" " * 300_000, {}, 413, "body_too_large"),
        (b"{}", {"accept": "application/json"}, 406, "not_acceptable"),
    ],
)
def test_a_bad_request_is_declined_as_everywhere(
    caller: Client, path: str, sent: bytes, headers: dict[str, str], status: int, code: str | None
):
    """The same problems as the calculation itself has."""
    response = caller.post(path, content=sent, headers={"content-type": "application/json"} | headers)

    problem = problem_of(response)
    assert response.status_code == status
    assert code is None or code in codes_of(problem)


@pytest.mark.parametrize("path", [CHART, EVENTS])
def test_a_refusal_is_the_calculation_s_own(caller: Client, path: str):
    """What cannot be done cannot be drawn."""
    body = BODY | {"outcome": "impossible", "starts_at": "2026-12-05T07:30:00Z"}
    here, there = (problem_of(caller.post(one, json=body)) for one in (path, "/v1/toys/rest"))

    assert here | {"instance": ""} == there | {"instance": ""}
    assert here["code"] == "too_heavy"


@pytest.mark.parametrize("path", [CHART, EVENTS])
def test_other_methods_and_parameters_are_declined(caller: Client, path: str):
    """As on every path: OPTIONS and 405 name the methods, a parameter is pointed at."""
    assert caller.options(path).headers["allow"] == "OPTIONS, POST"
    assert [caller.request(method, path).status_code for method in ("GET", "HEAD", "PUT")] == [405] * 3
    problem = problem_of(caller.post(f"{path}?width=9", json=BODY))
    assert [error["parameter"] for error in problem["errors"]] == ["width"]


def test_a_calculation_has_what_it_declares(caller: Client):
    """A path for its chart where it draws, for its calendar where it plans; the list says which."""
    listed = {
        one["name"]: (one["chart_path"], one["calendar_path"]) for one in caller.get("/v1/calculations").json()["items"]
    }

    assert listed == {
        "toys/rest": (CHART, EVENTS),
        "toys/look": ("/v1/toys/look/chart", None),
        "toys/wait": (None, "/v1/toys/wait/calendar"),
    }
    assert caller.post("/v1/toys/look/calendar", json=BODY).status_code == 404
    assert caller.post("/v1/toys/wait/chart", json=BODY).status_code == 404


def test_a_chart_is_given_up_at_its_deadline(book: RuleBook):
    """The caller is told in time."""
    with asking(made(book, heavy_deadline_s=3.0)) as client:
        started = perf_counter()
        late = client.post(CHART, json=BODY | {"outcome": "late"})
        waited_s = perf_counter() - started

        assert problem_of(late)["type"] == "/problems/deadline-passed"
        assert waited_s < 4.0
