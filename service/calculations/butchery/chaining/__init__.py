"""The parts of a chain of yields."""
