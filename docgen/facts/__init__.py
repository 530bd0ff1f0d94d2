"""Everything computed of a piece, as JSON."""

from docgen.facts.whole import facts

__all__ = ["facts"]
