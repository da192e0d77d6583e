"""Salts that may be neat nitrite, that nobody read the label of, or that hide among the spices."""

from collections.abc import Callable, Iterator

from service.calculations.curing.checking.as_written import Label
from service.calculations.curing.checking.confusions import PURE_PPM
from service.calculations.curing.checking.contents import STRONGEST_LABEL_PERCENT, Contents, CuringSaltLine
from service.calculations.curing.checking.plain_numbers import plain
from service.calculations.remarks import CallOut, call

Suppose = Callable[[CuringSaltLine], str]
"""Says what the recipe would come to with a salt of the usual strengths; nothing where that cannot be told."""


def on_salts(contents: Contents, suppose: Suppose, *, green_g: float | None) -> Iterator[CallOut]:
    """Salts that may be neat nitrite, nitrate that hides, a cure among the spices."""
    known = [(line.weight, line.written.label) for line in contents.curing_salts or ()]
    nitrite_g = sum(weight.high_g * label.nitrite_fraction for weight, label in known if weight and label)
    nitrite_ppm = nitrite_g * 1e6 / green_g if green_g else 0.0
    for line in contents.curing_salts or ():
        label = line.written.label
        if label is not None and line.is_read:
            yield from _on_labelled(line, label, green_g=green_g, nitrite_ppm=nitrite_ppm)
        else:
            yield from _on_unread(line, suppose)
    for one in contents.lines or ():
        if one.role == "curing_salt":
            yield call(
                "curing_salt_among_ingredients",
                f'"{one.name}" among the ingredients seems to be a curing salt. Its nitrite cannot be counted there.',
            )


def _called(line: CuringSaltLine) -> str:
    return f'"{line.written.name}"' if line.written.name else "this curing salt"


def _start(words: str) -> str:
    """The same at the start of a sentence."""
    return words[0].upper() + words[1:]


def _on_unread(line: CuringSaltLine, suppose: Suppose) -> Iterator[CallOut]:
    """A salt without a label."""
    called = _called(line)
    if line.reads_like == "neat":
        yield call(
            "may_be_pure_nitrite",
            f"{_start(called)} is a name under which neat nitrite or nitrate is sold. A gram or two of neat "
            "nitrite can kill. Do not use it before you have read what it is.",
        )
    else:
        yield call(
            "strength_not_stated",
            f"{_start(called)} has no stated strength. Salts that look alike hold from 0.4 to 100 percent of "
            f"nitrite, neat nitrite among them: do not use it before you have read its label.{suppose(line)}",
        )


def _on_labelled(line: CuringSaltLine, label: Label, *, green_g: float | None, nitrite_ppm: float) -> Iterator[CallOut]:
    """A salt whose label, or whose amount, is that of neat nitrite."""
    called, stated_percent = _called(line), 100 * label.nitrite_fraction
    if stated_percent > STRONGEST_LABEL_PERCENT:
        yield call(
            "may_be_pure_nitrite",
            f"{_start(called)} is stated at {stated_percent:g} percent of nitrite: that is not a curing salt for a "
            "kitchen. A gram or two of it can kill.",
        )
    elif line.weight is not None and green_g is not None and stated_percent > 0:
        mass_g = line.weight.high_g
        pure_ppm = mass_g * 1e6 / green_g
        if PURE_PPM[0] <= pure_ppm <= PURE_PPM[1] and nitrite_ppm < PURE_PPM[0]:
            yield call(
                "may_be_pure_nitrite",
                f"{plain(mass_g)} g of {called} is so little that neat nitrite may be meant ({plain(pure_ppm)} ppm). "
                "Neat nitrite does not belong in a kitchen; follow no recipe that asks for it.",
            )
