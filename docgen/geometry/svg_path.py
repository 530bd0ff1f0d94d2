"""Path data of an SVG drawing → closed outlines of true arcs and lines. Source: SVG 1.1, section 8.3 and appendix F.6."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from docgen.geometry.curves import Curve, Run, bezier, fitted
from docgen.geometry.shapes import Edge, Outline, Vec2

MOST = 1000
"""Segments that a path may have."""

Matrix: TypeAlias = tuple[float, float, float, float, float, float]
"""a, b, c, d, e, f: (x, y) → (a·x + c·y + e, b·x + d·y + f)."""

UPRIGHT: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)

_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")
_SPACE = re.compile(r"[\s,]*")
_LETTER = re.compile(r"[A-Za-z]")
_COUNT = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_TRANSFORM = re.compile(r"\s*,?\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^)]*)\)")


class PathFault(Exception):
    """Something in path data that cannot be read; `offset` counts characters from its start."""

    def __init__(self, message: str, offset: int = 0) -> None:
        super().__init__(message)
        self.message, self.offset = message, offset


@dataclass(frozen=True, slots=True)
class Line:
    """A straight side to `end`."""

    end: Vec2


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic curve to `end` with its two handles."""

    first: Vec2
    second: Vec2
    end: Vec2


@dataclass(frozen=True, slots=True)
class Arc:
    """An elliptic arc to `end`, as the drawing says it: half axes, turn of the ellipse in degrees, both flags."""

    half: Vec2
    turn: float
    large: bool
    sweep: bool
    end: Vec2


Segment: TypeAlias = Line | Cubic | Arc


@dataclass(frozen=True, slots=True)
class Loop:
    """One closed line of a path."""

    start: Vec2
    segments: tuple[Segment, ...]


def read_path(data: str) -> tuple[Loop, ...]:
    """Return the closed lines of path data; PathFault for what is no path, is open, or is too long."""
    reader = _Reader(data)
    loops = tuple(reader.loops())
    if not loops:
        raise PathFault("the path draws nothing")
    return loops


def outline_of(loop: Loop, matrix: Matrix = UPRIGHT) -> Outline:
    """Return a loop, placed by `matrix`, as an outline; curves are followed within `curves.TOLERANCE`.

    PathFault where nothing is left of it.
    """
    edges: list[Edge] = []
    at = loop.start
    for segment in loop.segments:
        edges.extend(_run(at, segment, matrix))
        at = segment.end
    first = apply(matrix, loop.start)
    if math.dist(apply(matrix, at), first) > 1e-9:
        edges.append(Edge(first))
    kept: list[Edge] = []
    before = edges[-1].end
    for edge in edges:
        if edge.centre is not None or math.dist(before, edge.end) > 1e-7:
            kept.append(edge)
            before = edge.end
    if not kept:
        raise PathFault("a closed line of the path has no extent")
    return Outline(tuple(kept))


def apply(m: Matrix, p: Vec2) -> Vec2:
    """Return a point placed by a matrix."""
    return (m[0] * p[0] + m[2] * p[1] + m[4], m[1] * p[0] + m[3] * p[1] + m[5])


def times(m: Matrix, n: Matrix) -> Matrix:
    """Return the placement that first does `n`, then `m`."""
    (a, b), (c, d), (e, f) = apply((*m[:4], 0, 0), n[:2]), apply((*m[:4], 0, 0), n[2:4]), apply(m, n[4:])
    return (a, b, c, d, e, f)


def read_transform(text: str) -> Matrix:
    """Return the placement that a `transform` attribute says; PathFault for what is none."""
    out, at = UPRIGHT, 0
    while text[at:].strip():
        found = _TRANSFORM.match(text, at)
        if found is None:
            raise PathFault(f"“{text[at:].strip()[:30]}” is no transform", at)
        numbers = [float(n) for n in _NUMBER.findall(found[2])]
        out = times(out, _transform(found[1], numbers, at))
        at = found.end()
    return out


def _transform(word: str, n: list[float], at: int) -> Matrix:
    counts = {"matrix": (6,), "translate": (1, 2), "scale": (1, 2), "rotate": (1, 3), "skewX": (1,), "skewY": (1,)}
    if len(n) not in counts[word]:
        raise PathFault(f"{word} takes {' or '.join(str(c) for c in counts[word])} numbers, here are {len(n)}", at)
    if word == "matrix":
        return (n[0], n[1], n[2], n[3], n[4], n[5])
    if word == "translate":
        return (1.0, 0.0, 0.0, 1.0, n[0], n[1] if len(n) > 1 else 0.0)
    if word == "scale":
        return (n[0], 0.0, 0.0, n[1] if len(n) > 1 else n[0], 0.0, 0.0)
    t = math.tan(math.radians(n[0]))
    if word == "skewX":
        return (1.0, 0.0, t, 1.0, 0.0, 0.0)
    if word == "skewY":
        return (1.0, t, 0.0, 1.0, 0.0, 0.0)
    c, s = math.cos(math.radians(n[0])), math.sin(math.radians(n[0]))
    turn: Matrix = (c, s, -s, c, 0.0, 0.0)
    if len(n) == 1:
        return turn
    return times(times((1.0, 0.0, 0.0, 1.0, n[1], n[2]), turn), (1.0, 0.0, 0.0, 1.0, -n[1], -n[2]))


