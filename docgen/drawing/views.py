"""What the geometry saw, as records on paper: visible wide, hidden dashed, true arcs, centre lines, later cuts."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from docgen.drawing import symbols
from docgen.drawing.boxes import cosine
from docgen.drawing.placing import Bounds, arc_bounds, around, point_bounds
from docgen.drawing.records import Arc, Line, Path, Pen, Point, Record
from docgen.geometry.lines import ArcOf, Drawn, Stroke, View
from docgen.geometry.make import dot
from docgen.geometry.shapes import Vec
from docgen.piece.records import HoleRow

SAG = 0.05  # mm on paper: how far a chord may leave its arc where lines are only tested
SAME = 0.05  # mm of the piece: strokes nearer than this are one
SOFT, SHY = 6.0, 1.0  # mm on paper: least length of a thin line at a rounded edge, and how far it stays off its ends
TICK = 3.0  # mm on paper: a hidden line so short, and ending in the air, shows as a stroke and tells nothing
OVER = 3.0  # mm on paper: centre lines reach past the outline


def on_paper(p: Point, scale: float, at: Point) -> Point:
    """Return the place on paper of a point in view mm; `at` is where the view's origin lies."""
    return (p[0] * scale + at[0], p[1] * scale + at[1])


def stroke_records(drawn: Drawn, scale: float, at: Point, *, hidden: bool = True) -> list[Record]:
    """Return the view's lines on paper: hidden ones first, so that a visible one is never broken by a dash.

    Hidden ticks are left out, as of the mitre of two round-overs on the far side.
    """
    out: list[Record] = []
    if hidden:
        out += strokes(_without_ticks(drawn, TICK / scale), Pen.HIDDEN, scale, at)
    return out + strokes(drawn.visible, Pen.VISIBLE, scale, at)


def soft_records(drawn: Drawn, scale: float, at: Point) -> list[Record]:
    """Return the visible lines on paper, thin and clear of their ends where one surface only runs on into another.

    ISO 128-3 calls those imaginary lines of intersection; what of them is short is left out.
    """
    thin = strokes([s for s in drawn.visible if s.kind == "tangent"], Pen.THIN, scale, at)
    out = [cut for r in thin if (cut := _clear_of_ends(r)) is not None]
    return out + strokes([s for s in drawn.visible if s.kind != "tangent"], Pen.VISIBLE, scale, at)


def _without_ticks(drawn: Drawn, least: float) -> list[Stroke]:
    """Return the hidden lines without straight ones shorter than `least`, view mm, of which an end meets no other line."""
    every = (*drawn.visible, *drawn.hidden)
    ends = Counter(_grid(p) for s in every for p in (s.a, s.b))

    def in_the_air(p: Point, own: Stroke) -> bool:
        return ends[_grid(p)] < 2 and not covered(p, [s for s in every if s is not own])

    return [
        s
        for s in drawn.hidden
        if s.arc is not None
        or s.chain >= 0
        or math.dist(s.a, s.b) >= least
        or not (in_the_air(s.a, s) or in_the_air(s.b, s))
    ]


def _clear_of_ends(record: Record) -> Record | None:
    """Return a line that begins and ends a little earlier; None for one that would be hardly seen, a curve as it is."""
    if not isinstance(record, Line):
        return record if sum(math.dist(a, b) for a, b in chords(record)) >= SOFT else None
    (x, y), (u, v), long = record.a, record.b, math.dist(record.a, record.b)
    if long < SOFT:
        return None
    dx, dy = (u - x) / long * SHY, (v - y) / long * SHY
    return replace(record, a=(x + dx, y + dy), b=(u - dx, v - dy))


def strokes(lines: Sequence[Stroke], pen: Pen, scale: float, at: Point) -> list[Record]:
    """Return strokes in one pen: lines, arcs, and the chords of one curve joined to a path."""
    out: list[Record] = []
    chain: list[Point] = []
    last = -1
    for s in lines:
        a, b = on_paper(s.a, scale, at), on_paper(s.b, scale, at)
        if chain and (s.chain != last or s.chain < 0 or math.dist(chain[-1], a) > 1e-6):
            out.append(Path(tuple(chain), pen))
            chain = []
        if s.arc is not None:
            out.append(
                Arc(on_paper(s.arc.centre, scale, at), s.arc.radius * scale, s.arc.start_deg, s.arc.end_deg, pen)
            )
        elif s.chain >= 0:
            chain = [*chain, b] if chain else [a, b]
        else:
            out.append(Line(a, b, pen))
        last = s.chain
    if chain:
        out.append(Path(tuple(chain), pen))
    return out


