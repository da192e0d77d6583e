"""What a soak is made of: waters, the course of the salt out of the piece, and what is told of it."""
