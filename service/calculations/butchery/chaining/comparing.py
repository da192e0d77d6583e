"""Which weights of a chain a rule compares: the fresh trimmed piece, and the same piece, whole, cured or finished."""

from collections.abc import Iterator
from typing import NamedTuple

from service.calculations.butchery.chaining.asking import (
    ChillStage,
    CookStage,
    CureStage,
    OtherStage,
    SliceStage,
    Standard,
    TrimStage,
)
from service.calculations.butchery.chaining.bands import NOISE
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.butchery.chaining.links import CHANGES, Link
from service.calculations.butchery.chaining.wording import RAW_FINISHES
from service.rules.vocabulary import Fact, Measure


class Points(NamedTuple):
    """Every weight that may be the fresh one, and every one that may be the later one; the usual ones last."""

    greens: tuple[int, ...]
    laters: tuple[int, ...]
    open_question: str
    """What would settle it, where not all of them come to the same."""


class ToState(NamedTuple):
    """What is missing."""

    what: str


def points_of(
    measure: Measure, chain: Chain, standard: Standard, facts: frozenset[Fact], *, cured: bool
) -> Points | ToState:
    """The weights that a rule on this measure compares, or what is to be stated first."""
    green = chain.green
    if cured or chain.links[0].of in ("cured", "cooked"):
        return ToState("What comes in is cured or cooked: begin the chain with the fresh piece, trimmed and weighed.")
    if green is None:
        return ToState(
            "Nothing says what the fresh, trimmed piece weighed: state bought_as trimmed where it is bought so, or a "
            "stage of trim, weighed, before anything else changes it."
        )
    later = _cured(chain, green) if measure == "weight_gain" else _finished(chain, green, standard, facts)
    hidden = "" if isinstance(later, ToState) else _taken_up_unseen(chain, green)
    if isinstance(later, ToState):
        return later
    if hidden:
        return ToState(hidden)
    parted = max((link.number for link in chain.links[:green] if _is_parting(link)), default=0)
    fresh = _fresh(measure, green) if parted < green else ""
    return Points(tuple(range(parted, green + 1)), later.numbers, fresh + later.open_question)


def _fresh(measure: Measure, green: int) -> str:
    """A loss before the cure is no gain, but it may be a loss that the law counts: it is not to be dropped."""
    if measure == "weight_loss":
        return f"Ask your inspector whether what is lost up to stage {green} counts, and state only what does. "
    return f"Begin the chain with the fresh piece as weighed after stage {green}. "


class Later(NamedTuple):
    """Every point that may be the later one, and what would settle which."""

    numbers: tuple[int, ...]
    open_question: str


def _cured(chain: Chain, green: int) -> Later | ToState:
    """What it weighs after the last cure, whole and raw; a heavier weight before that counts as well."""
    cures = [link.number for link in chain.links if isinstance(link.stage, CureStage)]
    if not cures:
        return ToState("State the pump or the pickle as a stage of cure, weighed, drained.")
    last, parted = cures[-1], _first_parting(chain, green)
    if parted and parted.number < last:
        return ToState(_parted(parted))
    doubtful = next((link for link in chain.links[green:last] if _may_part(link, chain)), None)
    if doubtful:
        return ToState(_takes(doubtful))
    raw = [link.number for link in _raw_after(chain, last) if chain.is_fact(link.number)]
    heavier = [one for one in range(green + 1, last) if chain.points[one].typical_g > chain.points[last].typical_g]
    return Later((*heavier, *raw, last), "State one stage of cure, with the weight drained, at its end.")


def _raw_after(chain: Chain, cure: int) -> Iterator[Link]:
    """Stages after the last cure in which the piece stays whole and raw."""
    for link in chain.links[cure:]:
        if isinstance(link.stage, CookStage) or _is_parting(link):
            return
        yield link


def _finished(chain: Chain, green: int, standard: Standard, facts: frozenset[Fact]) -> Later | ToState:
    """What it weighs last of all while it is whole; a country ham, while it is uncooked."""
    uncooked = "country_ham" in facts
    ended = _first_parting(chain, green, uncooked=uncooked)
    whole = ended.number - 1 if ended else len(chain.links)
    changes = [link.number for link in chain.links if isinstance(link.stage, CHANGES)]
    if not changes:
        return ToState("State the cure or the cook as a stage of its kind, weighed.")
    if ended and not isinstance(ended.stage, ENDS) and changes[-1] > whole:
        return ToState(_parted(ended))
    is_raw = standard.product.finish in RAW_FINISHES or (ended is not None and isinstance(ended.stage, ENDS))
    missing = ("" if is_raw else NOT_RIPE) if uncooked else _unfinished(chain, whole, facts, is_raw=is_raw)
    if missing:
        return ToState(missing)
    changed = max((number for number in changes if number <= whole), default=green)
    doubtful = [link for link in chain.links[green:whole] if _may_part(link, chain)]
    if any(link.number <= changed for link in doubtful):
        return ToState(_takes(doubtful[0]))
    heated = next((one.number for one in chain.links[green:whole] if _is_heated(one) and _is_smoked(standard)), None)
    heats = range(heated - 1, whole) if heated else ()
    question = _takes(doubtful[0]) if doubtful else _heats(heated) if heated else ""
    return Later((*(link.number - 1 for link in doubtful), *heats, whole), question)


