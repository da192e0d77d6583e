"""What a caller may call a line: a short text or a whole number."""

from collections.abc import Callable
from typing import Annotated, Any

from pydantic import Field, TypeAdapter, ValidationError, WrapValidator
from pydantic_core import PydanticCustomError

from service.quantities.models import Name

BIGGEST_ID = 2**53 - 1
"""Beyond it, JSON readers that keep numbers as doubles would confuse two ids (RFC 7493, 2.2)."""


def _one_sentence(value: Any, check: Callable[[Any], Any]) -> Any:
    """Say once what an id is, and not what is wrong with it as a text and what as a number."""
    try:
        return check(int(value) if isinstance(value, float) and value.is_integer() else value)
    except ValidationError:
        told = "Must be a text of 1 to 80 printable characters, or a whole number within {biggest}"
        raise PydanticCustomError("value_invalid", told, {"biggest": BIGGEST_ID}) from None


LineId = Annotated[Annotated[int, Field(ge=-BIGGEST_ID, le=BIGGEST_ID)] | Name, WrapValidator(_one_sentence)]

LONGEST_PLAIN_ID = 80
"""Of the ids that are seen to be lawful at a glance; about any other text the model decides."""

_LINE_ID: TypeAdapter[Any] = TypeAdapter(LineId, config={"strict": True})


def lawful_id(envelope: Any) -> str | int | None:
    """The id of a line; None where it has none, or one that its model does not take."""
    id = envelope.get("id") if isinstance(envelope, dict) else None
    if type(id) is str and id.isascii() and id.isprintable() and 0 < len(id) <= LONGEST_PLAIN_ID:
        return id
    if type(id) is int and -BIGGEST_ID <= id <= BIGGEST_ID:
        return id
    try:
        return None if id is None else _LINE_ID.validate_python(id)
    except ValidationError:
        return None
