"""What leads a drill through a second part: the holes of the part that lies against it."""

from __future__ import annotations

import math

from docgen.geometry.shapes import Vec
from docgen.piece.model import Part, Piece
from docgen.piece.records import Authority, Feature, HoleRow, Point, Stage

SAME = 0.05
"""mm within which two holes are one size and in one line."""


def led_by(piece: Piece, part: Part, feature: Feature) -> str:
    """Return the part whose holes lead the drill, once both lie together: holes of one name and size in one line; "" for none."""
    own = [h for h in feature.made.holes if h.name]
    later = feature.stage is not Stage.PART or any(h.authority is Authority.MATE for h in own)
    for other in piece.parts if own and later else ():
        for first in (f for f in other.features if other.path != part.path and f.stage is Stage.PART):
            if all(any(_in_line(part, hole, other, guide) for guide in first.made.holes) for hole in own):
                return other.called
    return ""


def _in_line(part: Part, hole: HoleRow, other: Part, guide: HoleRow) -> bool:
    """Return whether a hole goes on where a through hole of the same name and size in another part ends."""
    if guide.name != hole.name or guide.depth is not None or abs(float(guide.diameter - hole.diameter)) > SAME:
        return False
    way, starts = other.frame.direction(guide.direction), [other.frame.point(_float(p)) for p in guide.points]
    return all(any(_aside(part.frame.point(_float(p)), at, way) < SAME for at in starts) for p in hole.points)


def _aside(point: Vec, start: Vec, way: Vec) -> float:
    """Return how far a point lies beside the line through `start` along the unit vector `way`."""
    off = [p - s for p, s in zip(point, start, strict=True)]
    along = sum(o * w for o, w in zip(off, way, strict=True))
    return math.dist(off, [along * w for w in way])


def _float(point: Point) -> Vec:
    return (float(point[0]), float(point[1]), float(point[2]))
