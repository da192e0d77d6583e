"""Many requests in one: what each line is answered."""

import json
from typing import Any

import pytest
from httpx2 import Response
from starlette.testclient import TestClient

from service.api.line_models import AnsweredLine, DeclinedLine, SummaryLine
from tests.api.conftest import RUB, Make
from tests.api.problem_checks import problem_of

AS_LINES = {"Content-Type": "application/x-ndjson"}
OWN, MIXED = "/v1/toys/rub/lines", "/v1/calculations/lines"
GOOD = json.dumps({"request": RUB}).encode()


def ask(client: TestClient, body: bytes, path: str = OWN, **headers: str) -> Response:
    """Send lines."""
    return client.post(path, content=body, headers=AS_LINES | headers)


def told(client: TestClient, *lines: bytes, path: str = OWN) -> list[dict[str, Any]]:
    """What stands on each line of the answer."""
    response = ask(client, b"\n".join(lines), path)
    assert response.status_code == 200
    assert response.headers["content-type"] == "application/x-ndjson"
    return [json.loads(line) for line in response.text.splitlines()]


def counts(summary: dict[str, Any]) -> list[int]:
    """Lines, blank ones, answered and declined ones."""
    return [summary["summary"][name] for name in ("lines", "blank", "answered", "declined")]


def line(**members: Any) -> bytes:
    """A line."""
    return json.dumps(members).encode()


def test_lines_are_answered_in_order_with_their_ids(client: TestClient):
    """Each answer says which line it is for and what the caller called it."""
    names: list[Any] = ["ham", 7, "S\u00fclze", -(2**53 - 1), "\u20ac" * 80]
    asked = [line(id=name, request={**RUB, "name": f"piece {at}"}) for at, name in enumerate(names)]

    *answers, summary = told(client, *asked)

    assert [(one["line"], one["id"], one["answer"]["name"]) for one in answers] == [
        (at + 1, name, f"piece {at}") for at, name in enumerate(names)
    ]
    assert counts(summary) == [5, 0, 5, 0]


def test_a_line_is_answered_as_on_its_own(client: TestClient, rub: dict[str, Any]):
    """Byte for byte what the path of the calculation answers."""
    alone = client.post("/v1/toys/rub", json=rub).content

    first = ask(client, GOOD).content.splitlines()[0]

    assert first == b'{"line":1,"answer":' + alone + b"}"


def test_a_problem_is_the_one_of_its_own_path(client: TestClient):
    """Members and status are the same; only the name of the request differs."""
    asked = {"outcome": "limit"}
    alone = problem_of(client.post("/v1/toys/light", json=asked))

    declined, _ = told(client, line(id="over", request=asked), path="/v1/toys/light/lines")

    assert declined["id"] == "over"
    assert declined["problem"] | {"instance": alone["instance"]} == alone


def test_blank_lines_are_counted_and_passed_over(client: TestClient):
    """Empty lines, spaces, ends as Windows writes them and a last line without one: numbers are those of the file."""
    body = b"\r\n" + GOOD + b"\r\n \t\n\n" + GOOD

    *answers, summary = [json.loads(one) for one in ask(client, body).text.splitlines()]

    assert [one["line"] for one in answers] == [2, 5]
    assert counts(summary) == [5, 3, 2, 0]


@pytest.mark.parametrize(("body", "lines"), [(b"", 0), (b"\n", 1), (b" ", 1), (b"\n\n", 2)])
def test_nothing_asked_is_a_summary(client: TestClient, body: bytes, lines: int):
    """A body without a request is a stream without an answer, and whole."""
    (summary,) = [json.loads(one) for one in ask(client, body).text.splitlines()]

    assert counts(summary) == [lines, lines, 0, 0]


