"""Where a part stands against the one it is fixed to, in figures from that one's ends and edges. Lengths mm, angles degrees."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import product

from docgen.geometry.shapes import HalfSpace, Vec
from docgen.piece.model import Part, Piece
from docgen.piece.records import Face
from docgen.schedules.holds import NEAR, Box, lies_on, listed, said
from docgen.schedules.neighbours import wood_at
from docgen.units import Number, format_angle

UNITS = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
INSIDE = 0.5
"""mm inside a corner at which it is asked whether a cut takes it away."""

FLAT = 0.999999
"""Cosine from which two faces lie flat on each other."""

SAMPLES = (0.1, 0.3, 0.5, 0.7, 0.9)
"""Parts of a side's length and width at which it is asked what it lies against."""

LEAST_LEAN = 0.05
"""Degrees from which a part leans against another."""

AXES = (("left", "right"), ("front", "back"), ("bottom", "top"))
"""The words of the low and the high side on each axis of the piece."""


def standing(piece: Piece, paths: Sequence[str], hosts: Mapping[str, Sequence[str]] | None = None) -> tuple[str, ...]:
    """Return where these parts stand, those that stand alike in one text; `hosts`: what each is fixed to, if known."""
    alike: dict[str, list[tuple[str, str]]] = {}
    for part in map(piece.part, paths):
        host = _host(piece, part, (hosts or {}).get(part.path, ()))
        text = _place(piece, part, host) if host is not None else ""
        if text and host is not None:
            alike.setdefault(text, []).append((part.called, host.called))
    return tuple(f"{', '.join(f'{part} on {host}' for part, host in pairs)}: {text}" for text, pairs in alike.items())


def _host(piece: Piece, part: Part, hosts: Sequence[str]) -> Part | None:
    """Return the part that this one lies against with the most of its face; of those named, the nearest where none touches it."""
    named = [piece.part(p) for p in hosts if p != part.path]
    others = named or [p for p in piece.parts if p.path != part.path and not p.hardware]
    touching = [p for p in others if lies_on(part.box, p.box)]
    if touching and not part.turned:
        return max(touching, key=lambda p: _shared(part.box, p.box))
    met = max(others, key=lambda p: _met(part, p), default=None)
    if met is not None and _met(part, met):
        return met
    return min(named, key=lambda p: _apart(part, p), default=None)


def _met(part: Part, other: Part) -> int:
    """Return at how many of some points on its broad faces and edges a part lies flat against another, however both are turned."""
    into = other.frame.inverse().after(part.frame)
    return sum(_flat_on(other, into.point(at), into.direction(way)) for at, way in _on_sides(part))


def _on_sides(part: Part) -> Iterator[tuple[Vec, Vec]]:
    """Yield points on the four long sides of a part's box, each with the way out of the wood; part axes."""
    size = [float(s) for s in part.size]
    for axis, side in product((1, 2), (0, 1)):
        way = [0.0, 0.0, 0.0]
        way[axis] = 1.0 if side else -1.0
        for along, beside in product(SAMPLES, SAMPLES):
            at = [along * size[0], 0.0, 0.0]
            at[axis], at[3 - axis] = side * size[axis], beside * size[3 - axis]
            yield (at[0], at[1], at[2]), (way[0], way[1], way[2])


def _flat_on(other: Part, at: Vec, way: Vec) -> bool:
    """Return whether a point lies on a face of a part's box, with a way that goes into it there; that part's axes."""
    axis = max(range(3), key=lambda i: abs(way[i]))
    face = float(other.size[axis]) if way[axis] < 0 else 0.0
    within = all(-NEAR < at[i] < float(other.size[i]) + NEAR for i in range(3))
    return within and abs(way[axis]) > FLAT and abs(at[axis] - face) < NEAR


def _apart(one: Part, two: Part) -> float:
    """Return how far the middles of two parts stand from each other."""
    a, b = (p.frame.point(_half(p)) for p in (one, two))
    return math.dist(a, b)


