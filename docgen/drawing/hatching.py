"""Hatching of cut wood, so that end grain, long grain and sheet stock are told apart in black and white."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from enum import Enum
from itertools import cycle, pairwise

from docgen.drawing.boxes import Box
from docgen.drawing.records import Line, Path, Pen, Point, Record

LEAST = 0.3  # mm: a shorter line is a speck
PITCH = 2.2  # mm between the lines of end grain
FIBRES = (1.5, 0.8, 2.1, 1.2, 0.7, 1.8)  # mm between lines along the fibres: uneven, as they lie in wood
COARSE = 2.0  # times as far apart in what is set into a joint: its fibres may lie as those about it do
STEEL = 0.9  # mm between the lines of metal: closer than any wood's
STROKES = (
    11.0,
    2.4,
    6.8,
    14.0,
    3.6,
    5.2,
)  # mm: how long the lines of long grain are between breaks: unequal, as fibres are
BREAK = 1.2  # mm between them
SHORTEST = 0.6  # mm: what a stroke comes to at an edge, and is shorter, is left out
AHEAD = 0.37  # of the round of strokes, for each mm across: lines side by side do not break in one place
PLIES = (0.6, 2.2)  # mm between the lines of sheet stock: in pairs, which no fibres make
CROSSED = (
    3.2  # mm between the lines of sheet stock that is cut along its layers: no line can be square to its plane there
)
AIR = 0.5  # mm around text, where the hatching is interrupted (ISO 128-50)


class Cut(Enum):
    """What a cut face shows."""

    END = "end grain"
    LONG = "long grain"
    SHEET = "sheet stock"
    LAYER = "sheet stock along its layers"
    METAL = "metal"


def pitches(cut: Cut) -> tuple[float, ...]:
    """Return the distances between the lines, over and over, mm."""
    return {Cut.END: (PITCH,), Cut.LONG: FIBRES, Cut.SHEET: PLIES, Cut.LAYER: (CROSSED,), Cut.METAL: (STEEL,)}[cut]


def set_in(cut: Cut) -> tuple[float, ...]:
    """Return the distances between the lines in what is set into a joint, mm."""
    return tuple(COARSE * p for p in pitches(cut)) if cut is Cut.LONG else pitches(cut)


def hatched(rings: Sequence[Sequence[Point]], degrees: float, cut: Cut, *, sits: bool = False) -> list[Line]:
    """Return the whole lines that hatch what a cut shows within rings; it `sits` where it is set into a joint."""
    steps = set_in(cut) if sits else pitches(cut)
    ways = (degrees, degrees + 90.0) if cut is Cut.LAYER else (degrees,)
    return [line for way in ways for line in lines(rings, way, steps)]


def lines(rings: Sequence[Sequence[Point]], degrees: float, steps: Sequence[float]) -> list[Line]:
    """Return the lines within closed rings (even-odd, so holes stay free), `steps` apart over and over.

    They lie on one lattice through the origin, so that areas side by side hatch alike.
    """
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    turned = [[(x * c + y * s, y * c - x * s) for x, y in ring] for ring in rings]
    sides = [
        (a, b) if a[1] <= b[1] else (b, a) for ring in turned for a, b in pairwise([*ring, ring[0]]) if a[1] != b[1]
    ]
    if not sides:
        return []
    low, high = min(a[1] for a, _ in sides), max(b[1] for _, b in sides)
    out: list[Line] = []
    for level in _levels(low, high, steps):
        met = sorted(a[0] + (level - a[1]) * (b[0] - a[0]) / (b[1] - a[1]) for a, b in sides if a[1] <= level < b[1])
        for u, v in zip(met[::2], met[1::2], strict=False):
            if v - u > LEAST:
                out.append(
                    Line((u * c - level * s, u * s + level * c), (v * c - level * s, v * s + level * c), Pen.HATCH)
                )
    return out


def inked(hatch: Iterable[Line], cut: Cut) -> list[Line]:
    """Return hatching as it is drawn: long grain in strokes of unequal length, as its fibres lie, all else in whole lines.

    So it is told from lines of sheet stock by the lines themselves, whichever way both stand and however little is seen.
    """
    return [stroke for line in hatch for stroke in _strokes(line)] if cut is Cut.LONG else list(hatch)


def _strokes(line: Line) -> Iterable[Line]:
    """Yield a line's strokes: they lie where they lie on the endless line, so that pieces of one line go on alike."""
    long = math.dist(line.a, line.b)
    ux, uy = (line.b[0] - line.a[0]) / long, (line.b[1] - line.a[1]) / long
    if (round(ux, 6), round(uy, 6)) < (0.0, 0.0):
        ux, uy = -ux, -uy
    level = round(line.a[1] * ux - line.a[0] * uy, 3)
    start, end = sorted(p[0] * ux + p[1] * uy for p in (line.a, line.b))
    period = sum(STROKES) + len(STROKES) * BREAK
    at = math.floor(start / period - 1.0) * period + (level * AHEAD % 1.0) * period
    for stroke in cycle(STROKES):
        if at >= end:
            return
        low, high = max(at, start), min(at + stroke, end)
        if high - low >= min(SHORTEST, long):
            yield Line(
                (low * ux - level * uy, low * uy + level * ux),
                (high * ux - level * uy, high * uy + level * ux),
                line.pen,
            )
        at += stroke + BREAK


