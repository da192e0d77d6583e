"""Seasoning: a recipe scaled to what there is."""
