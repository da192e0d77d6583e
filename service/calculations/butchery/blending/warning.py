"""Which cautions belong to a blend: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.butchery.animals import RECORDED, cautions_of
from service.calculations.butchery.blending.finishing import Mixed
from service.rules.finding import Finding
from service.rules.vocabulary import Animal


def caution_ids(
    animals: frozenset[Animal], mixed: Mixed | None, findings: tuple[Finding, ...], *, coarse: bool
) -> list[str]:
    """Cautions in the order in which they are printed, each once; those of the dose among them."""
    found = [
        *_of_block(animals),
        *(("coarse-scale",) if coarse else ()),
        *(_of_batch(mixed, findings) if mixed else ()),
    ]
    return [*dict.fromkeys(id for id in found if id != "local-code"), "local-code"]


def _of_block(animals: frozenset[Animal]) -> Iterator[str]:
    yield "raw-meat-hygiene"
    yield from cautions_of(animals, maybe_raw=True)
    if animals & RECORDED:
        yield "grinding-record"


def _of_batch(mixed: Mixed, findings: tuple[Finding, ...]) -> Iterator[str]:
    if mixed.batch.seasoning_percent:
        yield "allergens"
    for finding in findings:
        yield from finding.cautions
    known_better = _known_better(mixed)
    yield from (one.id for one in mixed.cure.cautions if one.id not in known_better) if mixed.cure else ()


def _known_better(mixed: Mixed) -> frozenset[str]:
    """What the dose says because it was asked only for salt that is not inside, and of mixed meat."""
    stated = ("salt-not-stated",) if mixed.batch.salt_percent is not None else ()
    no_game = ("game-and-pork-parasites",) if "game" not in mixed.animals else ()
    return frozenset((*stated, *no_game))
