"""What a person who weighs meat would say on reading a chain, each with a stable code."""

from collections.abc import Iterator
from itertools import pairwise

from service.calculations.butchery.chaining.asking import (
    BoughtAs,
    ChillStage,
    CookStage,
    CureStage,
    OtherStage,
    SliceStage,
    Standard,
    Task,
    TrimStage,
    WeightWanted,
)
from service.calculations.butchery.chaining.bands import NOISE
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.butchery.chaining.links import Link
from service.calculations.butchery.chaining.wording import told_of
from service.calculations.curing.checking.calling_out import CallOut, call

CALL_OUTS = {
    "gains_in_a_losing_stage": "More is left than went in, after a stage that takes weight away.",
    "cooked_weight_as_raw": "Nothing is cooked in the chain: cooked weight may be taken for raw weight.",
    "pick_up_counted_twice": "The piece comes in cured, and a cure adds weight once more.",
    "chill_counted_twice": "The weight of a cooked piece is taken rested or chilled, and that loss is counted again.",
    "cooked_twice": "The piece comes in cooked and is cooked again: is the share of what came in?",
    "out_of_order": "Stages stand in another order than the trade does them in.",
    "weighed_outside_plan": "What was weighed lies outside what was planned.",
}
"""Every code, and what it stands for."""

LOSING = (TrimStage, CookStage, ChillStage, SliceStage)
RAW_FINISHES = ("fresh", "matured")
"""How a product is finished that is sold without being cooked."""


def call_outs_on(
    chain: Chain, task: Task, begins: BoughtAs, standard: Standard | None, *, cured: bool
) -> tuple[CallOut, ...]:
    """All that applies, in the order of the list of codes. cured: what comes in is cured already."""
    return (
        *_on_gains(chain),
        *_on_raw(chain, begins, standard, task),
        *_on_pick_up(chain, cured=cured),
        *_on_chill(chain),
        *_on_cooked(chain, begins),
        *_on_order(chain),
        *_on_weighed(chain),
    )


Said = Iterator[CallOut]


def _on_gains(chain: Chain) -> Said:
    for link in chain.links:
        left = chain.share(link.number, link.number - 1)
        most_fraction = left.low_fraction if link.weighed_g is not None else left.high_fraction
        if isinstance(link.stage, LOSING) and most_fraction > 1 + NOISE:
            yield call(
                "gains_in_a_losing_stage",
                f"After {_stage(link)} {100 * most_fraction:.4g} percent of what went in would be left. Look at its "
                "basis: it may be of an earlier weight, or be the weight of another batch.",
            )


def _on_raw(chain: Chain, begins: BoughtAs, standard: Standard | None, task: Task) -> Said:
    """Slices or portions of something that is neither cooked nor sold raw."""
    is_raw = standard is not None and (
        standard.product.finish in RAW_FINISHES or standard.product.kind == "bacon" or standard.sold_as == "country_ham"
    )
    in_portions = not isinstance(task, WeightWanted) and task.portion is not None
    served = in_portions or any(isinstance(link.stage, SliceStage) for link in chain.links)
    if served and not chain.is_cooked and begins != "cooked" and not is_raw:
        yield call(
            "cooked_weight_as_raw",
            "Slices or portions of what the chain never cooks. If they are cooked weight, add the cooking: half of "
            "what is bought may be lost there. If the piece is bought cooked, say so in bought_as.",
        )


def _on_pick_up(chain: Chain, *, cured: bool) -> Said:
    for link in chain.links:
        if isinstance(link.stage, CureStage) and cured:
            left = chain.share(link.number, link.number - 1)
            if left.typical_fraction > 1 + NOISE:
                yield call(
                    "pick_up_counted_twice",
                    f"What comes in is cured, so its pump is in what was weighed; {_stage(link)} adds "
                    f"{100 * left.typical_fraction - 100:.4g} percent once more.",
                )


def _on_chill(chain: Chain) -> Said:
    cooked = [
        link
        for link in chain.links
        if isinstance(link.stage, CookStage) and link.stage.weighed_when not in (None, "hot")
    ]
    for link in cooked:
        later = chain.links[link.number :]
        after = [one for one in later if isinstance(one.stage, ChillStage) and one.weighed_g is None]
        if after:
            yield call(
                "chill_counted_twice",
                f"The weight after {_stage(link)} is taken when it has rested or is cold; {_stage(after[0])} takes "
                "that loss once more.",
            )


def _on_cooked(chain: Chain, begins: BoughtAs) -> Said:
    if begins == "cooked" and chain.is_cooked:
        link = next(link for link in chain.links if isinstance(link.stage, CookStage))
        yield call(
            "cooked_twice",
            f"The piece is bought cooked, and {_stage(link)} cooks it again. That is right for a piece that is heated "
            "through; a yield of raw meat does not belong there.",
        )


def _on_order(chain: Chain) -> Said:
    """Slices before cooking dry out; what is trimmed off a cured piece was in its green weight."""
    for place, link in enumerate(chain.links):
        later = chain.links[place + 1 :]
        if isinstance(link.stage, SliceStage):
            yield from _before(link, [one for one in later if isinstance(one.stage, CookStage)][:1])
        if isinstance(link.stage, CureStage):
            trims = [one for one in later if isinstance(one.stage, TrimStage) and one.of == "cured"]
            yield from _before(link, trims[:1])
    for one, other in pairwise(chain.links):
        if isinstance(one.stage, SliceStage) and isinstance(other.stage, SliceStage):
            yield call(
                "out_of_order", f"{_stage(one, 'Stage')} is followed by {_stage(other)}: a loss may be counted twice."
            )


def _before(link: Link, later: list[Link]) -> Said:
    for one in later:
        yield call(
            "out_of_order",
            f"{_stage(link, 'Stage')} comes before {_stage(one)}. A share that was measured the other way round does "
            "not hold.",
        )


def _on_weighed(chain: Chain) -> Said:
    for link in chain.links:
        if link.weighed_g is None or link.planned is None:
            continue
        planned = chain.points[link.number - 1].after(link.planned)
        if not planned.low_g * (1 - NOISE) <= link.weighed_g <= planned.high_g * (1 + NOISE):
            yield call(
                "weighed_outside_plan",
                f"{_stage(link, 'Stage')} was planned to leave {planned.low_g:,.5g} to {planned.high_g:,.5g} g; "
                f"{link.weighed_g:,.5g} g were weighed.",
            )


def _stage(link: Link, word: str = "stage") -> str:
    name = link.stage.name if isinstance(link.stage, OtherStage) else told_of(link.stage)
    return f"{word} {link.number} ({name})"