@pytest.mark.parametrize(
    ("bad", "code"),
    [
        (b'{"request": ', "json_syntax"),
        (b'{"id": "\xff"}', "json_not_utf8"),
        (b'{"id": 1, "id": 2}', "json_duplicate_key"),
        (b"\xef\xbb\xbf{}", "json_byte_order_mark"),
        (b'{"request": NaN}', "json_not_a_number"),
        (b'{"id": "\\ud800"}', "json_lone_surrogate"),
        (b"[" * 40 + b"]" * 40, "json_too_deep"),
        (b"\x0b", "json_empty"),
    ],
)
def test_a_line_that_cannot_be_read_stops_nothing(client: TestClient, bad: bytes, code: str):
    """It is declined as its own body would be, and the next line is answered."""
    declined, answered, summary = told(client, bad, GOOD)

    assert (declined["line"], declined["problem"]["code"], declined["problem"]["status"]) == (1, code, 400)
    assert answered["line"] == 2
    assert counts(summary) == [2, 0, 1, 1]


@pytest.mark.parametrize(
    ("bad", "pointer", "code"),
    [
        (b"[]", "#", "wrong_type"),
        (b"{}", "#/request", "missing_field"),
        (line(request=None), "#/request", "wrong_type"),
        (line(request=RUB, reqest=RUB), "#/reqest", "unknown_field"),
        (line(request=RUB, id=None), "#/id", "null_not_allowed"),
        (line(request=RUB, id=""), "#/id", "value_invalid"),
        (line(request=RUB, id="a\u202eb"), "#/id", "value_invalid"),
        (line(request=RUB, id="a" * 81), "#/id", "value_invalid"),
        (line(request=RUB, id=2**53), "#/id", "value_invalid"),
        (line(request=RUB, id=1.5), "#/id", "value_invalid"),
        (line(request=RUB, id=True), "#/id", "value_invalid"),
        (line(request=RUB, calculation="toys/light"), "#/calculation", "value_not_allowed"),
        (line(request={**RUB, "meat": {"value": 2, "unit": "stone"}}), "#/request/meat/unit", "unit_unknown"),
        (line(request={**RUB, "on": "tomorrow"}), "#/request/on", "not_a_day"),
    ],
)
def test_a_line_outside_the_contract_is_pointed_at(client: TestClient, bad: bytes, pointer: str, code: str):
    """Pointers lead into the line; an id that is no id is not given back."""
    declined, answered, _ = told(client, bad, GOOD)

    assert declined["problem"]["status"] == 422
    assert [(one["pointer"], one["code"]) for one in declined["problem"]["errors"]] == [(pointer, code)]
    assert "id" not in declined
    assert answered["line"] == 2


def test_a_lawful_id_comes_back_with_a_problem(client: TestClient):
    """Whatever else is wrong with a line that can be read."""
    declined, _ = told(client, line(id="torn", request={}))

    assert declined["id"] == "torn"


def test_a_whole_number_is_an_id_however_it_is_written(client: TestClient):
    """To JSON Schema 1.0 is an integer; a half is none."""
    whole, half, _ = told(client, line(id=1.0, request=RUB), line(id=0.5, request=RUB))

    assert (whole["id"], "answer" in whole) == (1, True)
    assert "problem" in half


@pytest.mark.parametrize("over", [0, 1])
def test_a_line_may_be_64_kib_long(client: TestClient, over: int):
    """One byte more is declined, and is not read; the next line is answered."""
    long = GOOD + b" " * (65_536 + over - len(GOOD))

    first, second, _ = told(client, long, GOOD)

    assert ("answer" in first) is (over == 0)
    assert over == 0 or first["problem"]["type"] == "/problems/line-too-long"
    assert second["line"] == 2
    assert "answer" in second


def test_mixed_lines_name_their_calculation(client: TestClient):
    """Each line is answered by the one that it names, light or heavy."""
    rub, light, heavy, summary = told(
        client,
        line(id="r", calculation="toys/rub", request=RUB),
        line(id="l", calculation="toys/light", request={}),
        line(id="h", calculation="toys/heavy", request={}),
        path=MIXED,
    )

    assert [one["id"] for one in (rub, light, heavy)] == ["r", "l", "h"]
    assert rub["answer"]["meat_g"] == 2000
    assert light["answer"]["process"] != heavy["answer"]["process"]
    assert counts(summary) == [3, 0, 3, 0]


