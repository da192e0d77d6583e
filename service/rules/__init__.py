"""What a law or an authority set, from which day: dated data with citations, its loader and its checker."""
