"""Butchery: what a piece is cut into, what is left of it stage after stage, and how much of it to buy."""
