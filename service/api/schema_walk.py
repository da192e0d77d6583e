"""Finding, in a model's JSON Schema, the place that an error is about: what is allowed there."""

from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from pydantic import BaseModel

from service.api.document_schemas import plain

Schema = dict[str, Any]

BRANCHES = ("anyOf", "oneOf", "allOf")


@lru_cache(maxsize=256)
def request_schema(model: type[BaseModel]) -> Schema:
    """The JSON Schema of a request model."""
    schema: Schema = plain(model.model_json_schema(mode="validation"))
    return schema


def schema_at(model: type[BaseModel], location: Iterable[str | int]) -> Schema:
    """The schema of the place a pydantic location leads to; empty where the way is lost."""
    whole = request_schema(model)
    node = whole
    for part in location:
        node = _inside(node, part, whole)
    return _resolved(node, whole)


def _resolved(node: Schema, whole: Schema) -> Schema:
    while "$ref" in node:
        node = whole["$defs"][node["$ref"].rpartition("/")[2]]
    return node


def _inside(node: Schema, part: str | int, whole: Schema) -> Schema:
    node = _resolved(node, whole)
    if part in node.get("properties", {}):
        return dict(node["properties"][part])
    if isinstance(part, int):
        return dict(node.get("items") or {})
    branches = [branch for key in BRANCHES for branch in node.get(key, ())]
    labelled = node.get("discriminator", {}).get("mapping", {}).get(part)
    named = [branch for branch in branches if branch.get("$ref", "").rpartition("/")[2] == part]
    if labelled or named:
        return {"$ref": labelled} if labelled else dict(named[0])
    if not branches:  # the label of a validator, which the schema knows nothing of
        return node
    inside = [_inside(branch, part, whole) for branch in branches if branch.get("type") != "null"]
    return next((found for found in inside if found), {})
