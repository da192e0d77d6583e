"""How a recipe is scaled: its lines in grams, what there is, the salt in it, and what does not scale."""
