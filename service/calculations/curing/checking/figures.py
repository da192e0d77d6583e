"""What a recipe as written comes to: every line in grams, the pickle, the salt, the weights afterwards."""

from collections.abc import Callable
from typing import Literal

from service.calculations.curing.brining.scales import salometer_deg
from service.calculations.curing.checking.assessing import Case, Span, span_of, weight_gain_percent
from service.calculations.curing.checking.contents import Contents, Role
from service.calculations.curing.checking.contents import Span as GramSpan
from service.calculations.curing.checking.side_by_side import Reading, readings_of
from service.calculations.curing.checking.vessel import (
    LEAST_NITRITE,
    LEAST_SALT,
    MOST_NITRITE,
    MOST_SALT,
    Vessel,
    filled,
)
from service.quantities.models import Answer


class Between(Answer):
    """A figure, or the range that it lies in."""

    low: float
    """The least that it can be."""
    high: float
    """The most that it can be; the same as low where everything was weighed."""
    unit: Literal["g", "percent", "deg"]
    """Grams, percent by weight, or degrees salometer at 60 degF."""


class WeighedLine(Answer):
    """One line of the recipe, in grams."""

    field: str
    """The line, as a JSON Pointer into the request."""
    taken_as: Role
    """What it was taken for. either: it may dissolve or not."""
    weight: Between | None
    """What it weighs; null where only a scale can say."""
    salt: Between | None
    """Salt in it; null where that is not known."""


class CheckFigures(Answer):
    """What the recipe comes to. A figure is null where something it needs was not stated."""

    lines: tuple[WeighedLine, ...]
    """Each curing salt and each ingredient, in grams."""
    readings: tuple[Reading, ...]
    """Nitrite, and nitrate if any, by every official way of reckoning and the usual unofficial one, side by side."""
    pickle_weight: Between | None
    """All of the pickle, everything dissolved in it counted; null without a pickle."""
    pickle_salt: Between | None
    """Salt by weight of the whole pickle."""
    pickle_strength: Between | None
    """Strength of its salt and water in degrees salometer."""
    salt_in_piece: Between | None
    """Salt in the cured piece before it loses water."""
    weight_gain_percent: float | None
    """Weight gained in the cure, percent of the raw piece."""
    finished_percent: float | None
    """Finished weight, percent of the raw piece."""


def check_figures(case: Case, contents: Contents) -> CheckFigures:
    """Every figure that the recipe allows."""
    gain = weight_gain_percent(case, limit_percent=float("inf"))
    finished = case.weights.finished
    return CheckFigures.of(
        lines=_lines(contents),
        readings=readings_of(case),
        pickle_weight=_in_pickle(case, contents, lambda vessel: vessel.amounts.pickle_g, (MOST_NITRITE, LEAST_NITRITE)),
        pickle_salt=_salt(case, contents, _pickle_salt_percent, "percent"),
        pickle_strength=_salt(case, contents, _strength_deg, "deg"),
        salt_in_piece=_salt_in_piece(case, contents),
        weight_gain_percent=None if gain is None else round(gain, 4),
        finished_percent=round(100 * finished.g / case.pot.meat_g, 4) if finished and case.pot else None,
    )


def _lines(contents: Contents) -> tuple[WeighedLine, ...]:
    salts = [
        WeighedLine.of(
            field=f"#/curing_salts/{one.place}",
            taken_as="curing_salt",
            weight=_grams(one.weight),
            salt=_grams(one.weight.times(one.written.label.salt_fraction))
            if one.weight and one.written.label
            else None,
        )
        for one in contents.curing_salts or ()
    ]
    others = [
        WeighedLine.of(
            field=f"#/ingredients/{one.place}", taken_as=one.role, weight=_grams(one.weight), salt=_grams(one.salt)
        )
        for one in contents.lines or ()
    ]
    return (*salts, *others)


def _grams(span: GramSpan | None) -> Between | None:
    return None if span is None else _between((span.low_g, span.high_g), "g")


def _between(span: Span, unit: Literal["g", "percent", "deg"]) -> Between:
    return Between.of(low=round(span[0], 4), high=round(span[1], 4), unit=unit)


Figured = Callable[[Vessel], float | None]


def _salt(case: Case, contents: Contents, figure: Figured, unit: Literal["percent", "deg"]) -> Between | None:
    between = _in_pickle(case, contents, figure, (LEAST_SALT, MOST_SALT))
    return None if between is None else Between.of(low=between.low, high=between.high, unit=unit)


def _in_pickle(
    case: Case, contents: Contents, figure: Figured, ends: tuple[frozenset[Role], frozenset[Role]]
) -> Between | None:
    """A figure of the pickle; None without one, or where not all that is in it can be weighed."""
    if case.pot is None or not case.uptake.known or case.uptake.baths[0] is None or not _is_weighed(contents):
        return None
    span = span_of(figure(filled(case.pot, case.uptake.baths[0], end)) for end in ends)
    return None if span is None else _between(span, "g")


def _is_weighed(contents: Contents) -> bool:
    """Whether every line has a weight, in grams or between two."""
    if not contents.is_weighed or contents.curing_salts is None:
        return False
    return all(line.weight is not None for line in contents.curing_salts)


def _pickle_salt_percent(vessel: Vessel) -> float:
    return 100 * vessel.salt_g / vessel.amounts.pickle_g


def _strength_deg(vessel: Vessel) -> float | None:
    salt_g, water_g = vessel.salt_g, vessel.amounts.water_g
    return salometer_deg(salt_g / (salt_g + water_g)) if water_g else None


def _salt_in_piece(case: Case, contents: Contents) -> Between | None:
    """Salt of the piece; where two readings differ, or the basis is not named, everything between them."""
    if case.pot is None or not case.uptake.known or not _is_weighed(contents):
        return None
    vessels = [filled(case.pot, bath, end) for bath in case.uptake.baths for end in (LEAST_SALT, MOST_SALT)]
    span = span_of(_in_piece_percent(vessel) for vessel in vessels)
    return None if span is None else _between(span, "percent")


def _in_piece_percent(vessel: Vessel) -> float:
    batch_ppm = vessel.bases.least_batch_ppm
    return vessel.salt_g * min(batch_ppm, vessel.bases.system_ppm or batch_ppm) / 1e4
