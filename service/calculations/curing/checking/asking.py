"""What the law asks to know of a recipe as written, and what the findings come to together."""

from collections.abc import Iterable, Iterator

from service.calculations.curing.checking.as_written import WrittenAccelerator, WrittenMethod
from service.calculations.curing.checking.assessing import is_open, verdict_on
from service.calculations.curing.checking.contents import STRONGEST_LABEL_PERCENT, Contents
from service.calculations.curing.classes import product_facts
from service.calculations.curing.methods import Comminuted, Dry
from service.calculations.curing.products import Product
from service.calculations.curing.readings import ACCELERATOR_KINDS
from service.quantities.models import Answer
from service.rules.banding import BandedFinding
from service.rules.book import Binding
from service.rules.checker import Verdict
from service.rules.vocabulary import Fact, Measure

AFTERWARDS: frozenset[Measure] = frozenset({"weight_gain", "finished_weight", "piece_weight"})
"""What is weighed once the piece is cured or finished."""
ALWAYS: frozenset[Measure] = AFTERWARDS | {"ascorbate_or_erythorbate"}
NITRATE: frozenset[Measure] = frozenset({"nitrate"})
NITRITE: frozenset[Measure] = frozenset({"nitrite"})
OF_NITRITE: frozenset[Measure] = NITRITE | {"label_strength"}


CONFIRMED_PERCENT, STRONGEST_FRACTION = 6.25, STRONGEST_LABEL_PERCENT / 100
"""Above the first, which is that of guard-label-strength, a strength is confirmed, salt by salt; above the second no
confirmation helps (own bound)."""


class Verdicts(Answer):
    """All findings together. A verdict speaks of these rules, and of nothing else about the food."""

    going_in: Verdict
    """On what goes in: met only if every binding limit is kept and a ceiling is in force that was read or reported. A
    recipe without nitrite and nitrate cannot be told: no limit on what goes in speaks of it."""
    going_in_by: tuple[str, ...]
    """Rules that this hangs on: those that are broken, else those that are open; empty where all are met, or where no
    rule is in force."""
    afterwards: Verdict | None
    """On weights after curing and finishing; null where no rule limits them."""
    afterwards_by: tuple[str, ...]
    """Rules that this hangs on, likewise."""


def recipe_facts(product: Product, method: WrittenMethod, contents: Contents) -> frozenset[Fact]:
    """What the recipe is to the law."""
    wet: tuple[Fact, ...] = ()
    if not isinstance(method, Dry | Comminuted):
        wet = ("pickle",) if method.kind == "injected" else ("pickle", "immersed")
    return frozenset((*product_facts(product, method.kind), *_salt_facts(contents), *wet))


def _salt_facts(contents: Contents) -> Iterator[Fact]:
    """Which nitrites there are; of a salt whose label is not known, the usual one."""
    labels = contents.labels
    yield from {label.nitrite.salt for label in labels if label.nitrite} or {"sodium_nitrite"}
    strong = [label for label in labels if label.nitrite and label.nitrite.percent > CONFIRMED_PERCENT]
    if strong and all(label.strength_on_label and label.nitrite_fraction <= STRONGEST_FRACTION for label in strong):
        yield "strength_on_label"


def measures_in(contents: Contents, accelerators: Iterable[WrittenAccelerator] | None) -> frozenset[Measure]:
    """What rules may measure: a recipe without any curing salt is held to weights alone."""
    if is_uncured(contents):
        return AFTERWARDS
    kinds = None if accelerators is None else {one.kind for one in accelerators}
    asked = frozenset(measure for measure, names in ACCELERATOR_KINDS.items() if kinds is None or kinds & set(names))
    nitrite, nitrate = substances_in(contents)
    return ALWAYS | asked | (OF_NITRITE if nitrite else frozenset()) | (NITRATE if nitrate else frozenset())


def substances_in(contents: Contents) -> tuple[bool, bool]:
    """Whether there is, or may be, nitrite; and nitrate."""
    labels, may_be = contents.labels, not contents.nitrite_known
    return may_be or any(label.nitrite for label in labels), may_be or any(label.nitrate for label in labels)


def is_uncured(contents: Contents) -> bool:
    """Whether the recipe says that there is no nitrite or nitrate, and none hides among its ingredients."""
    return contents.nitrite_known and not any(label.nitrite or label.nitrate for label in contents.labels)


def unruled(contents: Contents, binding: Binding) -> tuple[str, ...]:
    """The substances of the recipe for which the place has no ceiling that was read or reported."""
    labels = contents.labels
    nitrate = any(label.nitrate for label in labels)
    nitrite = any(label.nitrite for label in labels) or not nitrate
    present = (("nitrite", nitrite, NITRITE), ("nitrate", nitrate, NITRATE))
    return tuple(name for name, is_in, measure in present if is_in and not binding.permits(measure))


def verdicts_of(findings: tuple[BandedFinding, ...], *, permitted: bool) -> Verdicts:
    """What all findings come to, before and after the cure. No rule, or no cure, is not a pass."""
    afterwards = tuple(finding for finding in findings if finding.measure in AFTERWARDS)
    going_in = tuple(finding for finding in findings if finding.measure not in AFTERWARDS)
    before = verdict_on(going_in, permitted=permitted)
    after = verdict_on(afterwards, permitted=True) if afterwards else None
    return Verdicts.of(
        going_in=before,
        going_in_by=_deciding(going_in, before),
        afterwards=after,
        afterwards_by=_deciding(afterwards, after),
    )


def _deciding(findings: tuple[BandedFinding, ...], verdict: Verdict | None) -> tuple[str, ...]:
    """The rules that a verdict hangs on: those that are broken, or those that are open."""
    if verdict == "not_met":
        return tuple(finding.rule for finding in findings if finding.refuses)
    return tuple(finding.rule for finding in findings if is_open(finding)) if verdict == "cannot_tell" else ()


def by_importance(findings: tuple[BandedFinding, ...]) -> tuple[BandedFinding, ...]:
    """What is broken first, then what is open, then what is kept, last what nothing here could tell; nitrite first."""
    return tuple(sorted(findings, key=lambda finding: (*_rank(finding), finding.measure != "nitrite", finding.rule)))


def _rank(finding: BandedFinding) -> tuple[bool, bool, bool]:
    return not finding.refuses, not is_open(finding), finding.verdict == "cannot_tell"
