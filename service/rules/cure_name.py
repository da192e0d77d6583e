"""A name of what brings nitrite or nitrate, as it is written down, and how it is found in what people write."""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from service.rules.rule import Row
from service.rules.vocabulary import Evidence

Cure = Literal["curing_salt", "neat", "natural_source", "doubtful"]
"""curing_salt: salt with nitrite or nitrate in it. neat: the nitrite or nitrate itself. natural_source: powder or juice
of a vegetable rich in nitrate. doubtful: a name that a curing salt and a harmless salt share."""

NameKind = Literal[Cure, "unread"]
"""unread: no cure by its name, but its label is to be read."""

CureKind = Literal[NameKind, "innocent"]
"""innocent: words that only look like one of these; they are passed over."""

Written = Annotated[str, Field(min_length=1, max_length=60)]
"""As people write it: case, accents, spaces and signs between words do not matter."""


class CureName(Row):
    """Names that mean one thing, in one language."""

    id: str = Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=60)
    """Stable id."""
    kind: CureKind
    """What the names are."""
    words: tuple[Written, ...] = ()
    """Found as whole words; several of them written together or apart, too."""
    near: tuple[Written, ...] = ()
    """Found as whole words, with one letter wrong, missing, doubled or swapped, too, together or apart."""
    parts: tuple[Written, ...] = ()
    """Found anywhere, inside a longer word and across spaces."""
    endings: tuple[Written, ...] = ()
    """Found where a word ends, as in hamcure."""
    beside: tuple[Written, ...] = ()
    """Where there are some, one of them has to stand in the name with its words or parts, anywhere: powder beside
    celery."""
    beside_words: tuple[Written, ...] = ()
    """The same, but as whole words: sel beside pink, not salmon."""
    unless: tuple[Written, ...] = ()
    """Where one of these stands in the name, anywhere, it is none: seed beside celery."""
    source: str = Field(min_length=5)
    """Where that is printed."""
    evidence: Evidence
    """How that is known."""

    @model_validator(mode="after")
    def _has_a_name(self) -> Self:
        if not (self.words or self.near or self.parts):
            raise ValueError("a row has words, near or parts")
        return self
