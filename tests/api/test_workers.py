"""Long calculations: elsewhere, bounded, and interrupted at their deadline."""

import os
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import ExitStack
from time import perf_counter, sleep
from typing import Any

import pytest
from httpx2 import Client, Response

from tests.api.conftest import Make
from tests.api.problem_checks import problem_of
from tests.api.serving import served

DEADLINE_S = 4.0


@pytest.fixture(scope="module")
def caller(make: Make) -> Iterator[Client]:
    """A caller of a server with one worker, already awake, and one place to wait."""
    with ExitStack() as open_things:
        host, port = open_things.enter_context(served(make(heavy_deadline_s=DEADLINE_S, worker_queue=1)))
        client = open_things.enter_context(Client(base_url=f"http://{host}:{port}", timeout=30))
        assert ask(client).status_code == 200
        yield client


def ask(caller: Client, where: str = "heavy", **body: Any) -> Response:
    """Ask for work."""
    return caller.post(f"/v1/toys/{where}", json=body)


@pytest.fixture
def asked(caller: Client) -> Iterator[Any]:
    """Asks for long work and does not wait for it."""
    with ThreadPoolExecutor() as threads:

        def busy(seconds: float) -> "Future[Response]":
            return threads.submit(ask, caller, seconds=seconds)

        yield busy


def test_long_work_is_done_in_another_process(caller: Client):
    """The answer comes from elsewhere, and from the same place again."""
    first, second = (ask(caller).json()["process"] for _ in range(2))

    assert first == second != os.getpid()


def test_the_service_answers_while_long_work_is_done(caller: Client, asked: Any):
    """Nobody waits for somebody else's calculation."""
    long = asked(1)
    waits_s = []
    while not long.done():
        started = perf_counter()
        caller.get("/livez")
        waits_s.append(perf_counter() - started)
        sleep(0.01)

    assert long.result().status_code == 200
    assert len(waits_s) > 10
    assert sorted(waits_s)[len(waits_s) // 2] < 0.05


def test_only_so_many_may_wait(asked: Any):
    """One works, one waits, the third is told to come back."""
    answers = [future.result() for future in [asked(0.5) for _ in range(3)]]
    declined = [answer for answer in answers if answer.status_code != 200]

    assert len(declined) == 1
    assert problem_of(declined[0])["type"] == "/problems/overloaded"
    assert declined[0].status_code == 503
    assert int(declined[0].headers["retry-after"]) > 0


def test_work_is_given_up_at_its_deadline(caller: Client):
    """The caller is told in time, and the process is free for the next."""
    started = perf_counter()
    late = ask(caller, seconds=60)
    waited_s = perf_counter() - started

    assert problem_of(late)["type"] == "/problems/deadline-passed"
    assert late.status_code == 503
    assert waited_s < DEADLINE_S + 1
    assert ask(caller).status_code == 200


@pytest.mark.parametrize(
    ("outcome", "kind"),
    [
        ("limit", "/problems/limit-exceeded"),
        ("impossible", "/problems/impossible"),
        ("broken", "/problems/internal-error"),
    ],
)
def test_what_goes_wrong_elsewhere_is_told_here(caller: Client, outcome: str, kind: str):
    """Refusals and faults read as if the work had been done here."""
    elsewhere, here = (problem_of(ask(caller, where, outcome=outcome)) for where in ("heavy", "light"))

    assert elsewhere["type"] == kind
    assert elsewhere | {"instance": ""} == here | {"instance": ""}


def test_a_process_that_dies_is_replaced(caller: Client):
    """One request fails, the next is answered."""
    dead, after = ask(caller, outcome="killed"), ask(caller)

    assert problem_of(dead)["type"] == "/problems/internal-error"
    assert after.status_code == 200


def test_two_who_wait_for_a_dead_process_do_not_kill_the_next(caller: Client):
    """Both fail once; whoever asks again at once is answered by the process that took its place, and by the same."""
    with ThreadPoolExecutor(2) as callers:
        first = list(callers.map(lambda outcome: ask(caller, outcome=outcome).status_code, ["killed", "answer"]))
        again = list(callers.map(lambda _: ask(caller), range(2)))

    assert first[0] == 500
    assert [answer.status_code for answer in again] == [200, 200]
    assert len({answer.json()["process"] for answer in again}) == 1
