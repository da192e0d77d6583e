"""Limits of the law on a finished sausage, written as lines of numbers beside those of the request."""

from collections.abc import Iterator

from service.calculations.butchery.blending.asked import BlendRequest
from service.calculations.butchery.blending.batch import LOSES_WEIGHT, MOST_YIELD_PERCENT, SausageBatch
from service.calculations.butchery.blending.limits import Limit, LimitCode, PerMaterial, Scaled
from service.calculations.butchery.blending.materials import Material
from service.calculations.butchery.blending.rules_of import PERCENT
from service.rules.book import Question, RuleBook
from service.rules.checker import RuleInForce
from service.rules.vocabulary import BIRDS, Measure

MEASURES: frozenset[Measure] = frozenset({"fat", "added_water", "fat_plus_added_water", "meat", "poultry"})
"""What the limits on a class of sausage are on."""
WATER_PER_PROTEIN_RATIO: Scaled = 4.0
"""Water that is in meat by nature, per weight of its protein: what is above it was added.

9 CFR 318.22 (from memory); the same words in the Michigan Food Law, MCL 289.7113(b) (reported): except for poultry,
added water is total moisture minus four times the protein.
"""
CODES: dict[Measure, LimitCode] = {
    "fat": "lawful_fat", "added_water": "lawful_added_water", "fat_plus_added_water": "lawful_fat_plus_added_water",
    "poultry": "lawful_poultry",
}  # fmt: skip


def rules_on(request: BlendRequest, book: RuleBook) -> tuple[RuleInForce, ...]:
    """The rules that bind the class of sausage; none where no class is stated."""
    batch = request.batch
    if batch is None or batch.sausage_class is None:
        return ()
    facts = frozenset({batch.sausage_class})
    return book.binding(Question(batch.jurisdiction, request.on, batch.operator, facts, MEASURES)).rules


def lawful_limits(
    batch: SausageBatch, materials: tuple[Material, ...], rules: tuple[RuleInForce, ...]
) -> Iterator[Limit]:
    """Each rule that may refuse, where what it is on can be reckoned from what is stated."""
    for rule in rules:
        counted = counted_of(rule, batch, materials)
        if rule.may_refuse and rule.limit is not None and counted is not None and rule.measure in CODES:
            of, per = counted
            words = f"{rule.measure.replace('_', ' ')} of the finished batch ({rule.citation})"
            yield Limit(CODES[rule.measure], words, "", "at_most", rule.limit, "percent", PERCENT, of, per, law=rule)


def counted_of(
    rule: RuleInForce, batch: SausageBatch, materials: tuple[Material, ...]
) -> tuple[PerMaterial, PerMaterial] | None:
    """What a rule counts of each material, and by what it divides; None where that is not stated.

    Salt inside a material counts toward the salt of the batch, so less is added for it. Where more is inside than is
    wanted, this takes the batch for a little lighter than it is, and so its fat for a little more.
    """
    total = tuple([batch_of(material, batch) for material in materials])
    if rule.basis == "ingredients_without_water":
        birds = tuple([1.0 if material.animal in BIRDS else 0.0 for material in materials])
        return birds, tuple([weight - batch.water_percent / 100 for weight in total])
    if rule.basis == "total_ingredients":
        each: Scaled = 1.0 if rule.measure == "meat" else batch.water_percent / 100
        return (each,) * len(materials), total
    fat = tuple([material.fat_percent / 100 for material in materials])
    if rule.basis == "green_weight":
        return fat, (1.0,) * len(materials)
    return _of_finished(rule, batch, materials, fat, total)


def by_analysis(rule: RuleInForce) -> bool:
    """Whether it is on added water as a laboratory finds it: by moisture and protein."""
    return rule.basis == "finished_product" and rule.measure in ("added_water", "fat_plus_added_water")


def _of_finished(
    rule: RuleInForce, batch: SausageBatch, materials: tuple[Material, ...], fat: PerMaterial, total: PerMaterial
) -> tuple[PerMaterial, PerMaterial] | None:
    """The same of what is smoked or cooked. Where the yield is not stated, only fat that is too much at any is told."""
    finished, rendered = finished_share(batch), rendered_share(batch)
    if not finished and by_analysis(rule):
        return None
    per = tuple([(finished or MOST_YIELD_PERCENT / 100) * weight for weight in total])
    left = tuple([f - rendered * weight for f, weight in zip(fat, total, strict=True)]) if rendered else fat
    if rule.measure == "fat":
        return left, per
    water = _water_of(batch, materials, total, 1 - finished - rendered)
    if water is None:
        return None
    return (water if rule.measure == "added_water" else tuple([f + w for f, w in zip(left, water, strict=True)])), per


def batch_of(material: Material, batch: SausageBatch) -> Scaled:
    """Weight of the raw batch per weight of a material."""
    salt_percent = 0.0 if batch.salt_percent is None else batch.salt_percent - material.salt_percent
    added_percent = batch.water_percent + batch.seasoning_percent + (batch.sugar_percent or 0.0) + salt_percent
    return 1 + added_percent / 100


def finished_share(batch: SausageBatch) -> Scaled:
    """Finished weight per raw batch; 0 where it is not stated. A class that is sold raw is judged raw."""
    if not _loses_weight(batch):
        return 1.0
    unstated: Scaled = 0.0 if batch.sausage_class else 100.0
    return (batch.cook_yield_percent or unstated) / 100


def rendered_share(batch: SausageBatch) -> Scaled:
    """Fat that is stated to render out, per raw batch."""
    if not _loses_weight(batch) or not batch.cook_yield_percent:
        return 0.0
    return (batch.rendered_fat_percent or 0.0) / 100


def _loses_weight(batch: SausageBatch) -> bool:
    return batch.sausage_class is None or batch.sausage_class in LOSES_WEIGHT


def _water_of(
    batch: SausageBatch, materials: tuple[Material, ...], total: PerMaterial, lost: Scaled
) -> PerMaterial | None:
    """Added water by analysis, per weight of each material. lost: of the raw batch, all of it taken for water."""
    parts = [(each.moisture_percent, each.protein_percent) for each in materials]
    known = [(water, protein) for water, protein in parts if water is not None and protein is not None]
    if len(known) < len(parts):
        return None
    return tuple(
        [
            (water + batch.water_percent - WATER_PER_PROTEIN_RATIO * protein) / 100 - lost * weight
            for (water, protein), weight in zip(known, total, strict=True)
        ]
    )
