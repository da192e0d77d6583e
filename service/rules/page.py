"""One data file: its bytes, what is written on it, and the line of every word that is wrong.

RulesError
└── BadRuleFile
"""

from dataclasses import dataclass
from typing import Any, TypeVar

import yaml
from pydantic import BaseModel, ValidationError
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from service.rules.book import RulesError

Model = TypeVar("Model", bound=BaseModel)

_READER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""libyaml's reader is ten times faster; PyYAML can be built without it."""

_PLAIN_TEXT = "tag:yaml.org,2002:str"


@dataclass
class BadRuleFile(RulesError):
    """A file of rule data that cannot be used: which one, where in it, and why."""

    file: str
    reason: str

    def __str__(self) -> str:
        return f"{self.file}: {self.reason}"


@dataclass(frozen=True, slots=True)
class Page:
    """A data file as it was found: its path below the data folder, and its bytes."""

    name: str
    content: bytes

    def row(self, model: type[Model]) -> Model:
        """The one row that this file holds. Raises BadRuleFile."""
        written, root = self._written()
        return self._understood(model, written, root)

    def rows(self, model: type[Model]) -> tuple[Model, ...]:
        """The list of rows that this file holds. Raises BadRuleFile."""
        written, root = self._written()
        if not isinstance(root, SequenceNode):
            raise BadRuleFile(self.name, "line 1: a list of rows is expected")
        return tuple(
            self._understood(model, row, node) for row, node in zip(written, root.value, strict=True)
        )  # fmt: skip

    def _written(self) -> tuple[Any, Node]:
        try:
            reader = _READER(self.content)
            root = reader.get_single_node()
            if root is None:
                raise BadRuleFile(self.name, "line 1: the file is empty")
            return _plain(root, reader), root
        except (yaml.YAMLError, ValueError, RecursionError) as error:
            raise BadRuleFile(self.name, " ".join(str(error).split()) or type(error).__name__) from error

    def _understood(self, model: type[Model], written: object, node: Node) -> Model:
        try:
            return model.model_validate(written, strict=True, extra="forbid")
        except ValidationError as error:
            complaints = (_complaint(problem, node) for problem in error.errors(include_url=False))
            raise BadRuleFile(self.name, "; ".join(complaints)) from error


def _plain(node: Node, reader: Any) -> Any:
    """What a node says, in Python's own types; a list becomes a tuple, so that a rule stays frozen."""
    if isinstance(node, MappingNode):
        return _mapping(node, reader)
    if isinstance(node, SequenceNode):
        return tuple(_plain(item, reader) for item in node.value)
    return node.value if node.tag == _PLAIN_TEXT else _value(node, reader)


def _mapping(node: MappingNode, reader: Any) -> dict[object, Any]:
    mapping: dict[object, Any] = {}
    for key_node, value_node in node.value:
        key = _key(key_node)
        if key in mapping:
            raise ValueError(f"{key}, {_line(key_node)}: the same field twice")
        mapping[key] = _plain(value_node, reader)
    return mapping


def _key(node: Node) -> str:
    if not isinstance(node, ScalarNode):
        raise ValueError(f"{_line(node)}: a field name is a word")  # noqa: TRY004 - one kind of complaint
    return str(node.value)


def _value(node: Node, reader: Any) -> Any:
    """A number, a date, a yes or no. An impossible day (30 February) is named with its line."""
    try:
        return reader.construct_object(node)
    except ValueError as error:
        raise ValueError(f"{node.value}, {_line(node)}: {error}") from error


def _complaint(problem: Any, root: Node) -> str:
    place, kind = problem["loc"], problem["type"]
    words = {
        "extra_forbidden": "unknown field",
        "missing": "missing field",
        "literal_error": f"unknown word {problem['input']!r}",
    }.get(kind, problem["msg"])
    name = ".".join(str(step) for step in place) or "the row"
    return f"{name}, {_line(_found(root, place))}: {words}"


def _found(node: Node, place: tuple[int | str, ...]) -> Node:
    """The node of a place, or the nearest one around it that is written."""
    for step in place:
        if isinstance(node, MappingNode):
            node = next((value for key, value in node.value if key.value == step), node)
        elif isinstance(node, SequenceNode) and isinstance(step, int):
            node = node.value[step]
    return node


def _line(node: Node) -> str:
    return f"line {node.start_mark.line + 1}"