def without_specks(drawn: Drawn, least: float) -> Drawn:
    """Return a view without visible lines and circles smaller than `least`, view mm: on paper they are dots.

    Short lines that lead from the end of a longer one to the end of another are steps of an outline and stay. The other
    may end a little off: it may be drawn by a line that stands for both.
    """
    short = {k for k, s in enumerate(drawn.visible) if s.chain < 0 and _reach(s) < least}
    if not short:
        return drawn
    steps = _steps(drawn.visible, short, least / 2)
    return Drawn(tuple(s for k, s in enumerate(drawn.visible) if k not in short or k in steps), drawn.hidden)


def _steps(lines: Sequence[Stroke], short: Collection[int], near: float) -> set[int]:
    """Return those of the `short` lines that lead, by others if need be, from the end of a longer one to that of another."""
    ending: dict[tuple[int, int], set[Point]] = {}
    meeting: dict[Point, list[int]] = {}
    for k, s in enumerate(lines):
        for p in (s.a, s.b):
            if k not in short:
                ending.setdefault((int(p[0] // near), int(p[1] // near)), set()).add(_grid(p))
            elif s.a != s.b:
                meeting.setdefault(_grid(p), []).append(k)
    steps: set[int] = set()
    left = {k for found in meeting.values() for k in found}
    while left:
        group: set[int] = set()
        at = [min(left)]
        while at:
            k = at.pop()
            if k not in group:
                group.add(k)
                at += [n for p in (lines[k].a, lines[k].b) for n in meeting[_grid(p)]]
        left -= group
        places = {_end_at(p, ending, near) for k in group for p in (lines[k].a, lines[k].b)} - {None}
        steps |= group if len(places) > 1 else set()
    return steps


def _end_at(p: Point, ending: Mapping[tuple[int, int], Collection[Point]], near: float) -> Point | None:
    """Return the nearest end within `near` of a point, if there is one; `ending` has them by the square in which they lie."""
    x, y = int(p[0] // near), int(p[1] // near)
    around = [q for i in (-1, 0, 1) for j in (-1, 0, 1) for q in ending.get((x + i, y + j), ())]
    return min(((math.dist(p, q), q) for q in around if math.dist(p, q) <= near), default=(0.0, None))[1]


def _reach(s: Stroke) -> float:
    """Return how long a line is, or how wide a circle or an arc, view mm."""
    return 2 * s.arc.radius if s.arc is not None and s.a == s.b else math.dist(s.a, s.b)


def _grid(p: Point) -> Point:
    return (round(p[0], 2), round(p[1], 2))


def chords(record: Record) -> list[tuple[Point, Point]]:
    """Return the straight pieces that stand for a stroked record where lines are tested against text."""
    match record:
        case Line():
            return [(record.a, record.b)]
        case Path():
            points = [*record.points, *(record.points[:1] if record.closed else ())]
            return list(itertools.pairwise(points))
        case Arc():
            return _arc_chords(record)
        case _:
            return []


def _arc_chords(arc: Arc) -> list[tuple[Point, Point]]:
    span = arc.end - arc.start
    span = span if span > 0 else span + 360
    step = 2 * math.degrees(math.acos(max(0.5, 1 - SAG / max(arc.radius, SAG))))
    count = max(2, math.ceil(span / step))
    points = [
        (
            arc.centre[0] + arc.radius * cosine(arc.start + span * k / count),
            arc.centre[1] + arc.radius * cosine(arc.start + span * k / count - 90),
        )
        for k in range(count + 1)
    ]
    return list(itertools.pairwise(points))


def bounds(drawn: Drawn) -> Bounds:
    """Return (x low, y low, x high, y high) of the view in view mm; ValueError when nothing is drawn."""
    return around(_stroke_bounds(s) for s in (*drawn.visible, *drawn.hidden))


def _stroke_bounds(s: Stroke) -> Bounds:
    if s.arc is not None:
        return arc_bounds(Arc(s.arc.centre, s.arc.radius, s.arc.start_deg, s.arc.end_deg))
    return point_bounds((s.a, s.b))


def later_strokes(now: Drawn, later: Drawn) -> list[Stroke]:
    """Return the visible strokes of a later stage that do not lie on strokes of this one: to be drawn in phantom."""
    here = (*now.visible, *now.hidden)
    return [s for s in later.visible if not all(covered(p, here) for p in _thirds(s))]


def _thirds(s: Stroke) -> list[Point]:
    if s.arc is not None:
        a = s.arc
        return [
            (a.centre[0] + a.radius * cosine(d), a.centre[1] + a.radius * cosine(d - 90))
            for d in (a.start_deg + (a.end_deg - a.start_deg) * k for k in (0.1, 0.5, 0.9))
        ]
    return [(s.a[0] + (s.b[0] - s.a[0]) * k, s.a[1] + (s.b[1] - s.a[1]) * k) for k in (0.1, 0.5, 0.9)]


def seen_by(drawn: Drawn, was: View, view: View) -> Drawn:
    """Return what `was` shows as it stands in `view`, which looks the same way and is turned by quarter turns."""
    (cx, cy), (sx, sy) = ((dot(a, was.right), dot(a, was.up)) for a in (view.right, view.up))
    turn = math.degrees(math.atan2(-cy, cx))

    def at(p: Point) -> Point:
        return (cx * p[0] + cy * p[1], sx * p[0] + sy * p[1])

    def one(s: Stroke) -> Stroke:
        arc = s.arc
        if arc is not None:
            start = (arc.start_deg + turn) % 360
            arc = ArcOf(at(arc.centre), arc.radius, start, start + arc.end_deg - arc.start_deg)
        return replace(s, a=at(s.a), b=at(s.b), arc=arc)

    return Drawn(tuple(map(one, drawn.visible)), tuple(map(one, drawn.hidden)))


def bounds_by(bounds: Bounds, was: View, view: View) -> Bounds:
    """Return what bounds in `was` are in `view`, which looks the same way and is turned by quarter turns."""
    x0, y0, x1, y1 = bounds
    (cx, cy), (sx, sy) = ((dot(a, was.right), dot(a, was.up)) for a in (view.right, view.up))
    return point_bounds((cx * x + cy * y, sx * x + sy * y) for x, y in ((x0, y0), (x1, y1)))


def covered(p: Point, lines: Sequence[Stroke]) -> bool:
    """Return True when a point, view mm, lies on one of the strokes."""
    return any(_distance(p, s) < SAME for s in lines)


def _distance(p: Point, s: Stroke) -> float:
    """Return how far a point lies from a stroke, view mm."""
    if s.arc is not None:
        turn = (math.degrees(math.atan2(p[1] - s.arc.centre[1], p[0] - s.arc.centre[0])) - s.arc.start_deg) % 360
        if turn <= s.arc.end_deg - s.arc.start_deg:
            return abs(math.dist(p, s.arc.centre) - s.arc.radius)
        return min(math.dist(p, s.a), math.dist(p, s.b))
    dx, dy = s.b[0] - s.a[0], s.b[1] - s.a[1]
    n = dx * dx + dy * dy
    t = 0.0 if n == 0 else max(0.0, min(1.0, ((p[0] - s.a[0]) * dx + (p[1] - s.a[1]) * dy) / n))
    return math.hypot(p[0] - s.a[0] - t * dx, p[1] - s.a[1] - t * dy)


def centre_lines(rows: Iterable[HoleRow], thick: Vec, view: View, scale: float, at: Point) -> list[Record]:
    """Return centre marks of holes seen from their mouth, or where they come out, and axes of holes seen from beside.

    A blind hole has no mark on the face that it does not reach: it would look like a centre to prick. `thick` is how far a through hole may run along each axis, mm.
    """
    out: list[Record] = []
    toward = view.toward
    seen: set[tuple[float, float, float, float]] = set()
    for row in rows:
        d = row.direction
        away = sum(d[i] * toward[i] for i in range(3))  # 1: bored from behind
        facing = abs(away)
        far = row.depth if row.depth is not None else row.reach
        reach = float(far) if far is not None else sum(abs(d[i]) * thick[i] for i in range(3))
        for p in row.points:
            mouth: Vec = (float(p[0]), float(p[1]), float(p[2]))
            a = on_paper(view.flat(mouth), scale, at)
            end: Vec = (mouth[0] + d[0] * reach, mouth[1] + d[1] * reach, mouth[2] + d[2] * reach)
            b = on_paper(view.flat(end), scale, at)
            key = (round(a[0], 3), round(a[1], 3), round(b[0], 3), round(b[1], 3))
            if key in seen:
                continue
            seen.add(key)
            if facing > 0.999:
                if row.depth is not None and away > 0:
                    continue
                out += symbols.centre_mark(a, float(row.diameter) * scale / 2)
            elif facing < 0.001:
                out.append(axis(a, b))
    return out


def axis(a: Point, b: Point) -> Line:
    """Return the centre line from `a` to `b` on paper, a little past both; thin and whole where it is short."""
    n = math.dist(a, b) or 1.0
    ux, uy = (b[0] - a[0]) / n, (b[1] - a[1]) / n
    over = min(OVER, 1.0 + n / 3)
    pen = Pen.CENTRE if n + 2 * over >= 12 else Pen.THIN
    return Line((a[0] - ux * over, a[1] - uy * over), (b[0] + ux * over, b[1] + uy * over), pen)
