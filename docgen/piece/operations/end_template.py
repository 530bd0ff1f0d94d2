"""The true-size outline of an end that is cut at a slant across the wide face."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.geometry.shapes import Outline
from docgen.piece.model import Part
from docgen.piece.operations.end_corner import planes
from docgen.piece.operations.ground import SAME, outward, positive, settled
from docgen.piece.records import OTHER_CUT, Face, Template
from docgen.units import Number, format_angle


def end_template(
    part: Part, end: Face, line: tuple[Number, Number], slopes: tuple[Number, Number], label: str
) -> Template:
    """Return the end's outline on the high wide face; `line` is where the cut meets its two edges, along the length."""
    gauge, lean = (float(positive(slope)) for slope in slopes)
    x0, x1, w = float(line[0]), float(line[1]), float(part.size[1])
    back = (min(x0, x1) - 1.5 * w) if end.side else (max(x0, x1) + 1.5 * w)
    far = float(part.size[0]) if end.side else 0.0
    stays = [(back, 0.0), (x0, 0.0), (x1, w), (back, w)]
    goes = [(x0, 0.0), (far, 0.0), (far, w), (x1, w)]
    if not end.side:
        stays, goes = stays[::-1], goes[::-1]
    goes = [p for n, p in enumerate(goes) if n == 0 or math.dist(p, goes[n - 1]) > SAME]
    return Template(
        title=f"{label}, {format_angle(settled(gauge))}",
        face=Face(2, 1),
        outline=Outline.polygon(stays),
        waste=(Outline.polygon(goes),) if len(goes) >= 3 and _area(goes) > 1 else (),
        datum=(((back, 0.0), (x0, 0.0)),),
        lines=tuple(_others(part, end, line)),
        grain=0.0,
        notes=(
            f"{format_angle(settled(gauge))} from square, {format_angle(settled(90 - gauge))} from the edge",
            *((f"the cut leans {format_angle(settled(lean))} through the thickness",) if lean > 0.05 else ()),
        ),
    )


def _others(
    part: Part, end: Face, line: tuple[Number, Number]
) -> Iterator[tuple[tuple[float, float], tuple[float, float], str]]:
    """Yield the lines of other cuts across this end on the wide face, from edge to edge."""
    width, thick = float(part.size[1]), float(part.size[2])
    for plane in planes(part):
        n, p = plane.normal, plane.point
        if n[0] * outward(end) < SAME:
            continue
        ends = [p[0] - (n[1] * (y - p[1]) + n[2] * (thick - p[2])) / n[0] for y in (0.0, width)]
        if max(abs(a - float(b)) for a, b in zip(ends, line, strict=True)) > SAME:
            yield (ends[0], 0.0), (ends[1], width), OTHER_CUT


def _area(points: list[tuple[float, float]]) -> float:
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return abs(sum(p[0] * q[1] - q[0] * p[1] for p, q in pairs)) / 2
