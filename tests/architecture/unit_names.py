"""The units that a name may end in, and how a docstring spells them."""

import re

UNIT_WORDS = {
    "g", "kg", "mg", "oz", "lb", "mol", "ml", "l", "mm", "cm", "m", "mm2", "m2", "m3", "s", "min", "h", "d", "c", "f",
    "k", "ppm", "fraction", "ratio", "pct", "percent", "deg", "ph", "aw", "log10", "w", "j", "kj", "pa", "kpa",
}  # fmt: skip
SPELLED_OUT = {"c": "degc", "f": "degf", "pct": "percent", "%": "percent"}


def unit_of_name(name: str) -> str | None:
    """The unit that a name ends in: salt_g is in g, conductivity_w_per_m_k in w per m k; None when there is none."""
    words = name.lower().split("_")
    unit = _quotient(words) or words[-1:]
    known = unit[-1] in UNIT_WORDS and set(unit) - {"per"} <= UNIT_WORDS
    return _plain(" ".join(unit)) if known else None


def _quotient(words: list[str]) -> list[str] | None:
    """The words of a quotient such as w per m k; None where no unit follows the per."""
    if "per" not in words[1:-1]:
        return None
    per = words.index("per", 1)
    return words[per - 1 :] if words[per + 1] in UNIT_WORDS else None


def unit_in_brackets(text: str) -> str | None:
    """The unit that a description states in its last brackets: [g], [W/(m K)]."""
    brackets = re.findall(r"\[([^\[\]]+)\]", text)
    return _plain(brackets[-1].replace("/", " per ")) if brackets else None


def _plain(unit: str) -> str:
    words = re.sub(r"[()^]", "", unit.lower()).replace("*", " ").split()
    return " ".join(SPELLED_OUT.get(word, word) for word in words)
