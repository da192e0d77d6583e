"""Tests of the calculations, folder by folder as they are."""
