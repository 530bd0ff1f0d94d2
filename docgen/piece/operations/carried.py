"""Shapes and sizes that are worked out in the piece's axes, carried into those of a part that they cut."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from docgen.geometry.shapes import Shape, Vec
from docgen.piece.model import FACE_WORDS, Part
from docgen.piece.placement import direction_into, into, point_into
from docgen.piece.records import Cut, Face, Size


def size_into(part: Part, size: Size) -> Size:
    """Return a size of the piece's axes in the part's axes, best seen on the face its direction is square to."""
    return replace(
        size,
        start=point_into(part, size.start),
        end=point_into(part, size.end),
        along=direction_into(part, size.along),
        other=None if size.other is None else point_into(part, size.other),
    )


def facing(part: Part, direction: Vec) -> Face:
    """Return the face of the part that looks nearest along a direction of the piece."""
    d = direction_into(part, direction)
    axis = max(range(3), key=lambda i: abs(d[i]))
    return Face(axis, 1 if d[axis] > 0 else 0)


def cuts_into(part: Part, shapes: Iterable[Shape]) -> tuple[Cut, ...]:
    """Return shapes of the piece's axes as cuts of the part."""
    return tuple(Cut(into(part, s)) for s in shapes)


def piece_face(word: str) -> Face:
    """Return the direction that a face word means in the piece: its axis and side."""
    return Face(*FACE_WORDS[word])
