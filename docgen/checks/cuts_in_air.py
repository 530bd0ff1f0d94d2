"""Work that meets no wood: features whose cutters take nothing away, holes whose mouths lie beside their part."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.outlines import bounds
from docgen.geometry.shapes import Extrusion, Outline, Vec2
from docgen.geometry.solids import SolidFault, blank, cut
from docgen.piece.model import Part
from docgen.piece.records import Feature

TITLE = "cuts that take nothing and holes beside their part"
CODES = ("cut-in-air", "hole-beside-part")

LEAST = 0.5  # mm³
SAME = 1e-6  # mm
INSIDE = 0.5  # mm under the blank's surface
STEPS = 12


def check(subject: Subject) -> Iterator[Finding]:
    """Yield features that leave the blank as it was, and hole centres outside the blank."""
    for part in subject.piece.parts:
        for feature in part.features:
            if feature.made.cuts and not _surely_cuts(part, feature) and _removed(part, feature) < LEAST:
                yield Finding(
                    Grade.CARE,
                    "cut-in-air",
                    (part.path,),
                    f"{feature.title} of {part.path} takes no wood away: its cutter does not meet the part.",
                    "every cutter takes at least 0.5 mm³ of its part's blank",
                    "solids of blank and cutter",
                    where(feature.origin, part.origin),
                    advice="move it into the part, or leave it out",
                )
            yield from _holes(subject, part, feature)


def _surely_cuts(part: Part, feature: Feature) -> bool:
    """Return True when the middle line of one of the cutters runs through the blank, which needs no solids.

    Only cutters whose outline surely holds the middle of its box are looked at: circles, and outlines without hollows.
    """
    spans = [(float(a) + INSIDE, float(b) - INSIDE) for a, b in (part.span(i) for i in range(3))]
    for cut_ in feature.made.cuts:
        shape = cut_.shape
        if not isinstance(shape, Extrusion) or not _hollowless(shape.outline):
            continue
        (x0, y0), (x1, y1) = bounds(shape.outline)
        for k in range(STEPS + 1):
            z = shape.low + (shape.high - shape.low) * k / STEPS
            p = shape.frame.point(((x0 + x1) / 2, (y0 + y1) / 2, z))
            if all(a < p[i] < b for i, (a, b) in enumerate(spans)):
                return True
    return False


def _hollowless(outline: Outline) -> bool:
    """Return True for a full circle, and for an outline that turns left at all corners with arcs that bulge outward."""
    points = [e.end for e in outline.edges]
    if any(e.centre is not None and not e.ccw for e in outline.edges):
        return False
    n = len(points)
    return n < 3 or all(_left(points[i - 2], points[i - 1], points[i]) for i in range(n))


def _left(a: Vec2, b: Vec2, c: Vec2) -> bool:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) >= -1e-9


def _removed(part: Part, feature: Feature) -> float:
    """Return how much of the blank the feature takes, mm³; all of it when nothing is left."""
    spans = [part.span(i) for i in range(3)]
    whole = blank([s[0] for s in spans], [s[1] for s in spans])
    try:
        return whole.volume - cut(whole, [c.shape for c in feature.made.cuts]).volume
    except SolidFault:
        return whole.volume


def _holes(subject: Subject, part: Part, feature: Feature) -> Iterator[Finding]:
    for hole in feature.made.holes:
        plane = [i for i in range(3) if i != hole.face.axis]
        for point in hole.points:
            out = max(max(part.span(i)[0] - point[i], point[i] - part.span(i)[1]) for i in plane)
            if out > SAME:
                yield Finding(
                    Grade.STOP,
                    "hole-beside-part",
                    (part.path,),
                    f"A hole {hole.name} of {part.path} has its centre {subject.say(out)} outside the part.".replace(
                        "  ", " "
                    ),
                    "a hole's centre lies on the face that it is drilled into",
                    "records of the hole and the part's blank",
                    where(feature.origin, part.origin),
                    (("outside by", float(out), "mm"),),
                    "move the hole",
                )
