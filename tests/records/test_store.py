"""Opening a store."""

from pathlib import Path

import pytest
from sqlalchemy import text

from service.records.store import Store, StoreAway, UnknownStore, open_store

# The profile that kept every acknowledged write over real power cuts; see https://sqlite.org/pragma.html for numbers.
PROFILE = {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "busy_timeout": 5000, "trusted_schema": 0}


def test_an_open_store_answers(store: Store):
    """Again and again."""
    store.ping()
    store.ping()


def test_sqlite_keeps_its_profile_on_every_connection(tmp_path: Path):
    """Each connection waits for its turn, checks foreign keys and writes through to the disk."""
    store = open_store(f"sqlite:///{tmp_path}/kitchen.sqlite3")
    for _ in range(2):
        with store.engine.connect() as connection:
            found = {name: connection.execute(text(f"PRAGMA {name}")).scalar() for name in PROFILE}
        store.close()

        assert found == PROFILE


def test_a_statement_on_postgresql_does_not_run_for_ever(postgresql: str):
    """The server gives up a statement after 5 s, by its own clock."""
    store = open_store(postgresql)
    with store.engine.connect() as connection:
        found = connection.execute(text("SHOW statement_timeout")).scalar()
    store.close()

    assert found == "5s"


@pytest.mark.parametrize(
    "address", ["sqlite:////proc/none/kitchen.sqlite3", "postgresql://cook@127.0.0.1:1/none", "sqlite:////proc"]
)
def test_a_database_that_is_away_is_said_to_be(address: str):
    """Whatever the driver calls it."""
    with pytest.raises(StoreAway):
        open_store(address).ping()


@pytest.mark.parametrize("address", ["mysql://cook@localhost/none", "kitchen.sqlite3", ""])
def test_another_database_is_refused(address: str):
    """There are two kinds of store."""
    with pytest.raises(UnknownStore):
        open_store(address)
