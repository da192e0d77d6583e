"""Lengths, temperatures and moments, converted once."""

from datetime import UTC, datetime

import pytest
from pydantic import TypeAdapter, ValidationError

from service.quantities.models import Moment
from service.quantities.quantity import Duration, Length, Temperature

# Exact by definition of the degree Fahrenheit (NIST SP 811, 2008, table B.9: from memory).
TEMPERATURES = [(40, "degF", 40 / 9), (32, "degF", 0), (-40, "degF", -40), (212, "degF", 100), (3.5, "degC", 3.5)]


@pytest.mark.parametrize(("value", "unit", "celsius"), TEMPERATURES)
def test_temperatures_are_converted_to_celsius(value, unit, celsius):
    """Both scales meet where their definitions say."""
    assert Temperature(value=value, unit=unit).c == pytest.approx(celsius, abs=1e-9)


@pytest.mark.parametrize(("value", "unit", "mm"), [(3.5, "in", 88.9), (6, "cm", 60), (1, "ft", 304.8), (0.2, "m", 200)])
def test_lengths_are_converted_to_millimetres(value, unit, mm):
    """An inch is 25.4 mm (NIST SP 811, 2008, appendix B.8: from memory)."""
    assert Length(value=value, unit=unit).mm == pytest.approx(mm, rel=1e-12)


def test_a_time_is_told_in_seconds_and_in_days():
    """Twelve hours are half a day."""
    assert (Duration(value=12, unit="h").s, Duration(value=12, unit="h").d) == (43_200, 0.5)


def test_a_moment_says_its_offset():
    """RFC 3339: with an offset it is one moment everywhere."""
    moment = TypeAdapter(Moment).validate_python("2026-12-01T08:00:00+01:00", strict=True)

    assert moment == datetime(2026, 12, 1, 7, tzinfo=UTC)


@pytest.mark.parametrize("offset", ["+14:00", "+13:45", "-12:00", "+05:45"])
def test_a_moment_may_be_anywhere(offset):
    """From Kiritimati to Baker Island (IANA time zone database: the offsets run from -12:00 to +14:00)."""
    told = TypeAdapter(Moment).validate_python(f"2026-12-01T08:00:00{offset}", strict=True)

    assert told.isoformat() == f"2026-12-01T08:00:00{offset}"


@pytest.mark.parametrize("text", ["2026-12-01T07:00:00.000Z", "2026-12-01T08:00:00.000001+01:00"])
def test_parts_of_a_second_are_taken(text):
    """RFC 3339 allows them, and programs write them: JavaScript three digits, Python six."""
    moment = TypeAdapter(Moment).validate_python(text, strict=True)

    assert moment.replace(microsecond=0) == datetime(2026, 12, 1, 7, tzinfo=UTC)


@pytest.mark.parametrize(
    "text",
    ["2026-12-01T08:00:00+14:01", "2026-12-01T08:00:00", "2026-12-01T08:00Z", "2026-02-30T08:00:00Z", "2026-12-01", 1],
)
def test_what_is_no_moment_is_refused(text):
    """Too far from UTC, without an offset, without seconds, on no day of the calendar, as a number."""
    with pytest.raises(ValidationError):
        TypeAdapter(Moment).validate_python(text, strict=True)
