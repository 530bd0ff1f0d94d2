"""What is set into the cuts of a joint, as solids: loose tenons, splines, keys, dowels, wedges, plugs, buttons.

Points and directions are given in the piece's axes, mm.
"""

from __future__ import annotations

from fractions import Fraction

from docgen.geometry.make import cross, stadium
from docgen.geometry.shapes import Extrusion, Frame, Outline, Vec, Vec2
from docgen.piece.model import Loose
from docgen.units import Number

FREE = {"inch": Fraction(254, 320), "mm": Fraction(1)}
"""mm: what a loose tenon leaves free at the end of each mortise for glue: 1/32 in or 1 mm. Common practice."""

Features = tuple[tuple[str, str], ...]
"""Part path and feature name."""

WIDE, THICK, LONG = 0, 1, 2
"""A thing's own axes, when it stands along its length."""


def placed(origin: Vec, x: Vec, z: Vec) -> Frame:
    """Return the frame at `origin` with x and z along two directions that are square to each other."""
    y = cross(z, x)
    return Frame(((x[0], y[0], z[0]), (x[1], y[1], z[1]), (x[2], y[2], z[2])), origin)


def _upright(outline: Outline, low: Number, high: Number) -> Extrusion:
    return Extrusion(outline, Frame(), float(low), float(high))


def tenon(
    middle: Vec, ways: tuple[Vec, Vec], size: tuple[Number, Number, Number], clear: Number, parts: tuple[str, ...],
    sits: Features,
) -> Loose:  # fmt: skip
    """Return a loose tenon, half in each part; `ways` are its width and its length, `size` thickness, width, length.

    Its edges are round, as its mortises' ends are.
    """
    thick, wide, long = size
    r = float(thick) / 2
    reach = float(wide) / 2 - r
    outline = stadium((-reach, 0.0), (reach, 0.0), r)
    told = (("thickness", thick), ("width", wide), ("length", long))
    half = long / 2
    return Loose(
        "loose tenon", _upright(outline, -half, half), placed(middle, *ways), LONG, LONG, told, parts, sits, clear
    )


def spline(
    middle: Vec, ways: tuple[Vec, Vec], size: tuple[Number, Number, Number], clear: Number, parts: tuple[str, ...],
    sits: Features, *, shows: bool,
) -> Loose:  # fmt: skip
    """Return a strip across a joint: `ways` run along the joint and across it; `size` thickness, width, length."""
    thick, wide, run = (float(v) for v in size)
    outline = Outline.rectangle(-run / 2, -thick / 2, run / 2, thick / 2)
    told = tuple(zip(("thickness", "width", "length"), size, strict=True))
    shape = _upright(outline, -wide / 2, wide / 2)
    return Loose("spline", shape, placed(middle, *ways), 2, 2, told, parts, sits, clear, shows, sheet=True)


def key(
    arris: Vec, ways: tuple[Vec, Vec], size: tuple[Number, Number], parts: tuple[str, ...], sits: Features
) -> Loose:
    """Return a key across a mitred corner, pared flush; `ways` run along the slot's bottom and along the arris.

    `arris` is the middle of the slot on it; `size` thickness and depth of the slot.
    """
    thick, deep = (float(v) for v in size)
    # placed() turns y by z × x: in from the arris when the ways are given so
    outline = Outline.polygon([(0.0, 0.0), (deep, deep), (-deep, deep)])
    told = (("thickness", size[0]), ("depth", size[1]), ("length", 2 * size[1]))
    shape = _upright(outline, -thick / 2, thick / 2)
    return Loose("key", shape, placed(arris, *ways), 0, 0, told, parts, sits, shows=True, leaves=(0.0, -1.0, 0.0))


def dowel(
    face: Vec, way: Vec, across: Vec, size: tuple[Number, Number], span: tuple[Number, Number], clear: Number,
    parts: tuple[str, ...], sits: Features,
) -> Loose:  # fmt: skip
    """Return a dowel through the joint at `face`; `span` is from–to along `way`, `size` diameter and length."""
    outline = Outline.circle((0.0, 0.0), float(size[0]) / 2)
    told = (("diameter", size[0]), ("length", size[1]))
    return Loose("dowel", _upright(outline, *span), placed(face, across, way), LONG, LONG, told, parts, sits, clear)


def wedge(
    tip: Vec, ways: tuple[Vec, Vec], size: tuple[Number, Number, Number], kerf: tuple[Number, float, float],
    parts: tuple[str, ...], sits: Features,
) -> Loose:  # fmt: skip
    """Return a wedge driven home: it fills its kerf at the bottom, and is as thick as it is made where the tenon ends.

    `tip` is the middle of the kerf there, `ways` run across the kerf, where the tenon is spread, and out of the tenon;
    `size` is thickness at the thick end, width, length. `kerf` is its width, what share of the spread goes to its low side
    (the rest goes to its high side), and the width for which the tenon has room.
    """
    thick, _, long = (float(v) for v in size)
    half, low, room = float(kerf[0]) / 2, kerf[1], kerf[2]
    spread = thick - 2 * half
    side: list[Vec2] = [
        (-half, -long),
        (half, -long),
        (half + (1 - low) * spread, 0.0),
        (-half - low * spread, 0.0),
    ]
    told = tuple(zip(("thickness", "width", "length"), size, strict=True))
    shape = _upright(Outline.polygon(side), -room / 2, room / 2)
    frame = placed(tip, ways[0], cross(*ways))
    return Loose("wedge", shape, frame, 1, 1, told, parts, sits, leaves=(0.0, 1.0, 0.0), driven=True)


def plug(mouth: Vec, way: Vec, grain: Vec, size: tuple[Number, Number], part: str, sits: Features) -> Loose:
    """Return a plug over a screw's head, its grain laid with the part's; `size` diameter and depth of its bore."""
    outline = Outline.circle((0.0, 0.0), float(size[0]) / 2)
    told = (("diameter", size[0]), ("depth", size[1]))
    shape = _upright(outline, 0, size[1])
    frame = placed(mouth, grain, way)
    return Loose("plug", shape, frame, 0, 2, told, (part,), sits, shows=True, leaves=(0.0, 0.0, -1.0))


def button(
    corner: Vec, ways: tuple[Vec, Vec], block: tuple[Number, Number, Number], tongue: tuple[Number, Number],
    parts: tuple[str, ...], sits: Features,
) -> Loose:  # fmt: skip
    """Return a button: `corner` is its tongue's tip under the top, in the middle of its width.

    `ways` run away from the apron with the grain, and along the apron; `block` is length, width, thickness, `tongue` how far
    it stands out and how thick it is. Its own y points down.
    """
    long, wide, thick = (float(v) for v in block)
    out, tall = (float(v) for v in tongue)
    side: list[Vec2] = [
        (0.0, thick - tall),
        (out, thick - tall),
        (out, 0.0),
        (long, 0.0),
        (long, thick),
        (0.0, thick),
    ]
    told = (("length", block[0]), ("width", block[1]), ("thickness", block[2]))
    shape = _upright(Outline.polygon(side), -wide / 2, wide / 2)
    return Loose("button", shape, placed(corner, *ways), 0, 0, told, parts, sits)
