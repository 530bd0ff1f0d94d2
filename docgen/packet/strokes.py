"""Records as operators of a PDF page: paths, areas, text. Nothing is tied to a page or to a library here."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import TypeAlias

from docgen.drawing.records import Arc, Area, Line, Path, Pen, Point
from docgen.layout.model import PenStyle
from docgen.packet.dashes import Dash, fitted
from docgen.packet.fonts import POINTS_PER_MM

Stroke: TypeAlias = Line | Path | Arc

WIDE = 0.35  # mm; continuous lines from here on get round ends, so that corners drawn as two lines close
FITTED = (Pen.HIDDEN, Pen.CENTRE, Pen.PHANTOM)  # pens whose lines tell by their pattern what they are
AT_ONCE = 250  # subpaths that are stroked together; viewers slow down with very long paths


@lru_cache(maxsize=1 << 16)
def number(value: float) -> str:
    """Return a coordinate in points: ten-thousandths are 0.035 µm on paper. Many come more than once."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def xy(point: Point) -> str:
    """Return a point given in mm as two numbers in points."""
    return f"{number(point[0] * POINTS_PER_MM)} {number(point[1] * POINTS_PER_MM)}"


def chain(points: Iterable[Point], *, closed: bool) -> str:
    """Return the path operators of straight pieces."""
    text = "".join([f"{xy(point)} l " for point in points]).replace("l", "m", 1)
    return text + ("h " if closed else "")


def arc(a: Arc) -> str:
    """Return the path operators of a circular arc, in cubic pieces of at most 45 degrees (error < 1e-5 radius)."""
    span = a.end - a.start
    if span <= 0:
        span += 360
    count = max(1, math.ceil(span / 45 - 1e-9))
    step = math.radians(span / count)
    reach = a.radius * 4 / 3 * math.tan(step / 4)
    angle = math.radians(a.start)
    (cx, cy), r = a.centre, a.radius
    x, y = cx + r * math.cos(angle), cy + r * math.sin(angle)
    text = f"{xy((x, y))} m "
    for _ in range(count):
        first = (x - reach * math.sin(angle), y + reach * math.cos(angle))
        angle += step
        x, y = cx + r * math.cos(angle), cy + r * math.sin(angle)
        second = (x + reach * math.sin(angle), y - reach * math.cos(angle))
        text += f"{xy(first)} {xy(second)} {xy((x, y))} c "
    return text + ("h " if span >= 360 else "")


def outline(record: Stroke) -> str:
    """Return the path operators of a stroked record."""
    if isinstance(record, Line):
        return f"{xy(record.a)} m {xy(record.b)} l "
    if isinstance(record, Path):
        return chain(record.points, closed=record.closed)
    return arc(record)


@lru_cache(maxsize=1024)
def set_pen(style: PenStyle, short: Dash | None = None) -> str:
    """Return the operators that choose width, ink, dash and the shape of ends and corners; `short` rules for a short line."""
    every, begin = (short[:-1], short[-1]) if short else ([d * style.width for d in style.dash], 0.0)
    dash = " ".join(number(d * POINTS_PER_MM) for d in every)
    cap = 1 if style.width >= WIDE and not style.dash else 0
    head = f"{number(style.width * POINTS_PER_MM)} w {number(style.tone)} G {cap} J 1 j"
    return f"{head} [{dash}] {number(begin * POINTS_PER_MM)} d"


def stroked(records: Iterable[Stroke], pens: dict[str, PenStyle]) -> Iterator[str]:
    """Yield operators that stroke `records` in their order; runs of one pen are stroked together."""
    pen: tuple[Pen, Dash | None] | None = None
    batch: list[str] = []
    for record in records:
        if pen is None or record.pen is not pen[0]:
            style = pens[record.pen.value]
            broken = record.pen in FITTED and bool(style.dash)
        own = (record.pen, fitted(record, style) if broken else None)
        if batch and (own != pen or len(batch) >= AT_ONCE):
            yield "".join(batch) + "S"
            batch = []
        if own != pen:
            pen = own
            yield set_pen(style, own[1])
        batch.append(outline(record))
    if batch:
        yield "".join(batch) + "S"


def filled(area: Area) -> str:
    """Return the operators that fill an area; inner rings are holes."""
    return f"{number(area.tone)} g " + "".join(chain(ring, closed=True) for ring in area.rings) + "f*"


def placed_text(show: str, at: Point, degrees: float) -> str:
    """Return the operators that show text (`show`: font and string) with its baseline's start at a place."""
    return f"BT 0 g {_turn(degrees)} {xy(at)} Tm {show} ET"


@lru_cache(maxsize=256)
def _turn(degrees: float) -> str:
    """Return the first four numbers of a text's matrix. Nearly all texts are level or plumb."""
    a = math.radians(degrees)
    return f"{number(math.cos(a))} {number(math.sin(a))} {number(-math.sin(a))} {number(math.cos(a))}"


def moved_back(at: Point, by: float, degrees: float) -> Point:
    """Return the place `by` mm before `at` along a direction."""
    if not by:
        return at
    a = math.radians(degrees)
    return (at[0] - by * math.cos(a), at[1] - by * math.sin(a))
