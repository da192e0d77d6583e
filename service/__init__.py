"""Pellicle: a REST service for kitchens that cure and smoke meat."""
