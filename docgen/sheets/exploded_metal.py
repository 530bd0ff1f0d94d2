"""Screws and bolts of the piece taken apart: one letter for each set of like ones, and the axes along which they go in."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from docgen.drawing import views
from docgen.drawing.records import Line, Pen, Point, Record
from docgen.geometry.lines import VIEWS
from docgen.geometry.make import dot, plus
from docgen.geometry.shapes import Vec, Vec2
from docgen.geometry.sight import Items, in_sight
from docgen.piece.model import Fastener
from docgen.schedules.hardware import sized
from docgen.schedules.terms import kind_numbers
from docgen.sheets.context import Context
from docgen.sheets.flow import stacked

VIEW = VIEWS["axonometric"]
OUT, SHANK, HEAD = (
    9.0,
    4.5,
    2.2,
)  # mm on paper: a screw stands so far out of its hole, is drawn so long, and its head so wide
BEYOND = 7.0  # mm on paper: its axis runs on so far behind the part that it holds where what it goes into went aside
LEVEL = 1.0  # mm: parts that are moved apart along the axis alone, so near, are joined by it
FEW = 6  # of like ones that are all drawn; of more, the first and the last of each row
SHARES = (0.2, 0.5, 0.8)  # of what is seen of an axis, where a leader may point
NEAR = 1.0  # mm on paper: what is seen of an axis and begins so near a place begins there
BIT, CHAIN = 1.5, 8.0  # mm on paper: the least stretch of an axis that is drawn, and that shows as a chain line


@dataclass(frozen=True, slots=True)
class Lot:
    """Like fasteners that hold like parts: the letter of their holes, what is said of them."""

    letter: str
    words: str
    fasteners: tuple[Fastener, ...]


@dataclass(frozen=True, slots=True)
class Axis:
    """Where a fastener stands out of its hole, and how far its axis runs, exploded, piece axes."""

    start: Vec
    mouth: Vec
    end: Vec
    out: Vec | None = None  # where it comes out of what it holds, if what it goes into went aside


def lots(context: Context) -> list[Lot]:
    """Return the fasteners whose places are known: those of one hole letter, and like ones between like parts, together."""
    numbers = kind_numbers(context.piece, context.kinds)
    found: list[list[Fastener]] = []
    for f in (f for f in context.piece.fasteners if f.points and f.parts[0] in numbers):
        like = [lot for lot in found if any(_alike(context, numbers, f, other) for other in lot)]
        found = [lot for lot in found if lot not in like]
        found.append([*(x for lot in like for x in lot), f])
    return [_lot(context, lot) for lot in sorted(found, key=lambda lot: min(f.key for f in lot))]


def _alike(context: Context, numbers: Mapping[str, int], one: Fastener, other: Fastener) -> bool:
    kinds = [tuple(numbers.get(path, 0) for path in f.parts) for f in (one, other)]
    same = (one.what, sized(context.piece, one)) == (other.what, sized(context.piece, other))
    return same and (one.key == other.key or kinds[0] == kinds[1])


def _lot(context: Context, of: Sequence[Fastener]) -> Lot:
    keys = sorted({f.key for f in of})
    count, first = sum(f.count for f in of), of[0]
    holes = f" ({', '.join(keys)})" if len(keys) > 1 else ""
    units = context.piece.units.sign if first.length is not None else ""
    words = f"{count}× {first.what} {sized(context.piece, first)} {units}".rstrip() + holes
    return Lot(keys[0], stacked(words), tuple(of))


def drawn(
    which: Sequence[Lot], moves: Mapping[str, Vec], items: Items, scale: float, at: Point
) -> tuple[list[Record], list[tuple[str, list[Vec2]]]]:
    """Return screws and their axes on paper, as far as they are in sight, and for each letter where a leader may point."""
    axes = [(lot.letter, _axis(f, p, moves, scale)) for lot in which for f, p in _places(lot)]
    seen = in_sight(items, VIEW, [step for _, a in axes for step in ((a.start, a.mouth), (a.mouth, a.end))])
    records: list[Record] = []
    spots: dict[str, list[Vec2]] = {lot.letter: [] for lot in which}
    for n, (letter, axis) in enumerate(axes):
        before, after = seen[2 * n], _telling(seen[2 * n + 1], axis, scale)
        start = VIEW.flat(axis.start)
        if before and math.dist(before[0][0], start) * scale < 0.1 and _long(before[0]) * scale > SHANK:
            records += _screw(before[0], scale, at)
            spots[letter].append(_along(before[0], SHANK / 2 / scale))
        else:
            records += _lines(before, scale, at)
        records += _lines(after, scale, at)
        shown = [s for s in (*before, *after) if _long(s) * scale >= BIT]
        spots[letter] += [_along(s, _long(s) * share) for s in shown for share in SHARES]
    return records, list(spots.items())


def _telling(stretches: Sequence[tuple[Vec2, Vec2]], axis: Axis, scale: float) -> list[tuple[Vec2, Vec2]]:
    """Return what is seen of an axis, but what comes from nowhere: bits beyond what it holds that do not begin there."""
    if axis.out is None:
        return [*stretches]
    off = math.dist(VIEW.flat(axis.mouth), VIEW.flat(axis.out)) + NEAR / scale
    return [s for s in stretches if math.dist(s[0], VIEW.flat(axis.mouth)) <= off]


def _places(lot: Lot) -> list[tuple[Fastener, Vec]]:
    """Return the places that are drawn of a lot."""
    few = sum(len(f.points) for f in lot.fasteners) <= FEW
    out = []
    for f in lot.fasteners:
        points = f.points if few else dict.fromkeys((f.points[0], f.points[-1]))
        out += [(f, (float(x), float(y), float(z))) for x, y, z in points]
    return out


def _axis(of: Fastener, head: Vec, moves: Mapping[str, Vec], scale: float) -> Axis:
    """Return the axis of a fastener that went with the part that it holds."""
    held = moves[of.parts[0]]
    away = tuple(t - h for t, h in zip(moves.get(of.parts[1], held), held, strict=True))
    gap = dot((away[0], away[1], away[2]), of.direction)
    aside = math.sqrt(max(sum(c * c for c in away) - gap * gap, 0.0))
    reach = gap if aside < LEVEL else BEYOND / scale  # what went aside does not stand in its way
    mouth = (head[0] + held[0], head[1] + held[1], head[2] + held[2])
    grip = float(of.grip or of.length or 0)
    end = plus(mouth, of.direction, grip + max(reach, 0.0))
    out = plus(mouth, of.direction, grip) if aside >= LEVEL else None
    return Axis(plus(mouth, of.direction, -OUT / scale), mouth, end, out)


def _screw(stretch: tuple[Vec2, Vec2], scale: float, at: Point) -> list[Record]:
    """Return a screw at the beginning of what is seen of its axis, head first, and the axis from its point on."""
    a, b = (views.on_paper(p, scale, at) for p in stretch)
    long = math.dist(a, b)
    u, v = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    tip = (a[0] + SHANK * u, a[1] + SHANK * v)
    half = HEAD / 2
    head = Line((a[0] - half * v, a[1] + half * u), (a[0] + half * v, a[1] - half * u))
    return [head, Line(a, tip), Line(tip, b, Pen.THIN)]


def _lines(stretches: Sequence[tuple[Vec2, Vec2]], scale: float, at: Point) -> list[Record]:
    ends = [(views.on_paper(a, scale, at), views.on_paper(b, scale, at)) for a, b in stretches]
    return [Line(a, b, Pen.CENTRE if math.dist(a, b) >= CHAIN else Pen.THIN) for a, b in ends if math.dist(a, b) >= BIT]


def _long(stretch: tuple[Vec2, Vec2]) -> float:
    return math.dist(*stretch)


def _along(stretch: tuple[Vec2, Vec2], by: float) -> Vec2:
    """Return the point of a stretch that lies `by` mm from its beginning."""
    (x, y), (u, v) = stretch
    t = by / max(math.dist(*stretch), 1e-9)
    return (x + t * (u - x), y + t * (v - y))
