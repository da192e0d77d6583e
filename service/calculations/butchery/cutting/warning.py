"""Which cautions belong to a cutting test: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.butchery.cutting.following import RECORD_ASKED
from service.calculations.butchery.cutting.parts import CutUp, Use
from service.calculations.butchery.cutting.told import CuttingNote
from service.rules.vocabulary import BIRDS, Animal

EATEN_RAW: frozenset[Use] = frozenset(("cure", "grind"))
"""What may be eaten without being cooked: a cured piece, a sausage that is dried."""


def cautions_for(test: CutUp, animals: frozenset[Animal], grinding: CuttingNote | None) -> Iterator[str]:
    """Knives and raw meat always; a record, birds and parasites where they come in."""
    yield from ("raw-meat-hygiene", "sharp-knives")
    if grinding and grinding.code in RECORD_ASKED:
        yield "grinding-record"
    if animals & BIRDS:
        yield "poultry"
    if "game" in animals:
        yield "game-and-pork-parasites"
    if "pork" in animals and any(part.stated.use in EATEN_RAW for part in test.parts):
        yield "pork-cured-raw"
    yield "local-code"
