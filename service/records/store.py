"""Where records are kept: SQLite in a file, or PostgreSQL by URL.

StoreError
├── UnknownStore     a URL of another database
└── StoreAway        the database does not answer
"""

import sqlite3
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Engine, create_engine, event, make_url, text
from sqlalchemy.exc import ArgumentError, SQLAlchemyError

BUSY_MS = 5000
CONNECT_S = 3
STATEMENT_MS = 5000

SQLITE_PROFILE = (
    "journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", f"busy_timeout={BUSY_MS}", "trusted_schema=OFF",
)  # fmt: skip


class StoreError(Exception):
    """Root of what the store raises."""


class UnknownStore(StoreError):
    """Neither SQLite nor PostgreSQL; the URL itself may hold a password and is not told."""


class StoreAway(StoreError):
    """The database does not answer."""


class Store:
    """An open database."""

    def __init__(self, engine: Engine) -> None:
        self.engine = engine

    def ping(self) -> None:
        """Ask the database something. Raises StoreAway."""
        try:
            with self.engine.connect() as connection:
                connection.execute(text("SELECT 1"))
        except SQLAlchemyError as error:
            raise StoreAway from error

    def close(self) -> None:
        """Let go of every connection."""
        self.engine.dispose()


def open_store(address: str) -> Store:
    """The store at a URL: sqlite:///path or postgresql://user@host/name. Raises UnknownStore, StoreAway."""
    try:
        url = make_url(address)
    except ArgumentError:
        raise UnknownStore("not a database URL") from None
    backend = url.get_backend_name()
    if backend == "sqlite":
        return Store(_sqlite(url))
    if backend == "postgresql":
        return Store(_postgresql(url.set(drivername="postgresql+psycopg")))
    raise UnknownStore(backend)


def _sqlite(url: URL) -> Engine:
    if url.database and url.database != ":memory:":
        _make_folder(Path(url.database).parent)
    engine = create_engine(url)
    event.listen(engine, "connect", _profile)
    return engine


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StoreAway from error


def _profile(connection: sqlite3.Connection, _: Any) -> None:
    for setting in SQLITE_PROFILE:
        connection.execute(f"PRAGMA {setting}").close()


def _postgresql(url: URL) -> Engine:
    return create_engine(
        url,
        pool_pre_ping=True,
        pool_timeout=1,
        connect_args={"connect_timeout": CONNECT_S, "options": f"-c statement_timeout={STATEMENT_MS}"},
    )
