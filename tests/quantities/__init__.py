"""Tests of what a number means."""
