"""Pure calculations of the trade: numbers in, numbers out, the source in each docstring."""
