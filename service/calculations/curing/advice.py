"""What to change in a request that a limit refuses, field by field."""

from math import ceil, floor

from service.calculations.curing.amounts import Recipe
from service.calculations.curing.readings import Readings
from service.quantities.scale import Scale
from service.rules.finding import Finding


def advice_on(findings: tuple[Finding, ...], recipe: Recipe) -> str:
    """A sentence for each kind of limit that refuses; where no target will do, that alone."""
    refusing = [finding for finding in findings if finding.refuses]
    if any(finding.basis == "skin_on_green_weight" for finding in refusing) and recipe.weighed_skin:
        return "Leave product.skin_free out: the skin then counts as a tenth, which is how this limit reckons."
    nitrite = [finding for finding in refusing if finding.measure == "nitrite"]
    others = [finding for finding in refusing if finding.measure != "nitrite"]
    sentences = [_on_other(finding, recipe) for finding in others]
    if nitrite and not any(finding.measure == "label_strength" for finding in others):
        sentences.append(_on_nitrite(findings, nitrite, recipe))
    return " ".join(dict.fromkeys(sentences))


def _on_nitrite(findings: tuple[Finding, ...], refusing: list[Finding], recipe: Recipe) -> str:
    """Which targets keep every nitrite limit: a reading grows with the target, so its share of a limit says so."""
    if any(finding.limit == 0 for finding in refusing):
        return "Nitrite is not allowed in this product at all."
    held = [f for f in findings if f.measure == "nitrite" and f.verdict != "cannot_tell" and f.figure and f.limit]
    most = min((f.limit / f.figure for f in held if f.bound != "minimum" and f.limit and f.figure), default=1.0)
    least = max((f.limit / f.figure for f in held if f.bound != "maximum" and f.limit and f.figure), default=0.0)
    if least > most * (1 + 1e-9):
        return _on_no_target(refusing, recipe)
    share = most if any(finding.code == "over_limit" for finding in refusing) else least
    return _set_target(recipe, share, _if_stored_otherwise(refusing), up=share is not most)


def _on_no_target(refusing: list[Finding], recipe: Recipe) -> str:
    if recipe.bath and recipe.bath.pick_up_fraction:
        return "No target keeps every limit in this bath: take the basis equilibrium, or a much smaller bath."
    return f"No target keeps every limit with this method{_if_stored_otherwise(refusing)}."


def _if_stored_otherwise(refusing: list[Finding]) -> str:
    """A policy, unlike a law, may be stated not to apply."""
    policy = any(finding.force == "policy" for finding in refusing)
    return "; or state product.storage, if it is not kept refrigerated" if policy else ""


def advice_on_rounding(findings: tuple[Finding, ...], weighed: Readings, scale: Scale) -> str:
    """What to change when only rounding to the scale left a required range: the target by a step, or the scale."""
    finer = "Use a scale with a finer step, or make a bigger batch."
    under = [f for f in findings if f.refuses and f.measure == "nitrite" and f.figure and f.limit]
    ceilings = [f.limit for f in findings if f.measure == "nitrite" and f.bound == "maximum" and f.force == "law"]
    if not under or weighed.recipe.wanted.target_ppm is None:
        return finer
    step_share = scale.step_g / weighed.amounts.curing_salt_g
    least_ppm = max((f.limit or 0.0) * (1 + step_share) for f in under)
    if any(limit is not None and limit <= least_ppm for limit in ceilings):
        return finer
    return (
        f"Set target.ppm to {ceil(10 * least_ppm) / 10:g} or more, so that rounding down keeps the floor. Or: {finer}"
    )


def _set_target(recipe: Recipe, share_fraction: float, stored: str, *, up: bool) -> str:
    """Rounded to the side that keeps the limit."""
    wanted = recipe.wanted
    asked = wanted.target_ppm or wanted.curing_salt_percent or 0.0
    digits = 10 if wanted.target_ppm else 1000
    exact = asked * share_fraction * digits
    shown = (ceil(exact - 1e-6) if up else floor(exact + 1e-6)) / digits
    field = "target.ppm" if wanted.target_ppm else "target.percent"
    side = "at least" if up else "at most"
    return f"Set {field} to {side} {shown:g}{stored if up else ''}."


def _on_other(finding: Finding, recipe: Recipe) -> str:
    limit = f"{finding.limit:g} {finding.unit}" if finding.limit is not None else ""
    if finding.measure == "label_strength":
        return (
            f"Read the label again: {finding.figure:g} percent is an unusual strength. If the label says so, state "
            "curing_salt.strength_on_label; never state a lower strength than the label."
        )
    if finding.measure == "nitrate":
        return f"Take a curing salt without nitrate, or less of it: the limit is {limit}."
    if finding.measure == "weight_gain":
        return f"Pump or soak less: this product may gain {limit}."
    if recipe.wanted.accelerator is None:
        return f"Add an accelerator: sodium_erythorbate or sodium_ascorbate, {limit} on the weight without skin."
    return f"Set accelerator.ppm to {limit.removesuffix(' ppm')}, as sodium_erythorbate or sodium_ascorbate."
