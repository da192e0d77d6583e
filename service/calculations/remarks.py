"""What an answer says beside its figures: what a person should look at, and what is worth doing."""

from service.quantities.models import Answer, made


class CallOut(Answer):
    """Something that a person should look at."""

    code: str
    """Stable code, for translation."""
    message: str
    """What it is, with its numbers."""


class Advice(Answer):
    """Something worth doing."""

    code: str
    """Stable code, for translation."""
    text: str
    """In words."""


def call(code: str, message: str) -> CallOut:
    """A call-out."""
    return made(CallOut, code=code, message=message)


def advise(code: str, text: str) -> Advice:
    """A piece of advice."""
    return made(Advice, code=code, text=text)
