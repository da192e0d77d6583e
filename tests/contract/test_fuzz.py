"""A running server is asked thousands of generated questions, lawful and not, and breaks no promise of its document."""

import json
import os
import re
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import SystemRandom
from urllib.error import URLError
from urllib.request import Request, urlopen

import pytest

from tests.architecture.house import ROOT

CASES = os.environ.get("PELLICLE_FUZZ_CASES", "100")
SEED = os.environ.get("PELLICLE_FUZZ_SEED", str(SystemRandom().randrange(2**31)))
READY_S = 30
SERVICE = [sys.executable, "-m", "service", "serve", "--port"]
FAULTY = [sys.executable, "-m", "tests.contract.faulty_kitchen"]

pytestmark = [pytest.mark.fuzz, pytest.mark.slow]


@contextmanager
def served(command: list[str], folder: Path) -> Iterator[str]:
    """The address of a server of our own, with all defaults and an empty data folder, as long as it is needed."""
    log = folder / "server.log"
    plain = {name: value for name, value in os.environ.items() if not name.startswith("PELLICLE_")}
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = str(free.getsockname()[1])
    with log.open("w") as output:
        server = subprocess.Popen(
            [*command, port], cwd=ROOT, env={**plain, "XDG_DATA_HOME": str(folder)}, stdout=output, stderr=output
        )
    try:
        wait_until_ready(server, f"http://127.0.0.1:{port}/openapi.json", log)
        wake_workers(f"http://127.0.0.1:{port}")
        yield f"http://127.0.0.1:{port}"
    finally:
        server.terminate()
        server.wait(timeout=READY_S)


def wait_until_ready(server: subprocess.Popen[bytes], url: str, log: Path) -> None:
    """Ask until the document is there."""
    for _ in range(READY_S * 10):
        if server.poll() is not None:
            break
        try:
            with urlopen(url, timeout=READY_S):
                return
        except (URLError, ConnectionError):
            time.sleep(0.1)
    pytest.fail(f"the server did not start:\n{log.read_text()}")


def wake_workers(url: str) -> None:
    """Ask for each chart and calendar once: the first waits for a process to start, and that is not what is timed."""
    with urlopen(f"{url}/openapi.json", timeout=READY_S) as response:
        paths = json.load(response)["paths"]
    for path in (path for path in paths if path.endswith(("/chart", "/calendar"))):
        (asked,) = paths[path]["post"]["requestBody"]["content"].values()
        body = json.dumps(next(iter(asked["examples"].values()))["value"]).encode()
        with urlopen(Request(url + path, body, {"Content-Type": "application/json"}), timeout=READY_S) as response:
            assert response.read()


def fuzz(url: str, *options: str) -> subprocess.CompletedProcess[str]:
    """Ask the server at this address generated questions."""
    settings = str(ROOT / "tests/contract/schemathesis.toml")
    program = Path(sys.executable).with_name("schemathesis")
    command = [str(program), "--config-file", settings, "run", f"{url}/openapi.json", "--seed", SEED, *options]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


def test_no_generated_question_breaks_the_contract(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    """Every phase and every check of the fuzzer passes, as do this project's own."""
    with served(SERVICE, tmp_path) as url:
        result = fuzz(url, "--max-examples", CASES)

    assert result.returncode == 0, result.stdout + result.stderr
    generated, outcome = re.findall(r"(\d+) generated, (.+)", result.stdout)[-1]
    with capsys.disabled():
        print(f"\nschemathesis: seed {SEED}, {generated} generated, {outcome}")
    assert outcome == f"{generated} passed"
    assert int(generated) >= int(CASES)


def test_a_faulty_server_is_found_out(tmp_path: Path):
    """The same run reports refusals without a reason, errors in plain JSON, and streams without a summary."""
    with served(FAULTY, tmp_path) as url:
        result = fuzz(url, "--max-examples", "20", "--phases", "fuzzing")

    assert result.returncode == 1, result.stdout + result.stderr
    checks = ("refused_for_a_stated_reason", "problems_are_problem_json", "LawfulRequestsAreAnswered")
    for check in (*checks, "every_line_is_answered"):
        assert f"Custom check failed: `{check}`" in result.stdout
