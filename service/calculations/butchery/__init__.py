"""Butchery: what a piece is cut into, and what becomes of the parts."""
