"""A kind is never called like a field: an error's place would name the one and mean the other."""

import json
from collections.abc import Iterator
from typing import Any

from tests.architecture.house import ROOT

DOCUMENT = json.loads((ROOT / "openapi/openapi.json").read_bytes())
SHARED = {
    "oneOf": [{"$ref": "#/components/schemas/Soak"}, {"$ref": "#/components/schemas/Rub"}],
    "discriminator": {
        "propertyName": "kind",
        "mapping": {"water": "#/components/schemas/Soak", "rub": "#/components/schemas/Rub"},
    },
}
SOAK: dict[str, Any] = {"properties": {"kind": {}, "water": {}}}
RUB: dict[str, Any] = {"properties": {"kind": {}, "salt": {}}}


def unions(node: Any) -> Iterator[dict[str, str]]:
    """The mapping of every union, from its kinds to the objects."""
    if isinstance(node, dict):
        if "mapping" in node.get("discriminator", {}):
            yield node["discriminator"]["mapping"]
        for below in node.values():
            yield from unions(below)
    if isinstance(node, list):
        for below in node:
            yield from unions(below)


def kinds_called_like_fields(document: dict[str, Any]) -> list[str]:
    """The kinds of a union that are also the name of a field of one of its objects."""
    schemas = document["components"]["schemas"]
    return [
        kind
        for mapping in unions(document)
        for kind in mapping
        if any(kind in schemas[place.rpartition("/")[2]]["properties"] for place in mapping.values())
    ]


def test_no_kind_is_called_like_a_field_beside_it():
    """In every union of the published document."""
    assert len(list(unions(DOCUMENT))) > 5
    assert kinds_called_like_fields(DOCUMENT) == []


def test_a_kind_called_like_a_field_is_found():
    """Of its own object or of another one of the union."""
    schemas = {"Soak": SOAK, "Rub": RUB, "Method": SHARED}

    assert kinds_called_like_fields({"components": {"schemas": schemas}}) == ["water"]
    swapped = {**schemas, "Soak": RUB, "Rub": SOAK}
    assert kinds_called_like_fields({"components": {"schemas": swapped}}) == ["water"]
