"""Every stage of a chain with the share that it leaves, and where that share comes from."""

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from service.calculations.butchery.chaining.asking import (
    BoughtAs,
    CookStage,
    CureStage,
    OwnTest,
    SliceStage,
    Stage,
    TrimStage,
)
from service.calculations.butchery.chaining.bands import Share
from service.calculations.butchery.chaining.defaults import Doing, Taken, taken_for
from service.calculations.butchery.chaining.matching import Meat
from service.calculations.butchery.chaining.refusing_bases import Before, require_basis
from service.calculations.butchery.chaining.stating import stated_share
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from service.rules.cut import Cut, WeightStage

Origin = Literal["stated", "own_test", "weighed", "cut", "usual"]

STARTS: dict[BoughtAs, WeightStage] = {
    "untrimmed": "as_purchased", "trimmed": "trimmed", "cured": "cured", "cooked": "cooked",
}  # fmt: skip
AS_PRODUCTS: dict[WeightStage, BoughtAs] = {
    "as_purchased": "untrimmed", "trimmed": "trimmed", "cured": "cured", "cooked": "cooked", "sold": "cooked",
}  # fmt: skip
CHANGES = (CureStage, CookStage)
"""Stages after which the piece is no longer fresh."""


class Link(NamedTuple):
    """One stage, ready to be carried through."""

    number: int
    stage: Stage
    of: WeightStage
    """What the weight is that enters."""
    left: WeightStage
    """What the weight is that leaves."""
    share: Share | None
    """None where the batch was weighed after it, or where none is stated or published."""
    origin: Origin
    taken: Taken | None
    weighed_g: float | None

    @property
    def planned(self) -> Share | None:
        """What was to be left, where the batch was weighed as well."""
        return None if self.weighed_g is None else self.share


def bought_as(stated: BoughtAs | None, cut: Cut | None) -> BoughtAs:
    """What comes in: as stated, else by the cut."""
    if stated or cut is None:
        return stated or "untrimmed"
    if cut.kind == "cut":
        return "untrimmed"
    first = next((one.of for one in cut.yields), "trimmed" if cut.kind == "trimming" else "cured")
    return AS_PRODUCTS[first]


def comes_cured(begins: BoughtAs, cut: Cut | None) -> bool:
    """Whether what comes in is cured, as it is stated, or by its cut whatever is stated."""
    return "cured" in (begins, bought_as(None, cut))


def links_of(stages: list[Stage], begins: BoughtAs, meat: Meat, book: RuleBook) -> tuple[Link, ...]:
    """Every stage with its share, where it has one. Raises Impossible for one that makes no sense where it stands."""
    states = _states(stages, STARTS[begins])
    links: list[Link] = []
    for number, (stage, (of, left)) in enumerate(zip(stages, states, strict=True), 1):
        _require_raw(stage, of)
        stated = stated_share(stage.change, number) if stage.change else None
        if stated and stage.change and not isinstance(stage.change, OwnTest) and stage.change.of_weight:
            before = [Before(link.number, link.of, link.share, link.taken is not None) for link in links]
            require_basis(number, stage, stage.change.of_weight, of, stated, before)
        taken = None if stated or stage.weighed else taken_share(stage, of, meat, book, later=stages[number:])
        links.append(_link(number, stage, of, left, stated, taken))
    return tuple(links)


def _link(
    number: int, stage: Stage, of: WeightStage, left: WeightStage, stated: Share | None, taken: Taken | None
) -> Link:
    origin: Origin = "own_test" if isinstance(stage.change, OwnTest) else "stated"
    if stage.weighed:
        origin = "weighed"
    elif taken:
        origin = taken.source
    share = taken.share if taken else stated
    return Link(number, stage, of, left, share, origin, taken, stage.weighed.g if stage.weighed else None)


def _states(stages: list[Stage], state: WeightStage) -> Iterator[tuple[WeightStage, WeightStage]]:
    """What enters and what leaves each stage."""
    last = max((place for place, stage in enumerate(stages) if isinstance(stage, CHANGES)), default=-1)
    for place, stage in enumerate(stages):
        before, state = state, _state_after(stage, state, is_last=place > last)
        yield before, state


def _state_after(stage: Stage, state: WeightStage, *, is_last: bool) -> WeightStage:
    """Slices that are cooked afterwards are not sold yet."""
    if isinstance(stage, TrimStage) and state == "as_purchased":
        return "trimmed"
    if isinstance(stage, CureStage):
        return "cured"
    if isinstance(stage, CookStage):
        return "cooked"
    return "sold" if isinstance(stage, SliceStage) and is_last else state


def _require_raw(stage: Stage, of: WeightStage) -> None:
    if isinstance(stage, CureStage) and of == "cooked":
        raise Impossible(
            code="cured_after_cooking",
            reason="A cure goes into raw meat; here it comes after the meat is cooked.",
            nearest="Put the cure before the cooking; for pieces that are bought cooked, leave the cure out.",
        )


def taken_share(
    stage: Stage, of: WeightStage, meat: Meat, book: RuleBook, *, later: Sequence[Stage] = ()
) -> Taken | None:
    """What is published for a stage, or usual; None for one that is always stated."""
    if not isinstance(stage, TrimStage | CookStage | SliceStage):
        return None
    way = stage.method if isinstance(stage, CookStage) else "slice" if isinstance(stage, SliceStage) else None
    is_last = not any(isinstance(one, SliceStage) for one in later)
    return taken_for(Doing(stage.kind, way, is_last), of, meat, book)
