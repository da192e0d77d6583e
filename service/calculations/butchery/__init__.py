"""Butchery: what a piece is cut into, what is left of it stage after stage, and what its trim is blended to."""
