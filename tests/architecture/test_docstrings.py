"""Every module says what it is for, every test what must be true."""

import ast
import re

from tests.architecture.house import Source, listed, sources


def silent_modules(source: Source) -> list[str]:
    """The module, if it has no docstring."""
    return [] if ast.get_docstring(source.tree) else [f"{source.place}: no docstring"]


def silent_tests(source: Source) -> list[str]:
    """The tests that do not state the behaviour they check."""
    return [
        source.at(function, f"{function.name} has no docstring")
        for function in source.functions
        if function.name.startswith("test_") and not ast.get_docstring(function)
    ]


def more_than_a_docstring(source: Source) -> list[str]:
    """The statements in a room's __init__.py: import contracts look at the modules inside the room."""
    return [source.at(node, "only a docstring here") for node in source.tree.body[1:]]


def test_every_module_says_what_it_is_for():
    """Each Python file begins with a docstring."""
    faults = [fault for source in sources("service", "tests", "migrations") for fault in silent_modules(source)]

    assert not faults, listed(faults)


def test_every_test_states_a_behaviour():
    """Each test has a docstring."""
    faults = [fault for source in sources("tests") for fault in silent_tests(source)]

    assert not faults, listed(faults)


def test_a_room_is_entered_through_its_modules():
    """The __init__.py of a room holds its docstring and nothing else."""
    doors = [source for source in sources("service") if re.fullmatch("service/[a-z]+/__init__.py", source.place)]

    faults = [fault for source in doors for fault in more_than_a_docstring(source)]

    assert not faults, listed(faults)


def test_silence_is_found():
    """A module and a test without a docstring, and an import in a room's __init__.py, are named."""
    silent = Source("tests/test_salt.py", "import math\n\ndef test_salt():\n    assert math\n")

    assert silent_modules(silent) == ["tests/test_salt.py: no docstring"]
    assert silent_tests(silent) == ["tests/test_salt.py:3: test_salt has no docstring"]
    assert more_than_a_docstring(Source("service/api/__init__.py", '"""HTTP."""\nimport math\n')) != []
