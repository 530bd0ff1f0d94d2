"""What a layout says: paper, margins, pens, lettering, sheet order, scales. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle on paper: lower left corner, width, height."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """X of the right side."""
        return self.x + self.width

    @property
    def top(self) -> float:
        """Y of the upper side."""
        return self.y + self.height

    def inset(self, by: float) -> Rect:
        """Return the rectangle made smaller by `by` on all sides."""
        return Rect(self.x + by, self.y + by, self.width - 2 * by, self.height - 2 * by)


@dataclass(frozen=True, slots=True)
class PenStyle:
    """Width in mm and dash pattern in multiples of the width (empty: continuous)."""

    width: float
    dash: tuple[float, ...] = ()
    tone: float = 0.0


@dataclass(frozen=True, slots=True)
class Heights:
    """Capital heights in mm after ISO 3098."""

    title: float = 5.0
    heading: float = 3.5
    figure: float = 3.5  # figures read at the bench, where the sheet allows
    least: float = 2.5  # figures read at the bench, never under
    note: float = 2.5
    small: float = 1.8  # digits of stacked fractions, small print, never under


@dataclass(frozen=True, slots=True)
class Layout:
    """One paper in one orientation, with everything that shapes its pages."""

    name: str  # "letter", "a4-landscape"
    size: tuple[float, float]
    margin: tuple[float, float, float, float]  # left, bottom, right, top: frame to paper's edge
    title_block: float  # height of the title block inside the frame, at the bottom
    unprintable: float  # what an ordinary printer leaves white at each edge
    overlap: float  # of tiles
    pens: dict[str, PenStyle]  # by Pen.value
    heights: Heights
    sheets: tuple[str, ...]  # order of sheet kinds
    scales: dict[str, tuple[tuple[int, int], ...]]  # "mm", "inch" → (paper, real), largest first
    foot: float = 5.0  # strip above the unprintable edge of an unframed sheet, kept free for the packet's foot line
    paper: str = ""  # what the title block calls the paper: "Letter", "A4"

    @property
    def area(self) -> Rect:
        """The drawing area of a framed sheet: inside the frame, above the title block, with 3 mm of air."""
        left, bottom, right, top = self.margin
        return Rect(
            left + 3,
            bottom + self.title_block + 3,
            self.size[0] - left - right - 6,
            self.size[1] - bottom - top - self.title_block - 6,
        )

    @property
    def frame(self) -> Rect:
        """The frame of a framed sheet: the paper less its margins."""
        left, bottom, right, top = self.margin
        return Rect(left, bottom, self.size[0] - left - right, self.size[1] - bottom - top)

    @property
    def open_area(self) -> Rect:
        """What an unframed sheet may draw on: inside the unprintable edges and above the packet's foot line."""
        edge = self.unprintable
        return Rect(edge, edge + self.foot, self.size[0] - 2 * edge, self.size[1] - 2 * edge - self.foot)

    def turned(self) -> Layout:
        """Return the same paper lying the other way; the margin for filing goes along with the paper's edge.

        A page that is turned a quarter to lie in the binder has its top where the other pages have their left.
        """
        left, bottom, right, top = self.margin
        return replace(self, size=(self.size[1], self.size[0]), margin=(bottom, right, top, left))

    def for_size(self, size: tuple[float, float]) -> Layout:
        """Return the layout of a sheet of `size`: this one, this one turned, or this one with another size."""
        if size == self.size:
            return self
        if size == (self.size[1], self.size[0]):
            return self.turned()
        return replace(self, size=size)
