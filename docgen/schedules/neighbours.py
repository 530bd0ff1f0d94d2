"""What stands beside a part that no joint holds: at which of its edges another part closes its place, with which it is flush."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from docgen.geometry.inside import holds
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import Face
from docgen.units import Number

BEYOND = 0.5
"""mm past an edge or a gap at which it is asked what lies there."""

PLACES = (0.25, 0.5, 0.75)
"""Where along an edge it is asked, as parts of its length: round corners lie at its ends."""


@dataclass(frozen=True, slots=True)
class Beside:
    """A part at one edge of another: beyond the gap there, or flush with it."""

    face: Face
    path: str
    flush: bool = False


def neighbours(part: Part, gap: Number, among: Sequence[Part]) -> tuple[Beside, ...]:
    """Return what stands beside the four edges of a part, length first: what closes its place, else what it is flush with."""
    out: list[Beside] = []
    for face in (Face(axis, side) for axis in (0, 1) for side in (0, 1)):
        closing = next((q for q in among if _closes(part, face, float(gap), q)), None)
        flush = None if closing is not None else next((q for q in among if _flush(part, face, q)), None)
        if closing is not None:
            out.append(Beside(face, closing.path))
        elif flush is not None:
            out.append(Beside(face, flush.path, flush=True))
    return tuple(out)


def wood_at(part: Part, point: Vec) -> bool:
    """Return whether a point of the piece's axes lies in the wood of a part; the arcs of cuts count as their chords."""
    own = part.frame.inverse().point(point)
    spans = (part.span(i) for i in range(3))
    if not all(float(low) <= own[i] <= float(high) for i, (low, high) in enumerate(spans)):
        return False
    return not any(holds(cut.shape, own) for feature in part.features for cut in feature.made.cuts)


def _closes(part: Part, face: Face, gap: float, other: Part) -> bool:
    near, far = (_along(part, face, out, 0.5) for out in (gap / 2, gap + BEYOND))
    return any(wood_at(other, b) and not wood_at(other, a) for a, b in zip(near, far, strict=True))


def _flush(part: Part, face: Face, other: Part) -> bool:
    """Return whether another part that lies before or behind a part ends where its edge does."""
    thick = float(part.size[2])
    for deep in (-BEYOND / thick, 1 + BEYOND / thick):
        inside, outside = (_along(part, face, out, deep) for out in (-BEYOND, BEYOND))
        if any(wood_at(other, a) and not wood_at(other, b) for a, b in zip(inside, outside, strict=True)):
            return True
    return False


def _along(part: Part, face: Face, out: float, deep: float) -> Iterator[Vec]:
    """Yield points along an edge, `out` mm outside of it and `deep` into the thickness (1: all through); piece axes."""
    run = 1 - face.axis
    for place in PLACES:
        at = [0.0, 0.0, deep * float(part.size[2])]
        at[run] = place * float(part.size[run])
        at[face.axis] = float(part.size[face.axis]) + out if face.side else -out
        yield part.frame.point((at[0], at[1], at[2]))
