"""Tests, laid out as the service is."""
