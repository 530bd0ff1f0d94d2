"""The lean of raked parts from plumb in a general view, the spread of their feet, and the axes of what is turned."""

from __future__ import annotations

import math

from docgen.drawing.dimensions.wanted import Angular, Linear, Wanted
from docgen.drawing.records import Point
from docgen.geometry.lines import VIEWS, Drawn, View
from docgen.geometry.make import plus
from docgen.geometry.shapes import Vec
from docgen.geometry.sight import in_sight
from docgen.piece.model import Part
from docgen.piece.records import Size, SizeKind
from docgen.piece.turnings import radius_at
from docgen.sheets.whole import DIRECTIONS, SAME, Whole, is_rod, linear, size_along
from docgen.units import format_angle, near_length

SEEN = 0.12  # of an edge's length: so much of it in sight carries an angle
SQUARE = 1e-6  # of its length: an axis that shows no more is seen from its end
BESIDE = 0.5  # mm: a line that lies nearer than this to an edge is that edge
STANDS, FLAT = 1.0, 1e-3
"""mm above the lowest point of the piece up to which a part stands on the floor, and above its own that its flat reaches."""


def raked(whole: Whole, name: str) -> list[Wanted]:
    """Return the lean of each raked part from plumb as this view shows it, equal ones once, and the spread of the feet."""
    view = VIEWS[name]
    across = max(range(3), key=lambda i: abs(view.right[i]))
    leaning: dict[tuple[float, ...], Part] = {}
    feet: list[float] = []
    for part in sorted(whole.piece.parts, key=lambda p: p.path not in whole.seen(name)):
        if not part.turned or part.hardware or part.group:
            continue
        axis = part.frame.direction((1.0, 0.0, 0.0))
        flat = view.flat(axis)
        if abs(flat[1]) < 0.5:
            continue
        lean = math.degrees(math.atan2(flat[0], flat[1]))
        lean = (lean + 90) % 180 - 90
        feet += _foot(part, whole, across)
        if abs(lean) > 0.05:
            leaning.setdefault((round(lean, 3), *_apex(part, view, lean)), part)
    out: list[Wanted] = []
    told: dict[float, Part] = {}
    for key, part in sorted(leaning.items(), key=lambda i: (i[1].path not in whole.seen(name), i[0])):
        if abs(key[0]) not in told:
            told[abs(key[0])] = part
            out.append(_lean(part, whole, name, key[0], len(out)))
    if feet and max(feet) - min(feet) < whole.size(across) - 1.0:
        out.append(_spread(whole, view, across, min(feet), max(feet)))
        before, behind = min(feet) - whole.low[across], whole.high[across] - max(feet)
        if before > SAME and behind > SAME and abs(before - behind) > SAME:  # else it is seen
            to = size_along(whole, across, round(before, 4))
            out.append(linear("to feet", whole, view, to, overall=False, label="to feet: "))
    return out


def _apex(part: Part, view: View, lean: float) -> tuple[float, float]:
    p = _edge(part, view, lean)[0]
    return (round(p[0], 1), round(p[1], 1))


def _edge(part: Part, view: View, lean: float) -> tuple[Point, Point]:
    """Return foot and head of the long edge on the side to which the part leans away from plumb."""
    return _edges(part, view, lean)[0]


def _edges(part: Part, view: View, lean: float) -> list[tuple[Point, Point]]:
    """Return foot and head of the long edges, first the one on the side to which the part leans away from plumb."""
    edges = []
    long, wide, thick = (float(v) for v in part.size)
    for y in (0.0, wide):
        for z in (0.0, thick):
            ends = sorted(
                (view.flat(part.frame.point((x, y, z))) for x in (0.0, long)), key=lambda p: (round(p[1], 6), p[0])
            )
            edges.append((ends[0], ends[1]))
    way = 1.0 if lean > 0 else -1.0
    return sorted(edges, key=lambda e: (round(way * e[0][0], 6), round(e[0][1], 6)))


def _lean(part: Part, whole: Whole, name: str, lean: float, number: int) -> Angular:
    """Return the angle at the foot of an edge, or where it comes out from behind what covers its foot.

    What is turned leans by its axis: the angle stands under its head, on the side of the others.
    """
    if is_rod(part) and (axis := _axis(part, whole, name)) is not None:
        foot, head = sorted(axis, key=lambda p: p[1])
        return Angular(f"lean {number}", head, (head[0], head[1] - 1e-3), foot, format_angle(round(abs(lean), 6)))
    edges = _edges(part, VIEWS[name], lean)
    drawn = whole.lines(name)
    foot, head = next((seen for edge in edges if (seen := _in_sight(edge, drawn)) is not None), edges[0])
    plumb = (foot[0], foot[1] + 1e-3)
    return Angular(f"lean {number}", foot, plumb, head, format_angle(round(abs(lean), 6)))


