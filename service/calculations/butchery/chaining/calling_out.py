"""What a person who weighs meat would say on reading a chain, each with a stable code."""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from service.calculations.butchery.chaining.asking import (
    LOSING,
    BoughtAs,
    ChillStage,
    CookStage,
    CureStage,
    OtherStage,
    SliceStage,
    Stage,
    Standard,
    Task,
    TrimStage,
    WeightWanted,
)
from service.calculations.butchery.chaining.bands import NOISE
from service.calculations.butchery.chaining.carrying import Chain
from service.calculations.butchery.chaining.judging import WeightForecast
from service.calculations.butchery.chaining.links import Link
from service.calculations.butchery.chaining.naming_defaults import ReadingTold
from service.calculations.butchery.chaining.wording import RAW_FINISHES, told_of
from service.calculations.remarks import CallOut, call
from service.rules.cut import Cut
from service.rules.finding import Finding

CALL_OUTS = {
    "gains_in_a_losing_stage": "More is left than went in, after a stage that takes weight away.",
    "cooked_weight_as_raw": "Nothing is cooked in the chain: cooked weight may be taken for raw weight.",
    "pick_up_counted_twice": "A cure adds weight once more, to a piece that was cured before.",
    "chill_counted_twice": "The weight of a cooked piece is taken rested or chilled, and that loss is counted again.",
    "cooked_twice": "The piece is cooked again, as it was before, or after it came in cooked: is a loss counted twice?",
    "out_of_order": "Stages stand in another order than the trade does them in.",
    "weighed_outside_plan": "What was weighed lies outside what was planned.",
    "bone_in_portions": "Portions or slices of a cut with bone in it, and no stage takes the bone out.",
    "far_above_published": "More of what was bought is left than anybody published of this cut.",
    "usual_of_another_cut": "A share was taken that is usual of one cut, and nothing says that it is that cut.",
    "no_weight_rule": "No rule on weight is known here for this product; that is no pass.",
}
"""Every code, and what it stands for."""

PLAN_SLACK_FRACTION = 0.02
"""So far a weighing may lie from a plan that is one figure (own)."""
FAR_ABOVE_RATIO = 1.1
"""From so much of the highest published yield on, a chain leaves far more than anybody reported (own)."""


class Asked(NamedTuple):
    """What is known of a chain beside its weights."""

    task: Task
    begins: BoughtAs
    standard: Standard | None
    comes_cured: bool
    cut: Cut | None
    published: tuple[ReadingTold, ...]
    """What is left of the purchased weight, as others report it."""
    standing: tuple[tuple[Finding, ...], tuple[WeightForecast, ...]]
    """All rules on weight that bind."""


