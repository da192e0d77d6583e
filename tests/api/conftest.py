"""A toy kitchen behind the real front door."""

import json
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from service.app import Pellicle, create_app
from service.rules.book import RuleBook
from service.rules.loader import load_book
from service.settings import Settings
from tests.api.toys import TOYS

NOON = datetime(2026, 12, 1, 12, tzinfo=UTC)
RUB = {"meat": {"value": 2, "unit": "kg"}, "method": {"kind": "dry", "salt_percent": 2.5}}

Make = Callable[..., Pellicle]


@pytest.fixture(scope="session")
def book() -> RuleBook:
    """The shipped rule book."""
    return load_book("0.0.0")


@pytest.fixture(scope="session")
def make(book: RuleBook, tmp_path_factory: pytest.TempPathFactory) -> Make:
    """Makes an application with these settings around the toys."""
    database = f"sqlite:///{tmp_path_factory.mktemp('store')}/kitchen.sqlite3"

    def made(**settings: Any) -> Pellicle:
        given = {"log": "off", "database_url": database, **settings}
        return create_app(Settings(**given), book, TOYS, now=lambda: NOON)

    return made


@pytest.fixture(scope="session")
def app(make: Make) -> Pellicle:
    """The application with its default settings."""
    return make()


@pytest.fixture(scope="session")
def client(app: Pellicle) -> Iterator[TestClient]:
    """A caller in the same process."""
    with TestClient(app) as caller:
        yield caller


@pytest.fixture
def rub() -> dict[str, Any]:
    """A good body for the light calculation, to spoil."""
    return json.loads(json.dumps(RUB))


@pytest.fixture
def assets() -> Path:
    """The files of the interactive documentation."""
    return Path(__file__).parents[2] / "service" / "api" / "assets"
