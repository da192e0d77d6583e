"""Every setting: typed and bounded."""

from datetime import UTC

import pytest
from pydantic import ValidationError

from service.settings import Settings, zone_of


def test_settings_come_from_the_environment(monkeypatch: pytest.MonkeyPatch):
    """By name, with the prefix; lists as JSON."""
    monkeypatch.setenv("PELLICLE_PORT", "9000")
    monkeypatch.setenv("PELLICLE_CORS_ORIGINS", '["https://kitchen.example"]')

    settings = Settings()

    assert settings.port == 9000
    assert settings.cors_origins == ("https://kitchen.example",)


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("port", 65536), ("workers", 0), ("log", "loud"), ("body_limit_bytes", 100), ("body_deadline_s", 0),
        ("heavy_deadline_s", 1e9), ("time_zone", "Mars/Olympus"), ("time_zone", "../etc/passwd"),
        ("drain_delay_s", float("nan")), ("worker_processes", 1000),
    ],
)  # fmt: skip
def test_a_setting_out_of_bounds_is_refused(name: str, value: object):
    """A service with a senseless setting does not start."""
    with pytest.raises(ValidationError, match=name):
        Settings.model_validate({name: value})


def test_utc_needs_no_table_of_zones():
    """The default works where no time zones are installed."""
    assert zone_of("UTC") is UTC


def test_the_database_lies_where_a_person_s_programs_keep_data(monkeypatch: pytest.MonkeyPatch):
    """XDG Base Directory Specification: $XDG_DATA_HOME, and ~/.local/share without it."""
    monkeypatch.setenv("HOME", "/home/cook")
    monkeypatch.delenv("XDG_DATA_HOME", raising=False)
    assert Settings().database_url == "sqlite:////home/cook/.local/share/pellicle/pellicle.sqlite3"

    monkeypatch.setenv("XDG_DATA_HOME", "/data")
    assert Settings().database_url == "sqlite:////data/pellicle/pellicle.sqlite3"
