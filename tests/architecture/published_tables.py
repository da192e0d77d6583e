"""The lines that the tables in docs/ must have, worked out from what they describe."""

import json
import re
from collections.abc import Iterable

from service.api.problems import KINDS
from service.rules.loader import load_book
from service.rules.rule import DatedValue, Rule
from service.settings import Settings


def setting_lines() -> list[str]:
    """One line for each setting: its variable, its default, what it does."""
    prefix = str(Settings.model_config["env_prefix"])
    return [
        _line(
            f"`{prefix}{name.upper()}`",
            "worked out" if field.default_factory else f"`{_default(field.default)}`",
            field.description,
        )
        for name, field in Settings.model_fields.items()
    ]


def problem_lines() -> list[str]:
    """One line for each kind of problem: its type, its status, what it means and what to do."""
    return [
        _line(f"`{kind.type}`", kind.status, kind.title, kind.meaning, kind.remedy)
        for kind in sorted(KINDS.values(), key=lambda kind: (kind.status, kind.slug))
    ]


def rule_lines() -> list[str]:
    """One line for each rule: its id, what it is about, where, and the value that was written down last."""
    return [
        _line(
            f"`{rule.id}`",
            rule.jurisdiction,
            rule.title,
            _value(rule, last),
            _reckoned(last),
            _stands(last),
            last.citation,
        )
        for rule in load_book("docs").rules.values()
        for last in rule.values[-1:]
    ]


def _default(value: object) -> str:
    """As it is written in the environment."""
    return json.dumps(value) if isinstance(value, tuple) else str(value)


def _value(rule: Rule, dated: DatedValue) -> str:
    number = "in words" if dated.value is None else f"{rule.bound} {dated.value:g} {dated.unit}"
    return f"{number} ({dated.evidence})"


def _reckoned(dated: DatedValue) -> str:
    """As which substance the number is written, and on which weight."""
    basis = f", on {dated.basis}" if dated.basis else ""
    return f"{dated.expressed_as}{basis}".replace("_", " ")


def _stands(dated: DatedValue) -> str:
    """From which day to which; an open side is left open."""
    return f"{dated.since or ''} to {dated.until or ''}".strip() if dated.since or dated.until else "age not known"


def _line(*cells: object) -> str:
    return "| " + " | ".join(" ".join(str(cell).split()).replace("|", "\\|") for cell in cells) + " |"


def missing(document: str, lines: Iterable[str]) -> list[str]:
    """The lines that the document should have and has not."""
    written = set(document.splitlines())
    return [line for line in lines if line not in written]


def stale(document: str, lines: Iterable[str]) -> list[str]:
    """The lines about one thing that the document has and should not have."""
    return [line for line in document.splitlines() if line.startswith("| `") and line not in set(lines)]


def silent_sections(document: str, names: Iterable[str]) -> list[str]:
    """The names that have no section of their own with something in it."""
    sections = dict(re.findall(r"^## (\S+)\n(.*?)(?=^## |\Z)", document, re.MULTILINE | re.DOTALL))
    return [f"## {name}" for name in names if not sections.get(name, "").strip()]
