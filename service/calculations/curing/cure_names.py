"""What reads like something that brings nitrite or nitrate, by whatever spelling, for every calculation that asks."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from service.rules.book import RuleBook
from service.rules.cure_name import CureKind, CureName
from service.rules.spelling import readings_of
from service.rules.substance import Substance

BOOKS_KEPT, NAMES_KEPT = 4, 4096
GRAVEST: tuple[CureKind, ...] = ("curing_salt", "natural_source", "neat", "doubtful")
"""Of a name that is several things the first is told: nitrite curing salt is a curing salt."""


class Sought(NamedTuple):
    """A row of names, folded as the names of a recipe are."""

    kind: CureKind
    words: tuple[str, ...]
    """Each between two spaces."""
    parts: tuple[str, ...]
    """Without spaces, as all that follows."""
    beside: tuple[str, ...]
    unless: tuple[str, ...]

    def is_in(self, spaced: str, close: str) -> bool:
        """Whether a name is one of these. close: the same without its spaces."""
        named = any(word in spaced for word in self.words) or any(part in close for part in self.parts)
        if not named or any(other in close for other in self.unless):
            return False
        return not self.beside or any(other in close for other in self.beside)


class CureTable(NamedTuple):
    """All names of a rule book."""

    innocent: tuple[str, ...]
    sought: tuple[Sought, ...]
    slips: dict[str, tuple[int, CureKind]]
    """A name less one letter, or whole; how many words it has, and what it is."""
    most_words: int

    def kinds_of(self, name: str) -> set[CureKind]:
        """Everything that it reads like."""
        return {kind for reading in readings_of(name) for kind in self._kinds_of(reading)}

    def _kinds_of(self, reading: str) -> Iterator[CureKind]:
        spaced = f" {reading} "
        for words in self.innocent:
            spaced = spaced.replace(words, " ")
        close = spaced.replace(" ", "")
        yield from (one.kind for one in self.sought if one.is_in(spaced, close))
        yield from self._misspelt(spaced.split())

    def _misspelt(self, words: list[str]) -> Iterator[CureKind]:
        for count in range(1, self.most_words + 1):
            for start in range(len(words) - count + 1):
                for less in _less_one("".join(words[start : start + count])):
                    meant = self.slips.get(less)
                    if meant is not None and meant[0] == count:
                        yield meant[1]


@lru_cache(maxsize=NAMES_KEPT)
def cure_kind(book: RuleBook, name: str) -> CureKind | None:
    """What a name reads like; None where it reads like nothing of the kind. A listed id is what its row says."""
    kinds = _cure_table(book).kinds_of(name)
    return next((kind for kind in GRAVEST if kind in kinds), None)


@lru_cache(maxsize=BOOKS_KEPT)
def _cure_table(book: RuleBook) -> CureTable:
    rows = book.cure_names.values()
    near = [(_folded(words), row.kind) for row in rows for words in row.near]
    slips = {less: (len(words.split()), kind) for words, kind in near for less in _less_one(words.replace(" ", ""))}
    table = CureTable(
        tuple(f" {_folded(words)} " for row in rows if row.kind == "innocent" for words in row.words),
        tuple(_sought(row) for row in rows if row.kind != "innocent"),
        slips,
        max(count for count, _ in slips.values()),
    )
    return table._replace(sought=(*table.sought, *_of_labels(book, table)))


def _of_labels(book: RuleBook, table: CureTable) -> Iterator[Sought]:
    """The words that labels have for them, but for a pink salt: as a name it says nothing."""
    for one in book.substances.values():
        words = [words for words in one.words if one.cures and table.kinds_of(words) != {"doubtful"}]
        if words:
            yield Sought(_kind_of(one), _spaced(words), (), (), ())


def _kind_of(one: Substance) -> CureKind:
    if one.cures == "natural_source":
        return "natural_source"
    return "neat" if one.additive else "curing_salt"


def _sought(row: CureName) -> Sought:
    return Sought(row.kind, _spaced(row.words), *map(_close, (row.parts, row.beside, row.unless)))


def _folded(words: str) -> str:
    return readings_of(words)[0]


def _spaced(several: Iterable[str]) -> tuple[str, ...]:
    return tuple(f" {_folded(words)} " for words in several)


def _close(several: Iterable[str]) -> tuple[str, ...]:
    return tuple(_folded(words).replace(" ", "") for words in several)


def _less_one(word: str) -> set[str]:
    """A word, and the same with any letter left out: two that share one of these differ by one slip."""
    return {word, *(word[:place] + word[place + 1 :] for place in range(len(word)))}
