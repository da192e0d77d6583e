"""What the fuzzer does with lines: it makes lawful ones of what was drawn, and reads every line that comes back."""

import json
from collections.abc import Callable, Iterator
from random import Random
from typing import Any

LINES = "application/x-ndjson"
LAWFUL_FRACTION = 0.75
MOST_LINES = 6
BLANKS = b" \t\r"

Lawful = Callable[[str, dict[str, Any], Random], Any]


def published_lines(operation: dict[str, Any]) -> list[dict[str, Any]]:
    """The requests on the lines of the published examples that are answered."""
    sent = _examples(operation.get("requestBody", {}))
    told = _examples(operation["responses"].get("200", {}))
    return [line for name, text in sent.items() for line in _answered(text["value"], told[name]["value"])]


def _examples(place: dict[str, Any]) -> dict[str, Any]:
    examples: dict[str, Any] = place.get("content", {}).get(LINES, {}).get("examples", {})
    return examples


def _answered(sent: str, told: str) -> Iterator[dict[str, Any]]:
    lines = sent.split("\n")
    for answer in map(json.loads, told.splitlines()):
        if "answer" in answer:
            yield json.loads(lines[answer["line"] - 1])


def drawn_lines(operation: dict[str, Any], drawn: str, random: Random, lawful: Lawful) -> str:
    """Some lines, most of them lawful, among them what was drawn and now and then nothing."""
    published = published_lines(operation)
    lines = [_line(operation, published, drawn, random, lawful) for _ in range(random.randint(1, MOST_LINES))]
    return "".join(line + random.choice(("\n", "\r\n")) for line in lines) + random.choice(("", drawn))


def _line(
    operation: dict[str, Any], published: list[dict[str, Any]], drawn: str, random: Random, lawful: Lawful
) -> str:
    if not published or random.random() >= LAWFUL_FRACTION:
        return random.choice(("", drawn))
    line = random.choice(published)
    name = str(line.get("calculation", operation["operationId"].removesuffix("_lines"))).replace("/", "_")
    request = lawful(name, line["request"], random)
    id = random.choice(({"id": random.randint(-(2**53) + 1, 2**53 - 1)}, {"id": "loin \u00e9"}, {}))
    others = {key: value for key, value in line.items() if key != "id"}
    return json.dumps({**id, **others, "request": request or line["request"]}, ensure_ascii=False)


def outcomes(told: bytes) -> tuple[int, int]:
    """How many lines were answered and how many declined."""
    lines = [json.loads(line) for line in told.splitlines()]
    return sum("answer" in line for line in lines), sum("problem" in line for line in lines)


def faults_of_lines(sent: bytes, told: bytes) -> list[str]:
    """What is wrong with a stream: a line without its answer, one out of order, no summary or a wrong one."""
    whole = sent.split(b"\n")
    lines = whole if whole[-1] else whole[:-1]
    asked = [number for number, line in enumerate(lines, 1) if line.strip(BLANKS)]
    *answers, last = [json.loads(line) for line in told.splitlines()] or [{}]
    if "summary" not in last:
        return ["no summary at the end"]
    given = [answer.get("line") for answer in answers]
    answered = sum("answer" in answer for answer in answers)
    wanted = {
        "lines": len(lines), "blank": len(lines) - len(asked), "answered": answered, "declined": len(asked) - answered,
    }  # fmt: skip
    wrong = {name: last["summary"].get(name) for name, right in wanted.items() if last["summary"].get(name) != right}
    torn = [] if given == asked else [f"lines {given} are answered, {asked} were asked"]
    both = [f"line {one.get('line')} has {sorted(one)}" for one in answers if ("answer" in one) == ("problem" in one)]
    return [*torn, *both, *([f"the summary says {wrong}"] if wrong else [])]
