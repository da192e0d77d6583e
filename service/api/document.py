"""The OpenAPI document, all of it from the declarations of the operations and the table of problems."""

import json
from collections.abc import Iterable, Sequence
from typing import Any

from service.api.document_schemas import Schemas, parameters
from service.api.examples import SAMPLE_ENGINE
from service.api.negotiation import JSON, PNG
from service.api.problems import KINDS, PROBLEM_JSON, SAMPLE_REQUEST_ID, instance_of
from service.api.routes import Example, Operation
from service.quantities.models import Answer

Json = dict[str, Any]

DESCRIPTION = (
    "Calculations for kitchens that cure and smoke meat. Each calculation is one POST: it keeps nothing, and the same "
    "request and engine give the same answer. Amounts are given within the limits that bind, with the findings, their "
    "sources, and cautions; local codes and licensed practice come first. Errors are problems as RFC 9457 has them."
)
HEADERS: dict[str, tuple[str, Json]] = {
    "X-Request-ID": ("Names this one request: the one sent, or a new one.", {"type": "string", "maxLength": 64}),
    "ETag": ("Names these bytes; ask again with If-None-Match.", {"type": "string"}),
    "Cache-Control": ("How long the answer may be kept.", {"type": "string"}),
    "Retry-After": ("Seconds to wait before trying again.", {"type": "string", "pattern": "^[0-9]+$"}),
    "Accept": ("Media types that a body may have.", {"type": "string"}),
    "Accept-Encoding": ("Codings that a body may have.", {"type": "string"}),
}
ALWAYS_SENT = {"X-Request-ID", "ETag", "Cache-Control"}
BYTES: Json = {"type": "string", "format": "binary"}
SAMPLES: dict[str, Json] = {
    "invalid-request": {
        "errors": [{"pointer": "#/meat/unit", "code": "unit_unknown", "detail": "Must be one of: g, kg, oz, lb."}],
        "errors_truncated": False,
    },
    "limit-exceeded": {"findings": [], "advice": "Lower the target."},
    "impossible": {"reason": "The scale is too coarse.", "nearest": "A step of 0.1 g.", "findings": []},
}


def document(operations: Sequence[Operation], version: str) -> Json:
    """The whole document."""
    pages = [_Page(operation) for operation in operations]
    schemas = Schemas(model for page in pages for model in page.models)
    return {
        "openapi": "3.1.0",
        "info": {
            "title": "Pellicle", "version": version, "description": DESCRIPTION,
            "contact": {"name": "Pellicle"}, "license": {"name": "MIT", "identifier": "MIT"},
        },
        "servers": [{"url": "/", "description": "Where this document was served from."}],
        "security": [],
        "tags": [{"name": tag.name, "description": tag.description} for tag in _tags(operations)],
        "paths": _paths(pages, schemas),
        "components": {
            "schemas": schemas.components,
            "responses": _declined(pages, schemas),
            "headers": {
                name: {"description": means, "required": name in ALWAYS_SENT, "schema": schema}
                for name, (means, schema) in HEADERS.items()
            },
        },
    }  # fmt: skip


def written(document: Json) -> bytes:
    """The document as it is committed and served."""
    return json.dumps(document, indent=1, ensure_ascii=False).encode() + b"\n"


