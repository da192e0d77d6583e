"""Every command that a page shows is sent as it stands there, and is answered as the page says."""

import json
import re
import subprocess
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from service.app import create_app
from service.calculations.curing.cure_time import TIME
from service.calculations.curing.dose import DOSE
from service.rules.loader import load_book
from service.settings import Settings
from tests.api.serving import served

TOP = Path(__file__).parents[2]
README = (TOP / "README.md").read_text("utf-8")
BULK = (TOP / "docs/bulk.md").read_text("utf-8")
CURL = re.compile(
    r"curl -s http://127\.0\.0\.1:8000(/\S+) -H 'Content-Type: application/json'"
    r"(?: -H 'Accept: image/png')?(?: -o \S+)? -d '(\{.*?\})'",
    re.DOTALL,
)
SUBSTANCE = (
    "weigh", "weight", "findings", "brine", "days", "hours", "parts", "sold", "ingredient_statement",
)  # fmt: skip
"""What an answer is asked for: one of these is in it."""


def commands() -> list[Any]:
    """Path and body of each curl command, named for its page."""
    pages = [TOP / "README.md", *sorted((TOP / "docs").glob("*.md"))]
    return [
        pytest.param(*found.groups(), id=f"{page.stem}-{number}")
        for page in pages
        for number, found in enumerate(CURL.finditer(page.read_text("utf-8")))
    ]


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where the real application listens."""
    database = f"sqlite:///{tmp_path_factory.mktemp('store')}/pages.sqlite3"
    app = create_app(Settings(log="off", database_url=database), load_book("pages"))
    with served(app) as (host, port):
        yield f"http://{host}:{port}"


@contextmanager
def forgetful() -> Iterator[str]:
    """A service that answers every stream with one line and no summary."""

    class Forgetful(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            """Half an answer."""
            self.send_response(200)
            self.end_headers()
            self.wfile.write(b'{"line":1,"answer":{}}\n')

    with HTTPServer(("127.0.0.1", 0), Forgetful) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}"
        server.shutdown()


DEMO = re.compile(r"^cat > recipes/.*?^END\n", re.DOTALL | re.MULTILINE)
"""A recipe that the script writes before it asks."""


def run_script(address: str, folder: Path, path: str = "") -> "subprocess.CompletedProcess[str]":
    """The script of the page about lines, in this folder, against this service; with another path, on its own files."""
    (script,) = re.findall(r"```sh\n(set -eu\n.*?)```", BULK, re.DOTALL)
    moved = script.replace("http://127.0.0.1:8000", address)
    if path:
        moved = DEMO.sub("", moved).replace("path=/v1/curing/dose/lines\n", f"path={path}\n")
        assert moved.count("END") == 0
    return subprocess.run(["sh", "-c", moved], cwd=folder, capture_output=True, text=True, check=False, timeout=60)


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A caller of the real application."""
    database = f"sqlite:///{tmp_path_factory.mktemp('store')}/pages.sqlite3"
    with TestClient(create_app(Settings(log="off", database_url=database), load_book("pages"))) as caller:
        yield caller


@pytest.mark.parametrize(("path", "body"), commands())
def test_a_command_of_the_pages_is_answered(client: TestClient, path: str, body: str):
    """Pasted as it stands, each command gets a 200 with something to weigh, a brine, or findings on rules."""
    answer = client.post(path, content=body, headers={"Content-Type": "application/json"})

    assert answer.status_code == 200, answer.text
    if answer.headers["content-type"] == "application/json":
        assert any(answer.json().get(name) for name in SUBSTANCE)
    else:
        assert answer.content.startswith((b"<?xml", b"\x89PNG", b"BEGIN:VCALENDAR"))


def test_the_script_recalculates_a_folder_of_recipes(address: str, tmp_path: Path):
    """As it stands on its page, it writes one line for each recipe, each answered, and prints the summary."""
    result = run_script(address, tmp_path)

    lines = [json.loads(line) for line in (tmp_path / "answers.ndjson").read_text().splitlines()]
    assert result.returncode == 0, result.stderr
    assert json.loads(result.stdout)["summary"]["answered"] == 2
    assert [line["id"] for line in lines] == ["goat_leg", "lamb_sausage"]
    assert all(line["answer"]["weigh"] for line in lines)


def put_recipe(folder: Path, name: str, body: dict[str, Any]) -> None:
    """A file for the script."""
    (folder / "recipes").mkdir(exist_ok=True)
    (folder / "recipes" / f"{name}.json").write_text(json.dumps(body, indent=1))


