"""Curing: what to weigh, what it comes to in the meat, and what the law says of it."""
