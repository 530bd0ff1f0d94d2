"""Where a part stands against the one it is fixed to, in figures from that one's ends and edges. Lengths mm, angles degrees."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from fractions import Fraction

from docgen.geometry.shapes import Vec
from docgen.piece.model import Part, Piece
from docgen.piece.records import Face
from docgen.schedules.holds import NEAR, Box, lies_on, listed, said
from docgen.schedules.neighbours import wood_at
from docgen.units import Number, format_angle

UNITS = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
INSIDE = 0.5
"""mm inside a corner at which it is asked whether a cut takes it away."""

LEAST_LEAN = 0.05
"""Degrees from which a part leans against another."""

AXES = (("left", "right"), ("front", "back"), ("bottom", "top"))
"""The words of the low and the high side on each axis of the piece."""


def standing(piece: Piece, paths: Sequence[str], hosts: Sequence[str] = ()) -> str:
    """Return where each of these parts stands, those that stand alike together; `hosts` are what they are fixed to, if known."""
    alike: dict[str, list[tuple[str, str]]] = {}
    for part in map(piece.part, paths):
        host = _host(piece, part, hosts)
        text = _place(piece, part, host) if host is not None else ""
        if text and host is not None:
            alike.setdefault(text, []).append((part.called, host.called))
    return "; ".join(
        f"{', '.join(f'{part} on {host}' for part, host in pairs)}: {text}" for text, pairs in alike.items()
    )


def _host(piece: Piece, part: Part, hosts: Sequence[str]) -> Part | None:
    """Return the part that this one lies against with the most of its face; of those named, the first that it may lie on."""
    named = [piece.part(p) for p in hosts if p != part.path]
    touching = [p for p in named or piece.parts if p.path != part.path and not p.hardware and lies_on(part.box, p.box)]
    if not touching or part.turned:
        near = [p for p in named if not p.turned]
        return min(near, key=lambda p: _apart(part, p), default=None)
    return max(touching, key=lambda p: _shared(part.box, p.box))


def _apart(one: Part, two: Part) -> float:
    """Return how far the middles of two parts stand from each other."""
    a, b = (p.frame.point((float(p.size[0]) / 2, float(p.size[1]) / 2, float(p.size[2]) / 2)) for p in (one, two))
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
        top = abs(above) < NEAR < abs(below)
        yield _from(piece, part, host, words[top], own[1] - high if top else low - own[0])


def _meets(one: Box, two: Box, axis: int) -> bool:
    return abs(float(one[axis][0] - two[axis][1])) < NEAR or abs(float(one[axis][1] - two[axis][0])) < NEAR


def _low_end(one: Box, two: Box, axis: int) -> bool:
    return abs(float(one[axis][0] - two[axis][1])) < NEAR


def _from(piece: Piece, part: Part, host: Part, word: str, offset: Number) -> str:
    its, there = part.side(part.face(word)), host.side(host.face(word))
    if abs(float(offset)) < NEAR:
        return f"its {its} flush with the {there}"
    beyond = "beyond" if offset < 0 else "from"
    return f"its {its} {said(piece, -offset if offset < 0 else offset)} {beyond} the {there}"


def _leaning(part: Part, host: Part) -> float:
    """Return the angle between the lengths of two parts, as lines."""
    return math.degrees(math.acos(min(1.0, abs(_cosine(part, 0, host, 0)))))


def _at_corner(piece: Piece, part: Part, host: Part, leaning: float) -> str:
    """Return where a corner of the low end lies on the host, from its end and its edge, and how the part leans there.

    Nothing where a cut takes that corner away.
    """
    flat = _thin(host)
    across = min((1, 2), key=lambda i: abs(_cosine(part, i, host, flat)))  # the part's axis that lies along its host
    if not all(wood_at(part, part.frame.point(_near(part, across, side))) for side in (0, 1)):
        return ""
    at = host.frame.inverse().point(part.frame.point((0.0, 0.0, 0.0)))
    told = []
    for axis in (i for i in range(3) if i != flat):
        beyond = at[axis] > float(host.size[axis])
        off = at[axis] - float(host.size[axis]) if beyond else at[axis]
        told.append(
            f"{said(piece, abs(off))} {'beyond' if beyond or off < 0 else 'from'} the {host.side(Face(axis, int(beyond)))}"
        )
    lean = min(leaning, 90 - leaning)
    turn = (
        f", leaning {format_angle(Fraction(round(lean * 100), 100))} to the {_way(part, host)}"
        if lean > LEAST_LEAN
        else ""
    )
    return f"the {part.word(Face(across, 0))} corner of its {part.side(Face(0, 0))} {', '.join(told)}{turn}"


def _way(part: Part, host: Part) -> str:
    """Return the side of the host to which a part leans from its low end on."""
    run = [_cosine(part, 0, host, i) for i in range(3)]
    axis = min((i for i in range(3) if i != _thin(host)), key=lambda i: abs(run[i]))
    return host.word(Face(axis, int(run[axis] > 0)))


def _thin(part: Part) -> int:
    """Return the axis that goes through a part."""
    return min(range(3), key=lambda i: float(part.size[i]))


def _cosine(one: Part, axis: int, two: Part, other: int) -> float:
    a, b = (p.frame.direction(UNITS[i]) for p, i in ((one, axis), (two, other)))
    return sum(x * y for x, y in zip(a, b, strict=True))


def _near(part: Part, across: int, side: int) -> Vec:
    """Return a point just inside the corner of the low end, at one or the other of the faces beside it."""
    at = [INSIDE, INSIDE, INSIDE]
    other = 3 - across
    at[other] = float(part.size[other]) - INSIDE if side else INSIDE
    return (at[0], at[1], at[2])
