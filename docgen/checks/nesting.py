"""Inset fronts in their openings: an even gap at the corners, where radius meets radius."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.checks.finding import Finding, Grade
from docgen.checks.rays import first_wood
from docgen.checks.subject import Subject, boxes_meet, where
from docgen.geometry.shapes import Vec
from docgen.piece.model import Drawer, Part, Piece

TITLE = "corners of inset fronts against their openings"
CODES = ("front-corner-gap",)

WIDEST = 1.5
"""A corner gap over so many times the gap along the sides is seen: a square corner in a square one has 1.41. Common practice."""

TIGHTEST = 0.5
"""A corner gap under so many times the gap along the sides rubs. Common practice."""


def front_of(piece: Piece, drawer: Drawer) -> Part | None:
    """Return the drawer's front: of its parts the one that stands furthest forward; None for a drawer without parts."""
    parts = [piece.part(p) for p in drawer.parts]
    return min(parts, key=lambda p: (_forward(p), p.number), default=None)


def _forward(part: Part) -> float:
    x, y, z = (float(s) for s in part.size)
    return min(part.frame.point((a, b, c))[1] for a in (0.0, x) for b in (0.0, y) for c in (0.0, z))


def check(subject: Subject) -> Iterator[Finding]:
    """Yield corners of a front where the gap to the case is much wider or narrower than along its sides."""
    for drawer in subject.piece.drawers:
        front = front_of(subject.piece, drawer)
        if front is None or drawer.gap <= 0:
            continue
        for word, gap in _gaps(subject, drawer, front):
            if TIGHTEST * float(drawer.gap) <= gap <= WIDEST * float(drawer.gap):
                continue
            yield Finding(
                Grade.CARE,
                "front-corner-gap",
                (front.path,),
                f"At the {word} corner of {front.path} the gap is {subject.say(gap)}, along its sides {subject.say(drawer.gap)}.",
                "radius of the part that nests = radius that the cutter leaves in the rabbet's corner − gap",
                "geometry of two arcs with one centre; how uneven a gap may be is common practice",
                where(drawer.origin, front.origin),
                (("gap at the corner", gap, "mm"), ("gap along the sides", float(drawer.gap), "mm")),
                "give the front's corner the rabbet's radius less the gap, or square both",
            )


def _gaps(subject: Subject, drawer: Drawer, front: Part) -> Iterator[tuple[str, float]]:
    """Yield (corner, gap along its diagonal) for the corners of the front beyond which wood stands on the diagonal."""
    low, high = subject.placed(front.path).bounds
    level = (low[1] + high[1]) / 2
    inset = min(high[0] - low[0], high[2] - low[2]) / 2
    reach = 4.0 * float(drawer.gap) + 10.0
    near = [
        p.path
        for p in subject.piece.parts
        if p.path not in drawer.parts and boxes_meet(subject.placed(p.path).bounds, (low, high), reach)
    ]
    for side, sx in (("left", -1.0), ("right", 1.0)):
        for height, sz in (("top", 1.0), ("bottom", -1.0)):
            start: Vec = (
                (high[0] if sx > 0 else low[0]) - sx * inset,
                level,
                (high[2] if sz > 0 else low[2]) - sz * inset,
            )
            way: Vec = (sx / math.sqrt(2), 0.0, sz / math.sqrt(2))
            own = subject.mesh(front.path).wood(start, way)
            if not own:
                continue
            leaves = own[-1][1]
            meets = [d for p in near if (d := first_wood(subject.mesh(p), start, way)) is not None]
            nearest = min(meets, default=math.inf)
            if nearest - leaves <= reach:
                yield f"{height} {side}", nearest - leaves