def test_the_script_fails_when_a_recipe_was_declined(address: str, tmp_path: Path):
    """It says so and how to see which; the command that it names finds that one line, and the others are answered."""
    put_recipe(tmp_path, "empty", {"jurisdiction": "US"})

    result = run_script(address, tmp_path)

    (command,) = re.findall(r"^Recipes were declined\. See which: (.+)$", result.stderr, re.MULTILINE)
    found = subprocess.run(["sh", "-c", command], cwd=tmp_path, capture_output=True, text=True, check=True, timeout=10)
    assert result.returncode == 1
    assert [json.loads(line)["id"] for line in found.stdout.splitlines()] == ["empty"]
    assert (tmp_path / "answers.ndjson").read_text().count('"answer":') == 2


@pytest.mark.parametrize(
    ("path", "body"),
    [
        ("/v1/measures/weigh/lines", {"what": {"kind": "by_piece", "ingredient": "bay-leaf", "count": 13}}),
        (
            "/v1/curing/check/lines",
            {"jurisdiction": "US", "product": {"kind": "sausage", "species": "veal"}, "method": {"kind": "comminuted"}},
        ),
    ],
)
def test_the_script_asks_for_any_calculation(address: str, tmp_path: Path, path: str, body: dict[str, Any]):
    """Only its path changes; the page names both of these."""
    put_recipe(tmp_path, "mine", body)

    result = run_script(address, tmp_path, path)

    (line,) = (tmp_path / "answers.ndjson").read_text().splitlines()
    assert result.returncode == 0, result.stderr
    assert (json.loads(line)["id"], "answer" in json.loads(line)) == ("mine", True)
    assert f"`{path}`" in BULK


def test_the_script_fails_when_the_stream_broke(tmp_path: Path):
    """Without a summary it says so, and leaves no answers, not even those of yesterday."""
    (tmp_path / "answers.ndjson").touch()
    with forgetful() as address:
        result = run_script(address, tmp_path)

    assert result.returncode != 0
    assert "not every recipe was answered" in result.stderr
    assert not (tmp_path / "answers.ndjson").exists()


def test_the_client_is_the_one_that_is_tested():
    """What the page shows is, line for line, what tests/api runs."""
    (shown,) = re.findall(r"```python\n(.*?)```", BULK, re.DOTALL)
    tried = (TOP / "tests/api/line_client.py").read_text("utf-8")

    assert tried.endswith("\n" + shown)


def test_readme_tells_the_true_weights(client: TestClient):
    """The weights that README names are those of the answer to its command."""
    path, body = next(CURL.finditer(README)).groups()
    weigh = client.post(path, content=body, headers={"Content-Type": "application/json"}).json()["weigh"]

    weights = {item["what"]: item["amount"] for item in weigh}

    told = re.search(r"what to weigh \(([0-9.]+) g of curing salt, ([0-9.]+) g of salt\)", README)
    assert told is not None
    assert [weights["curing_salt"]["value"], weights["salt"]["value"]] == [float(number) for number in told.groups()]


def test_the_page_on_doses_tells_the_true_stay(client: TestClient):
    """The share and the figures of the nut that comes out in time are those of the answer to its command."""
    page = (TOP / "docs/curing-dose.md").read_text("utf-8")
    body = next(found[2] for found in CURL.finditer(page) if '"stay"' in found[2])
    told = client.post("/v1/curing/dose", content=body, headers={"Content-Type": "application/json"}).json()

    ppm = {one["basis"]: one["value"] for one in told["figures"]["nitrite_on_every_basis"][::-1]}
    stay = next(step for step in told["steps"] if step.startswith("Stay"))
    after, system = (f"{ppm[name]:.1f}" for name in ("whole_system_after_stay", "whole_system"))
    assert f"at most 0.667 of its way: {after} ppm of {system}." in page
    assert "at most 0.667" in stay


def test_readme_starts_with_the_two_commands():
    """One command runs the service, one its tests; both stand in README in exactly this form."""
    first, second = re.findall(r"^    (\S.*)$", README, re.MULTILINE)[:2]

    assert first == "python3 -m venv .venv && .venv/bin/pip install . && .venv/bin/pellicle serve"
    assert second == ".venv/bin/pip install '.[test]' && .venv/bin/pytest"


def test_the_changelog_is_for_this_version():
    """The version of the code has its section."""
    version = re.search(r'^version = "(.+)"$', (TOP / "pyproject.toml").read_text("utf-8"), re.MULTILINE)

    assert version is not None
    assert f"## {version[1]}" in (TOP / "docs/changelog.md").read_text("utf-8")


def test_the_refusals_of_a_dose_are_all_described():
    """Each code with which a dose is declined stands on its page."""
    page = (TOP / "docs/curing-dose.md").read_text("utf-8")

    assert [code for code in sorted(DOSE.reasons) if f"`{code}`" not in page] == []
    assert len(DOSE.reasons) >= 9


def test_the_refusals_of_a_cure_time_are_all_described():
    """Likewise on its own page."""
    page = (TOP / "docs/curing-time.md").read_text("utf-8")

    assert [code for code in sorted(TIME.reasons) if f"`{code}`" not in page] == []