class _Page:
    """One operation in the document."""

    def __init__(self, operation: Operation) -> None:
        self.operation = operation
        self.examples = operation.examples()
        self.good = [example for example in self.examples if example.status == 200]
        self.problems: dict[str, list[str]] = {}
        for slug in operation.problems:
            self.problems.setdefault(str(KINDS[slug].status), []).append(slug)

    @property
    def models(self) -> Iterable[Any]:
        for answer in self._answers:
            yield answer, "serialization"
        if self.operation.request is not None:
            yield self.operation.request, "validation"
        for slug in self.operation.problems:
            yield KINDS[slug].body, "serialization"

    @property
    def _answers(self) -> tuple[type[Answer], ...]:
        return self.operation.answer, *self.operation.other_lines

    def json(self, schemas: Schemas) -> Json:
        operation, sent = self.operation, self.good[0].parameters if self.good else {}
        asked = [
            *parameters(operation.path_parameters, "path", sent),
            *parameters(operation.query, "query", sent),
        ]
        return {
            "operationId": operation.id, "tags": [operation.tag.name], "summary": operation.summary,
            "description": operation.description,
            **({"parameters": asked} if asked else {}),
            **({"requestBody": self._request_body(schemas)} if operation.request else {}),
            "responses": self._responses(schemas),
        }  # fmt: skip

    def _masked(self, answer: Any) -> Any:
        return {**answer, "engine": SAMPLE_ENGINE} if "engine" in self.operation.answer.model_fields else answer

    def _content(self, references: Sequence[Json], values: Json) -> Json:
        """Lines are one text to JSON Schema; what one line holds is said as the structure of the text."""
        media_type = self.operation.media_type
        schema = references[0] if len(references) == 1 else {"anyOf": list(references)}
        if media_type != JSON:
            schema = {"type": "string", "contentMediaType": media_type, "contentSchema": schema}
        return {media_type: {"schema": schema, **_examples(values)}}

    def _request_body(self, schemas: Schemas) -> Json:
        assert self.operation.request is not None
        values = {one.name: {"summary": one.summary, "value": one.request} for one in self.good}
        schema = schemas.of(self.operation.request, "validation")
        return {"required": True, "content": self._content([schema], values)}

    def _responses(self, schemas: Schemas) -> Json:
        values = {one.name: {"summary": one.summary, "value": self._masked(one.answer)} for one in self.good}
        answers = [schemas.of(answer, "serialization") for answer in self._answers]
        headers = _headers("X-Request-ID", *(("ETag", "Cache-Control") if self.operation.cacheable else ()))
        answered = {
            "description": self.operation.answer_means,
            "headers": headers,
            "content": _forms(self.operation.told_as) or self._content(answers, values),
        }
        kept = {"304": {"description": "The caller has it already.", "headers": headers}}
        declined = {
            status: {"$ref": f"#/components/responses/{_name(slugs)}"}
            for status, slugs in sorted(self.problems.items())
        }
        return {"200": answered, **(kept if self.operation.cacheable else {}), **declined}


def _forms(media_types: Iterable[str]) -> Json:
    """Dots are bytes, all else is text to whoever reads the document; what is in them, other standards say."""
    text = {media_type: {"type": "string", "contentMediaType": media_type} for media_type in media_types}
    return {media_type: {"schema": BYTES if media_type == PNG else schema} for media_type, schema in text.items()}


def _tags(operations: Iterable[Operation]) -> Iterable[Any]:
    return {operation.tag.name: operation.tag for operation in operations}.values()


def _paths(pages: Iterable[_Page], schemas: Schemas) -> Json:
    paths: Json = {}
    for page in pages:
        paths.setdefault(page.operation.path, {})[page.operation.method.lower()] = page.json(schemas)
    return paths


def _declined(pages: Sequence[_Page], schemas: Schemas) -> Json:
    """One response for each set of problems that share a status."""
    shown = {
        example.answer["type"]: example.answer for page in pages for example in page.examples if _is_problem(example)
    }
    groups = {_name(slugs): slugs for page in pages for slugs in page.problems.values()}
    return {name: _response(slugs, shown, schemas) for name, slugs in sorted(groups.items())}


def _is_problem(example: Example) -> bool:
    return example.status != 200


def _response(slugs: list[str], shown: dict[str, Json], schemas: Schemas) -> Json:
    kinds = [KINDS[slug] for slug in slugs]
    bodies = [schemas.of(body, "serialization") for body in dict.fromkeys(kind.body for kind in kinds)]
    values = {kind.slug: {"summary": kind.title, "value": shown.get(kind.type) or _sample(kind.slug)} for kind in kinds}
    return {
        "description": " ".join(f"{kind.title}." for kind in kinds),
        "headers": _headers("X-Request-ID", *dict.fromkeys(name for kind in kinds for name in kind.headers)),
        "content": {
            PROBLEM_JSON: {"schema": bodies[0] if len(bodies) == 1 else {"anyOf": bodies}, **_examples(values)}
        },
    }


def _sample(slug: str) -> Json:
    kind = KINDS[slug]
    told = {"type": kind.type, "title": kind.title, "status": kind.status, "detail": kind.meaning}
    named = {"instance": instance_of(SAMPLE_REQUEST_ID), "code": slug.replace("-", "_")}
    return told | named | SAMPLES.get(slug, {})


def _name(slugs: Iterable[str]) -> str:
    return "Or".join(slug.title().replace("-", "") for slug in slugs)


def _headers(*names: str) -> Json:
    return {name: {"$ref": f"#/components/headers/{name}"} for name in names}


def _examples(values: Json) -> Json:
    return {"examples": values} if values else {}
