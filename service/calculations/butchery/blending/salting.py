"""What is added to a block: water, seasoning, salt and sugar, and a cure that is asked of the dose."""

from collections.abc import Iterator
from datetime import date
from math import ceil
from typing import Literal

from service.calculations.butchery.blending.batch import COOKED, UNCURED, CureOfBlock, SausageBatch
from service.calculations.butchery.blending.finishing import Added, AddedItem, Mixed, salt_inside_g
from service.calculations.butchery.blending.limits import PerMaterial
from service.calculations.butchery.blending.materials import Material
from service.calculations.curing.dose import DoseAnswer, DoseRequest, dose
from service.calculations.curing.makeable import REASONS as DOSE_REASONS
from service.calculations.curing.methods import Comminuted
from service.calculations.curing.products import Sausage
from service.calculations.refusals import Impossible, LimitExceeded
from service.quantities.models import made
from service.quantities.quantity import Mass, Units, Water, Weight, present_weight
from service.quantities.units import factor
from service.rules.book import RuleBook
from service.rules.vocabulary import BIRDS

REASONS = {
    "cure_contradicts_class": "A cure is asked for, and the class of sausage is sold fresh, without one.",
    "finish_contradicts_class": "The class of sausage is cooked, and the cured product is stated to be sold raw.",
    "cured_material": "A material was cured before, and a cure is asked for the block: its nitrite is not known.",
    **{
        code: DOSE_REASONS[code]
        for code in (
            "no_rule_in_force", "salt_comes_with_the_cure", "sugar_comes_with_the_cure", "curing_salt_too_weak",
            "storage_contradicts_finish", "below_scale_step",
        )
    },
}  # fmt: skip
Species = Literal["pork", "beef", "veal", "lamb", "goat", "game", "poultry", "mixed"]
LEAST_ADDED_PERCENT = 0.1
"""Less salt than this is not asked of a dose."""
MOST_VALUE = 1e6
"""What a weight may say in one unit."""

Asking = tuple[date | None, Units, Literal["full", "brief"]]


def require_curable(materials: tuple[Material, ...], batch: SausageBatch | None) -> None:
    """Raises Impossible where a cure is asked for a block that may hold cured meat, or for what is sold fresh."""
    if batch is None or batch.cure is None:
        return
    _require_class_for(batch, batch.cure)
    cured = [material.name for material in materials if material.cured]
    if cured:
        raise Impossible(
            code="cured_material",
            reason=f"{cured[0]} was cured before: how much nitrite is left in it is not known, so none can be added to "
            "a block that may hold it.",
            nearest="Leave batch.cure out, and add no curing salt; or leave out what was cured before.",
        )


def _require_class_for(batch: SausageBatch, cure: CureOfBlock) -> None:
    named = str(batch.sausage_class).replace("_", " ")
    if batch.sausage_class in UNCURED:
        raise Impossible(
            code="cure_contradicts_class",
            reason=f"What is sold as {named} is fresh: it holds no cure, and nobody who eats it expects nitrite in it.",
            nearest="Leave batch.cure out, or leave batch.sausage_class out.",
        )
    if batch.sausage_class in COOKED and cure.product.finish == "fresh":
        raise Impossible(
            code="finish_contradicts_class",
            reason=f"The product is stated to be sold raw and fresh, and to be {named}, which is cooked.",
            nearest="Set batch.cure.product.finish to cooked.",
        )


def mixed_of(
    batch: SausageBatch, materials: tuple[Material, ...], amounts_g: PerMaterial, asking: Asking, book: RuleBook
) -> Mixed:
    """The block with what is added to it. Raises what the dose raises."""
    cure = _dose_of(batch, batch.cure, materials, amounts_g, asking, book) if batch.cure else None
    added = tuple(_added(batch, materials, amounts_g, cure, asking[1]))
    return Mixed(batch, materials, amounts_g, added, cure)


def _added(
    batch: SausageBatch, materials: tuple[Material, ...], amounts_g: PerMaterial, cure: DoseAnswer | None, units: Units
) -> Iterator[AddedItem]:
    """In the order in which it is mixed in."""
    block_g = sum(amounts_g)
    inside_g = salt_inside_g(materials, amounts_g)
    if cure:
        yield from _of_dose(cure)
    else:
        yield from _plain("salt", block_g * (batch.salt_percent or 0.0) / 100 - inside_g, units)
        yield from _plain("sugar", block_g * (batch.sugar_percent or 0.0) / 100, units)
    yield from _plain("water", block_g * batch.water_percent / 100, units)
    yield from _plain("seasoning", block_g * batch.seasoning_percent / 100, units)


def _plain(what: Added, mass_g: float, units: Units) -> Iterator[AddedItem]:
    if mass_g > 0:
        yield made(AddedItem, what=what, amount=present_weight(mass_g, units), exact_g=mass_g)


