"""Tests that the pages say what is so."""
