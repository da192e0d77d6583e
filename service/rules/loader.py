"""The rule book as it lies in rules/data: one file per limit, one folder per place, and the lists beside them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from hashlib import sha256
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import PurePosixPath
from typing import Any, Protocol

from service.rules.allergen import Allergen
from service.rules.book import Engine, RuleBook
from service.rules.cure_name import CureName
from service.rules.cut import Cut
from service.rules.ingredient import Ingredient
from service.rules.label_rule import LabelRule
from service.rules.page import BadRuleFile, Page
from service.rules.rule import CautionRow, Premix, Rule
from service.rules.substance import Substance
from service.rules.usual_yield import UsualYield

__all__ = ["DATA", "BadRuleFile", "check", "load_book"]

DATA: Traversable = files("service.rules") / "data"
LIMITS = "limits"
LISTS: dict[str, type["Listed"]] = {
    "allergens": Allergen,
    "cautions": CautionRow,
    "cure_names": CureName,
    "cuts": Cut,
    "ingredients": Ingredient,
    "label_rules": LabelRule,
    "premixes": Premix,
    "substances": Substance,
    "usual_yields": UsualYield,
}
"""The lists beside the limits, by the name of their file and of their shelf in the book: what a row of each is."""
DIGEST_LENGTH = 16


class Listed(Protocol):
    """A row of a list."""

    @property
    def id(self) -> str: ...


@dataclass(slots=True)
class _Reading:
    """What was found: every page, the rows that can be used, and a complaint for each page that cannot."""

    pages: list[Page] = field(default_factory=list)
    rules: dict[str, Rule] = field(default_factory=dict)
    lists: dict[str, dict[str, Any]] = field(default_factory=dict)
    bad: list[BadRuleFile] = field(default_factory=list)


def load_book(pellicle_version: str, folder: Traversable = DATA) -> RuleBook:
    """Every rule of a data folder, and every row of the lists beside them. Raises BadRuleFile."""
    reading = _read(folder)
    if reading.bad:
        raise reading.bad[0]
    return RuleBook(
        engine=Engine.of(pellicle=pellicle_version, rules=_digest(reading.pages)),
        rules=dict(sorted(reading.rules.items())),
        **reading.lists,
    )


def check(folder: Traversable = DATA) -> tuple[BadRuleFile, ...]:
    """Every complaint about a data folder, one for each bad file; empty when the book can be loaded."""
    return tuple(_read(folder).bad)


def _read(folder: Traversable) -> _Reading:
    reading = _Reading()
    try:
        names = list(_names(folder))
    except OSError as error:
        return _Reading(bad=[BadRuleFile(LIMITS, f"cannot be read: {error.strerror}")])
    for name in names:
        try:
            page = _page(folder, name)
            reading.pages.append(page)
            _shelve(page, reading)
        except BadRuleFile as bad:
            reading.bad.append(bad)
    return reading


def _names(folder: Traversable) -> Iterator[str]:
    """Every file that belongs to the book, in one order on every machine."""
    yield from (f"{name}.yaml" for name in LISTS)
    for place in _in_order(folder.joinpath(LIMITS).iterdir()):
        inside = _in_order(place.iterdir()) if place.is_dir() else ()
        yield from (f"{LIMITS}/{place.name}/{file.name}" for file in inside)
        if not place.is_dir():
            yield f"{LIMITS}/{place.name}"


def _in_order(entries: Iterable[Traversable]) -> list[Traversable]:
    return sorted(entries, key=lambda entry: entry.name)


def _page(folder: Traversable, name: str) -> Page:
    try:
        return Page(name, folder.joinpath(*name.split("/")).read_bytes())
    except OSError as error:
        raise BadRuleFile(name, f"cannot be read: {error.strerror}") from error


def _shelve(page: Page, reading: _Reading) -> None:
    name = page.name.removesuffix(".yaml")
    if name in LISTS:
        reading.lists[name] = _by_id(page, LISTS[name])
        return
    rule = _limit(page)
    twin = reading.rules.setdefault(rule.id, rule)
    if twin is not rule:
        raise BadRuleFile(page.name, f"id: {rule.id} is also a rule of {twin.jurisdiction}")


def _limit(page: Page) -> Rule:
    path = PurePosixPath(page.name)
    if len(path.parts) != 3 or path.suffix != ".yaml":
        raise BadRuleFile(page.name, "a limit lies in limits/<jurisdiction>/<id>.yaml")
    rule = page.row(Rule)
    if rule.id != path.stem:
        raise BadRuleFile(page.name, f"id: {rule.id} is not the name of the file")
    if rule.jurisdiction.lower() != path.parent.name:
        raise BadRuleFile(page.name, f"jurisdiction: {rule.jurisdiction} is not the folder that the file lies in")
    return rule


def _by_id(page: Page, kind: type[Any]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for row in page.rows(kind):
        if found.setdefault(row.id, row) is not row:
            raise BadRuleFile(page.name, f"id: {row.id} stands in the list twice")
    return found


def _digest(pages: list[Page]) -> str:
    digest = sha256()
    for page in sorted(pages, key=lambda page: page.name):
        digest.update(page.name.encode() + b"\0" + page.content + b"\0")
    return digest.hexdigest()[:DIGEST_LENGTH]
