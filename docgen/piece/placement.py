"""Where a part stands: from its box and the way of its grain to its axes, its face words and its placement.

Part axes at rest: length along + of the grain's axis, width along + of its axis, thickness along + or − so that
the frame is right-handed; then the turns, innermost first.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from docgen.geometry.make import cross
from docgen.geometry.shapes import Extrusion, Frame, HalfSpace, Revolution, Shape, Vec, turned
from docgen.piece.faults import Fault, figure
from docgen.piece.model import FACE_WORDS, Part
from docgen.piece.records import Face
from docgen.units import Number

DIRECTIONS = ("across", "deep", "up")

Span = tuple[Number, Number]
Box = tuple[Span, Span, Span]
Turn = tuple[int, Number, Number, Number]
"""Axis of the piece, degrees, and the place of the axis line on the two other axes in rising order."""

SAME = 1e-6
"""A thickness closer than this to a span is that span, mm."""

LEAST = Fraction(1, 100)
"""The least extent of a part, mm: under it there is no wood to speak of, and no solid can be made."""


@dataclass(frozen=True, slots=True)
class Placement:
    """What a part gets from its box: fields of the same names in `Part`."""

    size: tuple[Number, Number, Number]
    frame: Frame
    rest: Frame
    words: tuple[tuple[str, Face], ...]
    box: Box


def place(box: Box, grain: str, thickness: Number, turns: tuple[Turn, ...] = (), show: str | None = None) -> Placement:
    """Return the placement of a part whose material is `thickness` thick; `Fault` when the box cannot be.

    The thickness lies along the axis whose span is the material's thickness. Square stuff has two: it is square to the face
    `show`; else a rail stands on edge, as one that carries does, and a post is as thick as it is deep.
    """
    for word, (low, high) in zip(DIRECTIONS, box, strict=True):
        if high - low < LEAST:
            found = "its length is negative" if low > high else "it has no extent"
            raise Fault(
                "box-empty",
                f"the box goes {word} from {figure(low)} to {figure(high)}: "
                + (found if low >= high else f"less than {figure(LEAST)}"),
                "box",
                "a second figure that is greater than the first",
            )
    length = DIRECTIONS.index(grain)
    spans = tuple(high - low for low, high in box)
    thick = _thickness_axis(spans, length, thickness, show)
    width = 3 - length - thick
    signed = cross(_unit(length), _unit(width))
    rest = _rest(box, (length, width, thick), signed[thick])
    frame = rest
    for axis, degrees, first, second in turns:
        j, k = (i for i in range(3) if i != axis)
        about = [0.0, 0.0, 0.0]
        about[j], about[k] = float(first), float(second)
        frame = turned(axis, float(degrees), (about[0], about[1], about[2])).after(frame)
    size = (spans[length], spans[width], spans[thick])
    return Placement(size, frame, rest, _words((length, width, thick), signed[thick] < 0), box)


def _thickness_axis(spans: tuple[Number, ...], length: int, thickness: Number, show: str | None) -> int:
    fits = [i for i in range(3) if abs(float(spans[i]) - float(thickness)) < SAME]
    across = [i for i in fits if i != length]
    if across:
        shown = FACE_WORDS[show][0] if show else None
        level = [i for i in across if DIRECTIONS[i] != "up"]
        return shown if shown in across else level[-1] if level else across[-1]
    told = ", ".join(f"{figure(s)} {w}" for w, s in zip(DIRECTIONS, spans, strict=True))
    if fits:
        raise Fault(
            "grain-thickness",
            f"the grain runs {DIRECTIONS[length]}, where the box measures the material's thickness: {told}",
            "grain",
            "a grain that runs along the length or the width",
        )
    raise Fault(
        "thickness-differs",
        f"the material is {figure(thickness)} thick, but the box measures {told}",
        "box",
        "one extent, not along the grain, that equals the material's thickness",
    )


def _unit(i: int) -> Vec:
    return (float(i == 0), float(i == 1), float(i == 2))


def _rest(box: Box, order: tuple[int, int, int], thickness_sign: float) -> Frame:
    length, width, thick = order
    columns = (_unit(length), _unit(width), tuple(thickness_sign * c for c in _unit(thick)))
    rows = tuple(tuple(columns[j][i] + 0.0 for j in range(3)) for i in range(3))
    corner = [0.0, 0.0, 0.0]
    corner[length], corner[width] = float(box[length][0]), float(box[width][0])
    corner[thick] = float(box[thick][0] if thickness_sign > 0 else box[thick][1])
    return Frame(rows, (corner[0], corner[1], corner[2]))  # type: ignore[arg-type]


def _words(order: tuple[int, int, int], flipped: bool) -> tuple[tuple[str, Face], ...]:
    words = []
    for word, (direction, side) in FACE_WORDS.items():
        axis = order.index(direction)
        words.append((word, Face(axis, 1 - side if axis == 2 and flipped else side)))
    return tuple(words)


def moved(shape: Shape, frame: Frame) -> Shape:
    """Return the same shape in the outer frame into which `frame` places its own."""
    if isinstance(shape, HalfSpace):
        return HalfSpace(frame.point(shape.point), frame.direction(shape.normal))
    if isinstance(shape, Extrusion):
        return replace(shape, frame=frame.after(shape.frame))
    assert isinstance(shape, Revolution)
    return replace(shape, frame=frame.after(shape.frame))


def into(part: Part, shape: Shape) -> Shape:
    """Return a shape of the piece's axes in the part's."""
    return moved(shape, part.frame.inverse())


def point_into(part: Part, point: Vec) -> Vec:
    """Return a point of the piece's axes in the part's."""
    return part.frame.inverse().point(point)


def direction_into(part: Part, direction: Vec) -> Vec:
    """Return a direction of the piece's axes in the part's."""
    return part.frame.inverse().direction(direction)