def _in_sight(edge: tuple[Point, Point], drawn: Drawn) -> tuple[Point, Point] | None:
    """Return the longest stretch of an edge along which a line is drawn, from its foot up; None where it is short."""
    (x, y), (u, v) = edge
    long = math.dist(*edge)
    u, v = (u - x) / long, (v - y) / long
    best: tuple[float, float] = (0.0, 0.0)
    for stroke in drawn.visible:
        ends = [((p[0] - x) * u + (p[1] - y) * v, abs((p[0] - x) * v - (p[1] - y) * u)) for p in (stroke.a, stroke.b)]
        if max(off for _, off in ends) < BESIDE:
            low, high = max(min(t for t, _ in ends), 0.0), min(max(t for t, _ in ends), long)
            best = max(best, (low, high), key=lambda s: (round(s[1] - s[0], 3), -s[0]))
    if best[1] - best[0] < SEEN * long:
        return None
    foot = best[0] if best[0] > 0.1 * long else 0.0  # a rounded foot stands on its sharp corner
    return ((x + foot * u, y + foot * v), (x + best[1] * u, y + best[1] * v))


def axes(whole: Whole, name: str) -> list[tuple[Point, Point]]:
    """Return the seen stretches of the axes of turned parts that a view shows from beside, view mm."""
    rods = [p for p in whole.piece.parts if is_rod(p) and p.path in whole.seen(name) and not _end_on(p, name)]
    return [axis for part in rods if (axis := _axis(part, whole, name)) is not None]


def ends(whole: Whole, name: str) -> list[tuple[Point, float]]:
    """Return middle and radius of turned parts that a view shows from their end, view mm."""
    rods = [p for p in whole.piece.parts if is_rod(p) and p.path in whole.seen(name) and _end_on(p, name)]
    return [(VIEWS[name].flat(_middle(p, float(p.size[0]))), radius_at(p, float(p.size[0]) / 2) or 0.0) for p in rods]


def _end_on(part: Part, name: str) -> bool:
    axis = VIEWS[name].flat(part.frame.direction((1.0, 0.0, 0.0)))
    return math.hypot(*axis) < SQUARE


def _middle(part: Part, along: float) -> Vec:
    return part.frame.point((along, float(part.size[1]) / 2, float(part.size[2]) / 2))


def _axis(part: Part, whole: Whole, name: str) -> tuple[Point, Point] | None:
    """Return from where to where the part is seen along its axis, view mm; None where little of it is."""
    view = VIEWS[name]
    before = float(max(part.size[1:])) / 2 + 1.0  # mm: so that its own surface does not cover it
    line = tuple(plus(_middle(part, along), view.toward, before) for along in (0.0, float(part.size[0])))
    key = (part.path, name)
    if key not in whole.axes:
        whole.axes[key] = in_sight(whole.items(), view, [(line[0], line[1])])[0]
    longest = max(whole.axes[key], key=lambda s: round(math.dist(*s), 3), default=None)
    return longest if longest is not None and math.dist(*longest) >= SEEN * float(part.size[0]) else None


def _foot(part: Part, whole: Whole, across: int) -> list[float]:
    """Return the reach of a part along a direction where it stands on the floor: of its flat alone, not of rounded edges."""
    vertices, _ = whole.solids.solid(part.path).moved(part.frame).mesh()
    low = min(float(v[2]) for v in vertices)
    return [float(v[across]) for v in vertices if v[2] < low + FLAT] if low < whole.low[2] + STANDS else []


def _spread(whole: Whole, view: View, across: int, low: float, high: float) -> Linear:
    start, end = [*whole.low], [*whole.low]
    start[across], end[across] = low, high
    size = Size(
        SizeKind.LENGTH,
        (start[0], start[1], start[2]),
        (end[0], end[1], end[2]),
        DIRECTIONS[across],
        round(high - low, 4),
    )
    text = f"feet {near_length(size.value, whole.units)}"
    return Linear("spread", view.flat(size.start), view.flat(size.end), view.flat(size.along), text, (size,))
