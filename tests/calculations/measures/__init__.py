"""Kitchen measures against what was published of them."""
