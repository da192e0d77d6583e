"""The finished batch: what is added to the block, what the whole then holds, and how that stands to the law."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from service.calculations.butchery.blending.batch import SausageBatch
from service.calculations.butchery.blending.lawful import batch_of, counted_of, finished_share
from service.calculations.butchery.blending.limits import PerMaterial, Scaled, dot
from service.calculations.butchery.blending.materials import Material
from service.calculations.curing.dose import DoseAnswer
from service.calculations.curing.figures import DoseFigures
from service.calculations.curing.items import WeighedItem
from service.calculations.remarks import CallOut
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight, present_weight
from service.rules.checker import RuleInForce
from service.rules.finding import Finding, judge
from service.rules.vocabulary import Animal, Fact, Jurisdiction

BIRDS: frozenset[Animal] = frozenset({"chicken", "turkey", "duck", "goose", "other_bird"})
Added = Literal["water", "salt", "sugar", "seasoning", "curing_salt", "accelerator"]
AT_LIMIT: Scaled = 1e-9
"""A figure that differs from its limit by less than this share of it is at its limit: the solver goes no further."""


class AddedItem(Answer):
    """Something that is added to the block."""

    what: Added
    """Stable code of it."""
    amount: Weight
    """What to weigh; with a cure, what its dose says, in the unit of its scale."""
    exact_g: float
    """The same in grams, as it is weighed."""


class CureTold(Answer):
    """The dose for the block, as POST /v1/curing/dose tells it, without what the blend tells itself."""

    product_is: tuple[Fact, ...]
    """What the product was taken to be in law."""
    weigh: tuple[WeighedItem, ...]
    """What to put on the scale, the curing salt first."""
    figures: DoseFigures
    """What the weighed amounts come to. Salt that is inside materials is not among them."""
    findings: tuple[Finding, ...]
    """Each rule on what goes in that binds, its figure, its limit and the room between them."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief."""
    sources: tuple[str, ...]
    """The texts behind limits and formulas; empty in brief."""


class FinishedBatch(Answer):
    """The block with everything that is added to it."""

    jurisdiction: Jurisdiction
    """Whose rules were applied."""
    sausage_class: str | None
    """What it was taken to be in law."""
    add: tuple[AddedItem, ...]
    """What is added to the block."""
    weight: Weight
    """Of the raw batch."""
    finished_weight: Weight | None
    """After smoking or cooking; null where no yield is stated."""
    fat_percent: float | None
    """Fat of the finished batch, as if none rendered out; a class that is sold raw is judged raw. Null where the
    finished weight is not stated."""
    added_water_percent: float
    """Water that was added, percent of all ingredients."""
    salt_percent: float
    """All salt, that inside materials and curing salt counted, percent of the meat block."""
    findings: tuple[Finding, ...]
    """Each rule on the class of sausage that binds, its figure, its limit and the room between them."""
    call_outs: tuple[CallOut, ...]
    """What a person should look at."""
    cure: CureTold | None
    """What to weigh for the cure; null where no cure is asked for."""


class Mixed(NamedTuple):
    """A batch in grams."""

    batch: SausageBatch
    materials: tuple[Material, ...]
    amounts_g: PerMaterial
    added: tuple[AddedItem, ...]
    cure: DoseAnswer | None

    @property
    def animals(self) -> frozenset[Animal]:
        """Those of the block."""
        used = zip(self.materials, self.amounts_g, strict=True)
        return frozenset(material.animal for material, amount_g in used if amount_g)

    @property
    def block_g(self) -> float:
        return sum(self.amounts_g)

    @property
    def whole_g(self) -> float:
        """The raw batch."""
        return self.block_g + sum(item.exact_g for item in self.added)

    @property
    def finished_g(self) -> float | None:
        """The finished batch as the law takes it; None where that hangs on a yield that is not stated."""
        return self.whole_g * finished_share(self.batch) or None

    @property
    def fat_g(self) -> float:
        return dot(tuple([material.fat_percent / 100 for material in self.materials]), self.amounts_g)

    @property
    def salt_g(self) -> float:
        """All of it."""
        inside_g = salt_inside_g(self.materials, self.amounts_g)
        salted = [item.exact_g for item in self.added if item.what == "salt"]
        cured = [item.exact_g for item in self.added if item.what == "curing_salt"]
        share = self.batch.cure.curing_salt.salt_fraction if self.batch.cure else 0.0
        return inside_g + sum(salted) + share * sum(cured)

    def added_g(self, what: Added) -> float:
        """How much of something is added."""
        return sum([item.exact_g for item in self.added if item.what == what])


