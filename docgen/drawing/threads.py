"""Threads of tapped holes: a second line outside the drilled hole, so that they are told from plain holes in every view.

Conventional representation of ISO 6410-1: three quarters of a narrow circle at the major diameter where the hole is looked
into; where it is cut along its axis, narrow lines at the major diameter and a wide one across where the full thread ends,
the hatching up to the hole; where it lies behind wood, the same in narrow dashes. The two lines of a thread stand no
nearer on paper than 0.7 mm. Inch drawings show threads so too: dashes all round (ASME Y14.6, from memory) look like a
plain hole that is hidden, on the small circles that tapped holes are on paper.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from docgen.drawing.records import Arc, Line, Pen, Point, Record
from docgen.geometry.lines import View
from docgen.geometry.make import dot
from docgen.geometry.shapes import Vec
from docgen.piece.records import HoleRow, Purpose
from docgen.trade.names import UnknownName
from docgen.trade.threads import find

APART = 0.7  # mm on paper between the lines of hole and thread (ISO 6410-1)
OPEN = (100.0, 370.0)  # degrees of the arc: its open quarter lies at the upper right, its ends beside the centre lines
ALONG, SQUARE = 0.999, 0.001  # of a unit vector: the hole is looked into, it is seen from beside


def major_radius(row: HoleRow) -> float:
    """Return half the major diameter of a tapped hole's thread, mm; 0 where it has none, or one that no table holds."""
    if row.purpose is not Purpose.TAPPED or not row.thread:
        return 0.0
    try:
        return float(find(row.thread).major) / 2
    except UnknownName:
        return 0.0


def full(row: HoleRow, thick: float) -> tuple[float, bool]:
    """Return how deep a hole is threaded, mm, and whether the thread ends in the wood; `thick` is that of a through hole."""
    hole = float(row.depth) if row.depth is not None else float(row.reach) if row.reach is not None else thick
    deep = hole if row.thread_depth is None else min(float(row.thread_depth), hole)
    return deep, row.depth is not None or deep < hole


def of_holes(rows: Iterable[HoleRow], size: Sequence[float], view: View, scale: float) -> list[Record]:
    """Return the threads of a part's holes in a view about the paper origin; `size` is that of the part along its axes, mm."""
    out: dict[Record, None] = {}  # holes one behind the other have one thread
    for row in rows:
        radius = major_radius(row)
        if not radius:
            continue
        deep, ends = full(row, sum(abs(row.direction[i]) * size[i] for i in range(3)))
        away = dot(row.direction, view.toward)  # 1: bored from behind
        for p in row.points:
            mouth: Vec = (float(p[0]), float(p[1]), float(p[2]))
            if abs(away) > ALONG:
                pen = Pen.THIN if away < 0 or row.depth is None else Pen.HIDDEN
                out[looked_into(view.flat(mouth), row, radius, scale, pen)] = None
            elif abs(away) < SQUARE:
                ahead = view.flat(row.direction)
                pens = (Pen.HIDDEN, Pen.HIDDEN)
                out |= dict.fromkeys(beside(view.flat(mouth), ahead, (row, radius), (deep, ends), scale, pens))
    return list(out)


def looked_into(middle: Point, row: HoleRow, radius: float, scale: float, pen: Pen = Pen.THIN) -> Arc:
    """Return the thread of a hole about `middle`, view mm, with the major `radius`, on paper."""
    return Arc((middle[0] * scale, middle[1] * scale), _drawn(row, radius, scale), *OPEN, pen)


def beside(
    mouth: Point,
    ahead: Point,
    thread: tuple[HoleRow, float],
    run: tuple[float, bool],
    scale: float,
    pens: tuple[Pen, Pen] = (Pen.THIN, Pen.VISIBLE),
) -> list[Line]:
    """Return the thread of a hole seen from beside, on paper: both lines, and the one across where it ends in the wood.

    `mouth` is in view mm and `ahead` points into the wood; `thread` is its row with the major radius, `run` how deep it
    goes and whether it ends there; `pens` are those of the lines and of the one across.
    """
    off = _drawn(*thread, scale)
    (x, y), (u, v) = (mouth[0] * scale, mouth[1] * scale), ahead
    near, far = ([(x + u * t - v * s, y + v * t + u * s) for s in (off, -off)] for t in (0.0, run[0] * scale))
    out = [Line(a, b, pens[0]) for a, b in zip(near, far, strict=True)]
    return [*out, Line(far[0], far[1], pens[1])] if run[1] else out


def _drawn(row: HoleRow, radius: float, scale: float) -> float:
    """Return the radius of a thread as it is drawn, paper mm: the true one where its lines stand far enough apart."""
    return max(radius * scale, float(row.diameter) / 2 * scale + APART)
