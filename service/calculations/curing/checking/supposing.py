"""What a recipe would come to if a salt without a label were one of the usual curing salts."""

from dataclasses import replace

from service.calculations.curing.checking.as_written import Label, WrittenNitrite
from service.calculations.curing.checking.assessing import Case
from service.calculations.curing.checking.confusions import STRONG_PERCENT, WEAK_PERCENT
from service.calculations.curing.checking.contents import CuringSaltLine, weighed_salt
from service.calculations.curing.checking.plain_numbers import plain
from service.calculations.curing.checking.side_by_side import WHOLE_SALT, Reading, readings_of
from service.rules.book import RuleBook


def supposed(case: Case, book: RuleBook, line: CuringSaltLine) -> str:
    """A sentence for each usual strength; nothing where the rest of the recipe does not allow it."""
    return "".join(_at(percent, case, book, line) for percent in (STRONG_PERCENT, WEAK_PERCENT))


def _at(percent: float, case: Case, book: RuleBook, line: CuringSaltLine) -> str:
    if case.pot is None or line.weight is None:
        return ""
    nitrite = WrittenNitrite(salt="sodium_nitrite", percent=percent)
    labelled = weighed_salt(line.place, line.written.model_copy(update={"label": Label(nitrite=nitrite)}), book)
    contents = case.pot.contents
    salts = tuple(labelled if one.place == line.place else one for one in contents.curing_salts or ())
    contents = replace(contents, curing_salts=salts)
    told = replace(case, pot=replace(case.pot, contents=contents), nitrite_known=contents.nitrite_known)
    readings = [one for one in readings_of(told) if one.decides and one.expressed_as in WHOLE_SALT]
    each = " or ".join(_ppm(one) for one in readings if one.substance == "nitrite")
    return f" At {percent:g} percent this recipe would come to {each}." if each else ""


def _ppm(one: Reading) -> str:
    span = plain(one.low) if one.low == one.high else f"{plain(one.low)} to {plain(one.high)}"
    return f"{span} ppm ({one.reading.replace('_', ' ')})"
