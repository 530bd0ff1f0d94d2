"""How wide lettering is; the font itself is known to the packet room alone."""

from __future__ import annotations

from typing import Protocol


class Metrics(Protocol):
    """Widths of text in the packet's font."""

    def width(self, text: str, height: float, bold: bool = False) -> float:
        """Return the width in mm of `text` set with figures `height` mm high."""
        ...

    def __hash__(self) -> int:
        """Return a hash: what was measured with one font is kept by it."""
        ...
