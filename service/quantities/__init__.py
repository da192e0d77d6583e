"""What a number means: quantity types, units and rounding. Imports no other room."""
