"""The databases that records are kept in: each test runs on both."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from service.records.store import Store, open_store
from tests.postgresql import cluster, programs


@pytest.fixture(scope="session")
def postgresql() -> Iterator[str]:
    """The URL of a PostgreSQL database of our own."""
    folder = programs()
    if folder is None:
        pytest.skip("no PostgreSQL server programs (initdb, pg_ctl) on this machine")
    with cluster(folder) as url:
        yield url


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """The URL of each kind of database."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path}/a/kitchen.sqlite3"
    return str(request.getfixturevalue("postgresql"))


@pytest.fixture
def store(url: str) -> Iterator[Store]:
    """An open store of each kind."""
    opened = open_store(url)
    yield opened
    opened.close()
