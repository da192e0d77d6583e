"""What happened in the kitchen, and where it is kept."""