class _Reader:
    """Walks through path data: where it is, where the loop began, the last handle."""

    def __init__(self, data: str) -> None:
        self._data, self._at = data, 0
        self._here: Vec2 = (0.0, 0.0)
        self._start: Vec2 = (0.0, 0.0)
        self._handle: tuple[str, Vec2] | None = None
        self._segments: list[Segment] = []
        self._total = 0

    def loops(self) -> Iterator[Loop]:
        letter = ""
        while self._skip() < len(self._data):
            begun = self._at
            found = _LETTER.match(self._data, self._at)
            if found is not None:
                letter = found[0]
                self._at = found.end()
            elif letter in "Zz" or not letter:
                raise PathFault(f"“{self._data[self._at]}” where a command should stand", self._at)
            upper = letter.upper()
            if upper not in _COUNT:
                raise PathFault(f"“{letter}” is no command of a path", begun)
            if letter and not self._segments and self._total == 0 and upper != "M":
                raise PathFault("a path begins with M", begun)
            if upper in "MZ":
                yield from self._closed(begun)
            self._step(upper, letter.islower())
            letter = {"M": "L", "m": "l"}.get(letter, letter)
        yield from self._closed(len(self._data))

    def _closed(self, at: int) -> Iterator[Loop]:
        """Yield the loop so far; it must come back to where it began, or be closed by Z."""
        if self._segments:
            closed = at < len(self._data) and self._data[at] in "Zz"
            if not closed and math.dist(self._here, self._start) > 1e-6 * max(1.0, math.hypot(*self._here)):
                raise PathFault("the line is not closed: it does not end where it began", max(0, at - 1))
            yield Loop(self._start, tuple(self._segments))
            self._segments = []

    def _step(self, upper: str, relative: bool) -> None:
        self._total += 1
        if self._total > MOST:
            raise PathFault(f"the path has more than {MOST} segments", self._at)
        if upper == "Z":
            self._here, self._handle = self._start, None
            return
        n = self._flags() if upper == "A" else [self._number() for _ in range(_COUNT[upper])]
        x, y = self._here if relative else (0.0, 0.0)
        if upper == "M":
            self._here = self._start = (n[0] + x, n[1] + y)
            self._handle = None
        elif upper == "H":
            self._line((n[0] + x, self._here[1]))
        elif upper == "V":
            self._line((self._here[0], n[0] + y))
        elif upper == "L":
            self._line((n[0] + x, n[1] + y))
        elif upper == "A":
            self._arc(n, (n[5] + x, n[6] + y))
        else:
            self._curve(upper, [(n[k] + x, n[k + 1] + y) for k in range(0, len(n), 2)])

    def _line(self, end: Vec2) -> None:
        self._add(Line(end), None)

    def _arc(self, n: list[float], end: Vec2) -> None:
        if math.dist(self._here, end) < 1e-12:
            return
        half = (abs(n[0]), abs(n[1]))
        self._add(Line(end) if min(half) < 1e-12 else Arc(half, n[2], bool(n[3]), bool(n[4]), end), None)

    def _curve(self, upper: str, p: list[Vec2]) -> None:
        kind = "C" if upper in "CS" else "Q"
        if upper in "ST":  # the first handle mirrors the last one of the same kind
            last = self._handle[1] if self._handle is not None and self._handle[0] == kind else self._here
            p = [(2 * self._here[0] - last[0], 2 * self._here[1] - last[1]), *p]
        if kind == "C":
            self._add(Cubic(p[0], p[1], p[2]), (kind, p[1]))
            return
        a, q, d = self._here, p[0], p[1]
        b = (a[0] + 2 * (q[0] - a[0]) / 3, a[1] + 2 * (q[1] - a[1]) / 3)
        c = (d[0] + 2 * (q[0] - d[0]) / 3, d[1] + 2 * (q[1] - d[1]) / 3)
        self._add(Cubic(b, c, d), (kind, q))

    def _add(self, segment: Segment, handle: tuple[str, Vec2] | None) -> None:
        self._segments.append(segment)
        self._here, self._handle = segment.end, handle

    def _skip(self) -> int:
        found = _SPACE.match(self._data, self._at)
        assert found is not None
        self._at = found.end()
        return self._at

    def _number(self) -> float:
        self._skip()
        found = _NUMBER.match(self._data, self._at)
        if found is None:
            told = f"“{self._data[self._at]}”" if self._at < len(self._data) else "the end"
            raise PathFault(f"{told} where a number should stand", min(self._at, max(0, len(self._data) - 1)))
        self._at = found.end()
        value = float(found[0])
        if not math.isfinite(value) or abs(value) > 1e7:
            raise PathFault(f"{found[0]} is too large", found.start())
        return value

    def _flags(self) -> list[float]:
        """Return the seven numbers of an arc; its two flags are single digits that may stand without a space."""
        out = [self._number() for _ in range(3)]
        for _ in range(2):
            self._skip()
            flag = self._data[self._at : self._at + 1]
            if flag not in ("0", "1"):
                raise PathFault("an arc's flag is 0 or 1", min(self._at, max(0, len(self._data) - 1)))
            self._at += 1
            out.append(float(flag))
        return [*out, self._number(), self._number()]


