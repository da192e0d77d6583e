"""What the animals of raw meat ask for, whatever is made of it."""

from collections.abc import Iterator

from service.rules.vocabulary import BIRDS, Animal

RECORDED: frozenset[Animal] = frozenset(("beef", "veal"))
"""Ground raw for sale, a record is due or to be asked about: 9 CFR 320.1(b)(4)."""


def cautions_of(animals: frozenset[Animal], *, maybe_raw: bool) -> Iterator[str]:
    """Birds, game and pork. maybe_raw: some of it is cured or ground, and may be eaten without being cooked."""
    if animals & BIRDS:
        yield "poultry"
    if "game" in animals:
        yield "game-and-pork-parasites"
    if "pork" in animals and maybe_raw:
        yield "pork-cured-raw"
