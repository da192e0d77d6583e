"""Clock, environment, chance and files are handed in: no room reaches for them."""

import ast
import re
from collections.abc import Iterator

import pytest

from tests.architecture.house import Source, listed, sources

THINKING = ("quantities", "rules", "calculations", "access", "records", "exports")
"""The rooms that give the same answer to the same question."""

CLOCK = r"(datetime|date)\.(now|today|utcnow)|time\.(time|time_ns|monotonic|perf_counter|localtime|gmtime)"
CHANCE = r"random\.(?!Random$)\w+|secrets\.\w+|uuid\.uuid[14]|(np|numpy)\.random\.(?!default_rng$)\w+|os\.urandom"
UNSEEDED = r"((np|numpy)\.random\.)?default_rng|(random\.)?Random"
ENVIRONMENT = r"os\.(environ|getenv)(\.\w+)?|environ\.\w+|getenv"
FILES = r"open|io\.open|os\.open|(.+\.)?(read_text|read_bytes|write_text|write_bytes)"

REFUSED = {
    "clock": (CLOCK, THINKING),
    "chance": (CHANCE, THINKING),
    "environment": (ENVIRONMENT, (*THINKING, "api", "observability")),
    "files": (FILES, ("quantities", "calculations")),
    "commit": (r".+\.commit", ("access", "records")),
}


def reaches(source: Source) -> list[str]:
    """Where this file reaches for something that must be handed in."""
    room = source.place.split("/")[1]
    return [
        source.at(node, f"{written} ({kind})")
        for node, written in _mentions(source.tree)
        for kind, (pattern, rooms) in REFUSED.items()
        if room in rooms and re.fullmatch(pattern, written)
    ] + [source.at(node, "unseeded chance") for node in _unseeded(source.tree) if room in THINKING]


def _mentions(tree: ast.Module) -> Iterator[tuple[ast.expr, str]]:
    """Every call by its name, every attribute read, with aliases of datetime's module written out."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute):
            yield node, ast.unparse(node).removeprefix("datetime.") if _doubled(node) else ast.unparse(node)
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            yield node, node.func.id


def _doubled(node: ast.Attribute) -> bool:
    return ast.unparse(node).startswith(("datetime.datetime.", "datetime.date."))


def _unseeded(tree: ast.Module) -> Iterator[ast.Call]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and not node.args and re.fullmatch(UNSEEDED, ast.unparse(node.func)):
            yield node


def test_no_room_reaches_for_what_must_be_handed_in():
    """The same request gives the same answer: nothing reads a clock, a file, the environment or rolls dice."""
    rooms = [source for source in sources("service") if source.place.count("/") > 1]

    faults = [fault for source in rooms for fault in reaches(source)]

    assert not faults, listed(faults)


@pytest.mark.parametrize(
    ("room", "planted"),
    [
        ("calculations", "now = datetime.now(UTC)"),
        ("calculations", "day = datetime.date.today()"),
        ("rules", "now = datetime.datetime.utcnow()"),
        ("records", "at = time.time()"),
        ("records", "session.commit()"),
        ("calculations", "where = os.environ['WHERE']"),
        ("api", "where = os.environ.get('WHERE')"),
        ("calculations", "text = open('cuts.csv')"),
        ("calculations", "text = Path('cuts.csv').read_text()"),
        ("exports", "dice = random.random()"),
        ("calculations", "dice = np.random.normal()"),
        ("calculations", "dice = np.random.default_rng()"),
        ("calculations", "dice = Random()"),
    ],
)
def test_a_reach_is_found(room: str, planted: str):
    """Each way to read the clock, the environment or a file, to commit or to roll dice is named."""
    assert reaches(Source(f"service/{room}/shelf.py", planted)) != []


@pytest.mark.parametrize(
    ("room", "lawful"),
    [
        ("calculations", "day = date(2026, 12, 1)\nstart = datetime.fromisoformat(text)"),
        ("calculations", "dice = np.random.default_rng(seed)"),
        ("rules", "text = path.read_text()"),
        ("api", "now = datetime.now(UTC)"),
    ],
)
def test_what_is_handed_in_may_be_used(room: str, lawful: str):
    """Dates, seeded dice and the rule files are no fault."""
    assert reaches(Source(f"service/{room}/shelf.py", lawful)) == []
