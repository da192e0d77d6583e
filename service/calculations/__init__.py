"""The trade: each calculation is one pure function from a checked request to a frozen answer."""
