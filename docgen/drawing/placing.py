"""Records moved, turned and measured."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from docgen.drawing.boxes import Box, cosine
from docgen.drawing.records import Arc, Area, Line, Link, Path, Picture, Point, Record, Text

Bounds = tuple[float, float, float, float]


class PaperFault(ValueError):
    """Something that no page of the layout has room for, at no scale of it: the message says what."""


def shift(p: Point, dx: float, dy: float) -> Point:
    """Return the point moved."""
    return (p[0] + dx, p[1] + dy)


def moved(record: Record, dx: float, dy: float) -> Record:
    """Return the record moved by (`dx`, `dy`) mm."""
    match record:
        case Line():
            (ax, ay), (bx, by) = record.a, record.b
            return Line((ax + dx, ay + dy), (bx + dx, by + dy), record.pen)
        case Path():
            return Path(tuple((x + dx, y + dy) for x, y in record.points), record.pen, record.closed)
        case Arc():
            return Arc(shift(record.centre, dx, dy), record.radius, record.start, record.end, record.pen)
        case Area():
            return replace(record, rings=tuple(tuple(shift(p, dx, dy) for p in ring) for ring in record.rings))
        case Text():
            at = shift(record.at, dx, dy)
            return Text(at, record.text, record.height, record.anchor, record.bold, record.angle)
        case Picture() | Link():
            x, y, w, h = record.box
            return replace(record, box=(x + dx, y + dy, w, h))


def turned(record: Record, about: Point, degrees: float) -> Record:
    """Return the record turned counter-clockwise; pictures and links only move with their lower left corner."""
    frame = Box(about[0], about[1], 0.0, 0.0, degrees)

    def turn(p: Point) -> Point:
        return frame.point(p[0] - about[0], p[1] - about[1])

    match record:
        case Line():
            return replace(record, a=turn(record.a), b=turn(record.b))
        case Path():
            return replace(record, points=tuple(turn(p) for p in record.points))
        case Arc():
            return replace(record, centre=turn(record.centre), start=record.start + degrees, end=record.end + degrees)
        case Area():
            return replace(record, rings=tuple(tuple(turn(p) for p in ring) for ring in record.rings))
        case Text():
            return replace(record, at=turn(record.at), angle=record.angle + degrees)
        case Picture() | Link():
            x, y = turn(record.box[:2])
            return replace(record, box=(x, y, record.box[2], record.box[3]))


def arc_bounds(arc: Arc) -> Bounds:
    """Return (x low, y low, x high, y high) of an arc: its ends and the quarter points that it passes."""
    span = arc.end - arc.start
    span = span if span > 0 else span + 360
    quarters = [q * 90.0 for q in range(-8, 17) if arc.start <= q * 90 <= arc.start + span]
    at = [arc.start, arc.start + span, *quarters]
    xs = [arc.centre[0] + arc.radius * cosine(a) for a in at]
    ys = [arc.centre[1] + arc.radius * cosine(a - 90) for a in at]
    return (min(xs), min(ys), max(xs), max(ys))


def around(bounds: Iterable[Bounds]) -> Bounds:
    """Return the rectangle around rectangles; ValueError when there are none."""
    every = list(bounds)
    if not every:
        raise ValueError("nothing to measure")
    lefts, lows, rights, highs = zip(*every, strict=True)
    return (min(lefts), min(lows), max(rights), max(highs))


def point_bounds(points: Iterable[Point]) -> Bounds:
    """Return the upright rectangle around points."""
    every = list(points)
    if not every:
        raise ValueError("nothing to measure")
    xs, ys = [p[0] for p in every], [p[1] for p in every]
    return (min(xs), min(ys), max(xs), max(ys))