def call_outs_on(chain: Chain, asked: Asked) -> tuple[CallOut, ...]:
    """All that applies, in the order of the list of codes."""
    return (
        *_on_gains(chain),
        *_on_raw(chain, asked),
        *_on_pick_up(chain, cured=asked.comes_cured),
        *_on_chill(chain),
        *_on_cooked(chain, asked.begins),
        *_on_order(chain),
        *_on_weighed(chain),
        *_on_bone(chain, asked),
        *_on_published(chain, asked.published),
        *_on_usual(chain),
        *_on_rules(asked),
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


def _on_raw(chain: Chain, asked: Asked) -> Said:
    """Slices or portions of something that is neither cooked nor sold raw."""
    if _is_served(chain, asked.task) and not chain.is_cooked and asked.begins != "cooked" and not _is_raw(asked):
        yield call(
            "cooked_weight_as_raw",
            "Slices or portions of what the chain never cooks. If they are cooked weight, add the cooking: half of "
            "what is bought may be lost there. If the piece is bought cooked, say so in bought_as.",
        )


def _is_raw(asked: Asked) -> bool:
    standard = asked.standard
    return standard is not None and (
        standard.product.finish in RAW_FINISHES or standard.product.kind == "bacon" or standard.sold_as == "country_ham"
    )


def _is_served(chain: Chain, task: Task) -> bool:
    in_portions = not isinstance(task, WeightWanted) and task.portion is not None
    return in_portions or any(isinstance(link.stage, SliceStage) for link in chain.links)


def _on_pick_up(chain: Chain, *, cured: bool) -> Said:
    """What was weighed after an earlier cure of the same batch is no second counting."""
    before = "What comes in is cured, so its pump is in what was weighed" if cured else None
    for link in chain.links:
        if not isinstance(link.stage, CureStage):
            continue
        left = chain.share(link.number, link.number - 1)
        if left.typical_fraction <= 1 + NOISE:
            continue
        if before and (cured or link.weighed_g is None):
            yield call(
                "pick_up_counted_twice",
                f"{before}; {_stage(link)} adds {100 * left.typical_fraction - 100:.4g} percent once more.",
            )
        before = before or f"A pick-up is counted in {_stage(link)}"


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
    cooks = [(link, link.stage.method) for link in chain.links if isinstance(link.stage, CookStage)]
    if begins == "cooked" and cooks:
        yield call(
            "cooked_twice",
            f"The piece is bought cooked, and {_stage(cooks[0][0])} cooks it again. That is right for a piece that is "
            "heated through; a yield of raw meat does not belong there.",
        )
    for place, (link, method) in enumerate(cooks):
        if method in (other for _, other in cooks[:place]) and link.weighed_g is None:
            yield call(
                "cooked_twice",
                f"{_stage(link, 'Stage')} cooks once more in the way of an earlier stage: a loss may be counted twice.",
            )


def _on_order(chain: Chain) -> Said:
    """Slices that are cooked dry out, but in the pan; what is trimmed off a cured piece was in its green weight."""
    for link in chain.links:
        if isinstance(link.stage, SliceStage) and link.of != "cooked":
            later = chain.links[link.number :]
            cooks = [one for one in later if isinstance(one.stage, CookStage) and one.stage.method != "pan_fry"]
            yield from _before(link, cooks[:1])
        if isinstance(link.stage, CureStage):
            trims = [
                one for one in chain.links[link.number :] if isinstance(one.stage, TrimStage) and one.of == "cured"
            ]
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
        slack_fraction = PLAN_SLACK_FRACTION if planned.low_g == planned.high_g else NOISE
        if not planned.low_g * (1 - slack_fraction) <= link.weighed_g <= planned.high_g * (1 + slack_fraction):
            yield call(
                "weighed_outside_plan",
                f"{_stage(link, 'Stage')} was planned to leave {planned.low_g:,.5g} to {planned.high_g:,.5g} g; "
                f"{link.weighed_g:,.5g} g were weighed.",
            )


def _on_bone(chain: Chain, asked: Asked) -> Said:
    """What is trimmed, cut or picked off may be the bone; anything else leaves it in."""
    if asked.cut is None or not asked.cut.bone_in or asked.begins == "trimmed" or not _is_served(chain, asked.task):
        return
    if not any(_may_bone(link.stage) for link in chain.links):
        yield call(
            "bone_in_portions",
            f"There is bone in {asked.cut.name}, and no stage takes it out: it is counted in what is sold. State a "
            "trim, or another stage that takes parts.",
        )


def _may_bone(stage: Stage) -> bool:
    return isinstance(stage, TrimStage) or (isinstance(stage, OtherStage) and stage.takes != "moisture")


def _on_published(chain: Chain, published: tuple[ReadingTold, ...]) -> Said:
    if not published:
        return
    percent = 100 * chain.share(len(chain.links), 0).high_fraction
    least, most = min(one.low for one in published), max(one.high for one in published)
    if percent > FAR_ABOVE_RATIO * most:
        yield call(
            "far_above_published",
            f"Up to {percent:.4g} percent of what was bought would be left. Of this cut {least:.4g} to {most:.4g} "
            "percent are published, cooked or sold.",
        )


def _on_usual(chain: Chain) -> Said:
    for link in chain.links:
        if link.taken and link.taken.whose:
            yield call(
                "usual_of_another_cut",
                f"The share of {_stage(link)} is what is usual of {link.taken.whose}, and nothing says what cut this "
                "is. Of another it is another share: name the cut, or state change.",
            )


def _on_rules(asked: Asked) -> Said:
    if asked.standard and not any(asked.standing):
        yield call(
            "no_weight_rule",
            f"No rule on weight is known here for this product in {asked.standard.jurisdiction}. That is no pass: ask "
            "your inspector.",
        )


def _stage(link: Link, word: str = "stage") -> str:
    return f"{word} {link.number} ({told_of(link.stage)})"
