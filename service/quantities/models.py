"""The two moulds every published model is poured in: closed requests, frozen answers."""

import re
from datetime import date
from typing import Annotated, Any, Self

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, WithJsonSchema

DAY_PATTERN = r"^(19[7-9][0-9]|20[0-9][0-9])-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"
PRINTABLE = r"^[^\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]{1,80}$"

_put = object.__setattr__


class Request(BaseModel):
    """Something a caller states: strict types, no unknown fields, frozen once checked."""

    model_config = ConfigDict(
        strict=True, extra="forbid", frozen=True, allow_inf_nan=False, use_attribute_docstrings=True
    )


class Answer(BaseModel):
    """Something the service states. Built from our own typed values, so never validated again."""

    model_config = ConfigDict(frozen=True, use_attribute_docstrings=True)

    @classmethod
    def of(cls, **fields: Any) -> Self:
        """Build without a second validation: the types are proved by mypy, the shapes by the tests."""
        answer = cls.__new__(cls)
        _put(answer, "__dict__", fields)
        _put(answer, "__pydantic_fields_set__", fields.keys())
        _put(answer, "__pydantic_extra__", None)
        _put(answer, "__pydantic_private__", None)
        return answer


def _day(text: Any) -> Any:
    return date.fromisoformat(text) if isinstance(text, str) and re.fullmatch(DAY_PATTERN, text) else text


Day = Annotated[
    date,
    BeforeValidator(_day),
    WithJsonSchema({"type": "string", "format": "date", "pattern": DAY_PATTERN}, mode="validation"),
    Field(ge=date(1970, 1, 1), le=date(2099, 12, 31)),
]
"""A calendar day, written 2026-12-01, from 1970 to 2099."""

Name = Annotated[str, Field(pattern=PRINTABLE, min_length=1, max_length=80)]
"""A short printable text: no control, bidirectional or zero-width characters."""
