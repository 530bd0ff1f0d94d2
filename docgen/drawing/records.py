"""What a sheet is made of: frozen records in paper millimetres, origin lower left, y up.

One record per meaning; the pen is part of the record. Nothing here knows of PDF or points.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]


class Pen(Enum):
    """Line types by meaning; widths and dash patterns come from the layout's data (ISO 128-2)."""

    VISIBLE = "visible"  # wide continuous: edges and outlines
    THIN = "thin"  # narrow continuous: dimension, extension, leader lines, tables
    HIDDEN = "hidden"  # narrow dashed
    CENTRE = "centre"  # narrow long-dash dot
    PHANTOM = "phantom"  # narrow long-dash double-dot: later cuts, neighbours, end positions
    CUTTING = "cutting"  # wide long-dash dot: cutting plane
    HATCH = "hatch"  # narrow continuous, thinner ink for areas
    BREAK = "break"  # narrow zigzag
    FRAME = "frame"  # wide continuous: sheet frame, title block
    DATUM = "datum"  # extra wide: datum edge on templates and sticks
    TRIM = "trim"  # narrow dashed, lighter: where a tile is cut


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from `a` to `b`."""

    a: Point
    b: Point
    pen: Pen = Pen.VISIBLE


@dataclass(frozen=True, slots=True)
class Path:
    """Straight pieces through `points`, closed or not."""

    points: tuple[Point, ...]
    pen: Pen = Pen.VISIBLE
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc, counter-clockwise from `start` to `end` in degrees; 0 to 360 is a circle."""

    centre: Point
    radius: float
    start: float
    end: float
    pen: Pen = Pen.VISIBLE


@dataclass(frozen=True, slots=True)
class Area:
    """A filled polygon (with holes): `tone` 0 black to 1 white; no outline."""

    rings: tuple[tuple[Point, ...], ...]
    tone: float = 0.0


@dataclass(frozen=True, slots=True)
class Text:
    """One run of upright lettering.

    `height` is the height of its figures in mm; capitals stand a little higher. `at` is on the baseline; `anchor` is left, middle or right.
    `angle` turns counter-clockwise about `at`. A digit run joined by U+2044 to another is set as a
    stacked fraction by `drawing.lettering`, which turns it into plain runs before the page is written.
    """

    at: Point
    text: str
    height: float = 2.5
    anchor: str = "left"
    bold: bool = False
    angle: float = 0.0
    sheets: tuple[str, ...] = ()  # keys of sheets: their numbers follow the text, once they are known


@dataclass(frozen=True, slots=True)
class Picture:
    """An SVG picture from shared/, fitted into the box (x, y, width, height) and kept in proportion."""

    name: str
    box: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Link:
    """An area (x, y, width, height) that leads to the sheet with key `target`."""

    box: tuple[float, float, float, float]
    target: str


Record: TypeAlias = Line | Path | Arc | Area | Text | Picture | Link


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page, complete but for its frame, title block and page number.

    `size` is the paper in mm. `framed` is False for true-size pages that bring their own margins.
    `scale` is what the title block says ("1 : 5", "full size", "none").
    """

    key: str  # stable: "cover", "part/leg", "stick/left side/2"
    kind: str  # the sheet word of the layout: cover, views, part, template, ...
    title: str
    size: tuple[float, float]
    records: tuple[Record, ...]
    scale: str = ""
    framed: bool = True
    outline: tuple[str, ...] = ()  # path of bookmarks above this page, if any
