"""Measurements: run by hand, never part of the test run, each writes its table to docs/performance.md."""
