"""Which cautions belong to a cutting test: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.butchery.cutting.following import RECORD_ASKED
from service.calculations.butchery.cutting.told import CuttingNote
from service.rules.vocabulary import Animal

BIRDS: frozenset[Animal] = frozenset(("chicken", "turkey", "duck", "goose", "other_bird"))
WITH_PARASITES: frozenset[Animal] = frozenset(("pork", "game"))


def cautions_for(animals: frozenset[Animal], grinding: CuttingNote | None) -> Iterator[str]:
    """Knives and raw meat always; a record, birds and parasites where they come in."""
    yield from ("raw-meat-hygiene", "sharp-knives")
    if grinding and grinding.code in RECORD_ASKED:
        yield "grinding-record"
    if animals & BIRDS:
        yield "poultry"
    if animals & WITH_PARASITES:
        yield "game-and-pork-parasites"
    yield "local-code"