def _is_smoked(standard: Standard) -> bool:
    """Whether only smoke is surely the cook that the standard means.

    Bacon is weighed ready for slicing (9 CFR 319.107, reported), barbecue is cooked by the dry heat of wood or its
    coals (319.80, reported), a country ham is uncooked (319.106(a), read): what is fried or simmered is none of them.
    """
    return standard.product.kind == "bacon" or standard.sold_as in ("barbecued_meat", "country_ham")


def _unfinished(chain: Chain, whole: int, facts: frozenset[Fact], *, is_raw: bool) -> str:
    """Why the piece is not finished while it is whole; empty where it is."""
    if any(isinstance(link.stage, CookStage) for link in chain.links[:whole]):
        return ""
    if {"cooked", "barbecued_meat"} & facts:
        return "State the cook, and the piece weighed after it, before anything is cut off or sliced."
    return "" if is_raw else NOT_DONE


NOT_RIPE = "Nothing says that it is finished: state product.finish matured, where it is cured and dried through."
NOT_DONE = "Nothing says that it is finished: state the cook, weighed; or product.finish fresh or matured if sold raw."
ENDS = (SliceStage, CookStage)
"""Stages that a finished raw piece goes into."""


def _first_parting(chain: Chain, green: int, *, uncooked: bool = False) -> Link | None:
    """The first stage that cuts something off; of what is sold uncooked also the first that heats it, but for smoke."""
    return next((one for one in chain.links[green:] if _is_parting(one) or (uncooked and _is_heated(one))), None)


def _is_heated(link: Link) -> bool:
    return isinstance(link.stage, CookStage) and link.stage.method != "smoke"


def _is_parting(link: Link) -> bool:
    """Whether something is cut off, so that what is left is no longer the piece that was weighed fresh."""
    if isinstance(link.stage, OtherStage):
        return link.stage.takes == "parts"
    return isinstance(link.stage, TrimStage | SliceStage)


def _may_part(link: Link, chain: Chain) -> bool:
    """Whether a stage loses weight, and does not say whether in moisture or in parts."""
    least_fraction = chain.share(link.number, link.number - 1).low_fraction
    if isinstance(link.stage, ChillStage):
        return least_fraction < LEAST_CHILLED_FRACTION
    return isinstance(link.stage, OtherStage) and link.stage.takes is None and least_fraction < 1 - NOISE


LEAST_CHILLED_FRACTION = 0.8
"""A rest, a hold or a chill that leaves less may have been more than that (own bound)."""


def _taken_up_unseen(chain: Chain, green: int) -> str:
    """What to weigh where weight is taken up once something is cut off, and hides behind that; empty where none is."""
    cut = next((one for one in chain.links[green:] if _is_parting(one) or _may_part(one, chain)), None)
    gain = next((one for one in chain.links[cut.number - 1 :] if _gains(one, chain)), None) if cut else None
    if cut is None or gain is None:
        return ""
    if not _is_parting(cut):
        return _takes(cut)
    where = "in that stage" if gain is cut else f"in stage {gain.number}"
    return (
        f"Stage {cut.number} cuts the piece, and weight is taken up, or may be, {where}: weigh it whole, with all that "
        "it takes up, before anything is cut off."
    )


def _gains(link: Link, chain: Chain) -> bool:
    return chain.share(link.number, link.number - 1).high_fraction > 1 + NOISE


def _parted(link: Link) -> str:
    return f"Stage {link.number} cuts the piece before it is done: weigh it whole, before that stage."


def _takes(link: Link) -> str:
    moisture_or_parts = "moisture where the piece stays whole, parts where something is cut off."
    if isinstance(link.stage, ChillStage):
        return f"Stage {link.number} takes more than a chill does: state it as other, with takes, {moisture_or_parts}"
    return f"State takes of stage {link.number}: {moisture_or_parts}"


def _heats(number: int) -> str:
    return (
        f"Of this product only smoke is surely the cook that is meant, and stage {number} is another: state it as "
        "smoke where it is cooked over wood or its coals, or weigh the piece as it is finished before it, and leave "
        "that stage out."
    )
