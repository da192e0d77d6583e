"""Which cautions belong to a blend: each has its trigger here and its words in the rule data."""

from collections.abc import Iterator

from service.calculations.butchery.blending.batch import SausageBatch
from service.calculations.butchery.blending.finishing import FinishedBatch
from service.calculations.butchery.blending.salting import BIRDS
from service.rules.vocabulary import Animal


def caution_ids(animals: frozenset[Animal], asked: SausageBatch | None, batch: FinishedBatch | None) -> list[str]:
    """Cautions in the order in which they are printed, each once; those of the dose among them."""
    found = [*_of_block(animals), *_of_batch(asked, batch)]
    return [*dict.fromkeys(id for id in found if id != "local-code"), "local-code"]


def _of_block(animals: frozenset[Animal]) -> Iterator[str]:
    yield "raw-meat-hygiene"
    if animals & BIRDS:
        yield "poultry"
    if "game" in animals or len(animals) > 1:
        yield "game-and-pork-parasites"
    if "beef" in animals:
        yield "grinding-record"


def _of_batch(asked: SausageBatch | None, batch: FinishedBatch | None) -> Iterator[str]:
    if asked and asked.seasoning_percent:
        yield "allergens"
    for finding in batch.findings if batch else ():
        yield from finding.cautions
    if batch and batch.cure:
        yield from (caution.id for caution in batch.cure.cautions)
