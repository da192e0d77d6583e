"""Tests of the published contract."""
