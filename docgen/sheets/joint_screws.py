"""The screws and bolts of a section: which lie in it, what their holes are, how thick they are drawn. View mm, no paper yet."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from docgen.drawing.dimensions.wanted import Linear
from docgen.drawing.records import Point
from docgen.drawing.wording import Notes, hole_lines
from docgen.geometry.outlines import Box2
from docgen.geometry.shapes import Vec
from docgen.piece.model import Fastener, Part
from docgen.piece.records import HoleRow, Purpose
from docgen.schedules.planes import FLAT, ON, Bore, Held, Plane, tip
from docgen.trade.drills import find as find_drill
from docgen.trade.drills import told as drill_told
from docgen.trade.fasteners import wood_screw
from docgen.trade.names import UnknownName
from docgen.trade.threads import find as find_thread
from docgen.units import Number, Units, format_length

TIP = 3.0  # mm about the point of a screw


def in_sight(fastener: Fastener, plane: Plane, window: Box2) -> Iterator[tuple[Fastener, Vec]]:
    """Yield a fastener of another joint for each of its places from which it lies in the plane, in the window."""
    if abs(sum(fastener.direction[i] * plane.normal[i] for i in range(3))) > FLAT:
        return
    for point in fastener.points:
        at = (float(point[0]), float(point[1]), float(point[2]))
        x, y = plane.view.flat(at)
        inside = window[0][0] <= x <= window[1][0] and window[0][1] <= y <= window[1][1]
        off = sum((at[i] - plane.point[i]) * plane.normal[i] for i in range(3))
        if inside and abs(off) < ON and (fastener, at) not in plane.fasteners:
            yield fastener, at


def with_tips(window: Box2, passing: Held, plane: Plane) -> Box2:
    """Return the window with the points of fasteners in it, a little wood about them."""
    (x0, y0), (x1, y1) = window
    for x, y in (plane.view.flat(tip(f, at)) for f, at in passing):
        x0, y0, x1, y1 = min(x0, x - TIP), min(y0, y - TIP), max(x1, x + TIP), max(y1, y + TIP)
    return ((x0, y0), (x1, y1))


def bores(plane: Plane, notes: Notes) -> list[str]:
    """Return the bores of a plane in words, as the drilling chart names them; each row once."""
    rows: dict[tuple[str, str], Bore] = {}
    for bore in plane.bores:
        rows.setdefault((bore.path, bore.row.name), bore)
    return [f"{bore.path}: {', '.join(hole_lines(bore.row, notes))}" for bore in rows.values()]


def lengths(plane: Plane, notes: Notes) -> Iterator[Linear]:
    """Yield grip and engagement along the first fastener of a plane."""
    for name, value, (a, b) in _stretches(plane):
        way = straight(plane.view.flat(plane.fasteners[0][0].direction))
        yield Linear(name, a, b, way, f"{name} {format_length(value, notes.units)}", datum=True, reaches=True)


def held_spans(plane: Plane) -> Iterator[tuple[Point, Point]]:
    """Yield from where to where grip and engagement are told in a plane, view mm."""
    yield from (ends for _, _, ends in _stretches(plane))


def _stretches(plane: Plane) -> Iterator[tuple[str, Number, tuple[Point, Point]]]:
    """Yield name, value and ends of grip and engagement; none in a second section, where they are not told again."""
    for fastener, head in () if plane.second else plane.fasteners[:1]:
        p, d = plane.view.flat(head), plane.view.flat(fastener.direction)
        start = 0.0
        figures: tuple[tuple[str, Number], ...] = (("grip", fastener.grip), ("engaged", fastener.engagement))
        for name, value in figures:
            start += float(fastener.passes) if name == "engaged" else 0.0
            end = start + float(value)
            if value:
                a, b = ((p[0] + d[0] * t, p[1] + d[1] * t) for t in (start, end))
                yield name, value, (a, b)
            start = end


def straight(v: Point) -> Point:
    """Return a direction without the hair by which a turned one is off the paper's axes."""
    x, y = (float(round(c)) if abs(c - round(c)) < 1e-9 else c for c in v)
    return (x, y)


def pilots(held: Held, units: Units) -> list[str]:
    """Return in words the pilot holes that are drilled through a part into the one behind it."""
    told = (
        f"pilot drill {drill_told(f.pilot, units.system)}, {format_length(f.drill_depth or f.engagement, units)} deep, drilled through "
        f"{f.parts[0]} into {f.parts[1]} when both lie together"
        for f, _ in held
        if f.pilot
    )
    return list(dict.fromkeys(told))


def bored_for(fastener: Fastener, parts: Iterable[Part]) -> list[HoleRow]:
    """Return the holes that were made for a fastener in parts."""
    rows = [row for part in parts for feature in part.features for row in feature.made.holes]
    return [row for row in rows if row.fastener == fastener.key]


def shank_radius(fastener: Fastener, rows: Sequence[HoleRow]) -> float:
    """Return half the diameter of a fastener's shank, mm: by its thread or gauge, else by the bore that it passes."""
    try:
        return float(find_thread(fastener.thread).major) / 2
    except UnknownName:
        gauge = re.fullmatch(r"No\. (\d+)", fastener.thread)
    if gauge:
        return float(wood_screw(int(gauge[1])).shank) / 2
    return 0.45 * min((float(row.diameter) for row in rows), default=4.0)


def root_radius(fastener: Fastener, rows: Sequence[HoleRow]) -> float:
    """Return half the diameter of the pilot hole in which a wood screw cuts its thread, mm; 0 where none is drilled."""
    piloted = [float(row.diameter) for row in rows if row.purpose is Purpose.PILOT]
    drilled = float(find_drill(fastener.pilot).diameter) if fastener.pilot else 0.0
    return min(piloted, default=drilled) / 2
