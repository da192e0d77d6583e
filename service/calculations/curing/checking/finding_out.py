"""What would have to be weighed or read to turn an open verdict into an answer."""

from collections.abc import Iterator
from dataclasses import dataclass

from service.calculations.curing.checking.as_written import (
    LEAST_UPTAKE_PERCENT,
    Weights,
    WrittenMethod,
    WrittenPumpThenCover,
)
from service.calculations.curing.checking.assessing import ON_THE_BATCH, OPEN_CODES
from service.calculations.curing.checking.contents import Contents
from service.calculations.curing.checking.uptakes import basis_of
from service.calculations.curing.methods import Comminuted, Dry, PickUp
from service.calculations.curing.readings import ACCELERATOR_KINDS
from service.quantities.models import Answer
from service.rules.banding import BandedFinding
from service.rules.checker import Code
from service.rules.vocabulary import Basis, Measure

NITRITE: frozenset[Measure] = frozenset({"nitrite", "nitrate"})
ACCELERATORS: frozenset[Measure] = frozenset(ACCELERATOR_KINDS)
WET = NITRITE | ACCELERATORS
ON_MEAT: frozenset[Measure] = WET | {"weight_gain", "finished_weight"}
"""What is reckoned on the weight of the meat."""


A_RANGE: frozenset[Code] = frozenset({"band_across_limit", "rest_not_stated"})
"""Codes of what is known between two bounds."""


class Need(Answer):
    """Something to weigh, read or state."""

    field: str
    """Where it belongs, as a JSON Pointer into the request."""
    how: str
    """What to do."""
    settles: tuple[str, ...]
    """Rules that cannot be told without it; others may be needed as well."""


@dataclass(frozen=True, slots=True)
class Gap:
    """Something that the recipe leaves open, and what is measured by the rules that wait for it."""

    field: str
    how: str
    measures: frozenset[Measure]
    only_minimum: bool = False
    """Of what cannot be worked out, only a minimum waits for it: it dilutes, so that a ceiling is kept without it."""
    bases: frozenset[Basis] | None = None
    """Only figures on these weights wait for it; None where all do."""
    codes: frozenset[Code] = OPEN_CODES
    """Only findings with these codes wait for it."""
    always: bool = False
    """Asked for even where no finding names a rule that waits, because without it no rule is found."""


def needs_of(gaps: Iterator[Gap], findings: tuple[BandedFinding, ...]) -> tuple[Need, ...]:
    """The gaps that some rule waits for, and those that any answer needs."""
    waiting: dict[tuple[str, str], list[str]] = {}
    for gap in gaps:
        rules = [one.rule for one in findings if _waits(one, gap)]
        if rules or gap.always:
            waiting.setdefault((gap.field, gap.how), []).extend(rules)
    return tuple(
        Need.of(field=field, how=how, settles=tuple(sorted(set(rules)))) for (field, how), rules in waiting.items()
    )


def _waits(finding: BandedFinding, gap: Gap) -> bool:
    if finding.code not in gap.codes or finding.measure not in gap.measures:
        return False
    may_wait = finding.bound == "minimum" or finding.code in A_RANGE or not gap.only_minimum
    return may_wait and (gap.bases is None or finding.basis in gap.bases)


def gaps_in_curing_salts(contents: Contents) -> Iterator[Gap]:
    """What is not known of the curing salts."""
    if contents.curing_salts is None:
        how = "State every curing salt with its label and its weight; an empty list says that there is none."
        yield Gap("#/curing_salts", how, IN_PICKLE)
    for line in contents.curing_salts or ():
        here, amount = f"#/curing_salts/{line.place}", line.written.amount
        if not line.is_read:
            yield Gap(f"{here}/label", "Read the label: which nitrite and nitrate, and percent of each.", LABELLED)
        elif not line.label_adds_up:
            yield Gap(f"{here}/label", "The percentages add up to more than 100: read the label again.", LABELLED)
        if amount is None:
            yield Gap(f"{here}/amount", "Weigh it.", WET)
        elif amount.is_volume:
            yield Gap(
                f"{here}/amount",
                "Weigh what the spoon holds: spoons of it differ by a third and more.",
                WET,
                codes=A_RANGE,
            )
    for one in contents.lines or ():
        if one.role == "curing_salt":
            how = "This may be a curing salt: state it in curing_salts, with its label and its weight."
            yield Gap(f"#/ingredients/{one.place}", how, IN_PICKLE)