@pytest.mark.parametrize(
    ("members", "code"),
    [({}, "missing_field"), ({"calculation": "toys/ruin"}, "value_not_allowed"), ({"calculation": 1}, None)],
)
def test_a_mixed_line_without_a_calculation_is_declined(client: TestClient, members: dict[str, Any], code: str | None):
    """Nothing is guessed."""
    declined, _ = told(client, line(request=RUB, **members), path=MIXED)

    (error,) = declined["problem"]["errors"]
    assert error["pointer"] == "#/calculation"
    assert code in (None, error["code"])


def test_a_fault_of_the_service_fails_one_line(client: TestClient, capsys: pytest.CaptureFixture[str]):
    """It is recorded, the caller learns nothing but its name, and the next line is answered."""
    broken, whole, summary = told(
        client, line(request={"outcome": "broken"}), line(request={}), path="/v1/toys/light/lines"
    )

    assert broken["problem"]["type"] == "/problems/internal-error"
    assert "secret" not in json.dumps(broken)
    assert "ZeroDivisionError: the secret of the house" in capsys.readouterr().err
    assert "answer" in whole
    assert counts(summary) == [2, 0, 1, 1]


def test_heavy_lines_are_declined_as_on_their_own_path(make: Make):
    """The deadline is each line's own; the stream goes on."""
    with TestClient(make(heavy_deadline_s=3)) as client:
        late, killed, whole, _ = told(
            client, line(request={"seconds": 60}), line(request={"outcome": "killed"}), line(request={}),
            path="/v1/toys/heavy/lines",
        )  # fmt: skip

    assert late["problem"]["type"] == "/problems/deadline-passed"
    assert killed["problem"]["type"] == "/problems/internal-error"
    assert whole["line"] == 3
    assert "answer" in whole


def test_one_stream_is_about_one_day(client: TestClient):
    """A line without a day is about the day on which the stream began; one with a day is about that."""
    today, another, _ = told(client, GOOD, line(request={**RUB, "on": "2025-01-06"}))

    assert (today["answer"]["on"], another["answer"]["on"]) == ("2026-12-01", "2025-01-06")


def test_every_line_is_of_the_published_form(client: TestClient):
    """What is written by hand for speed is what the models say."""
    answered, declined, summary = told(client, line(id=1, request=RUB), b"{}")

    assert AnsweredLine.model_validate(answered, extra="forbid").id == 1
    assert DeclinedLine.model_validate(declined, extra="forbid").line == 2
    assert SummaryLine.model_validate(summary, extra="forbid").summary.declined == 1


@pytest.mark.parametrize("path", [OWN, MIXED])
@pytest.mark.parametrize(
    ("headers", "query", "kind"),
    [
        ({"Content-Type": "application/json"}, "", "unsupported-media-type"),
        ({"Content-Type": "application/x-ndjson; charset=latin-1"}, "", "unsupported-media-type"),
        ({"Content-Encoding": "gzip"}, "", "unsupported-content-encoding"),
        ({"Accept": "application/json"}, "", "not-acceptable"),
        ({}, "?a=1", "invalid-request"),
        ({}, "?a=1&a=2", "unreadable-query"),
    ],
)
def test_headers_are_looked_at_before_any_line(
    client: TestClient, path: str, headers: dict[str, str], query: str, kind: str
):
    """What would make the whole stream useless is an ordinary problem with its own status."""
    problem = problem_of(ask(client, GOOD, path + query, **headers))

    assert problem["type"] == f"/problems/{kind}"


@pytest.mark.parametrize("accept", ["application/x-ndjson", "application/*", "*/*;q=0.1"])
def test_lines_are_on_offer(client: TestClient, accept: str):
    """Any way of accepting them will do, and saying that they are UTF-8."""
    response = ask(client, GOOD, Accept=accept, **{"Content-Type": "application/x-ndjson; charset=utf-8"})

    assert response.status_code == 200
