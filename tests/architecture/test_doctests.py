"""The examples in the docstrings of the calculations and of the quantities are run."""

import doctest
import importlib
import io
from types import ModuleType

import pytest

from tests.architecture.house import sources

MODULES = [
    source.place.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
    for source in sources("service/calculations", "service/quantities")
]


def failures(module: ModuleType) -> str:
    """What is reported of a module's examples; empty when each gives what it says."""
    report = io.StringIO()
    runner = doctest.DocTestRunner(verbose=False)
    for examples in doctest.DocTestFinder(exclude_empty=True).find(module):
        runner.run(examples, out=report.write)
    return report.getvalue()


@pytest.mark.parametrize("name", MODULES)
def test_each_example_gives_what_it_says(name: str):
    """A reader who types an example in gets the printed answer."""
    assert failures(importlib.import_module(name)) == ""


def test_a_wrong_example_is_found():
    """An example that promises another answer is reported."""
    module = ModuleType("brine")
    module.__doc__ = ">>> 2 + 2\n5\n"

    assert "Expected:\n    5\nGot:\n    4" in failures(module)
