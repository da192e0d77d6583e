"""The same facts in other formats."""
