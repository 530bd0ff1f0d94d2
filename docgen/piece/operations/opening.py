"""What closed lines on a face have in common: places and sizes from the datum edges, all that lies outside or inside."""

from __future__ import annotations

from docgen.geometry.make import along_axis
from docgen.geometry.outlines import bounds
from docgen.geometry.shapes import Extrusion, Outline, Vec
from docgen.piece.faults import figure
from docgen.piece.model import Part
from docgen.piece.operations.ground import OVER, SAME, Ground, axis, in_plane, length, need
from docgen.piece.records import Axis, Face, Size, SizeKind
from docgen.units import Number

On = tuple[Number, Number]

LINES = "places run from the lines of the finished box, drawn on the rough blank, until the outline is cut"
"""What holds of a part whose whole outline is cut."""


def inside_face(part: Part, face: Face, outline: Outline, what: str, field: str, least: float = 0.0) -> None:
    """Raise a `Fault` unless `outline` lies within the nominal face, `least` mm from each of its sides."""
    (x0, y0), (x1, y1) = bounds(outline)
    for i, low, high in zip(in_plane(face), (x0, y0), (x1, y1), strict=True):
        size = float(part.size[i])
        need(
            low >= least - SAME and high <= size - least + SAME,
            "outside-part",
            f"the {what} reaches from {figure(low)} to {figure(high)} on the {('length', 'width', 'thickness')[i]} of "
            f"{part.path}, which goes from {figure(0)} to {figure(part.size[i])}",
            field,
            "a line inside the part" if not least else "wood left on all sides",
        )


def taken_inside(part: Part, face: Face, outline: Outline) -> Extrusion:
    """Return the cutter of what lies in `outline`, right through the part."""
    low, high = part.span(face.axis)
    return along_axis(outline, face.axis, float(low) - OVER, float(high) + OVER)


def taken_outside(part: Part, face: Face, outline: Outline) -> Extrusion:
    """Return the cutter of all that lies outside `outline`, right through the part."""
    u, v = (part.span(i) for i in in_plane(face))
    x0, y0, x1, y1 = float(u[0]) - OVER, float(v[0]) - OVER, float(u[1]) + OVER, float(v[1]) + OVER
    around = taken_inside(part, face, Outline.rectangle(x0, y0, x1, y1))
    return Extrusion(around.outline, around.frame, around.low, around.high, (outline,))


def centre_sizes(part: Part, face: Face, at: On, note: str = "") -> tuple[Size, Size]:
    """Return the distances of a centre from the two datum edges of the face."""
    ground = Ground(part, face)
    centre = ground.at(*at)
    one, two = (
        length(_zero(centre, i), centre, axis(i), at[k], (f"at.{k}",), face, note=note)
        for k, i in enumerate(ground.axes)
    )
    return one, two


def across_sizes(part: Part, face: Face, at: On, sizes: On, names: tuple[str, str], label: str) -> tuple[Size, Size]:
    """Return how far a line reaches on the two axes of the face, through its middle; the first carries the label."""
    ground = Ground(part, face)
    out = []
    for k, i in enumerate(ground.axes):
        ends = [tuple(v + (s * sizes[k] / 2 if n == k else 0) for n, v in enumerate(at)) for s in (-1, 1)]
        low, high = ground.at(*ends[0]), ground.at(*ends[1])
        out.append(length(low, high, axis(i), sizes[k], (names[k],), face, label=label))
    return out[0], out[1]


def diameter_size(part: Part, face: Face, at: On, diameter: Number, label: str) -> Size:
    """Return the diameter of a circle on the face."""
    ground = Ground(part, face)
    rim = ground.at(at[0] + diameter / 2, at[1])
    return Size(
        SizeKind.DIAMETER,
        ground.at(*at),
        rim,
        axis(face.axis),
        diameter,
        ("diameter",),
        face,
        label=label,
        note="through",
    )


def _zero(p: Vec, i: Axis) -> Vec:
    a, b, c = (0.0 if n == i else v for n, v in enumerate(p))
    return (a, b, c)
