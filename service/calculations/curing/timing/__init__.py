"""What a cure time is made of: stages, the course of the salt, and what is told about them."""
