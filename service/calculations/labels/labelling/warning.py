"""Which cautions belong to a label statement: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.labels.labelling.requiring import RequiredStatement


def cautions_of(required: tuple[RequiredStatement, ...], *, is_shared_stated: bool) -> Iterator[str]:
    """For one statement."""
    yield "allergens"
    if not is_shared_stated:
        yield "shared-equipment"
    if any(one.verdict == "met" and one.evidence == "reported" for one in required):
        yield "reported-source"
    yield from ("label-approval", "local-code")
