"""Kitchen measures: what a spoon, a cup or a clove weighs, with the spread of what was published."""
