"""The words of an ingredient list as they are read: the longest known words win, and what is left over is unknown."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from typing import Literal, NamedTuple

from service.rules.book import RuleBook
from service.rules.spelling import Word, folded, words_of
from service.rules.substance import BY_WORD, Substance
from service.rules.vocabulary import AllergenName

WhyOpen = Literal[
    "unknown_word", "generic_word", "claim_in_name", "form_not_known", "several_foods", "may_carry",
    "rest_not_stated", "kind_not_named"
]  # fmt: skip
"""Why it cannot be told what something consists of."""

BOOKS_KEPT = 4
LONGEST_NUMBER = 2
"""80/20 says how lean meat is; a number of three figures may be that of an additive."""

Phrases = dict[str, tuple[tuple[tuple[str, ...], Substance], ...]]


class Carried(NamedTuple):
    """An allergen that a word brings in."""

    allergen: AllergenName
    word: str
    says: str
    start: int
    end: int
    counts: bool = True
    """Whether the law of the place means it; black walnuts are nuts, and on no European list."""


class Chunk(NamedTuple):
    """Some words of a name that mean one thing; nothing is known of them where there is no substance."""

    words: tuple[Word, ...]
    substance: Substance | None

    @property
    def text(self) -> str:
        return " ".join(word.plain for word in self.words)

    @property
    def is_thing(self) -> bool:
        return self.substance is not None and self.substance.kind in ("substance", "mix")


class Read(NamedTuple):
    """A name as it was read: the things in it, what is claimed of it, and the words that say nothing."""

    things: tuple[Chunk, ...]
    claimed: tuple[Chunk, ...]
    claims: bool
    unknown: tuple[str, ...]
    makings: tuple[Chunk, ...] = ()
    """Forms in which something of it is not known: a powder of honey holds more than honey."""

    @property
    def is_dish(self) -> bool:
        """Whether several foods stand side by side: chicken salt is a seasoning, lemon chicken has a sauce."""
        known = [chunk.substance for chunk in self.things if chunk.substance]
        return any(not one.is_one_food_with(other) for one, other in pairwise(known))


class WordTable(NamedTuple):
    """The words of a rule book, made ready to read names with."""

    phrases: Phrases
    ingredients: dict[str, Substance]

    def read(self, name: str) -> Read:
        """Read a composed name."""
        chunks = list(self._chunks(words_of(name)))
        claimed = {at for number, chunk in enumerate(chunks) if (at := _claims_about(chunk, number)) is not None}
        things = tuple(chunk for number, chunk in enumerate(chunks) if chunk.is_thing and number not in claimed)
        return Read(
            things=things,
            claimed=tuple(chunk for number, chunk in enumerate(chunks) if number in claimed),
            claims=bool(claimed),
            unknown=tuple(chunk.text for chunk in chunks if chunk.substance is None and not _says_how_lean(chunk)),
            makings=tuple(chunk for chunk in chunks if _may_hold_more(chunk, things)),
        )

    def _chunks(self, words: tuple[Word, ...]) -> Iterator[Chunk]:
        at = 0
        while at < len(words):
            chunk = self._longest(words, at)
            yield chunk
            at += len(chunk.words)

    def _longest(self, words: tuple[Word, ...], at: int) -> Chunk:
        for phrase, substance in self.phrases.get(words[at].plain, ()):
            found = words[at : at + len(phrase)]
            if tuple(word.plain for word in found) == phrase:
                return Chunk(found, substance)
        return Chunk(words[at : at + 1], None)


def _claims_about(chunk: Chunk, number: int) -> int | None:
    """The place of what a claim is about: before "free", after "without"."""
    kind = chunk.substance.kind if chunk.substance else None
    return {"claim_before": number - 1, "claim_after": number + 1}.get(kind or "")


def _may_hold_more(chunk: Chunk, things: tuple[Chunk, ...]) -> bool:
    """Whether it is a making in which one of the things beside it is not known."""
    making = chunk.substance
    if making is None or making.kind != "making":
        return False
    return not all(one.substance.known_in(making.id) for one in things if one.substance)


def _says_how_lean(chunk: Chunk) -> bool:
    return chunk.text.isdigit() and len(chunk.text) <= LONGEST_NUMBER


def carried_by(chunk: Chunk, name: str, *, counts: bool) -> Iterator[Carried]:
    """The allergens that some words of a name bring in."""
    substance = chunk.substance
    if substance is not None:
        says = chunk.text if substance.says == BY_WORD else substance.says
        start, end = chunk.words[0].start, chunk.words[-1].end
        for allergen in substance.carries:
            yield Carried(allergen, name[start:end], says, start, end, counts)


@lru_cache(maxsize=BOOKS_KEPT)
def word_table(book: RuleBook) -> WordTable:
    """The words of a book: put in order once for each book."""
    phrases: dict[str, list[tuple[tuple[str, ...], Substance]]] = {}
    for substance in book.substances.values():
        for words in substance.words:
            phrase = tuple(folded(words).split())
            phrases.setdefault(phrase[0], []).append((phrase, substance))
    longest_first = {first: tuple(sorted(found, key=lambda one: -len(one[0]))) for first, found in phrases.items()}
    return WordTable(longest_first, {id: one for one in book.substances.values() for id in one.ingredients})
