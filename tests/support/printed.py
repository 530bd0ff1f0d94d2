"""The figures of the part sheets as a reader finds them: arrows and digits read out of the finished PDF.

The program tells where each dimension was put; what stands there is read by pdfplumber, which shares no code with it.
"""

from __future__ import annotations

import io
import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, TypeAlias
from unittest.mock import patch

import pdfplumber

from docgen.drawing import lettering
from docgen.drawing.dimensions.wanted import Placed, Wanted
from docgen.drawing.records import Arc, Line, Point, Text
from docgen.drawing.records import Path as Stroke
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules
from docgen.sheets import parts
from docgen.sheets.context import Context
from docgen.sheets.order import sheets
from docgen.sheets.part_pages import Page as PartPage
from docgen.sheets.parts import Entry

MM = 72 / 25.4
EXAMPLES = Path(__file__).parents[2] / "examples"
METRICS = PacketMetrics()
NEAR = 0.05  # mm: where an arrow was put, one must point
Tips: TypeAlias = dict[tuple[int, int], list[Point]]
FIGURE = 0.637  # height of the packet's figures over the size of its font


@dataclass(frozen=True)
class Figure:
    """One printed dimension: what was wanted, what is read beside it, where its arrows point on paper (mm).

    `broken` is True when a zigzag stands in its line between the arrows; `factor` is the scale of its view or detail.
    """

    entry: Entry
    wanted: Wanted
    how: str
    text: str
    arrows: tuple[Point, Point] | None
    broken: bool = False
    factor: float = 1.0


@cache
def context(name: str, paper: str) -> Context:
    """Return an example, ready for its sheets."""
    path = EXAMPLES / f"{name}.yaml"
    words = vocabulary()
    piece = build(read_project(str(path), path.read_text(encoding="utf-8"), words, {}), words)
    solids = Solids(piece)
    found = kinds(piece, solids)
    return Context(piece, solids, found, schedules(piece, solids, found), (), read_layout(paper), METRICS, "")


@cache
def packed(name: str, paper: str) -> tuple[PartPage[Entry], ...]:
    """Return the drawings of an example's part sheets on their pages, for whoever changes nothing about how they are made."""
    return tuple(parts.packed(context(name, paper)))


@cache
def figures(name: str, paper: str) -> tuple[Figure, ...]:
    """Return every dimension of the part sheets of an example, read from their PDF."""
    c, pages = context(name, paper), packed(name, paper)
    with patch.object(parts, "packed", lambda *_: [*pages]):  # what was placed is what is printed, and is placed once
        data = write(sheets(c, ["parts"]), layout=c.layout, piece=c.piece, fingerprint="0" * 10)
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return tuple(figures_on(c, pages, pdf.pages))


def figures_on(c: Context, packed: Sequence[PartPage[Entry]], pages: Sequence[Any]) -> Iterator[Figure]:
    """Yield every dimension of these blocks, read from the printed pages of part sheets on which they stand."""
    for page, sheet in zip(pages, packed, strict=False):
        for block in sheet.blocks:
            at = (c.layout.area.x + block.free.x, c.layout.area.top - block.free.y)
            yield from _of_block(block.block, at, page)


def _of_block(entry: Entry, at: Point, page: Any) -> Iterator[Figure]:
    sheet = entry.placed.spread
    dx, dy = _offset(sheet.records, entry.placed.records)
    tips, chars, bent = _tips(page), page.chars, _bent(page)
    setting = entry.placed.setting
    large = setting.large[0] / setting.large[1] if setting.large else setting.factor
    every = [(arranged, place, setting.factor) for arranged, place in zip(sheet.arranged, sheet.places, strict=True)]
    for arranged, place, factor in [*every, *((arranged, place, large) for arranged, place in sheet.large)]:
        by = (at[0] + dx + place[0], at[1] + dy + place[1])
        for p in arranged.placed:
            ends = None
            if p.arrows is not None:
                ends = (_found(p.arrows[0], by, tips), _found(p.arrows[1], by, tips))
            broken = ends is not None and any(_zigzag(line, ends) for line in bent)
            yield Figure(entry, p.wanted, p.how, " ".join(_read(p, by, chars)), ends, broken, factor)


def _offset(before: tuple[Any, ...], after: tuple[Any, ...]) -> Point:
    """Return by how much the views were moved into their block: the first stroke of both tells."""
    a = next(_anchor(r) for r in before if not isinstance(r, Text))
    b = next(_anchor(r) for r in after if not isinstance(r, Text))
    return (b[0] - a[0], b[1] - a[1])


def _anchor(record: Any) -> Point:
    if isinstance(record, Line):
        return record.a
    return record.points[0] if isinstance(record, Stroke) else record.centre if isinstance(record, Arc) else (0.0, 0.0)


