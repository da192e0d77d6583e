"""Everything that knows HTTP: paths, problems, reading and answering. No formulas, no legal figures, no SQL."""
