"""Brine: its strength on every scale, its weight, its cold, and what lies in it."""