def _shared(one: Box, two: Box) -> float:
    """Return the area that two boxes share where they lie on each other."""
    near = [float(min(a[1], b[1]) - max(a[0], b[0])) for a, b in zip(one, two, strict=True)]
    return math.prod(n for n in near if n > NEAR)


def _place(piece: Piece, part: Part, host: Part) -> str:
    leaning = _leaning(part, host)
    if part.turned or host.turned or LEAST_LEAN < leaning < 90 - LEAST_LEAN:
        return _at_corner(piece, part, host, leaning)
    return "; ".join(_along(piece, part, host))


def _along(piece: Piece, part: Part, host: Part) -> Iterator[str]:
    """Yield for each direction what the part ends against, else how far it stands from an end or edge of its host."""
    others = [p for p in piece.parts if p.path not in (part.path, host.path) and not p.hardware and not p.turned]
    for axis, words in enumerate(AXES):
        low, high = part.box[axis]
        own = host.box[axis]
        if not (own[0] - NEAR < low and high < own[1] + NEAR) and (high <= own[0] + NEAR or low >= own[1] - NEAR):
            continue  # this way it lies on its host
        ends = [p for p in others if lies_on(part.box, p.box) and _meets(part.box, p.box, axis)]
        if {_low_end(part.box, p.box, axis) for p in ends} == {True, False}:
            yield f"between {listed(piece, [p.path for p in ends])}"
            continue
        below, above = float(low - own[0]), float(own[1] - high)
        past = max(below, above) < -NEAR  # at both ends beyond its host
        top = abs(above) < NEAR < abs(below) or (past and above > below)
        its = _kept(part, words, top)
        offset = part.box[axis][its] - own[top]
        yield _from(piece, part, host, (words[its], words[top]), -offset if top else offset)


def _kept(part: Part, words: tuple[str, str], top: bool) -> bool:
    """Return by which of its sides a part is placed: not by one at which wood is left on, that goes when it is fitted."""
    low, high = (any(s.face == part.face(word) for s in part.spare) for word in words)
    return top if low == high else low


def _meets(one: Box, two: Box, axis: int) -> bool:
    return abs(float(one[axis][0] - two[axis][1])) < NEAR or abs(float(one[axis][1] - two[axis][0])) < NEAR


def _low_end(one: Box, two: Box, axis: int) -> bool:
    return abs(float(one[axis][0] - two[axis][1])) < NEAR


def _from(piece: Piece, part: Part, host: Part, words: tuple[str, str], offset: Number) -> str:
    """Say how far a side of a part stands from a side of its host; `words` are those sides."""
    its, there = part.side(part.face(words[0])), host.side(host.face(words[1]))
    whose = "the other's" if its == there else "the"  # each of the two has a side of that name
    if abs(float(offset)) < NEAR:
        return f"its {its} flush with {whose} {there}"
    beyond = "beyond" if offset < 0 else "from"
    return f"its {its} {said(piece, -offset if offset < 0 else offset)} {beyond} {whose} {there}"


def _leaning(part: Part, host: Part) -> float:
    """Return the angle between the lengths of two parts, as lines."""
    return math.degrees(math.acos(min(1.0, abs(_cosine(part, 0, host, 0)))))


def _at_corner(piece: Piece, part: Part, host: Part, leaning: float) -> str:
    """Return where a corner of a part lies on its host, from its end and its edge, and how the part leans there.

    It is a corner that the part's cuts have left, of those over the host the first: low end, low edge. Nothing where none is.
    """
    flat = _thin(host) if _met(part, host) else _facing(part, host)
    across = min((1, 2), key=lambda i: abs(_cosine(part, i, host, flat)))  # the part's axis that lies along its host
    into = host.frame.inverse()
    best: tuple[float, str] | None = None
    for (end, side), corner in _corners(part, across, host).items():
        at = into.point(part.frame.point(corner))
        places = [(axis, at[axis], float(host.size[axis])) for axis in range(3) if axis != flat]
        beyond = sum(max(0.0, -a, a - size) for _, a, size in places)
        if best is None or beyond < best[0] - NEAR:
            where = ", ".join(_off(piece, host, *place) for place in places)
            words = sorted((part.word(Face(across, side)), part.word(Face(0, end))), key=lambda w: w not in AXES[2])
            best = beyond, f"its {' '.join(words)} corner {where}"
    if best is None:
        return ""
    lean = min(leaning, 90 - leaning)
    if flat != _thin(host):
        return best[1]  # it lies on an edge or an end: how that one slopes tells how the part leans
    turned = f", leaning {format_angle(Fraction(round(lean * 100), 100))} to the {_way(part, host)}"
    return best[1] + (turned if lean > LEAST_LEAN else "")


