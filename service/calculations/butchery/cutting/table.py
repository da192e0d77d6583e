"""The table of cuts told to a reader: each with its item number, weights, sizes, parts, yields and composition."""

from typing import Literal

from service.quantities.bands import rounded
from service.quantities.models import Answer
from service.quantities.units import factor
from service.rules.book import Engine, RuleBook
from service.rules.cut import Composition, Cut, CutKind, PartKind, PartOf, Reading, SodiumReading, Way, WeightStage
from service.rules.vocabulary import Animal, Evidence

Number = int | float
"""A number of any unit."""


class Cited(Answer):
    """Something that one source says."""

    source: str
    """Where it is printed."""
    evidence: Evidence
    """How it is known: read, reported, or recalled from memory."""
    note: str
    """What else should be known about it; may be empty."""


class Span(Answer):
    """From a low to a high side."""

    low: float
    """The least, in the unit beside it."""
    high: float | None
    """The most; null for a range that is open upwards."""
    unit: Literal["lb", "kg", "in", "mm"]
    """lb and in as they were published; kg and mm to four digits."""


class PublishedWeight(Cited):
    """A weight range that the trade sorts the cut by, or that was weighed."""

    published: Span
    """In pounds."""
    metric: Span
    """In kilograms."""


class PublishedSize(Cited):
    """One measure of a piece."""

    measure: Literal["thickness", "diameter", "length"]
    """Which."""
    published: Span
    """In inches."""
    metric: Span
    """In millimetres."""


class PublishedPart(Cited):
    """What one part comes to, of the weight as purchased."""

    part: str
    """The part."""
    consists_of: tuple[PartKind, ...]
    """What was weighed together for it; empty where other tests do not cut it that way."""
    added_with: str | None
    """One word for all parts of one test or table, which may be added up; null for a part that stands alone."""
    comes_off: bool
    """Whether it comes off a piece that is trimmed, although what it consists of is not told."""
    low_percent: float
    """The least; equal to high where one figure is printed."""
    typical_percent: float | None
    """What is called usual; null where that is not printed."""
    high_percent: float
    """The most."""
    pieces: int | None
    """How many pieces were weighed; null where it is not said."""


class PublishedYield(Cited):
    """What was left of it, of what it weighed before."""

    method: str
    """What was done to it."""
    done_by: tuple[Way, ...]
    """Stages of POST /v1/yields/chain that it is a yield of; empty where it is none of theirs."""
    share_of: WeightStage
    """The weight that the share is of."""
    left: WeightStage
    """The weight that was left."""
    low_percent: float
    """The least; equal to high where one figure is printed."""
    typical_percent: float | None
    """What is called usual; null where that is not printed."""
    high_percent: float
    """The most."""
    pieces: int | None
    """How many pieces were weighed; null where it is not said."""
    usable: bool
    """Whether it may be planned with."""


class PublishedComposition(Cited):
    """What it consists of, percent by weight of the part that is eaten."""

    part: str
    """Which part, trimmed how."""
    water_percent: float | None
    """Water; null where sodium alone was read."""
    protein_percent: float | None
    """Protein; null likewise."""
    fat_percent: float | None
    """Fat; null likewise."""
    sodium_percent: float | None
    """Sodium; null where it was not read."""


class CutEntry(Answer):
    """One cut, trimming or product."""

    id: str
    """Stable id, for POST /v1/butchery/cut-test."""
    name: str
    """In words, never a brand."""
    kind: CutKind
    """cut: a piece as it is bought. trimming: fat or ground meat. product: cured, cooked or stuffed already."""
    animal: Animal
    """The animal or bird."""
    part_of: PartOf | None
    """The part of the animal that it is, or is cut from; null where no law and no usual yield hangs on it."""
    bone_in: bool | None
    """Whether there is bone in it; null where the name leaves that open."""
    item_number: str | None
    """Item number of the Institutional Meat Purchase Specifications; null where none is held."""
    item_source: str | None
    """Where the number is printed; null without one."""
    item_evidence: Evidence | None
    """How the number is known; null without one."""
    specification: str
    """What the specification asks of it, in our words; may be empty."""
    weights: tuple[PublishedWeight, ...]
    """What pieces weigh."""
    sizes: tuple[PublishedSize, ...]
    """How thick and long pieces are."""
    parts: tuple[PublishedPart, ...]
    """What it is cut into."""
    yields: tuple[PublishedYield, ...]
    """What was left of it after each step."""
    compositions: tuple[PublishedComposition, ...]
    """Water, protein, fat and sodium."""
    note: str
    """What else a kitchen should know; may be empty."""


