"""Whether requests should be sent here."""

import asyncio
import time

import pytest
from starlette.testclient import TestClient

from service.api.readiness import Readiness
from tests.api.conftest import Make
from tests.api.problem_checks import problem_of


class Database:
    """A database that answers as it is told to, and counts how often it is asked."""

    def __init__(self, wait_s: float = 0.0, error: Exception | None = None) -> None:
        self.wait_s = wait_s
        self.error = error
        self.asked = 0

    def ping(self) -> None:
        """Be asked."""
        self.asked += 1
        time.sleep(self.wait_s)
        if self.error:
            raise self.error


def obstacles(readiness: Readiness, times: int) -> list[str | None]:
    """What stands in the way, asked several times in a row."""

    async def asked() -> list[str | None]:
        return [await readiness.obstacle() for _ in range(times)]

    return asyncio.run(asked())


def test_a_database_that_answers_is_asked_once_a_second():
    """Many probes are one question."""
    database = Database()

    assert obstacles(Readiness(database.ping), 5) == [None] * 5
    assert database.asked == 1


def test_a_database_that_fails_is_an_obstacle():
    """Whatever it fails with."""
    database = Database(error=RuntimeError("away"))

    assert obstacles(Readiness(database.ping), 1) == ["The database does not answer."]


def test_a_database_that_hangs_is_waited_for_only_so_long():
    """The probe answers at its cap, and no second question joins the first."""
    database = Database(wait_s=0.5)
    started = time.perf_counter()

    assert obstacles(Readiness(database.ping, cap_s=0.1, opening_cap_s=0.1), 2) == ["The database does not answer."] * 2
    assert database.asked == 1
    assert time.perf_counter() - started < 1


def test_a_service_about_to_stop_is_not_ready():
    """The database is not even asked."""
    database = Database()
    readiness = Readiness(database.ping)
    readiness.draining = True

    assert obstacles(readiness, 1) == ["The service is stopping."]
    assert database.asked == 0


def test_ready_and_alive_are_told(client: TestClient):
    """Both probes answer with their status."""
    assert client.get("/livez").json() == {"status": "alive"}
    assert client.get("/readyz").json() == {"status": "ready"}


@pytest.mark.parametrize("url", ["sqlite:////proc/no/such/place.sqlite3", "mysql://nobody@localhost/none", "nonsense"])
def test_without_its_database_the_service_is_alive_but_not_ready(make: Make, url: str):
    """Liveness never looks at the database; readiness declines as a problem."""
    with TestClient(make(database_url=url)) as client:
        declined = client.get("/readyz")

        assert client.get("/livez").status_code == 200
        assert declined.status_code == 503
        assert problem_of(declined)["type"] == "/problems/not-ready"
        assert declined.headers["retry-after"] == "1"
