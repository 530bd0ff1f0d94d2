"""A ring on a view and what of a drawing lies inside it: the edge of an enlarged detail."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator
from dataclasses import replace

from docgen.drawing.records import Arc, Line, Path, Pen, Point, Record

LEAST = 1e-6  # mm: a shorter piece of a line is none


def ring(centre: Point, radius: float) -> Arc:
    """Return the ring itself, a thin continuous circle."""
    return Arc(centre, radius, 0.0, 360.0, Pen.THIN)


def within(records: Iterable[Record], centre: Point, radius: float) -> list[Record]:
    """Return what of lines, paths and arcs lies inside a circle; other records are left out. Paper mm."""
    out: list[Record] = []
    for r in records:
        if isinstance(r, Line):
            ends = _inside(r.a, r.b, centre, radius)
            out += [replace(r, a=ends[0], b=ends[1])] if ends is not None else []
        elif isinstance(r, Path):
            out += _runs(r, centre, radius)
        elif isinstance(r, Arc):
            out += _arcs(r, centre, radius)
    return out


def _inside(a: Point, b: Point, centre: Point, radius: float) -> tuple[Point, Point] | None:
    """Return the stretch of a straight line inside a circle, None where it has no length there."""
    dx, dy, px, py = b[0] - a[0], b[1] - a[1], a[0] - centre[0], a[1] - centre[1]
    square = dx * dx + dy * dy
    if square < LEAST * LEAST:
        return None
    half, over = (dx * px + dy * py) / square, (px * px + py * py - radius * radius) / square
    root = half * half - over
    if root <= 0:
        return None
    low, high = max(0.0, -half - math.sqrt(root)), min(1.0, -half + math.sqrt(root))
    if (high - low) * math.sqrt(square) < LEAST:
        return None
    ends = [b if t == 1.0 else a if t == 0.0 else (a[0] + t * dx, a[1] + t * dy) for t in (low, high)]
    return ends[0], ends[1]


def _runs(path: Path, centre: Point, radius: float) -> Iterator[Path]:
    """Yield the runs of a path inside a circle; one that lies wholly inside stays as it is."""
    if all(math.dist(p, centre) <= radius for p in path.points):
        yield path
        return
    run: list[Point] = []
    for a, b in itertools.pairwise([*path.points, *(path.points[:1] if path.closed else ())]):
        ends = _inside(a, b, centre, radius)
        if ends is None:
            continue
        if run and math.dist(run[-1], ends[0]) > LEAST:
            yield Path(tuple(run), path.pen)
            run = []
        run = [*run, ends[1]] if run else [*ends]
    if run:
        yield Path(tuple(run), path.pen)


def _arcs(arc: Arc, centre: Point, radius: float) -> Iterator[Arc]:
    """Yield the pieces of an arc inside a circle."""
    away = math.dist(arc.centre, centre)
    if away + arc.radius <= radius:
        yield arc
    elif away < radius + arc.radius and arc.radius < radius + away:
        cosine = (away * away + arc.radius * arc.radius - radius * radius) / (2 * away * arc.radius)
        toward = math.degrees(math.atan2(centre[1] - arc.centre[1], centre[0] - arc.centre[0]))
        half = math.degrees(math.acos(max(-1.0, min(1.0, cosine))))
        for turn in range(-2, 3):
            low, high = max(arc.start, toward - half + 360 * turn), min(arc.end, toward + half + 360 * turn)
            if high - low > LEAST:
                yield replace(arc, start=low, end=high)
