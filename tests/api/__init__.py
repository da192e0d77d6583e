"""A kitchen of toys: calculations small enough to see through."""
