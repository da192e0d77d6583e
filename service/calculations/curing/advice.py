"""What to change in a request that a limit refuses, field by field."""

from math import ceil, floor

from service.calculations.curing.amounts import Recipe
from service.calculations.curing.readings import Readings
from service.quantities.scale import Scale
from service.rules.finding import Finding

FINER = "Use a scale with a finer step, or make a bigger batch."
LEVEL_ROOM = 1.03
"""Floor and ceiling within this ratio are a level: a percentage cannot be written finely enough to hit it."""


def advice_on(findings: tuple[Finding, ...], readings: Readings, scale: Scale) -> str:
    """A sentence for each kind of limit that refuses; where nitrite is not allowed at all, that alone."""
    refusing = [finding for finding in findings if finding.refuses]
    if any(finding.measure == "nitrite" and finding.limit == 0 for finding in refusing):
        return "Nitrite is not allowed in this product at all."
    others = [finding for finding in refusing if finding.measure != "nitrite"]
    sentences = [_on_other(finding, readings.recipe) for finding in others]
    misread = any(finding.measure == "label_strength" for finding in others)
    if len(others) < len(refusing) and not misread:
        sentences.append(_on_nitrite(findings, readings, scale))
    return " ".join(dict.fromkeys(sentences))


def _on_nitrite(findings: tuple[Finding, ...], readings: Readings, scale: Scale) -> str:
    """Which targets keep every nitrite limit: readings grow with the target, so figure and limit say so."""
    recipe = readings.recipe
    held = [f for f in findings if f.measure == "nitrite" and f.verdict != "cannot_tell" and f.figure and f.limit]
    most = min(((f.limit or 0.0) / (f.figure or 1.0) for f in held if f.bound != "minimum"), default=1.0)
    least = max(((f.limit or 0.0) / (f.figure or 1.0) for f in held if f.bound != "maximum"), default=0.0)
    if any(f.refuses and f.basis == "skin_on_green_weight" for f in held) and recipe.weighed_skin:
        return "Leave product.skin_free out: the skin then counts as a tenth, which is how this limit reckons."
    if least and least > most * (1 + 1e-9):
        return _on_no_target(held, recipe)
    level_ppm = _level_ppm(held, least_fraction=least, most_fraction=most)
    if level_ppm is not None and level_ppm != recipe.wanted.target_ppm:
        return f"State the target as ingoing_nitrite, {level_ppm:g} ppm{_if_stored_otherwise(held)}."
    if any(f.refuses and f.code == "over_limit" for f in held) or not least:
        return _set_most(recipe, most)
    step_fraction = scale.step_g / readings.amounts.curing_salt_g
    if least + step_fraction > most:
        return FINER
    target = _set_least(recipe, least + step_fraction, _if_stored_otherwise(held))
    return f"{target} Or: {FINER}" if least <= 1 + step_fraction else target


def _level_ppm(held: list[Finding], *, least_fraction: float, most_fraction: float) -> float | None:
    """The level, where floor and ceiling leave no room between them."""
    if least_fraction * LEVEL_ROOM < most_fraction:
        return None
    return max((f.limit for f in held if f.bound != "maximum" and f.limit), default=None)


def _on_no_target(held: list[Finding], recipe: Recipe) -> str:
    if recipe.bath and recipe.bath.pick_up_fraction:
        sooner = " Or take the piece out sooner, and state the shorter stay." if recipe.bath.stayed else ""
        return f"No target keeps every limit in this bath: take the basis equilibrium with a lower target.{sooner}"
    return f"No target keeps every limit with this method{_if_stored_otherwise(held)}."


def _if_stored_otherwise(held: list[Finding]) -> str:
    """A policy, unlike a law, may be stated not to apply."""
    policy = any(finding.force == "policy" for finding in held)
    return "; or state product.storage, if it is not kept refrigerated" if policy else ""


def _set_most(recipe: Recipe, share_fraction: float) -> str:
    wanted = recipe.wanted
    if wanted.target_ppm is not None:
        return f"Set target.ppm to at most {floor(10 * wanted.target_ppm * share_fraction + 1e-6) / 10:g}."
    return (
        f"Set target.percent to at most {floor(1000 * (wanted.curing_salt_percent or 0.0) * share_fraction) / 1000:g}."
    )


def _set_least(recipe: Recipe, share_fraction: float, stored: str) -> str:
    """A target that reaches the floor after rounding down as well."""
    wanted = recipe.wanted
    if wanted.target_ppm is not None:
        return f"Set target.ppm to at least {ceil(10 * wanted.target_ppm * share_fraction) / 10:g}{stored}."
    least_percent = ceil(1000 * (wanted.curing_salt_percent or 0.0) * share_fraction) / 1000
    return f"Set target.percent to at least {least_percent:g}{stored}."


def _on_other(finding: Finding, recipe: Recipe) -> str:
    limit = f"{finding.limit:g} {finding.unit}" if finding.limit is not None else ""
    if finding.measure == "label_strength":
        return (
            f"Read the label again: {finding.figure:g} percent is an unusual strength. If the label says so, state "
            "curing_salt.strength_on_label; never state a lower strength than the label."
        )
    if finding.measure == "nitrate" and not finding.limit:
        return "Take a curing salt without nitrate."
    if finding.measure == "nitrate":
        return f"Take a curing salt without nitrate, or less of it: the limit is {limit}."
    if finding.measure == "weight_gain":
        return f"Pump or soak less: this product may gain {limit}."
    return _on_accelerator(finding, recipe)


def _on_accelerator(finding: Finding, recipe: Recipe) -> str:
    accelerator = recipe.wanted.accelerator
    if finding.basis == "skin_on_green_weight" and recipe.weighed_skin:
        return "Leave product.skin_free out: the skin then counts as a tenth, which is how this limit reckons."
    if accelerator is None:
        return f"Add an accelerator: sodium_erythorbate or sodium_ascorbate, {finding.limit:g} ppm."
    if finding.bound == "minimum":
        return f"Set accelerator.ppm to {finding.limit:g}." if accelerator.ppm < (finding.limit or 0.0) else FINER
    exact_ppm = accelerator.ppm * (finding.limit or 0.0) / (finding.figure or 1.0)
    return f"Set accelerator.ppm to {floor(100 * exact_ppm + 1e-6) / 100:g}."
