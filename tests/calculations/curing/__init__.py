"""Tests of curing."""
