"""The tree as the house rules see it: its files, its Python sources, their functions."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from fnmatch import fnmatch
from functools import cache, cached_property
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

Function = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Source:
    """One Python file: where it lies below the top, and its text."""

    place: str
    text: str

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.text)

    @property
    def functions(self) -> Iterator[Function]:
        """Every function, method and nested function."""
        return (node for node in ast.walk(self.tree) if isinstance(node, Function))

    def at(self, node: ast.stmt | ast.expr | ast.arg | ast.alias | ast.keyword, fault: str) -> str:
        """The fault with its place, as an editor can jump to it."""
        return f"{self.place}:{node.lineno}: {fault}"


def files(root: Path = ROOT) -> tuple[str, ...]:
    """Every file that belongs to the project, below the top; what .gitignore lists is left out."""
    lines = (root / ".gitignore").read_text().splitlines()
    ignored = [line.strip("/") for line in lines if line and not line.startswith("#")]
    return tuple(sorted(_walk(root, root, (*ignored, ".git"))))


def _walk(root: Path, folder: Path, ignored: tuple[str, ...]) -> Iterator[str]:
    for entry in folder.iterdir():
        if any(fnmatch(entry.name, pattern) for pattern in ignored):
            continue
        if entry.is_dir():
            yield from _walk(root, entry, ignored)
        else:
            yield entry.relative_to(root).as_posix()


@cache
def sources(*tops: str) -> tuple[Source, ...]:
    """The Python files below these folders."""
    wanted = tuple(f"{top}/" for top in tops)
    places = [place for place in files() if place.startswith(wanted) and place.endswith(".py")]
    return tuple(Source(place, (ROOT / place).read_text()) for place in places)


def parameters(function: Function) -> list[ast.arg]:
    """What a caller hands in, in order, without self and cls."""
    arguments = function.args
    every = [*arguments.posonlyargs, *arguments.args, *arguments.kwonlyargs]
    return [argument for argument in every if argument.arg not in {"self", "cls"}]


def is_float(annotation: ast.expr | None) -> bool:
    """Whether an annotation is float, alone or beside a None."""
    members = set() if annotation is None else {member.strip() for member in ast.unparse(annotation).split("|")}
    return "float" in members and members <= {"float", "None", "SkipJsonSchema[None]"}


def listed(faults: list[str]) -> str:
    """The faults one below the other, for whoever has to mend them."""
    return "\n" + "\n".join(faults)
