"""Butchery: what a piece gives, and what is blended of what it gave."""
