"""The command line, as a person uses it: from any folder."""

import json
import os
import re
import shlex
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from httpx2 import HTTPError, get
from typer.testing import CliRunner

from service.__main__ import commands
from service.rules.loader import DATA

ROOT = Path(__file__).parents[1]
ENOUGH_S = 20.0
LAZY = {"pint", "numpy", "scipy", "sqlalchemy", "alembic", "psycopg"}


@contextmanager
def serving(folder: Path, **environment: str) -> Iterator[tuple[subprocess.Popen[str], str, list[str]]]:
    """A server started in this folder, its address, and the lines it said before it served."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = str(free.getsockname()[1])
    inherited = {"PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT), "HOME": str(folder), **environment}
    server = subprocess.Popen(
        [sys.executable, "-m", "service", "serve", "--port", port],
        cwd=folder, env=inherited, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    assert server.stdout is not None
    try:
        yield server, f"http://127.0.0.1:{port}", [server.stdout.readline().strip() for _ in range(3)]
    finally:
        server.terminate()
        server.communicate(timeout=ENOUGH_S)


def status_of(url: str) -> int:
    """The status of the first answer; a server that is about to listen is asked again."""
    end_s = time.monotonic() + ENOUGH_S
    while time.monotonic() < end_s:
        try:
            return get(url, timeout=ENOUGH_S).status_code
        except HTTPError:
            time.sleep(0.02)
    raise TimeoutError(url)


def test_serve_says_where_it_is_and_what_to_try(tmp_path: Path):
    """The address, the documentation, and one command that a shell runs as it stands and that gives a dose."""
    with serving(tmp_path) as (_, url, (listens, documented, tried)):
        assert status_of(f"{url}/docs") == 200
        command = shlex.split(tried.removeprefix("Try: "))
        answer = json.loads(subprocess.run(command, capture_output=True, check=True).stdout)

    assert listens == f"Pellicle listens on {url}"
    assert documented == f"Documentation: {url}/docs"
    assert command[0] == "curl"
    assert answer["weigh"]


def test_serve_is_ready_in_a_new_folder(tmp_path: Path):
    """The database is made where a person's programs keep data, and nothing where the command was given."""
    with serving(tmp_path) as (_, url, _):
        assert status_of(f"{url}/readyz") == 200

    assert [path.name for path in tmp_path.rglob("*.sqlite3")] == ["pellicle.sqlite3"]
    assert [path.name for path in tmp_path.iterdir()] == [".local"]


def test_serve_names_no_product_in_its_headers_and_logs_in_json(tmp_path: Path):
    """Neither Server nor X-Powered-By; each line on standard error is JSON, one for each request."""
    with serving(tmp_path) as (server, url, _):
        assert status_of(f"{url}/livez") == 200
        headers = get(f"{url}/livez").headers
        server.terminate()
        _, logged = server.communicate(timeout=ENOUGH_S)

    assert not {"server", "x-powered-by"} & set(headers)
    assert [json.loads(line)["path"] for line in logged.splitlines()] == ["/livez", "/livez"]


def test_a_service_told_to_stop_says_so_before_it_stops(tmp_path: Path):
    """With a delay /readyz declines while calls are still answered, and then the server ends in order."""
    with serving(tmp_path, PELLICLE_DRAIN_DELAY_S="1") as (server, url, _):
        assert status_of(f"{url}/readyz") == 200
        server.send_signal(signal.SIGTERM)
        time.sleep(0.3)

        assert status_of(f"{url}/readyz") == 503
        assert status_of(f"{url}/livez") == 200
        assert server.wait(timeout=ENOUGH_S) in (0, -signal.SIGTERM)


def test_nothing_slow_is_imported_to_start():
    """Libraries that take their time are imported when they are first needed."""
    script = "import sys, service.app; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True).stdout

    assert not LAZY & set(loaded.split())


def test_the_document_is_printed_and_written(tmp_path: Path):
    """Both ways give the committed bytes."""
    committed = (ROOT / "openapi" / "openapi.json").read_bytes()
    printed = CliRunner().invoke(commands, ["openapi"])
    written = CliRunner().invoke(commands, ["openapi", "--write", str(tmp_path / "a.json")])

    assert printed.stdout_bytes == committed
    assert (written.exit_code, written.stdout) == (0, "")
    assert (tmp_path / "a.json").read_bytes() == committed


def test_the_rule_files_are_checked():
    """The ones in use can be read."""
    result = CliRunner().invoke(commands, ["rules", "check"])

    assert (result.exit_code, result.stdout) == (0, "Every rule file can be read.\n")


def test_what_is_wrong_with_a_rule_file_is_said(tmp_path: Path):
    """Each complaint is a line with the file it is about, and the command fails."""
    for name in ("cautions.yaml", "ingredients.yaml", "premixes.yaml"):
        (tmp_path / name).write_bytes((DATA / name).read_bytes())
    (tmp_path / "limits" / "us").mkdir(parents=True)
    (tmp_path / "limits" / "us" / "bad.yaml").write_text("id: other\n")

    result = CliRunner().invoke(commands, ["rules", "check", str(tmp_path)])

    assert result.exit_code == 1
    assert re.search(r"limits/us/bad\.yaml", result.stdout)


def test_a_setting_out_of_bounds_is_named():
    """Instead of a traceback, one line says which setting and what it may be."""
    serve = [sys.executable, "-m", "service", "serve", "--port", "99999"]
    result = subprocess.run(serve, cwd=ROOT, capture_output=True, text=True, check=False)

    assert result.returncode == 2
    assert result.stderr == "PELLICLE_PORT: Input should be less than or equal to 65535\n"


@pytest.mark.parametrize("words", [["serve", "--port", "x"], ["bake"], ["serve", "--oven"]])
def test_a_command_that_is_not_there_is_refused(words: list[str]):
    """With the status that shells know for wrong usage."""
    assert CliRunner().invoke(commands, words).exit_code == 2
