"""The fuzzer is let off nothing but what the contract names."""

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
from schemathesis.config._checks import POSITIVE_DATA_ACCEPTANCE_EXPECTED_STATUSES

from tests.architecture.house import ROOT, listed

SETTINGS = (ROOT / "tests/contract/schemathesis.toml").read_text()
ROOMS = "curing|measures|butchery|yields|seasoning|labels|cooking|safety|costing"
REFUSALS = {
    "include-path-regex": f"^/v1/({ROOMS})/[a-z-]+(/chart|/calendar)?$",
    "checks": {
        "positive_data_acceptance": {"expected-statuses": sorted([*POSITIVE_DATA_ACCEPTANCE_EXPECTED_STATUSES, "422"])}
    },
}
WAYS_OUT = {"enabled", "exclude-checks", "baseline", "unexpected-methods", "project", "dictionaries", "auth"}
LAWFUL_OFF = [("output.sanitization.enabled", False), ("cache.enabled", False)]


def exceptions(settings: dict[str, Any]) -> list[str]:
    """What the fuzzer is let off, beside the refusals of a calculation."""
    leaves = list(_leaves(settings))
    off = [name for name, value in leaves if WAYS_OUT & set(name.split(".")) and (name, value) not in LAWFUL_OFF]
    operations = [operation for operation in settings.get("operations", []) if _sorted(operation) != REFUSALS]
    checks = [name for name in settings.get("checks", {}) if name != "max_response_time"]
    healthy = set(settings.get("suppress-health-check", [])) - {"filter_too_much", "too_slow"}
    return [*off, *map(str, operations), *checks, *healthy]


def _sorted(operation: dict[str, Any]) -> dict[str, Any]:
    statuses = operation.get("checks", {}).get("positive_data_acceptance", {}).get("expected-statuses", [])
    same = {"expected-statuses": sorted(statuses)}
    return {**operation, "checks": {**operation.get("checks", {}), "positive_data_acceptance": same}}


def _leaves(settings: dict[str, Any], path: str = "") -> Iterator[tuple[str, Any]]:
    for name, value in settings.items():
        if isinstance(value, dict):
            yield from _leaves(value, f"{path}{name}.")
        else:
            yield f"{path}{name}", value


def test_one_exception_is_made():
    """Only a calculation may answer 422 to what keeps its schema; every check, phase and method stays on."""
    settings = tomllib.loads(SETTINGS)

    faults = exceptions(settings)

    assert len(settings["operations"]) == 1
    assert settings["generation"]["mode"] == "all"
    assert not faults, listed(faults)


@pytest.mark.parametrize(
    "planted",
    [
        "[phases.stateful]\nenabled = false",
        "[checks.use_after_free]\nenabled = false",
        "[checks.negative_data_rejection]\nexpected-statuses = ['412']",
        "[[operations]]\ninclude-path = '/livez'\nenabled = false",
        "[[operations]]\ninclude-path = '/livez'\nchecks.positive_data_acceptance.expected-statuses = ['422']",
        "suppress-health-check = ['all']",
        "[phases.coverage]\nunexpected-methods = []",
        "[baseline]\npath = 'accepted.json'",
    ],
)
def test_another_exception_is_found(planted: str):
    """A phase, check, method or operation that is let off is named."""
    assert exceptions(tomllib.loads(planted)) != []
