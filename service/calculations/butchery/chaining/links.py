"""Every stage of a chain with the share that it leaves, and where that share comes from."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from service.calculations.butchery.chaining.asking import (
    BoughtAs,
    ChangeStated,
    CookStage,
    CureStage,
    Gained,
    Left,
    Lost,
    OwnTest,
    SliceStage,
    Stage,
    TrimStage,
)
from service.calculations.butchery.chaining.bands import Share
from service.calculations.butchery.chaining.defaults import Taken, method_of, taken_for
from service.calculations.butchery.chaining.refusing import (
    no_pick_up,
    nothing_published,
    out_of_order,
    require_share,
    unknown_cut,
)
from service.calculations.butchery.chaining.refusing_bases import require_basis
from service.calculations.refusals import Impossible
from service.rules.book import RuleBook
from service.rules.cut import WeightStage

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
    """None only where the batch was weighed after it."""
    origin: Origin
    taken: Taken | None
    weighed_g: float | None

    @property
    def planned(self) -> Share | None:
        """What was to be left, where the batch was weighed as well."""
        return None if self.weighed_g is None else self.share


def bought_as(stated: BoughtAs | None, cut: str | None, book: RuleBook) -> BoughtAs:
    """What comes in: as stated, else by the cut. Raises Impossible for a cut that is not known."""
    if cut is not None and cut not in book.cuts:
        raise unknown_cut(book, cut)
    if stated or cut is None:
        return stated or "untrimmed"
    known = book.cuts[cut]
    if known.kind == "cut":
        return "untrimmed"
    first = next((one.of for one in known.yields), "trimmed" if known.kind == "trimming" else "cured")
    return AS_PRODUCTS[first]


def links_of(stages: list[Stage], begins: BoughtAs, cut: str | None, book: RuleBook) -> tuple[Link, ...]:
    """Every stage with its share. Raises Impossible for one that has none, or that makes no sense where it stands."""
    states = _states(stages, STARTS[begins])
    links: list[Link] = []
    for number, (stage, (of, left)) in enumerate(zip(stages, states, strict=True), 1):
        _require_raw(stage, of)
        stated = _stated(stage.change, number) if stage.change else None
        if stated and stage.change and not isinstance(stage.change, OwnTest):
            require_basis(number, stage.change.of_weight, of, stated, [(link.of, link.share) for link in links])
        taken = None if stated or stage.weighed else _taken(stage, of, cut, book)
        links.append(_link(number, stage, of, left, stated, taken))
    _require_all(links, cut, book)
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


def _taken(stage: Stage, of: WeightStage, cut: str | None, book: RuleBook) -> Taken | None:
    if not isinstance(stage, TrimStage | CookStage | SliceStage):
        return None
    return taken_for(stage.kind, stage.method if isinstance(stage, CookStage) else None, of, cut, book)


def _stated(change: ChangeStated, number: int) -> Share:
    """A share as it is stated. Raises Impossible for a range that runs backwards, or for weights of no one stage."""
    if isinstance(change, OwnTest):
        fraction = change.after.g / change.before.g
        require_share(fraction, f"The test of stage {number} leaves")
        return Share(fraction, fraction, fraction)
    least, usual, most = change.low_percent, change.percent, change.high_percent
    low_percent, high_percent = usual if least is None else least, usual if most is None else most
    if not low_percent <= usual <= high_percent:
        raise out_of_order(f"stage {number}")
    return _share(change, low_percent=low_percent, high_percent=high_percent)


def _share(change: Left | Lost | Gained, *, low_percent: float, high_percent: float) -> Share:
    if isinstance(change, Lost):
        return Share((100 - high_percent) / 100, (100 - change.percent) / 100, (100 - low_percent) / 100)
    more_percent = 100.0 if isinstance(change, Gained) else 0.0
    low, typical, high = (more_percent + percent for percent in (low_percent, change.percent, high_percent))
    return Share(low / 100, typical / 100, high / 100)


def _require_all(links: list[Link], cut: str | None, book: RuleBook) -> None:
    """Every stage has a share, or was weighed. Raises Impossible."""
    lacking = [link for link in links if link.share is None and link.weighed_g is None]
    cures = [link.number for link in lacking if isinstance(link.stage, CureStage)]
    if cures:
        raise no_pick_up(cures, [link.number for link in lacking])
    if lacking:
        missing = [f"{told_of(link.stage)} (stage {link.number}) of the {plain(link.of)} weight" for link in lacking]
        raise nothing_published(missing, _published(cut, book), [link.number for link in lacking])


def _published(cut: str | None, book: RuleBook) -> str:
    if cut is None:
        return "No cut is named; without one a trim, smoking straight after it, and slicing of cooked meat are known."
    told = [
        f"{method_of(one)}, {one.low_percent:g} to {one.high_percent:g} percent of the {plain(one.of)} weight"
        for one in book.cuts[cut].yields
        if one.usable
    ]
    return f"Of {book.cuts[cut].name} there is: {'; '.join(told) or 'no yield'}."


def told_of(stage: Stage) -> str:
    """A stage in words."""
    if isinstance(stage, CookStage):
        return stage.method.replace("_", "-")
    return stage.name if stage.kind == "other" else stage.kind


def plain(of: WeightStage) -> str:
    """A weight in words."""
    return of.replace("as_purchased", "purchased")