class CutList(Answer):
    """The cuts of which something is published."""

    items: tuple[CutEntry, ...]
    """The cuts, as they stand in the table."""
    engine: Engine
    """Which code and which data."""


def list_cuts(book: RuleBook, ids: tuple[str, ...]) -> CutList:
    """The cuts of these ids."""
    return CutList.of(items=tuple(_entry(book.cuts[id]) for id in ids), engine=book.engine)


def ids_of(book: RuleBook, animal: Animal | None, kind: CutKind | None, item_number: str | None) -> tuple[str, ...]:
    """The ids of all cuts that are asked for."""
    return tuple(
        one.id
        for one in book.cuts.values()
        if animal in (None, one.animal) and kind in (None, one.kind) and item_number in (None, one.item_number)
    )


def _entry(cut: Cut) -> CutEntry:
    return CutEntry.of(
        id=cut.id,
        name=cut.name,
        kind=cut.kind,
        animal=cut.animal,
        part_of=cut.part_of,
        bone_in=cut.bone_in,
        item_number=cut.item_number,
        item_source=cut.item_source,
        item_evidence=cut.item_evidence,
        specification=cut.specification,
        weights=_weights(cut),
        sizes=_sizes(cut),
        parts=tuple(PublishedPart.of(**vars(one)) for one in cut.parts),
        yields=_yields(cut),
        compositions=_compositions(cut),
        note=cut.note,
    )


def _weights(cut: Cut) -> tuple[PublishedWeight, ...]:
    return tuple(
        PublishedWeight.of(
            published=Span.of(low=one.low_lb, high=one.high_lb, unit="lb"),
            metric=Span.of(
                low=_metric(one.low_lb, factor("lb") / factor("kg")),
                high=_metric(one.high_lb, factor("lb") / factor("kg")),
                unit="kg",
            ),
            **_cited(one),
        )
        for one in cut.weights
    )


def _sizes(cut: Cut) -> tuple[PublishedSize, ...]:
    return tuple(
        PublishedSize.of(
            measure=one.measure,
            published=Span.of(low=one.low_in, high=one.high_in, unit="in"),
            metric=Span.of(low=_metric(one.low_in, factor("in")), high=_metric(one.high_in, factor("in")), unit="mm"),
            **_cited(one),
        )
        for one in cut.sizes
    )


def _metric(published: Number | None, times: Number) -> Number | None:
    return None if published is None else rounded(published * times)


def _cited(one: Reading) -> dict[str, str]:
    return {"source": one.source, "evidence": one.evidence, "note": one.note}


def _yields(cut: Cut) -> tuple[PublishedYield, ...]:
    return tuple(
        PublishedYield.of(share_of=one.of, **{name: told for name, told in vars(one).items() if name != "of"})
        for one in cut.yields
    )


def _compositions(cut: Cut) -> tuple[PublishedComposition, ...]:
    return (*(_whole(one) for one in cut.compositions), *(_sodium_alone(one) for one in cut.sodiums))


def _whole(one: Composition) -> PublishedComposition:
    return PublishedComposition.of(
        part=one.of,
        water_percent=one.water_percent,
        protein_percent=one.protein_percent,
        fat_percent=one.fat_percent,
        sodium_percent=None if one.sodium_mg_per_100g is None else _sodium(one.sodium_mg_per_100g),
        **_cited(one),
    )


def _sodium_alone(one: SodiumReading) -> PublishedComposition:
    return PublishedComposition.of(
        part=one.of,
        water_percent=None,
        protein_percent=None,
        fat_percent=None,
        sodium_percent=_sodium(one.sodium_mg_per_100g),
        **_cited(one),
    )


def _sodium(mg_per_100g: Number) -> Number:
    return rounded(mg_per_100g / 1000)