def _off(piece: Piece, host: Part, axis: int, at: float, size: float) -> str:
    """Return how far a point lies from the nearer end or edge of its host, or beyond it."""
    high = at > size / 2
    off = size - at if high else at
    if abs(off) < NEAR:
        return f"flush with the other's {host.side(Face(axis, int(high)))}"
    return f"{said(piece, abs(off))} {'beyond' if off < 0 else 'from'} the other's {host.side(Face(axis, int(high)))}"


def _corners(part: Part, across: int, host: Part) -> dict[tuple[int, int], Vec]:
    """Return the corners that flat cuts leave on the edges of the face that lies on the host, by end and edge; part axes.

    The face is the box's there, clipped by the planes of the end cuts; a corner of which another cut takes the wood is left
    out.
    """
    through = 3 - across
    middle = part.frame.inverse().point(host.frame.point(_half(host)))
    level = float(part.size[through]) if middle[through] > float(part.size[through]) / 2 else 0.0
    planes = [c.shape for f in part.features for c in f.made.cuts if isinstance(c.shape, HalfSpace)]
    out: dict[tuple[int, int], Vec] = {}
    for side, at in enumerate((0.0, float(part.size[across]))):
        low, high = 0.0, float(part.size[0])
        for plane in planes:
            slope = plane.normal[0]
            fixed = plane.normal[across] * (at - plane.point[across])
            fixed += plane.normal[through] * (level - plane.point[through])
            if abs(slope) > 1e-9:  # wood stays where slope · (x − point) + fixed < 0
                limit = plane.point[0] - fixed / slope
                low, high = (low, min(high, limit)) if slope > 0 else (max(low, limit), high)
        for end, x in enumerate((low, high)):
            corner, inside = [0.0] * 3, [0.0] * 3
            corner[0], corner[across], corner[through] = x, at, level
            inside[0] = x + (-INSIDE if end else INSIDE)
            inside[across] = at + (-INSIDE if side else INSIDE)
            inside[through] = abs(level - INSIDE)
            if low < high and wood_at(part, part.frame.point((inside[0], inside[1], inside[2]))):
                out[end, side] = (corner[0], corner[1], corner[2])
    return dict(sorted(out.items()))


def _half(part: Part) -> Vec:
    return (float(part.size[0]) / 2, float(part.size[1]) / 2, float(part.size[2]) / 2)


def _way(part: Part, host: Part) -> str:
    """Return the side of the host to which a part leans from its low end on."""
    run = [_cosine(part, 0, host, i) for i in range(3)]
    axis = min((i for i in range(3) if i != _thin(host)), key=lambda i: abs(run[i]))
    return host.word(Face(axis, int(run[axis] > 0)))


def _thin(part: Part) -> int:
    """Return the axis that goes through a part."""
    return min(range(3), key=lambda i: float(part.size[i]))


def _facing(part: Part, host: Part) -> int:
    """Return the axis of the host along which the thinnest axis of a part goes, as nearly as one does: it lies on that side."""
    return max(range(3), key=lambda i: abs(_cosine(part, _thin(part), host, i)))


def _cosine(one: Part, axis: int, two: Part, other: int) -> float:
    a, b = (p.frame.direction(UNITS[i]) for p, i in ((one, axis), (two, other)))
    return sum(x * y for x, y in zip(a, b, strict=True))
