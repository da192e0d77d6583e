"""Which cautions belong to a cutting test: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.butchery.animals import cautions_of
from service.calculations.butchery.cutting.following import RECORD_ASKED
from service.calculations.butchery.cutting.parts import CutUp, Use
from service.calculations.butchery.cutting.told import CuttingNote
from service.rules.vocabulary import Animal

EATEN_RAW: frozenset[Use] = frozenset(("cure", "grind"))
"""What may be eaten without being cooked: a cured piece, a sausage that is dried."""


def cautions_for(test: CutUp, animals: frozenset[Animal], grinding: CuttingNote | None) -> Iterator[str]:
    """Knives and raw meat always; a record, birds and parasites where they come in."""
    yield from ("raw-meat-hygiene", "sharp-knives")
    if grinding and grinding.code in RECORD_ASKED:
        yield "grinding-record"
    yield from cautions_of(animals, maybe_raw=any(part.stated.use in EATEN_RAW for part in test.parts))
    yield "local-code"
