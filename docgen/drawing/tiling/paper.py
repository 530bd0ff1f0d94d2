"""How a true-size page is divided: a heading above, a strip for the upright check line, the window.

The heading begins right of the trim line, so that no cut runs through it.
"""

from __future__ import annotations

from dataclasses import dataclass

from docgen.drawing.tiling.grid import Field
from docgen.drawing.tiling.rulers import DEPTH
from docgen.layout.model import Layout, Rect

HEADING = 44.0  # mm, the level check line included
SHORT = 25.0  # mm: the same where each drawing brings its own words


@dataclass(frozen=True, slots=True)
class Paper:
    """The rectangles of one page, in mm from its lower left corner."""

    layout: Layout
    turned: bool
    heading: Rect  # title, instructions, map
    level: Rect  # the level check line, below them
    upright: Rect  # the upright check line, at the left over the whole height
    window: Rect  # the drawing

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the paper."""
        return self.layout.size

    @property
    def field(self) -> Field:
        """The window as the grid wants it."""
        return Field(self.window.width, self.window.height, self.turned)


def paper(layout: Layout, *, turned: bool = False, heading: float = HEADING) -> Paper:
    """Return the division of a page of `layout`, lying the other way with `turned`; `heading` is its height."""
    lying = layout.turned() if turned else layout
    area = lying.open_area
    window = Rect(area.x + DEPTH, area.y, area.width - DEPTH, area.height - heading)
    left = window.x + lying.overlap / 2 + 3
    level = Rect(left, window.top, area.right - left, DEPTH + 1)
    words = Rect(left, level.top, level.width, area.top - level.top)
    return Paper(lying, turned, words, level, Rect(area.x, area.y, DEPTH, area.height), window)


def papers(layout: Layout, heading: float = HEADING) -> tuple[Paper, Paper]:
    """Return the page as the layout has it and the same paper turned."""
    return paper(layout, heading=heading), paper(layout, turned=True, heading=heading)
