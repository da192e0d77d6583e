"""What is so of every recipe, whatever is in it."""

from collections.abc import Iterator
from copy import deepcopy
from random import Random
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from service.calculations.labels.statement import STATEMENT, StatementAnswer
from service.quantities.models import written
from service.rules.book import RuleBook
from service.rules.loader import load_book
from tests.calculations.labels.asking import contained, told, verdicts
from tests.calculations.labels.statement_bodies import UNKNOWN, lawful_body, line
from tests.calculations.labels.statement_proofs import faults_of_statement

BOOK: RuleBook = load_book("properties")
OTHER: RuleBook = load_book("properties")
seeds = st.integers(0, 2**32)


def leaves(nodes: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """Everything that has no parts."""
    for node in nodes:
        if "sub_ingredients" in node:
            yield from leaves(node["sub_ingredients"])
        else:
            yield node


def nodes_of(nodes: list[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    """Everything, with everything in it."""
    for node in nodes:
        yield node
        yield from nodes_of(node.get("sub_ingredients", []))


def unspecified(body: dict[str, Any]) -> dict[str, Any]:
    """The same recipe without any specification."""
    bare = deepcopy(body)
    for node in nodes_of(bare["lines"]):
        node.pop("specification", None)
    return bare


def said(answer: StatementAnswer) -> tuple[object, ...]:
    """All that is told of a recipe apart from its weights and the numbers of its lines."""
    return (
        answer.allergen_statement,
        answer.allergens,
        answer.ingredient_statement,
        {one.path for one in answer.open_ingredients},
        [(one.rule, one.verdict, one.code) for one in answer.required],
        answer.difference,
    )


@settings(max_examples=150, deadline=None)
@given(seeds, st.sampled_from(UNKNOWN))
def test_an_unknown_never_becomes_none(seed: int, unknown: str):
    """A leaf replaced by an unknown word turns no contains and no cannot_tell into does_not_contain."""
    random = Random(seed)
    body = unspecified(lawful_body(random))
    before = verdicts(told(body, BOOK))

    leaf = random.choice(list(leaves(body["lines"])))
    leaf["name"] = unknown
    leaf.pop("ingredient", None)

    after = verdicts(told(body, BOOK))
    assert all(after[one] != "does_not_contain" for one in before)


@settings(max_examples=150, deadline=None)
@given(seeds)
def test_another_line_takes_nothing_away(seed: int):
    """What was in stays in, and what was open is not closed."""
    random = Random(seed)
    body = lawful_body(random)
    before = told(body, BOOK)

    body["lines"].append(line(random.choice(["salt", "whey", "seasoning", "soy-free rub"]), 50))

    after = told(body, BOOK)
    assert contained(before) <= contained(after)
    assert all(
        now != "does_not_contain" for one, now in verdicts(after).items() if verdicts(before)[one] == "cannot_tell"
    )


@settings(max_examples=150, deadline=None)
@given(seeds)
def test_a_line_split_in_two_changes_nothing(seed: int):
    """Half of it twice is all of it."""
    random = Random(seed)
    body = lawful_body(random)
    before = told(body, BOOK)

    number = random.randrange(len(body["lines"]))
    body["lines"][number]["weight"]["value"] /= 2
    body["lines"].insert(number + 1, deepcopy(body["lines"][number]))

    assert said(told(body, BOOK)) == said(before)


@settings(max_examples=150, deadline=None)
@given(seeds, st.sampled_from([0.5, 2, 3, 7.1, 100]))
def test_a_bigger_batch_has_the_same_label(seed: int, factor: float):
    """All weights times the same."""
    body = lawful_body(Random(seed))
    before = told(body, BOOK)

    for one in body["lines"]:
        one["weight"]["value"] *= factor

    after = told(body, BOOK)
    assert said(after) == said(before)
    assert [round(one.percent, 4) for one in after.ingredients] == [round(one.percent, 4) for one in before.ingredients]


@settings(max_examples=300, deadline=None)
@given(seeds)
def test_every_answer_is_proved(seed: int):
    """Order, shares, clause, verdicts, statements and differences follow from the request and the lists."""
    body = lawful_body(Random(seed))

    answer = json_of(told(body, BOOK))

    assert faults_of_statement(body, answer) == []


def test_every_code_is_said_of_some_recipe():
    """Two thousand recipes come to every code of an open ingredient, of a statement and of what was not compared."""
    answers = [told(lawful_body(Random(seed)), BOOK) for seed in range(2000)]

    of_ingredients = {one.code for answer in answers for one in answer.open_ingredients}
    of_statements = {one.code for answer in answers for one in answer.required}
    of_labels = {one.code for answer in answers if answer.difference for one in answer.difference.not_compared}
    assert of_ingredients | of_statements | of_labels == set(STATEMENT.codes)


@settings(max_examples=50, deadline=None)
@given(seeds)
def test_the_same_request_gives_the_same_bytes(seed: int):
    """Whatever was asked before."""
    body = lawful_body(Random(seed))

    assert written(told(body, BOOK)) == written(told(deepcopy(body), OTHER))


def json_of(answer: StatementAnswer) -> dict[str, Any]:
    """An answer as it goes out."""
    return dict(answer.model_dump(mode="json"))
