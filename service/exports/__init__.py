"""The same facts in another format."""
