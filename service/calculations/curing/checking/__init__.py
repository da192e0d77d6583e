"""Reading a recipe as it is written: what it can come to, and what that is to the rules."""
