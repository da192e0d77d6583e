"""What the docstring of a formula must say, held against its signature."""

import ast
import inspect
import re
from collections.abc import Iterator

from tests.architecture.house import Function, Source, is_float, parameters
from tests.architecture.unit_names import unit_in_brackets, unit_of_name

REQUIRED = ("Returns", "Notes", "Examples", "References")


def formulas(source: Source) -> list[Function]:
    """The public functions of a module that return a number."""
    functions = [node for node in source.tree.body if isinstance(node, Function)]
    return [node for node in functions if is_float(node.returns) and not node.name.startswith("_")]


def faults(function: Function) -> list[str]:
    """What the docstring leaves out or states otherwise than the signature."""
    docstring = ast.get_docstring(function) or ""
    opening, sections = _sections(docstring)
    return [
        *_opening_faults(opening),
        *(f"no section {name}" for name in _required(function) if not sections.get(name)),
        *_parameter_faults(function, sections.get("Parameters", "")),
        *_return_faults(function, sections.get("Returns", "")),
        *_example_faults(function, sections.get("Examples", "")),
    ]


def _sections(docstring: str) -> tuple[str, dict[str, str]]:
    """The text before the first section, and each section by its heading."""
    opening, *rest = re.split(r"^([A-Z][A-Za-z ]+)\n-{3,}$", docstring, flags=re.MULTILINE)
    return opening.strip(), dict(zip(rest[::2], (text.strip("\n") for text in rest[1::2]), strict=True))


def _required(function: Function) -> Iterator[str]:
    yield from REQUIRED
    if parameters(function):
        yield "Parameters"
    if any(isinstance(node, ast.Raise) or _calls_require(node) for node in ast.walk(function)):
        yield "Raises"


def _calls_require(node: ast.AST) -> bool:
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "require"


def _opening_faults(opening: str) -> Iterator[str]:
    sentence, *rest = opening.split("\n\n")
    if not sentence.endswith("."):
        yield "does not begin with a sentence"
    if not any("=" in line for line in rest):
        yield "no equation after the sentence"


def _entries(section: str) -> dict[str, str]:
    """The entries of a section: an unindented line with the name, the indented description below it."""
    parts = re.split(r"^(\w+) : (.*)$", section, flags=re.MULTILINE)
    return {
        name: f"{kind}\n{description}"
        for name, kind, description in zip(parts[1::3], parts[2::3], parts[3::3], strict=True)
    }


def _parameter_faults(function: Function, section: str) -> Iterator[str]:
    described = _entries(section)
    asked = [argument.arg for argument in parameters(function)]
    if list(described) != asked:
        yield f"describes the parameters {list(described)}, takes {asked}"
    for argument in parameters(function):
        if is_float(argument.annotation) and argument.arg in described:
            yield from _unit_faults(argument.arg, described[argument.arg])


def _return_faults(function: Function, section: str) -> Iterator[str]:
    if section:
        yield from _unit_faults(function.name, section)


def _unit_faults(name: str, description: str) -> Iterator[str]:
    stated, named = unit_in_brackets(description), unit_of_name(name)
    if stated is None:
        yield f"no [unit] for {name}"
    elif stated != named:
        yield f"[{stated}] for {name}"


def _example_faults(function: Function, section: str) -> Iterator[str]:
    examples = "\n".join(line for line in inspect.cleandoc(section).splitlines() if line.startswith((">>> ", "... ")))
    if section and not re.search(rf"\b{function.name}\(", examples):
        yield f"no example calls {function.name}"