LABELLED: frozenset[Measure] = NITRITE | {"label_strength"}
IN_PICKLE: frozenset[Measure] = LABELLED | ACCELERATORS
"""What waits for a curing salt of which nothing is known: it also dilutes whatever else is in the pickle."""


def gaps_in_ingredients(contents: Contents, method: WrittenMethod) -> Iterator[Gap]:
    """What is not known of everything else. In a rub or a batch it dilutes only the whole batch."""
    is_wet = not isinstance(method, Dry | Comminuted)
    bases = None if is_wet else ON_THE_BATCH
    if contents.lines is None:
        how = "Weigh everything else that goes in; without it a minimum cannot be told."
        yield Gap("#/ingredients", how, WET, only_minimum=True, bases=bases)
    for line in contents.lines or ():
        here = f"#/ingredients/{line.place}"
        if line.role == "either" and is_wet:
            yield Gap(f"{here}/dissolves", "State whether it dissolves in the pickle.", WET, codes=A_RANGE)
        if line.role not in ("curing_salt", "solid" if is_wet else "") and (line.weight is None or line.by_spoon):
            yield Gap(f"{here}/amount", "Weigh it.", WET, bases=bases, codes=A_RANGE)


def gaps_in_accelerators(method: WrittenMethod) -> Iterator[Gap]:
    """What waits where accelerators are not stated: their own limits, and what they dilute."""
    how = "State the accelerator and its weight; an empty list says that there is none."
    is_wet = not isinstance(method, Dry | Comminuted)
    yield Gap("#/accelerators", how, ACCELERATORS)
    yield Gap("#/accelerators", how, NITRITE, bases=None if is_wet else ON_THE_BATCH, codes=A_RANGE)


def gaps_in_method(method: WrittenMethod, *, gain_percent: float | None, too_short: bool) -> Iterator[Gap]:
    """What is not known of how the cure gets in. gain_percent: what was gained by weights that are stated."""
    if isinstance(method, Dry | Comminuted):
        return
    if method.water is None:
        yield Gap("#/method/water", "Weigh or measure the water of the pickle; ice by weight.", WET)
    pump_percent = getattr(method, "pump_percent", LEAST_UPTAKE_PERCENT)
    if pump_percent is None or pump_percent < LEAST_UPTAKE_PERCENT:
        how = f"Weigh the piece before and after pumping, drained: (pumped - raw) / raw x 100, {_at_least()}."
        yield Gap("#/method/pump_percent", how, WET | {"weight_gain"})
    field = "#/method/cover" if isinstance(method, WrittenPumpThenCover) else "#/method/basis"
    basis = basis_of(method)
    if isinstance(basis, PickUp) and basis.percent < LEAST_UPTAKE_PERCENT:
        how = f"Weigh the piece raw and drained: (drained - raw) / raw x 100, {_at_least()}."
        yield Gap(f"{field}/percent", how, WET)
    if basis is None and hasattr(method, field.rpartition("/")[2]):
        how = "State equilibrium if the piece stays in for days, until it takes up no more; else "
        yield Gap(field, how + _pick_up(gain_percent), WET)
    if too_short:
        how = "So short a time is no equilibrium: "
        yield Gap(field, how + _pick_up(gain_percent), WET, codes=frozenset({"too_short_for_basis"}))


def _pick_up(gain_percent: float | None) -> str:
    if gain_percent is None or gain_percent < LEAST_UPTAKE_PERCENT:
        return "weigh it raw and drained, and state pick_up with percent (drained - raw) / raw x 100."
    return f"state pick_up with percent {gain_percent:.4g}, which is what the stated weights come to."


def _at_least() -> str:
    return f"at least {LEAST_UPTAKE_PERCENT:g}"


def gaps_in_weights(weights: Weights) -> Iterator[Gap]:
    """What the scale would say afterwards."""
    if weights.cured is None:
        yield Gap("#/weights/cured", "Weigh the piece out of the cure, drained.", frozenset({"weight_gain"}))
    if weights.finished is None:
        yield Gap("#/weights/finished", "Weigh the finished piece.", frozenset({"finished_weight"}))
    if weights.smallest_piece is None:
        yield Gap("#/weights/smallest_piece", "Weigh the lightest piece when it is cured.", frozenset({"piece_weight"}))
