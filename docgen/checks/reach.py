"""Bolts that are to be undone: room for a key over the head, and a way for the hand to it in the finished piece."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from docgen.checks import looks
from docgen.checks.cavities import Floats
from docgen.checks.drilled import along
from docgen.checks.finding import Finding, Grade
from docgen.checks.oriented import Oriented
from docgen.checks.slides import slide_boxes
from docgen.checks.subject import Subject, where
from docgen.geometry.make import cross, unit
from docgen.geometry.shapes import Frame, Vec
from docgen.piece.model import Fastener
from docgen.trade.names import UnknownName
from docgen.trade.threads import find

TITLE = "room for the key, and a way to each bolt"
CODES = ("tool-no-room", "fastener-closed-in")
LOOKS = looks.Looks(looks.bolts)

SHORT, LONG = 30.0, 75.0
"""mm: the two arms of an angled hexagon key for screws of 1/4 in and M6. Source: ISO 2936 for 4 mm keys, from memory."""

SWING = 60.0
"""Degrees that a hexagon key must swing between two holds. Geometry of the hexagon."""

SPOKES = 24
ABOVE = 5.0  # mm under the arm's end: where it swings
WAYS = tuple((x, y, z) for x in (-1.0, 0.0, 1.0) for y in (-1.0, 0.0, 1.0) for z in (-1.0, 0.0, 1.0) if x or y or z)
FAR = 1e6


@dataclass(frozen=True, slots=True)
class Obstacles:
    """What stays where it is when a bolt is undone: leaning boxes, (n, 3), (n, 3, 3) and (n, 3), and the parts in them."""

    middles: Floats
    axes: Floats
    halves: Floats
    parts: tuple[str, ...]  # "" for the room of a slide

    def free(self, start: Vec, ways: list[Vec], solids: Subject | None) -> list[float]:
        """Return how far one can go from `start` each way before something stands there, mm.

        Without `solids` the boxes count, which are larger than their parts and much quicker.
        """
        d = np.array([unit(w) for w in ways])
        out = np.full(len(ways), FAR)
        own = np.einsum("nij,nj->ni", self.axes, np.array(start) - self.middles)  # (boxes, axis)
        along_ = np.einsum("nij,rj->rni", self.axes, d)  # (rays, boxes, axis)
        with np.errstate(divide="ignore", invalid="ignore"):
            a, b = (-self.halves - own) / along_, (self.halves - own) / along_
        near = np.nanmax(np.minimum(a, b), axis=2)
        far = np.nanmin(np.maximum(a, b), axis=2)
        hit = (near <= far) & (far > 0)
        for n in np.flatnonzero(hit.any(axis=0)).tolist():
            rays = np.flatnonzero(hit[:, n]).tolist()
            if solids is None or not self.parts[n]:
                found = [[(max(float(near[r, n]), 0.0), 0.0)] for r in rays]
            else:
                found = solids.mesh(self.parts[n]).woods([start] * len(rays), [ways[r] for r in rays])
            for r, wood in zip(rays, found, strict=True):
                if wood:
                    out[r] = min(out[r], wood[0][0])
        return [float(x) for x in out]


def obstacles(subject: Subject) -> Obstacles:
    """Return the parts that stay: not those of drawers, which come out, nor those of groups, which turn out of the way."""
    piece = subject.piece
    away = {p for d in piece.drawers for p in d.parts} | {p for g in piece.groups for p in g.parts}
    names = [p.path for p in piece.parts if p.path not in away]
    boxes = [subject.oriented(name) for name in names]
    for drawer in piece.drawers:
        for low, high in slide_boxes(subject, drawer):
            names.append("")
            boxes.append(Oriented.of(low, high, Frame()))
    return Obstacles(
        np.array([b.middle for b in boxes]).reshape(-1, 3),
        np.array([b.axes for b in boxes]).reshape(-1, 3, 3),
        np.array([b.half for b in boxes]).reshape(-1, 3),
        tuple(names),
    )


def check(subject: Subject) -> Iterator[Finding]:
    """Yield machine screws whose head no key can turn, or to which no straight way leads from outside."""
    bolts = [f for f in subject.piece.fasteners if _is_bolt(f)]
    if not bolts:
        return
    around = obstacles(subject)
    for f in bolts:
        out = unit((-f.direction[0], -f.direction[1], -f.direction[2]))
        for p in f.points:
            head = along((float(p[0]), float(p[1]), float(p[2])), out, float(f.head[1]) + 0.1)
            if not any(turns(around, head, out, solids) for solids in (None, subject)):
                yield _finding(subject, f, head, "tool-no-room")
                break
            if not any(leads_out(around, along(head, out, SHORT / 2), solids) for solids in (None, subject)):
                yield _finding(subject, f, head, "fastener-closed-in")
                break


def _is_bolt(f: Fastener) -> bool:
    """Return True for what has a machine thread: it is drawn up again, wood screws are driven once."""
    try:
        find(f.thread)
    except UnknownName:
        return False
    return any(f.direction)


def turns(around: Obstacles, head: Vec, out: Vec, solids: Subject | None) -> bool:
    """Return True when either arm of the key fits in line with the screw and the other can swing by 60°."""
    line = around.free(head, [out], solids)[0]
    return any(
        line >= first and _sector(around, along(head, out, first - ABOVE), out, other, solids)
        for first, other in ((SHORT, LONG), (LONG, SHORT))
    )


def _sector(around: Obstacles, at: Vec, out: Vec, arm: float, solids: Subject | None) -> bool:
    """Return True when an arm can swing over 60° somewhere round the screw."""
    one = unit(cross(out, (1.0, 0.0, 0.0) if abs(out[0]) < 0.9 else (0.0, 1.0, 0.0)))
    two = cross(out, one)
    turns_ = [2 * math.pi * k / SPOKES for k in range(SPOKES)]
    spokes: list[Vec] = []
    for a in turns_:
        c, s = math.cos(a), math.sin(a)
        spokes.append((one[0] * c + two[0] * s, one[1] * c + two[1] * s, one[2] * c + two[2] * s))
    clear = [free >= arm for free in around.free(at, spokes, solids)]
    needed = round(SWING / (360.0 / SPOKES)) + 1
    return any(all(clear[(k + j) % SPOKES] for j in range(needed)) for k in range(SPOKES))


def leads_out(around: Obstacles, at: Vec, solids: Subject | None) -> bool:
    """Return True when one of 26 straight ways from the key's middle leads out of the piece."""
    return max(around.free(at, list(WAYS), solids)) >= FAR


def _finding(subject: Subject, f: Fastener, head: Vec, code: str) -> Finding:
    at = f"{subject.say(head[0])} across, {subject.say(head[1])} deep, {subject.say(head[2])} up"
    closed = code == "fastener-closed-in"
    return Finding(
        Grade.CARE,
        code,
        tuple(p for p in f.parts if p),
        f"Once all fixed parts are on, no straight way leads to the head of screw {f.key} at {at}: it cannot be drawn up again."
        if closed
        else f"The head of screw {f.key} at {at} has no room for a key: it cannot be turned by {SWING:.0f}° on either arm.",
        f"an angled key has {SHORT:.0f} mm in line and {LONG:.0f} mm to swing, or {LONG:.0f} in line and {SHORT:.0f} to swing, over 60°; "
        "drawers are taken out and what turns is turned away",
        "geometry; arms of a hexagon key by ISO 2936, from memory",
        where(f.origin),
        (("arm in line", SHORT, "mm"), ("arm that swings", LONG, "mm")),
        "move the screw, leave the covering part to be screwed on last, or say when in the order it is drawn up",
    )