def _levels(low: float, high: float, steps: Sequence[float]) -> Iterable[float]:
    """Yield the levels between two, counted from the lattice's origin."""
    period = sum(steps)
    level = math.floor(low / period) * period + 0.37 * steps[0]
    for step in cycle(steps):
        if level >= high:
            return
        if level > low:
            yield level
        level += step


def hidden(records: Iterable[Record], boxes: Sequence[Box]) -> list[Record]:
    """Return drawn lines without what lies behind boxes; a path of which something goes comes back in straight pieces."""
    out: list[Record] = []
    for record in records:
        if not isinstance(record, Path):
            out.append(record)
            continue
        ring = [*record.points, record.points[0]] if record.closed else list(record.points)
        whole = [Line(a, b, record.pen) for a, b in pairwise(ring) if a != b]
        left = whole
        for box in boxes:
            left = [piece for line in left for piece in _outside(line, box)]
        out += [record] if left == whole else left
    return out


def interrupted(hatch: Iterable[Line], boxes: Sequence[Box]) -> list[Line]:
    """Return the lines without what lies in the boxes of text, with a little air about them."""
    left = list(hatch)
    for box in (b.grown(AIR) for b in boxes):
        x0, y0, x1, y1 = box.bounds()
        kept: list[Line] = []
        for line in left:
            (ax, ay), (bx, by) = line.a, line.b
            if (ax < x0 and bx < x0) or (ax > x1 and bx > x1) or (ay < y0 and by < y0) or (ay > y1 and by > y1):
                kept.append(line)
            else:
                kept += _outside(line, box)
        left = kept
    return left


def _outside(line: Line, box: Box) -> list[Line]:
    """Return what of a line lies outside a box (Liang and Barsky's clipping, the other way round)."""
    a, b = box.inside(line.a), box.inside(line.b)
    t0, t1 = 0.0, 1.0
    for p, d, half in ((a[0], b[0] - a[0], box.half_w), (a[1], b[1] - a[1], box.half_h)):
        if abs(d) < 1e-12:
            if abs(p) >= half:
                return [line]
            continue
        u, v = sorted(((-half - p) / d, (half - p) / d))
        t0, t1 = max(t0, u), min(t1, v)
    if t0 >= t1:
        return [line]
    long = math.dist(line.a, line.b)
    ends = ((0.0, t0), (t1, 1.0))
    return [Line(_at(line, u), _at(line, v), line.pen) for u, v in ends if (v - u) * long > LEAST]


def _at(line: Line, t: float) -> Point:
    return (line.a[0] + t * (line.b[0] - line.a[0]), line.a[1] + t * (line.b[1] - line.a[1]))
