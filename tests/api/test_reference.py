"""Reference data: units and rules, and how callers may keep them."""

import gzip
from decimal import Decimal

import pytest
from starlette.testclient import TestClient

from service.quantities.units import SPELLINGS
from service.rules.book import RuleBook
from tests.api.problem_checks import codes_of, problem_of

KEPT = [
    "/v1/units", "/v1/calculations", "/v1/ingredients", "/v1/ingredients?kind=salt", "/v1/cuts",
    "/v1/cuts?animal=lamb", "/v1/cuts?item_number=9999", "/v1/rules",
    "/v1/rules?jurisdiction=US&on=2026-12-01", "/openapi.json", "/docs", "/docs/docs.js",
]  # fmt: skip

# NIST Special Publication 811 (2008), appendix B: exact factors; temperature by its formula, B.8.
# The US liquid gallon is 231 cubic inches: 3785.411784 ml.
EXACT = {
    "kg": ("1000", "0"), "lb": ("453.59237", "0"), "oz": ("28.349523125", "0"),
    "gal": ("3785.411784", "0"), "in": ("25.4", "0"), "ft": ("304.8", "0"), "h": ("3600", "0"), "d": ("86400", "0"),
}  # fmt: skip


def test_every_unit_is_listed_with_its_exact_factor(client: TestClient):
    """The list holds all units there are; factors are those of NIST SP 811."""
    listed = {unit["symbol"]: unit for unit in client.get("/v1/units").json()["items"]}

    assert listed.keys() == SPELLINGS.keys()
    for symbol, (factor, offset) in EXACT.items():
        assert (listed[symbol]["factor"], listed[symbol]["offset"]) == (factor, offset)


def test_fahrenheit_leads_to_celsius(client: TestClient):
    """212 degF is 100 degC and 32 degF is 0 degC (NIST SP 811, B.8), to 20 digits."""
    (unit,) = (unit for unit in client.get("/v1/units").json()["items"] if unit["symbol"] == "degF")
    factor, offset = Decimal(unit["factor"]), Decimal(unit["offset"])

    assert abs(212 * factor + offset - 100) < Decimal("1e-20")
    assert abs(32 * factor + offset) < Decimal("1e-20")


def test_rules_are_chosen_by_place_and_measure(client: TestClient, book: RuleBook):
    """Without a choice all are listed; with one only those that fit, and this service's own guards."""
    everything = client.get("/v1/rules").json()["items"]
    chosen = client.get("/v1/rules?jurisdiction=US&measure=nitrite").json()["items"]

    assert {rule["id"] for rule in everything} == book.rules.keys()
    assert {rule["jurisdiction"] for rule in chosen} <= {"US", "ANY"}
    assert {rule["measure"] for rule in chosen} == {"nitrite"}


def test_a_rule_is_as_it_stands_on_the_day(client: TestClient):
    """What is in force today is told with its whole history; before its time a rule is not in force."""
    rules = client.get("/v1/rules").json()["items"]
    young = next(rule for rule in rules if rule["history"][0]["since"] is not None)
    path = f"/v1/rules/{young['id']}"

    assert client.get(path).json() == young
    assert client.get(f"{path}?on=1970-01-01").json()["in_force"] is None
    assert client.get(f"{path}?on=1970-01-01").json()["history"] == young["history"]


@pytest.mark.parametrize("id", ["no-such-rule", "US-NITRITE", "a" * 61, "a%20b"])
def test_a_rule_that_is_not_there_is_not_found(client: TestClient, id: str):
    """Any other id is a 404."""
    response = client.get(f"/v1/rules/{id}")

    assert response.status_code == 404
    assert problem_of(response)["type"] == "/problems/not-found"


@pytest.mark.parametrize(
    ("query", "parameter", "code"),
    [
        ("place=US", "place", "unknown_field"),
        ("jurisdiction=us", "jurisdiction", "value_not_allowed"),
        ("jurisdiction=", "jurisdiction", "value_not_allowed"),
        ("measure=null", "measure", "value_not_allowed"),
        ("on=2026-2-1", "on", "not_a_day"),
        ("on=1796083200", "on", "not_a_day"),
        ("on=2026-12-01%0A", "on", "not_a_day"),
        ("sort=id;drop table", "sort", "unknown_field"),
    ],
)
def test_a_parameter_outside_the_contract_is_pointed_at(client: TestClient, query: str, parameter: str, code: str):
    """Unknown parameters and bad values are a 422 that names them."""
    problem = problem_of(client.get(f"/v1/rules?{query}"))

    assert problem["status"] == 422
    assert problem["errors"][0]["parameter"] == parameter
    assert codes_of(problem) == [code]


@pytest.mark.parametrize("path", ["/v1/units", "/livez", "/readyz", "/problems/not-found", "/openapi.json"])
def test_where_there_are_no_parameters_each_is_unknown(client: TestClient, path: str):
    """An operation without parameters takes none."""
    problem = problem_of(client.get(f"{path}?a=1"))

    assert (problem["status"], codes_of(problem)) == (422, ["unknown_field"])


@pytest.mark.parametrize("path", KEPT)
def test_what_is_kept_need_not_travel_again(client: TestClient, path: str):
    """304 for the tag of the bytes, in each way of asking (RFC 9110, 13.1.2); other tags get the bytes."""
    first = client.get(path)
    tag = first.headers["etag"]

    assert first.headers["cache-control"] == "public, max-age=3600"
    for known in (tag, f"W/{tag}", f'"other", {tag}', "*"):
        again = client.get(path, headers={"if-none-match": known})
        assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", tag)
    assert client.get(path, headers={"if-none-match": '"other"'}).content == first.content


@pytest.mark.parametrize("path", ["/v1/units", "/v1/rules"])
def test_compressed_and_plain_are_two_representations(client: TestClient, path: str):
    """Each has its own strong tag (RFC 9110, 8.8.3), and a cache is told what decides."""
    plain, squeezed = (client.get(path, headers={"accept-encoding": coding}) for coding in ("identity", "gzip"))

    assert squeezed.headers["content-encoding"] == "gzip"
    assert "content-encoding" not in plain.headers
    assert plain.content == squeezed.content
    assert plain.headers["etag"] != squeezed.headers["etag"]
    assert plain.headers["vary"] == squeezed.headers["vary"] == "Accept-Encoding"


@pytest.mark.parametrize(("asked", "is_squeezed"), [("gzip", True), ("br;q=1, gzip;q=0.2", True), ("gzip;q=0", False)])
def test_a_long_answer_is_compressed_when_asked(client: TestClient, rub: dict, asked: str, is_squeezed: bool):
    """Calculations too are compressed for those who ask, and not for others; short answers never are."""
    long = rub | {"pieces": [{"value": 1, "unit": "kg"}] * 50}

    with client.stream("POST", "/v1/toys/rub", json=long, headers={"accept-encoding": asked}) as response:
        raw = b"".join(response.iter_raw())
    short = client.post("/v1/toys/rub", json=rub, headers={"accept-encoding": asked})

    assert (response.headers.get("content-encoding") == "gzip") is is_squeezed
    assert b"is a piece of this batch" in (gzip.decompress(raw) if is_squeezed else raw)
    assert "content-encoding" not in short.headers
