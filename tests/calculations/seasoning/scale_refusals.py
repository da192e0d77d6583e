"""Proves a refusal of a recipe from the request and the data alone."""

from functools import cache
from pathlib import Path
from typing import Any
from unicodedata import normalize

import yaml

from tests.calculations.measures.pantry import rows
from tests.calculations.seasoning.scale_bodies import key_of, salt_by_name, salt_share
from tests.calculations.seasoning.scale_proofs import sort_of

NAMES = Path(__file__).parents[3] / "service/rules/data/cure_names.yaml"
NAMED = ("words", "near", "parts", "endings")
RUN = 3
"""Letters in a row that a name must share with the name of a cure: what is refused with none is refused wrongly."""


@cache
def runs_of_cures() -> frozenset[str]:
    """All such runs in the data of names, read as text; shorter names whole."""
    rows = yaml.safe_load(NAMES.read_text("utf-8"))
    cures = [row for row in rows if row["kind"] not in ("innocent", "unread")]
    names = [name for row in cures for field in NAMED for name in row.get(field, ())]
    return frozenset(run for name in [*names, "no", "premix", "8pct", "ham", "rub", "1pct"] for run in runs(name))


@cache
def runs_of_pink_salts() -> frozenset[str]:
    """The same of salts that may be either."""
    rows = [row for row in yaml.safe_load(NAMES.read_text("utf-8")) if row["kind"] == "doubtful"]
    return frozenset(run for row in rows for field in NAMED for name in row.get(field, ()) for run in runs(name))


def runs(name: str) -> set[str]:
    """Runs of bare letters and figures, accents and blanks left out."""
    bare = [letter for letter in normalize("NFKD", name).casefold() if letter.isalnum()]
    return {"".join(bare[at : at + RUN]) for at in range(max(1, len(bare) - RUN + 1))}


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """What is untrue about a refusal; empty when it is proved."""
    code = problem["code"]
    proved = code in PROOFS and PROOFS[code](body)
    return [] if proved and problem.get("nearest") else [f"{code} is not so, or nothing is near: {body}"]


def _stated(body: dict[str, Any]) -> list[dict[str, Any]]:
    return [*body["lines"], *(one for one in body["at_hand"] if one["kind"] == "limiting")]


def _names(body: dict[str, Any]) -> list[str]:
    return [one["ingredient"] for one in _stated(body)]


def _reads_like_cure(body: dict[str, Any]) -> bool:
    """A curing salt of the list, or a name that shares letters with one; figures and foreign letters stand for any."""
    kinds = [(name, rows().get(key_of(name), {}).get("kind")) for name in _names(body)]
    return any(
        kind == "curing_salt"
        or (kind is None and (runs(name) & runs_of_cures() or any(one.isdigit() or one > "\u017f" for one in name)))
        for name, kind in kinds
    )


def _label_contradicts(body: dict[str, Any]) -> bool:
    """A salt whose label says that half of it or less is salt; a name of one's own has to share letters with salt."""
    return any(
        (salt_share(one) or 0) <= 0.5
        and (rows().get(key_of(one["ingredient"]), {"kind": "salt"})["kind"] == "salt")
        and one.get("label") is not None
        and salt_by_name(one) is not None
        for one in body["lines"]
    )


def _without(body: dict[str, Any], sort: str, field: str) -> bool:
    """A listed ingredient is measured in a way in which nobody weighed it."""
    found = [(one, rows().get(key_of(one["ingredient"]))) for one in _stated(body)]
    return any(row is not None and sort_of(one["amount"]) == sort and field not in row for one, row in found)


def _stated_twice(body: dict[str, Any]) -> bool:
    things = [(one["kind"], key_of(one.get("ingredient", ""))) for one in body["at_hand"]]
    return len(set(things)) < len(things)


PROOFS = {
    "carries_nitrite": _reads_like_cure,
    "may_be_curing_salt": lambda body: any(
        key_of(name) not in rows() and runs(name) & runs_of_pink_salts() for name in _names(body)
    ),
    "label_contradicts": _label_contradicts,
    "unknown_ingredient": lambda body: any(
        key_of(one["ingredient"]) not in rows() and sort_of(one["amount"]) != "weight" for one in _stated(body)
    ),
    "no_volume_figure": lambda body: _without(body, "volume", "readings"),
    "no_piece_figure": lambda body: _without(body, "pieces", "piece"),
    "no_such_line": lambda body: (
        not {key_of(name) for name in _names(body)} <= {key_of(one["ingredient"]) for one in body["lines"]}
    ),
    "stated_twice": _stated_twice,
}
"""Why each refusal is true."""
