"""Work that meets no wood: features whose cutters take nothing away, holes whose mouths lie beside their part."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.outlines import bounds, flatten, on_circle, pieces, sweep
from docgen.geometry.shapes import Extrusion, HalfSpace, Outline, Revolution, Vec, Vec2
from docgen.geometry.solids import SolidFault, blank, cut
from docgen.piece.model import Part
from docgen.piece.records import Feature

TITLE = "cuts that take nothing and holes beside their part"
CODES = ("cut-in-air", "hole-beside-part")
LOOKS = looks.Looks(looks.cuts)

LEAST = 0.5  # mm³
SAME = 1e-6  # mm
INSIDE = 0.1  # mm under the blank's surface
HAIR = 0.3  # mm off an arc or an axis
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
    """Return True when a line or a corner of one of the cutters surely lies in the blank, which needs no solids."""
    low, high = _inside(part)
    for cut_ in feature.made.cuts:
        shape = cut_.shape
        if isinstance(shape, HalfSpace):
            corners = product(*zip(low, high, strict=True))
            if any(sum((c[i] - shape.point[i]) * shape.normal[i] for i in range(3)) > 0 for c in corners):
                return True
        elif any(all(low[i] < p[i] < high[i] for i in range(3)) for p in _points(shape)):
            return True
    return False


def _points(shape: Extrusion | Revolution) -> Iterator[Vec]:
    """Yield points that surely lie inside a cutter: along lines through its outline, or near its axis."""
    if isinstance(shape, Revolution):
        if min(e.end[0] for e in shape.profile.edges) > 0:  # a ring: the wood at its axis stays
            return
        flat, runs = [(HAIR, 0.0)], [e.end[1] for e in shape.profile.edges]
        low, high = min(runs), max(runs)
    elif shape.holes:  # what lies in them stays
        return
    else:
        flat, low, high = list(_sure(shape.outline)), shape.low, shape.high
    for x, y in flat:
        for k in range(STEPS + 1):
            yield shape.frame.point((x, y, low + (high - low) * k / STEPS))


def _inside(part: Part) -> tuple[Vec, Vec]:
    """Return the corners of the blank's box, drawn in so far that what lies there is surely more than a touch."""
    spans = [part.span(i) for i in range(3)]
    low = (float(spans[0][0]) + INSIDE, float(spans[1][0]) + INSIDE, float(spans[2][0]) + INSIDE)
    return low, (float(spans[0][1]) - INSIDE, float(spans[1][1]) - INSIDE, float(spans[2][1]) - INSIDE)


def _sure(outline: Outline) -> Iterator[Vec2]:
    """Yield points that surely lie inside an outline: its middle when it has no hollows, else the middles of its ears."""
    points = [e.end for e in outline.edges]
    n = len(points)
    (x0, y0), (x1, y1) = bounds(outline)
    arcs = [e for e in outline.edges if e.centre is not None]
    if all(e.ccw for e in arcs) and (n < 3 or all(_left(points[i - 2], points[i - 1], points[i]) for i in range(n))):
        yield (x0 + x1) / 2, (y0 + y1) / 2
        return
    for start, edge in pieces(outline):
        if edge.centre is not None and not edge.ccw:  # hollow: wood is taken just outside the arc
            radius, at, turn = sweep(start, edge)
            yield on_circle(edge.centre, radius + HAIR, at + turn / 2)
    points = list(flatten(outline, sag=1.0, least=4))
    for i, here in enumerate(points):
        before, after = points[i - 1], points[(i + 1) % len(points)]
        corner = (before, here, after)
        if _area(*corner) > 1e-6 and not any(_holds(corner, q) for q in points if q not in corner):
            yield (before[0] + here[0] + after[0]) / 3, (before[1] + here[1] + after[1]) / 3


def _area(a: Vec2, b: Vec2, c: Vec2) -> float:
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])


def _holds(corner: tuple[Vec2, Vec2, Vec2], q: Vec2) -> bool:
    return all(_area(corner[i - 1], corner[i], q) >= 0 for i in range(3))


def _left(a: Vec2, b: Vec2, c: Vec2) -> bool:
    return _area(a, b, c) >= -1e-9


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
