"""The schemas of the document: every model once, from pydantic, without the titles that only repeat names."""

from collections.abc import Iterable
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import JsonSchemaMode, models_json_schema

Schema = dict[str, Any]

REFERENCE = "#/components/schemas/{model}"
_VALUES = frozenset({"default", "examples", "example", "const", "enum", "required", "mapping"})
_KEYWORDS = {"ge": "minimum", "gt": "exclusiveMinimum", "le": "maximum", "lt": "exclusiveMaximum"}
"""Pydantic leaves a bound under its own name where it stands on a field that may be absent."""


class Schemas:
    """The models of all operations, under the names that they go by in the document."""

    def __init__(self, models: Iterable[tuple[type[BaseModel], JsonSchemaMode]]) -> None:
        wanted = list(dict.fromkeys(models))
        self._places, defined = models_json_schema(wanted, ref_template=REFERENCE)
        self.components: dict[str, Schema] = plain(defined.get("$defs", {}))

    def of(self, model: type[BaseModel], mode: JsonSchemaMode) -> Schema:
        """A reference to a model."""
        return self._places[model, mode]


def parameters(model: type[BaseModel] | None, place: str, sent: dict[str, str]) -> list[Schema]:
    """The fields of a model as parameters in the path or in the query, with the values of an example."""
    if model is None:
        return []
    schema = plain(model.model_json_schema(mode="validation"))
    return [
        _parameter(name, place, field, is_required=name in schema.get("required", ())) | _example(name, sent)
        for name, field in schema["properties"].items()
    ]


def _parameter(name: str, place: str, field: Schema, *, is_required: bool) -> Schema:
    plain = {key: value for key, value in field.items() if key not in ("description", "default")}
    return {
        "name": name, "in": place, "required": is_required, "description": field["description"], "schema": plain,
    }  # fmt: skip


def _example(name: str, sent: dict[str, str]) -> Schema:
    return {"example": sent[name]} if name in sent else {}


def plain(node: Any) -> Any:
    """A schema without titles, without defaults of null (an absent field is not a null), in standard keywords."""
    if isinstance(node, list):
        return [plain(one) for one in node]
    if not isinstance(node, dict):
        return node
    return {
        _KEYWORDS.get(key, key): value if key in _VALUES else plain(value)
        for key, value in node.items()
        if not (key == "title" and isinstance(value, str)) and not (key == "default" and value is None)
    }
