"""The finished batch: what is added to the block, what the whole then holds, and how that stands to the law."""

from collections.abc import Iterator
from math import floor
from typing import Literal, NamedTuple

from service.calculations.butchery.blending.batch import SausageBatch
from service.calculations.butchery.blending.lawful import finished_share, rendered_share
from service.calculations.butchery.blending.limits import PerMaterial, dot
from service.calculations.butchery.blending.materials import Material
from service.calculations.curing.dose import DoseAnswer
from service.calculations.curing.figures import DoseFigures
from service.calculations.curing.items import WeighedItem
from service.calculations.refusals import Impossible
from service.calculations.remarks import CallOut
from service.quantities.models import Answer, made
from service.quantities.quantity import Units, Weight, present_weight
from service.rules.finding import Finding
from service.rules.vocabulary import Animal, Fact, Jurisdiction

Added = Literal["water", "salt", "sugar", "seasoning", "curing_salt", "accelerator"]


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
    """What the weighed amounts come to; the salt with that inside the materials."""
    findings: tuple[Finding, ...]
    """Each rule on what goes in that binds, its figure, its limit and the room between them."""
    steps: tuple[str, ...]
    """The arithmetic, a line each; empty in brief. That of salt is among the steps of the blend."""
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
    """Fat of the finished batch, but for what is stated to run out; a class that is sold raw is judged raw. Null where
    the finished weight is not stated."""
    poured_water_percent: float
    """Water that is poured in, percent of all ingredients. Added water of a cooked product is among the findings."""
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

    def of_used(self) -> "Mixed":
        """The same without the materials of which nothing is used."""
        used = [(one, g) for one, g in zip(self.materials, self.amounts_g, strict=True) if g]
        return self._replace(materials=tuple(one for one, _ in used), amounts_g=tuple(g for _, g in used))

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
    def lost_g(self) -> float:
        """What is lost in smoking or cooking, where that is stated."""
        return self.whole_g * max(1 - (finished_share(self.batch) or 1.0), 0.0)

    @property
    def rendered_g(self) -> float:
        """Fat that is stated to run out."""
        return self.whole_g * rendered_share(self.batch)

    @property
    def may_render_g(self) -> float:
        """The most fat that may run out beside that."""
        return min(self.lost_g, self.fat_g) if self.batch.rendered_fat_percent is None else 0.0

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


def require_fat_for(mixed: Mixed) -> None:
    """Raises Impossible where more fat is to run out than there is."""
    if mixed.rendered_g > mixed.fat_g:
        most_percent = floor(1e6 * mixed.fat_g / mixed.whole_g) / 1e4
        raise Impossible(
            code="rendered_more_than_lost",
            reason=f"{mixed.rendered_g:.6g} g of fat are to run out, and the batch holds {mixed.fat_g:.6g} g.",
            nearest=f"Set batch.rendered_fat_percent to {most_percent:g}.",
        )


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
        fat_percent=round(100 * (mixed.fat_g - mixed.rendered_g) / finished_g, 4) if finished_g else None,
        poured_water_percent=round(100 * mixed.added_g("water") / mixed.whole_g, 4),
        salt_percent=round(100 * mixed.salt_g / block_g, 4),
        findings=findings,
        call_outs=tuple(called),
        cure=_cure_told(mixed.cure, mixed) if mixed.cure else None,
    )


def _cure_told(cure: DoseAnswer, mixed: Mixed) -> CureTold:
    """The dose with all salt: it was asked only for what is not inside the materials, a number that nobody stated."""
    told = {field: getattr(cure, field) for field in CureTold.model_fields}
    salt_percent = round(100 * mixed.salt_g / mixed.whole_g, 3)
    told["figures"] = cure.figures.model_copy(update={"salt_in_piece_percent": salt_percent})
    told["steps"] = tuple(step for step in cure.steps if not step.startswith("Salt: "))
    return made(CureTold, **told)