def _of_dose(cure: DoseAnswer) -> Iterator[AddedItem]:
    """What the dose has weighed on its scale; meat, water and seasoning are told beside it."""
    for item in cure.weigh:
        if item.what in ("meat", "water", "other_ingredients"):
            continue
        what: Added = "accelerator"
        if item.what == "curing_salt" or item.what == "salt" or item.what == "sugar":
            what = item.what
        amount: Weight = item.amount
        yield made(AddedItem, what=what, amount=amount, exact_g=amount.value * factor(amount.unit))


def _dose_of(
    batch: SausageBatch, cure: CureOfBlock, materials: tuple[Material, ...], amounts_g: PerMaterial, asking: Asking,
    book: RuleBook,
) -> DoseAnswer:  # fmt: skip
    """Ask for the dose. Salt that is inside already is not asked for again."""
    block_g = sum(amounts_g)
    inside_percent = 100 * salt_inside_g(materials, amounts_g) / block_g
    left_percent = None if batch.salt_percent is None else batch.salt_percent - inside_percent
    if left_percent is not None and left_percent < LEAST_ADDED_PERCENT:
        left_percent = None
    asked = _request(batch, cure, species_of(materials, amounts_g), block_g, asking)
    try:
        return dose(asked.model_copy(update={"salt_percent": left_percent}), book)
    except LimitExceeded as refusal:
        raise LimitExceeded(refusal.findings, f"In batch.cure: {refusal.advice}") from None
    except Impossible as refusal:
        if refusal.code == "salt_comes_with_the_cure" and inside_percent > 0:
            return dose(asked, book)
        if refusal.code in ("salt_comes_with_the_cure", "sugar_comes_with_the_cure"):
            raise _comes_with_the_cure(refusal.code, batch, cure) from None
        nearest = f"In batch.cure: {refusal.nearest}" if refusal.nearest else None
        raise Impossible(refusal.code, refusal.reason, nearest, refusal.findings) from None


def _comes_with_the_cure(code: str, batch: SausageBatch, cure: CureOfBlock) -> Impossible:
    """Never a stronger curing salt: a little more of what comes with it is the one number to mend."""
    salt, target = cure.curing_salt, cure.target
    what, asked, inside = (
        ("salt", batch.salt_percent, salt.salt_fraction)
        if code.startswith("salt")
        else ("sugar", batch.sugar_percent, salt.sugar_fraction)
    )
    share = target.percent / 100 if target.kind == "curing_salt" else target.ppm / 1e6 / salt.nitrite_fraction
    brought_percent = 100 * share * inside
    return Impossible(
        code=code,
        reason=f"The curing salt alone brings {brought_percent:.4g} percent of {what}, more than the {asked:g} percent "
        "that are asked for.",
        nearest=f"Set batch.{what}_percent to {ceil(1000 * brought_percent - 1e-6) / 1000:g}.",
    )


def _request(batch: SausageBatch, cure: CureOfBlock, species: Species, block_g: float, asking: Asking) -> DoseRequest:
    """A dose for ground meat, without salt."""
    on, units, detail = asking
    water_g, seasoning_g = block_g * batch.water_percent / 100, block_g * batch.seasoning_percent / 100
    product = {field: getattr(cure.product, field) for field in cure.product.model_fields_set}
    method = Comminuted(kind="comminuted", water=_water(water_g)) if water_g else Comminuted(kind="comminuted")
    asked = DoseRequest(
        jurisdiction=batch.jurisdiction,
        operator=batch.operator,
        product=Sausage(kind="sausage", species=species, **product),
        meat=_mass(block_g),
        method=method,
        curing_salt=cure.curing_salt,
        target=cure.target,
        scale_step=cure.scale_step,
        units=units,
        detail=detail,
    )
    others = {
        "on": on,
        "sugar_percent": batch.sugar_percent,
        "accelerator": cure.accelerator,
        "other_ingredients": _mass(seasoning_g) if seasoning_g else None,
    }
    return asked.model_copy(update=others)


def species_of(materials: tuple[Material, ...], amounts_g: PerMaterial) -> Species:
    """The animal of a block, as a dose asks for it."""
    used = {each.animal for each, amount_g in zip(materials, amounts_g, strict=True) if amount_g}
    if used <= BIRDS:
        return "poultry"
    one, *others = used
    return "mixed" if others or one in BIRDS else one  # type: ignore[return-value]


def _mass(mass_g: float) -> Mass:
    return Mass(value=mass_g, unit="g") if mass_g <= MOST_VALUE else Mass(value=mass_g / factor("kg"), unit="kg")


def _water(mass_g: float) -> Water:
    return Water(value=mass_g, unit="g") if mass_g <= MOST_VALUE else Water(value=mass_g / factor("kg"), unit="kg")
