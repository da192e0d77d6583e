"""Tests of butchery."""
