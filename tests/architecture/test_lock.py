"""The locked versions are those that pyproject.toml asks for, each with its hashes."""

import json
import re
import tomllib

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.architecture.house import ROOT, listed

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
EXTRAS = PROJECT["optional-dependencies"]
LOCKS = {
    ".ci/requirements.txt": [*PROJECT["dependencies"], *EXTRAS["test"]],
    "deploy/requirements.txt": [*PROJECT["dependencies"], *EXTRAS["postgresql"]],
}
PIN = re.compile(
    r"^(?P<name>[\w.-]+)==(?P<version>[^ ;]+)[^\n]*(?P<hashes>(\n    --hash=sha256:[0-9a-f]{64}( \\)?)*)", re.MULTILINE
)


def pins(lock: str) -> dict[str, str]:
    """The version of each locked package."""
    return {canonicalize_name(pin["name"]): pin["version"] for pin in PIN.finditer(lock)}


def out_of_range(asked: list[str], lock: str) -> list[str]:
    """What is asked for and is not locked, or in a version that is not asked for."""
    locked = pins(lock)
    requirements = [Requirement(line) for line in asked]
    return [
        f"{requirement}: locked {version}"
        for requirement in requirements
        if (version := locked.get(canonicalize_name(requirement.name), "not")) == "not"
        or version not in requirement.specifier
    ]


def loose(lock: str) -> list[str]:
    """The lines that name a package without a hash, or another place to fetch it from."""
    unhashed = [pin["name"] for pin in PIN.finditer(lock) if not pin["hashes"]]
    lines = [line for line in lock.splitlines() if not line.lstrip().startswith("#")]
    elsewhere = [line for line in lines if re.search(r"://|^\s*-[^-]|--(index|extra|find|trusted)", line)]
    return [*unhashed, *elsewhere]


@pytest.mark.parametrize("place", LOCKS)
def test_a_lock_answers_pyproject(place: str):
    """Each direct dependency is locked in a version of its range, with hashes, from the public registry."""
    lock = (ROOT / place).read_text()

    faults = [*out_of_range(LOCKS[place], lock), *loose(lock)]

    assert not faults, listed(faults)


def test_what_is_deployed_was_tested():
    """Every version in the runtime lock is the version in the lock of the tests."""
    tested, deployed = (pins((ROOT / place).read_text()) for place in LOCKS)

    assert deployed.items() <= tested.items()


def test_the_linters_are_locked_to_contents():
    """Every package of the linters has a digest and names no place to fetch it from."""
    packages = json.loads((ROOT / ".ci/package-lock.json").read_text())["packages"]
    installed = {name: package for name, package in packages.items() if name}

    faults = [name for name, package in installed.items() if "integrity" not in package or "resolved" in package]

    assert {"node_modules/@redocly/cli", "node_modules/@stoplight/spectral-cli"} <= installed.keys()
    assert not faults, listed(faults)


@pytest.mark.parametrize(
    ("asked", "lock"),
    [("pint>=0.25,<0.26", "pyyaml==6.0.4 \\\n"), ("pint>=0.25,<0.26", "pint==0.26.1 \\\n"), ("pint>=1", "Pint==0.9\n")],
)
def test_a_wrong_pin_is_found(asked: str, lock: str):
    """A missing pin and a pin outside the range are named."""
    assert len(out_of_range([asked], lock)) == 1


@pytest.mark.parametrize(
    "planted",
    ["pint==0.25.3\n", "--index-url https://example.org/simple\n", "--find-links wheels\n", "-e ./brine\n"],
)
def test_a_loose_line_is_found(planted: str):
    """A pin without a hash and another source of packages are named."""
    hashed = f"pyyaml==6.0.4 \\\n    --hash=sha256:{'0' * 64}\n"

    assert loose(hashed) == []
    assert loose(hashed + planted) != []
