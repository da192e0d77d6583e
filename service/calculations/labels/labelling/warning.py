"""Which cautions belong to a label statement: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.labels.labelling.composition import Contents
from service.calculations.labels.labelling.requiring import RequiredStatement
from service.calculations.labels.labelling.telling import AllergenStatement


def cautions_of(
    required: tuple[RequiredStatement, ...], statement: AllergenStatement, contents: Contents, *, is_shared_stated: bool
) -> Iterator[str]:
    """For one statement."""
    if contents.found or contents.opened or contents.specified:
        yield "allergens"
    if statement.not_listed:
        yield "found-not-listed"
    if contents.unusual:
        yield "usual-allergen-missing"
    if not is_shared_stated:
        yield "shared-equipment"
    if any(one.verdict == "met" and one.evidence == "reported" for one in required):
        yield "reported-source"
    yield from ("label-approval", "local-code")
