"""The rule book as it lies in rules/data: one file per limit, one folder per place, and the lists beside them."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from hashlib import sha256
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import PurePosixPath
from typing import Protocol, TypeVar

from service.rules.allergen import Allergen
from service.rules.book import Engine, RuleBook
from service.rules.cut import Cut
from service.rules.ingredient import Ingredient
from service.rules.label_rule import LabelRule
from service.rules.page import BadRuleFile, Page
from service.rules.rule import CautionRow, Premix, Rule
from service.rules.substance import Substance

__all__ = ["DATA", "BadRuleFile", "check", "load_book"]

DATA: Traversable = files("service.rules") / "data"
LIMITS, CAUTIONS, CUTS = "limits", "cautions.yaml", "cuts.yaml"
INGREDIENTS, PREMIXES = "ingredients.yaml", "premixes.yaml"
ALLERGENS, LABEL_RULES, SUBSTANCES = "allergens.yaml", "label_rules.yaml", "substances.yaml"
DIGEST_LENGTH = 16


class _Named(Protocol):
    @property
    def id(self) -> str: ...


Row = TypeVar("Row", bound=_Named)


@dataclass(slots=True)
class _Reading:
    """What was found: every page, the rows that can be used, and a complaint for each page that cannot."""

    pages: list[Page] = field(default_factory=list)
    rules: dict[str, Rule] = field(default_factory=dict)
    cautions: dict[str, CautionRow] = field(default_factory=dict)
    premixes: dict[str, Premix] = field(default_factory=dict)
    ingredients: dict[str, Ingredient] = field(default_factory=dict)
    cuts: dict[str, Cut] = field(default_factory=dict)
    allergens: dict[str, Allergen] = field(default_factory=dict)
    substances: dict[str, Substance] = field(default_factory=dict)
    label_rules: dict[str, LabelRule] = field(default_factory=dict)
    bad: list[BadRuleFile] = field(default_factory=list)


def load_book(pellicle_version: str, folder: Traversable = DATA) -> RuleBook:
    """Every rule and every row of the lists of a data folder. Raises BadRuleFile."""
    reading = _read(folder)
    if reading.bad:
        raise reading.bad[0]
    return RuleBook(
        engine=Engine.of(pellicle=pellicle_version, rules=_digest(reading.pages)),
        rules=dict(sorted(reading.rules.items())),
        cautions=reading.cautions,
        premixes=reading.premixes,
        ingredients=reading.ingredients,
        cuts=reading.cuts,
        allergens=reading.allergens,
        substances=reading.substances,
        label_rules=reading.label_rules,
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
    yield ALLERGENS
    yield CAUTIONS
    yield CUTS
    yield INGREDIENTS
    yield LABEL_RULES
    for place in _in_order(folder.joinpath(LIMITS).iterdir()):
        inside = _in_order(place.iterdir()) if place.is_dir() else ()
        yield from (f"{LIMITS}/{place.name}/{file.name}" for file in inside)
        if not place.is_dir():
            yield f"{LIMITS}/{place.name}"
    yield PREMIXES
    yield SUBSTANCES


def _in_order(entries: Iterable[Traversable]) -> list[Traversable]:
    return sorted(entries, key=lambda entry: entry.name)


def _page(folder: Traversable, name: str) -> Page:
    try:
        return Page(name, folder.joinpath(*name.split("/")).read_bytes())
    except OSError as error:
        raise BadRuleFile(name, f"cannot be read: {error.strerror}") from error


def _shelve(page: Page, reading: _Reading) -> None:
    if page.name == CAUTIONS:
        reading.cautions = _by_id(page, page.rows(CautionRow))
    elif page.name == PREMIXES:
        reading.premixes = _by_id(page, page.rows(Premix))
    elif page.name == INGREDIENTS:
        reading.ingredients = _by_id(page, page.rows(Ingredient))
    elif page.name == CUTS:
        reading.cuts = _by_id(page, page.rows(Cut))
    elif page.name in (ALLERGENS, LABEL_RULES, SUBSTANCES):
        _shelve_label(page, reading)
    else:
        rule = _limit(page)
        twin = reading.rules.setdefault(rule.id, rule)
        if twin is not rule:
            raise BadRuleFile(page.name, f"id: {rule.id} is also a rule of {twin.jurisdiction}")


def _shelve_label(page: Page, reading: _Reading) -> None:
    if page.name == ALLERGENS:
        reading.allergens = _by_id(page, page.rows(Allergen))
    elif page.name == SUBSTANCES:
        reading.substances = _by_id(page, page.rows(Substance))
    else:
        reading.label_rules = _by_id(page, page.rows(LabelRule))


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


def _by_id(page: Page, rows: tuple[Row, ...]) -> dict[str, Row]:
    found: dict[str, Row] = {}
    for row in rows:
        if found.setdefault(row.id, row) is not row:
            raise BadRuleFile(page.name, f"id: {row.id} stands in the list twice")
    return found


def _digest(pages: list[Page]) -> str:
    digest = sha256()
    for page in sorted(pages, key=lambda page: page.name):
        digest.update(page.name.encode() + b"\0" + page.content + b"\0")
    return digest.hexdigest()[:DIGEST_LENGTH]
