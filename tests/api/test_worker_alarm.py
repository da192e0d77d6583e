"""The alarm that gives up late work, within one process."""

import importlib
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from service.api.worker import DeadlinePassed, _alarm

SLOW = "import time\ntime.sleep(0.3)\nLOADED = True\n"


@pytest.fixture(autouse=True)
def quiet() -> Iterator[None]:
    """No alarm is left behind."""
    yield
    _alarm(0)


def test_late_work_is_interrupted():
    """In the middle of whatever it does."""
    started = time.perf_counter()

    with pytest.raises(DeadlinePassed):
        _late_at(0.05, lambda: time.sleep(5))

    assert time.perf_counter() - started < 1


def test_an_import_is_not_interrupted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """It is finished first, because a library that is half loaded stays so; the work is given up right after."""
    (tmp_path / "slow_brine.py").write_text(SLOW)
    monkeypatch.syspath_prepend(tmp_path)

    def load_and_sleep() -> None:
        importlib.import_module("slow_brine")
        time.sleep(5)

    with pytest.raises(DeadlinePassed):
        _late_at(0.05, load_and_sleep)

    assert sys.modules["slow_brine"].LOADED
    del sys.modules["slow_brine"]


def _late_at(seconds: float, work: Callable[[], None]) -> None:
    _alarm(seconds)
    work()
