"""Who asks, and whose data it is."""