def _run(start: Vec2, segment: Segment, m: Matrix) -> Run:
    if isinstance(segment, Line):
        return (Edge(apply(m, segment.end)),)
    if isinstance(segment, Cubic):
        return bezier(*(apply(m, p) for p in (start, segment.first, segment.second, segment.end)))
    return _arc_run(start, segment, m)


def _arc_run(start: Vec2, arc: Arc, m: Matrix) -> Run:
    laid, a, swept = _ellipse(start, arc)
    return _on_ellipse(times(m, laid), a, swept, apply(m, arc.end))


def _ellipse(start: Vec2, arc: Arc) -> tuple[Matrix, float, float]:
    """Return what lays the unit circle on the ellipse of an arc, and where on it the arc begins and how far it runs, radians.

    From end points to the centre as F.6.5 says, radii that are too small grown as F.6.6 says.
    """
    c, s = math.cos(math.radians(arc.turn)), math.sin(math.radians(arc.turn))
    rx, ry = arc.half
    dx, dy = (start[0] - arc.end[0]) / 2, (start[1] - arc.end[1]) / 2
    px, py = c * dx + s * dy, -s * dx + c * dy
    grown = math.sqrt((px / rx) ** 2 + (py / ry) ** 2)
    if grown > 1:
        rx, ry = rx * grown, ry * grown
    under = (rx * ry) ** 2 - (rx * py) ** 2 - (ry * px) ** 2
    k = math.sqrt(max(0.0, under) / ((rx * py) ** 2 + (ry * px) ** 2)) * (-1 if arc.large == arc.sweep else 1)
    qx, qy = k * rx * py / ry, -k * ry * px / rx
    centre = (c * qx - s * qy + (start[0] + arc.end[0]) / 2, s * qx + c * qy + (start[1] + arc.end[1]) / 2)
    a = math.atan2((py - qy) / ry, (px - qx) / rx)
    b = math.atan2((-py - qy) / ry, (-px - qx) / rx)
    swept = (b - a) % math.tau if arc.sweep else -((a - b) % math.tau)
    return (c * rx, s * rx, -s * ry, c * ry, centre[0], centre[1]), a, swept


def _on_ellipse(m: Matrix, a: float, swept: float, end: Vec2) -> Run:
    """Return the image of the unit circle's arc from the angle `a` by `swept` radians."""
    one, two, square = math.hypot(m[0], m[1]), math.hypot(m[2], m[3]), m[0] * m[2] + m[1] * m[3]
    n = max(1, math.ceil(abs(swept) / (math.pi / 2) - 1e-9))
    stops = [a + swept * k / n for k in range(n + 1)]
    way = 1.0 if swept > 0 else -1.0

    def point(t: float) -> Vec2:
        return apply(m, (math.cos(t), math.sin(t)))

    def direction(t: float) -> Vec2:
        return apply((*m[:4], 0.0, 0.0), (-way * math.sin(t), way * math.cos(t)))

    out: list[Edge] = []
    if abs(one - two) < 1e-9 * max(one, two) and abs(square) < 1e-9 * one * two:
        ccw = (m[0] * m[3] - m[1] * m[2] > 0) == (swept > 0)
        out = [Edge(point(t), (m[4], m[5]), ccw) for t in stops[1:]]
    else:
        for low, high in pairwise(stops):
            out.extend(fitted(Curve(point, direction, low, high)))
    last = out[-1]
    return (*out[:-1], Edge(end, last.centre, last.ccw))


def all_points(loops: Sequence[Loop]) -> Iterator[Vec2]:
    """Yield corners and handles of the loops, and points on their arcs an eighth apart: what the drawing lies between."""
    for loop in loops:
        yield loop.start
        at = loop.start
        for s in loop.segments:
            if isinstance(s, Cubic):
                yield from (s.first, s.second)
            elif isinstance(s, Arc):
                laid, a, swept = _ellipse(at, s)
                yield from (apply(laid, (math.cos(t), math.sin(t))) for t in (a + swept * k / 8 for k in range(1, 8)))
            at = s.end
            yield at
