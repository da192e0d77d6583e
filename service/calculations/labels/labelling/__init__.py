"""How a label statement is worked out: words, compositions, order, and what else has to stand there."""
