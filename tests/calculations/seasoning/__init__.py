"""Seasoning: recipes scaled to what there is."""
