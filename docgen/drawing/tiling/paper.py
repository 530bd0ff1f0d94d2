"""How a true-size page is divided: a heading above, a strip for the upright check line, the window.

The heading begins right of the trim line, so that no cut runs through it.
"""

from __future__ import annotations

from dataclasses import dataclass

from docgen.drawing.tiling.grid import Field
from docgen.drawing.tiling.rulers import DEPTH
from docgen.layout.model import Layout, Rect

HEADING = 44.0  # mm, the level check line included


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


def paper(layout: Layout, *, turned: bool = False) -> Paper:
    """Return the division of a page of `layout`, lying the other way with `turned`."""
    lying = layout.turned() if turned else layout
    area = lying.open_area
    window = Rect(area.x + DEPTH, area.y, area.width - DEPTH, area.height - HEADING)
    left = window.x + lying.overlap / 2 + 3
    level = Rect(left, window.top, area.right - left, DEPTH + 1)
    heading = Rect(left, level.top, level.width, area.top - level.top)
    return Paper(lying, turned, heading, level, Rect(area.x, area.y, DEPTH, area.height), window)


def papers(layout: Layout) -> tuple[Paper, Paper]:
    """Return the page as the layout has it and the same paper turned."""
    return paper(layout), paper(layout, turned=True)
