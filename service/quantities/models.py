"""The two moulds every published model is poured in: closed requests, frozen answers; and answers as JSON."""

import re
from datetime import date, datetime
from typing import TYPE_CHECKING, Annotated, Any, Self, TypeVar

import orjson
from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, GetJsonSchemaHandler, WithJsonSchema
from pydantic_core import CoreSchema, PydanticCustomError

DAY_PATTERN = r"^(19[7-9][0-9]|20[0-9][0-9])-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$"
PRINTABLE = r"^[^\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]{1,80}$"

_new = object.__new__
_put_fields = BaseModel.__dict__["__dict__"].__set__


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
        answer = _new(cls)
        _put_fields(answer, fields)
        return answer

    if not TYPE_CHECKING:  # a checker that sees it takes every name for a field

        def __getattr__(self, name: str) -> Any:
            """What pydantic keeps beside the fields is made up when it is asked for: most answers are only written."""
            if name == "__pydantic_fields_set__":
                return set(self.__dict__)
            if name in ("__pydantic_extra__", "__pydantic_private__"):
                return None
            return super().__getattr__(name)


Made = TypeVar("Made", bound=Answer)


def made(kind: type[Made], /, **fields: Any) -> Made:
    """``kind.of(**fields)`` for what is built often: a class of pydantic's is slow to find its methods."""
    answer = _new(kind)
    _put_fields(answer, fields)
    return answer


def holding(kind: type[Made], fields: dict[str, Any], /) -> Made:
    """The same from a dictionary in the order of the fields, which becomes the answer's own."""
    answer = _new(kind)
    _put_fields(answer, fields)
    return answer


def written(answer: Answer) -> bytes:
    """The JSON of an answer: byte for byte what pydantic writes, in half the time."""
    return orjson.dumps(answer, default=vars)


_DAY = re.compile(DAY_PATTERN)


def _day(text: Any) -> Any:
    return date.fromisoformat(text) if isinstance(text, str) and _DAY.fullmatch(text) else text


Day = Annotated[
    date,
    BeforeValidator(_day),
    WithJsonSchema({"type": "string", "format": "date", "pattern": DAY_PATTERN}, mode="validation"),
    Field(ge=date(1970, 1, 1), le=date(2099, 12, 31)),
]
"""A calendar day, written 2026-12-01, from 1970 to 2099."""

MOMENT_PATTERN = (
    r"^20[0-9][0-9]-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9](\.[0-9]{1,9})?"
    r"(Z|[+-](0[0-9]|1[0-3]):[0-5][0-9]|[+-]14:00)$"
)
_MOMENT = re.compile(MOMENT_PATTERN)


def _moment(text: Any) -> Any:
    return datetime.fromisoformat(text) if isinstance(text, str) and _MOMENT.fullmatch(text) else text


Moment = Annotated[
    datetime,
    BeforeValidator(_moment),
    WithJsonSchema({"type": "string", "format": "date-time", "pattern": MOMENT_PATTERN}, mode="validation"),
]
"""A moment with its offset from UTC: 2026-12-01T08:00:00+01:00, with or without parts of a second, 2000 to 2099."""


def _not_null(value: Any) -> Any:
    if value is None:
        raise PydanticCustomError("null_not_allowed", "Leave the field out instead of sending null")
    return value


class _NullUnpublished:
    """Keeps the null that stands for a field left out from being published as something to send."""

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        published = handler(core)
        if "anyOf" not in published:
            return published
        without_null = [option for option in published["anyOf"] if option != {"type": "null"}]
        return without_null[0] if len(without_null) == 1 else {"anyOf": without_null}


Stated = TypeVar("Stated")
IfStated = Annotated[Stated | None, BeforeValidator(_not_null), _NullUnpublished()]
"""A field that may be left out. Left out it is None; null is no way of leaving it out."""


def _whole(value: Any) -> Any:
    return int(value) if isinstance(value, float) and value.is_integer() else value


HowMany = Annotated[int, BeforeValidator(_whole), Field(ge=1, le=10_000)]
"""A whole number from 1 to 10,000; in JSON 5.0 is 5, so that is taken as well."""

Name = Annotated[str, Field(pattern=PRINTABLE, min_length=1, max_length=80)]
"""A short printable text: no control, bidirectional or zero-width characters."""
