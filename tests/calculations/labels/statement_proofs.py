"""What must be true of every label statement, reckoned from the request and the lists as they are written."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from typing import Any

from tests.calculations.labels.word_list import (
    ALLERGENS,
    Meaning,
    listing_of,
    meaning_of,
    rows,
    spoken_of,
)
from tests.calculations.measures.pantry import GRAMS
from tests.calculations.measures.pantry import rows as ingredient_rows

MOST_NODES = 1500
EUROPE = ("EU", "DK", "GB", "GB-NI")
DIFFERENCES = (
    "left_off",
    "kinds_left_off",
    "missing",
    "extra",
    "out_of_order",
    "allergens_not_named",
    "names_not_used",
    "required_items",
)
FIGURES = {row["id"]: row.get("figures_percent") for row in rows("label_rules")}


def grams(line: dict[str, Any]) -> Fraction:
    """The weight of a line, exactly as it was written."""
    return Fraction(str(line["weight"]["value"])) * Fraction(str(GRAMS[line["weight"]["unit"]]))


def faults_of_statement(body: dict[str, Any], told: dict[str, Any]) -> list[str]:
    """What is untrue about an answer; empty when it is proved."""
    faults = [*_of_list(body, told), *_of_required(told), *_of_difference(body, told), *_of_statement(body, told)]
    if all(name.isascii() for name in _names(body["lines"])):
        faults += _of_allergens(body, told)
    return faults


def _names(nodes: list[dict[str, Any]]) -> Iterator[str]:
    for node in nodes:
        yield node["name"]
        yield from _names(node.get("sub_ingredients", []))


def _of_list(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """Every line once, weights added up, heaviest first, nothing in the clause over its threshold."""
    whole, listed = sum(map(grams, body["lines"])), told["ingredients"]
    counted = sorted(number for one in listed for number in one["lines"])
    if counted != list(range(1, len(body["lines"]) + 1)):
        yield f"lines {counted}"
    shares = [float(100 * sum(grams(body["lines"][n - 1]) for n in one["lines"]) / whole) for one in listed]
    if any(later > earlier + 1e-8 for earlier, later in pairwise(shares)):
        yield f"not heaviest first: {shares}"
    for one, share in zip(listed, shares, strict=True):
        if abs(one["percent"] - share) > 1e-6:
            yield f"{one['name']} is {share} percent, not {one['percent']}"
        if one["in_clause"] != ("clause_percent" in body and share <= float(body["clause_percent"]) + 1e-9):
            yield f"{one['name']} with {share} percent in the clause: {one['in_clause']}"
    if not body.get("join_meats"):
        yield from _of_text(body, told)


def _of_text(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    main = ", ".join(one["text"] for one in told["ingredients"] if not one["in_clause"])
    tail = ", ".join(one["text"] for one in told["ingredients"] if one["in_clause"])
    clause = f"Contains {body.get('clause_percent')}% or less of: {tail}" if tail else ""
    measured = [one["name"].upper() for one in told["allergens"] if _is_only_measured(one)]
    rest = f"Contains {', '.join(measured)}" if measured and body["jurisdiction"] in EUROPE else ""
    text = f"Ingredients: {'. '.join(filter(None, (main, clause, rest)))}."
    if told["ingredient_statement"] != text:
        yield f"{told['ingredient_statement']!r} is not {text!r}"


def _is_only_measured(one: dict[str, Any]) -> bool:
    return _is_to_be_named(one) and all(way["by"] == "measurement" for way in one["came_from"])


def _is_to_be_named(one: dict[str, Any]) -> bool:
    is_meant = any(way["counts"] for way in one["came_from"])
    return bool(one["verdict"] == "contains" and one["to_be_named"] != "no" and is_meant)


def _of_allergens(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """Each verdict, worked out anew; and which are listed, by the lists as they are written."""
    place, on = body["jurisdiction"], date.fromisoformat(told["on"])
    found, open_to = set(), set()
    for line in body["lines"]:
        for carries, opened in _walk(line, place, on, set(), line.get("ingredient")):
            found |= carries
            open_to |= opened
    level = body.get("sulphites_mg_per_kg")
    found |= {"sulphites"} if level is not None and level > 10 else set()
    for one in told["allergens"]:
        verdict = _verdict(one["allergen"], found, open_to)
        if one["verdict"] != verdict:
            yield f"{one['allergen']} is {one['verdict']}, not {verdict}"
        if one["listed"] != _listed(one["allergen"], place, on, level):
            yield f"{one['allergen']} is listed: {one['listed']}"
    if [one["allergen"] for one in told["allergens"]] != list(ALLERGENS):
        yield "not every allergen"


def _verdict(allergen: str, found: set[str], open_to: set[str]) -> str:
    return "contains" if allergen in found else "cannot_tell" if allergen in open_to else "does_not_contain"


def _listed(allergen: str, place: str, on: date, level: float | None) -> str:
    if not any(listing_of(one, place, on) for one in ALLERGENS):
        return "not_known"
    there = listing_of(allergen, place, on)
    under = there and "above_mg_per_kg" in there and level is not None and level <= there["above_mg_per_kg"]
    return "yes" if there and not under else "no"


def _walk(
    node: dict[str, Any], place: str, on: date, covered: set[str], ingredient: str | None = None
) -> Iterator[tuple[set[str], set[str]]]:
    """What a node and everything in it brings in, and what it leaves open."""
    meaning: Meaning = meaning_of(node["name"], place, on, ingredient)
    specification, of = node.get("specification"), node.get("sub_ingredients")
    if specification:
        covered = covered | spoken_of(specification, place, on)
    inside = [pair for part in of or () for pair in _walk(part, place, on, covered)]
    yield from inside
    yield meaning.carries, set() if of else meaning.open_to - covered
    shares = [part["percent"] for part in of or () if "percent" in part]
    if shares and (len(shares) < len(of or ()) or _has_a_rest(shares)):
        yield set(), set(ALLERGENS) - covered
    if specification:
        declared = set(specification["allergens"])
        words = meaning.carries.union(*(carries for carries, _ in _of_words(node, place, on, ingredient)))
        is_said = "gluten_cereals" in (_named(node, place, on, ingredient) if place in EUROPE else words)
        cereal = {"wheat"} if "gluten_cereals" in declared and "wheat" not in declared and not is_said else set()
        yield declared | ({"gluten_cereals"} if "wheat" in declared else set()), cereal


def _named(node: dict[str, Any], place: str, on: date, ingredient: str | None = None) -> set[str]:
    """The allergens of which a word, or a specification that says wheat, names the kind."""
    declared = node.get("specification", {}).get("allergens", ())
    named = meaning_of(node["name"], place, on, ingredient).named | (
        {"gluten_cereals"} if "wheat" in declared else set()
    )
    return named.union(*(_named(part, place, on) for part in node.get("sub_ingredients", ())))


def _has_a_rest(shares: list[float]) -> bool:
    """Whether more is missing than rounding explains: half of the last digit of each, at most one percent."""
    exact = [round(Decimal(repr(share)), 9).normalize() for share in shares]
    missing = float(round(100 - sum(exact, Decimal(0)), 7))
    if missing <= 0 or len(shares) == 1:
        return missing > 0
    may_miss = float(sum(Decimal(5).scaleb(min(int(share.as_tuple().exponent), 0) - 1) for share in exact))
    return missing > 1 or missing >= may_miss


def _of_words(
    node: dict[str, Any], place: str, on: date, ingredient: str | None
) -> Iterator[tuple[set[str], set[str]]]:
    bare = {"name": node["name"], "sub_ingredients": [_bare(part) for part in node.get("sub_ingredients", [])]}
    yield from _walk(bare, place, on, set(), ingredient)


def _bare(node: dict[str, Any]) -> dict[str, Any]:
    return {"name": node["name"], "sub_ingredients": [_bare(part) for part in node.get("sub_ingredients", [])]}


def _of_statement(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    """Nothing is complete that stays open, and nothing is left out that was found."""
    statement, allergens = told["allergen_statement"], told["allergens"]
    listed = {one["allergen"] for one in allergens if one["listed"] == "yes"}
    is_open = any(listed & set(one["may_bring_in"]) for one in told["open_ingredients"]) or not told["rules_held"]
    found = [one for one in allergens if _is_to_be_named(one)]
    verdict = "cannot_tell" if is_open else "contains" if found else "does_not_contain"
    if statement["verdict"] != verdict:
        yield f"the statement is {statement['verdict']}, not {verdict}"
    is_in_a_list = body["jurisdiction"] in EUROPE and len(told["ingredients"]) > 1
    has_text = verdict == "contains" and not is_in_a_list
    if len(statement["found"]) != len(found) or (statement["text"] is not None) != has_text:
        yield f"{statement} of {[one['allergen'] for one in found]}"
    if any(one["verdict"] == "cannot_tell" for one in allergens if one["listed"] == "yes") and not is_open:
        yield "a listed allergen cannot be told, and the statement is"
    yield from _of_kinds(told, found)
    if body["jurisdiction"] in EUROPE and told["rules_held"]:
        yield from _of_capitals(told, found)


def _of_kinds(told: dict[str, Any], found: list[dict[str, Any]]) -> Iterator[str]:
    """A statement that can be told names each kind that the law wants."""
    said = dict(zip((one["allergen"] for one in found), told["allergen_statement"]["found"], strict=False))
    for one in found:
        there = listing_of(one["allergen"], told["jurisdiction"], date.fromisoformat(told["on"])) or {}
        is_complete = told["allergen_statement"]["verdict"] == "contains"
        if is_complete and there.get("by_kind") and "(" not in said[one["allergen"]]:
            yield f"{one['allergen']} is told without its kind"


def _of_capitals(told: dict[str, Any], found: list[dict[str, Any]]) -> Iterator[str]:
    """Whatever has to be named stands out in the list of Europe."""
    for one, said in zip(found, told["allergen_statement"]["found"], strict=False):
        kinds = said.partition("(")[2].rstrip(")").split(", ")
        words = [one["name"], *filter(None, kinds), *(way["word"] for way in one["came_from"] if way["word"])]
        if not any(word.upper() in told["ingredient_statement"] for word in words):
            yield f"{one['allergen']} does not stand out in the list"


def _of_required(told: dict[str, Any]) -> Iterator[str]:
    """What is from memory proves nothing; what is not held against a label is not met by one."""
    for one in told["required"]:
        if one["evidence"] == "recalled" and one["verdict"] != "cannot_tell":
            yield f"{one['rule']} is from memory and {one['verdict']}"
        if told["difference"] is None and one["verdict"] == "met" and one["item"] != "no_word_enhanced":
            yield f"{one['rule']} is met by no label"
        if one["asked_for"] == "cannot_tell" and one["verdict"] != "cannot_tell":
            yield f"{one['rule']} may not be asked for and is {one['verdict']}"
        difference = told["difference"] or {}
        is_left_off = bool(
            difference.get("left_off") or difference.get("kinds_left_off") or difference.get("allergens_not_named")
        )
        if one["item"] == "allergens" and (one["verdict"] == "not_met") != is_left_off:
            yield f"{one['rule']} is {one['verdict']}"
    reported = any(one["verdict"] == "met" and one["evidence"] == "reported" for one in told["required"])
    if reported != ("reported-source" in [one["id"] for one in told["cautions"]]):
        yield "a pass by a reported source is printed with its caution"


def _of_difference(body: dict[str, Any], told: dict[str, Any]) -> Iterator[str]:
    label, difference = body.get("label_in_use"), told["difference"]
    if (label is None) != (difference is None):
        yield "a difference without a label, or a label without one"
    if label is None or difference is None:
        return
    left_off = [
        one["allergen"]
        for one in told["allergens"]
        if _is_to_be_named(one) and one["allergen"] not in label["allergens"]
    ]
    if [one["allergen"] for one in difference["left_off"]] != left_off:
        yield f"left off {difference['left_off']}, not {left_off}"
    differs = any(difference[name] for name in DIFFERENCES)
    if (difference["verdict"] == "not_met") != differs:
        yield f"{difference['verdict']} of {difference}"
    if difference["verdict"] == "met" and told["allergen_statement"]["verdict"] == "cannot_tell":
        yield "met although an ingredient stays open"
    if difference["verdict"] == "met" and difference["not_compared"]:
        yield "met although something was not compared"
    twice = {name for name in label["ingredients"] if label["ingredients"].count(name) > len(body["lines"])}
    if not twice <= set(difference["extra"]):
        yield f"{twice} stand on the label more often than in the recipe"


def faults_of_refusal(body: dict[str, Any], problem: dict[str, Any]) -> list[str]:
    """What is untrue about a refusal; empty when it is proved."""
    options = (
        "clause_percent" in body,
        "clause" in body.get("label_in_use", {}),
        body.get("join_meats", False),
        body.get("spices") == "as_one_word",
    )
    proved = {
        "unknown_ingredient": lambda: any(
            one["ingredient"] not in ingredient_rows() for one in body["lines"] if "ingredient" in one
        ),
        "percents_over_whole": lambda: any(_is_over(one) for one in body["lines"]),
        "too_many_parts": lambda: sum(1 for _ in _names(body["lines"])) > MOST_NODES,
        "united_states_only": lambda: body["jurisdiction"] != "US" and any(options),
        "meats_not_joined": lambda: body.get("join_meats", False) and not _may_join(body["lines"]),
    }
    code = problem["code"]
    return [] if code in proved and proved[code]() else [f"{code} is not so: {problem.get('reason')}"]


def _is_over(node: dict[str, Any]) -> bool:
    of = node.get("sub_ingredients", [])
    return sum(part.get("percent", 0) for part in of) > 101 - 1e-9 or any(map(_is_over, of))


def _may_join(lines: list[dict[str, Any]]) -> bool:
    """Whether the two largest meats are each and both large enough: figures of 9 CFR 317.2(f)(1)."""
    meats: dict[str, Fraction] = {}
    animals = {one["name"].casefold() for one in lines if "animal" in one}
    for one in lines:
        name = one["name"].casefold()
        if name in animals:
            meats[name] = meats.get(name, Fraction(0)) + grams(one)
    block, most = sum(meats.values()), sorted(meats.values(), reverse=True)
    least_each, least_both = FIGURES["us-two-meats"] or (0, 0)
    return len(most) > 1 and 100 * most[1] >= least_each * block and 100 * sum(most[:2]) >= least_both * block