def salt_inside_g(materials: tuple[Material, ...], amounts_g: PerMaterial) -> float:
    r"""Salt that is in the materials already.

    .. math:: inside = \sum amount \times salt / 100

    Parameters
    ----------
    materials : tuple
        What is blended
    amounts_g : tuple
        How much of each, in grams

    Returns
    -------
    inside_g : float
        Salt inside them [g]

    Raises
    ------
    Nothing.

    Notes
    -----
    What a label calls sodium is 2.54 times as much salt.

    Examples
    --------
    >>> ends = Material(name="ham ends", animal="pork", fat_percent=12.0, salt_percent=2.4)
    >>> salt_inside_g((ends,), (500.0,))
    12.0

    References
    ----------
    Definition; common practice, no source.
    """
    return dot(tuple([material.salt_percent / 100 for material in materials]), amounts_g)


def findings_of(rules: tuple[RuleInForce, ...], mixed: Mixed) -> tuple[Finding, ...]:
    """Each rule on the class of sausage, held against the batch as it is weighed."""
    return tuple(judge(rule, _figure(rule, mixed)) for rule in rules)


ADVICE = {
    "fat": "Ask for less fat in the block, or state leaner materials.",
    "added_water": "Set batch.water_percent lower.",
    "fat_plus_added_water": "Ask for less fat in the block, or set batch.water_percent lower.",
    "meat": "Set batch.water_percent and batch.seasoning_percent lower.",
}


def advice_on(findings: tuple[Finding, ...], nearest: str | None = None) -> str:
    """What to change where the law refuses; nearest: a number of the request that need only be moved."""
    broken = dict.fromkeys(ADVICE[finding.measure] for finding in findings if finding.refuses)
    return " ".join([*broken, *([nearest] if nearest and nearest.startswith("Set ") else [])])


def _figure(rule: RuleInForce, mixed: Mixed) -> Scaled | None:
    """What the rule is on, in percent; None where it hangs on something that is not stated.

    The blend was chosen by salt as it is wanted; what is held against the rule is the batch as it is weighed. A batch
    drier than its meat by nature has no added water, not less than none; of poultry it is not reckoned so.
    """
    counted = counted_of(rule, mixed.batch, mixed.materials)
    by_protein = rule.basis == "finished_product" and rule.measure != "fat"
    if counted is None or (by_protein and mixed.animals & BIRDS):
        return None
    of, per = counted
    whole_g = mixed.whole_g
    drift_g = whole_g - dot(tuple([batch_of(one, mixed.batch) for one in mixed.materials]), mixed.amounts_g)
    finished: Scaled = 1.0 if rule.basis == "total_ingredients" else (mixed.finished_g or whole_g) / whole_g
    counted_g, by_g = dot(of, mixed.amounts_g), dot(per, mixed.amounts_g) + finished * drift_g
    if rule.measure in ("added_water", "fat_plus_added_water"):
        least_g = mixed.fat_g if rule.measure == "fat_plus_added_water" else 0.0
        counted_g = max(counted_g - (1 - finished) * drift_g, least_g)
    return _at_limit(100 * counted_g / by_g, rule)


def _at_limit(figure: Scaled, rule: RuleInForce) -> Scaled:
    limit = rule.limit
    return limit if limit is not None and abs(figure - limit) <= AT_LIMIT * limit else figure


def finished_batch(
    mixed: Mixed, findings: tuple[Finding, ...], called: Iterator[CallOut], units: Units
) -> FinishedBatch:
    """What is told of the batch."""
    batch, finished_g, block_g = mixed.batch, mixed.finished_g, mixed.block_g
    cooked_percent = batch.cook_yield_percent
    return made(
        FinishedBatch,
        jurisdiction=batch.jurisdiction,
        sausage_class=batch.sausage_class,
        add=mixed.added,
        weight=present_weight(mixed.whole_g, units),
        finished_weight=present_weight(mixed.whole_g * cooked_percent / 100, units) if cooked_percent else None,
        fat_percent=round(100 * mixed.fat_g / finished_g, 4) if finished_g else None,
        added_water_percent=round(100 * mixed.added_g("water") / mixed.whole_g, 4),
        salt_percent=round(100 * mixed.salt_g / block_g, 4),
        findings=findings,
        call_outs=tuple(called),
        cure=_cure_told(mixed.cure) if mixed.cure else None,
    )


def _cure_told(cure: DoseAnswer) -> CureTold:
    return made(CureTold, **{field: getattr(cure, field) for field in CureTold.model_fields})