def _tips(page: Any) -> Tips:
    """Return the corners of everything that is filled and the middles of round things, by squares of 1 mm."""
    out: list[Point] = []
    for shape in (*page.curves, *page.rects):
        if shape.get("fill"):
            pts = shape.get("pts") or [(shape["x0"], shape["top"]), (shape["x1"], shape["bottom"])]
            out += [(x / MM, (float(page.height) - y) / MM) for x, y in pts]
        box = (shape["x0"], float(page.height) - shape["bottom"], shape["x1"], float(page.height) - shape["top"])
        out.append(((box[0] + box[2]) / 2 / MM, (box[1] + box[3]) / 2 / MM))
    tips: Tips = {}
    for p in out:
        tips.setdefault((math.floor(p[0]), math.floor(p[1])), []).append(p)
    return tips


def _bent(page: Any) -> list[list[Point]]:
    """Return the lines of a page that have bends, point by point."""
    shapes = [s["pts"] for s in page.curves if not s.get("fill") and len(s["pts"]) >= 6]
    return [[(x / MM, (float(page.height) - y) / MM) for x, y in points] for points in shapes]


def _zigzag(line: list[Point], ends: tuple[Point, Point]) -> bool:
    """Return True when a line passes both ends and leaves the straight way to both sides between them."""
    (x0, y0), (x1, y1) = line[0], line[-1]
    long = math.hypot(x1 - x0, y1 - y0)
    if long < NEAR:
        return False

    def seen(p: Point) -> Point:
        dx, dy = p[0] - x0, p[1] - y0
        return (dx * (x1 - x0) + dy * (y1 - y0)) / long, (dy * (x1 - x0) - dx * (y1 - y0)) / long

    (a, off), (b, away) = sorted(map(seen, ends))
    if max(abs(off), abs(away)) > NEAR or a < -NEAR or b > long + NEAR:
        return False
    turns = [v for u, v in map(seen, line) if a < u < b]
    return bool(turns) and max(turns) > 0.3 and min(turns) < -0.3


def _found(want: Point, by: Point, tips: Tips) -> Point:
    """Return the corner on the page that lies where an arrow was put."""
    p = (want[0] + by[0], want[1] + by[1])
    near = [t for k in _cells(p) for t in tips.get(k, ()) if math.dist(t, p) < NEAR]
    assert near, f"no arrow points at {p}"
    return min(near, key=lambda t: math.dist(t, p))


def _cells(p: Point) -> Iterator[tuple[int, int]]:
    """Yield the squares of 1 mm about a point."""
    for i in (-1, 0, 1):
        for j in (-1, 0, 1):
            yield math.floor(p[0]) + i, math.floor(p[1]) + j


def _read(placed: Placed, by: Point, chars: list[dict[str, Any]]) -> Iterator[str]:
    """Yield what is read where each line of a dimension's lettering was put."""
    for r in placed.records:
        if isinstance(r, Text):
            moved = Text((r.at[0] + by[0], r.at[1] + by[1]), r.text, r.height, r.anchor, r.bold, r.angle)
            yield _line(moved, chars)


def _line(text: Text, chars: list[dict[str, Any]]) -> str:
    """Return the characters in a text's box in reading order, the small ones as fractions: ``11 7/8``."""
    frame = lettering.box(text, METRICS).grown(0.4)
    found = []
    for c in chars:
        a, b, _, _, e, f = c["matrix"]
        size = c["size"] if abs(b) < abs(a) else c["x1"] - c["x0"]
        u, v = frame.inside((e / MM, f / MM))
        if (
            abs(u) <= frame.half_w
            and abs(v) <= frame.half_h
            and abs(math.degrees(math.atan2(b, a)) % 360 - text.angle % 360) < 1
        ):
            found.append((u, v, size, c["text"]))
    if not found:
        return ""
    big = text.height * MM / FIGURE
    small = [v for _, v, size, _ in found if size <= 0.85 * big]
    out, above, below = "", "", ""
    for _, v, size, char in sorted(found):
        if size > 0.85 * big:
            out += _fraction(above, below) + char
            above = below = ""
        elif v > sum(small) / len(small):
            above += char
        else:
            below += char
    return out + _fraction(above, below)


def _fraction(above: str, below: str) -> str:
    return f" {above}/{below} " if above and below else above + below


NUMBER = re.compile(r"\d+\.\d+|\d+\s+\d+/\d+|\d+/\d+|\d+")


def number(text: str) -> float:
    """Return the figure of a dimension as it is read: the exact one where a rounded one stands behind it."""
    told = re.sub(r"\([a-z]\d*\)", " ", text)
    told = re.sub(r"^\s*\d+\s*×", " ", told)
    found = NUMBER.findall(told)
    assert found, text
    return value(found[0])


def value(text: str) -> float:
    """Return the number that digits say."""
    total = 0.0
    for word in text.split():
        top, _, bottom = word.partition("/")
        total += float(top) / float(bottom) if bottom else float(top)
    return total
