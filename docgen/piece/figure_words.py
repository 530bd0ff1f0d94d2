"""What figures of joints are called on paper: some bear a name of the file, or a place in the piece that checks alone need."""

from __future__ import annotations

WORDS = {
    "bed": "bed of putty or tape",
    "box width": "drawer box wide",
    "clearance a side": "room at each side",
    "fat": "left fat",
    "least side": "sides at least",
    "most side": "at most",
    "opening long": "from rabbet to rabbet, long",
    "opening wide": "from rabbet to rabbet, wide",
    "outside long": "frame outside, long",
    "outside wide": "frame outside, wide",
    "setback": "begins behind the front edge",
    "side thickness": "drawer side thick",
    "sight long": "free in the frame, long",
    "sight wide": "free in the frame, wide",
}
"""Name of a figure → how it is told beside a drawing."""

UNTOLD = frozenset(("slide line", "slide low", "slide high", "slide front", "slide back", "runner front"))
"""Places in the piece, from its zero: no part is measured from there, and the chart tells them from the part's own sides."""


def on_paper(name: str) -> str:
    """Return what a figure is called on paper; "" for one that no maker needs."""
    return "" if name in UNTOLD else WORDS.get(name, name)
