"""Knots and joinery where cuts take the wood away: beside joints, at rounded corners, and near the corners of a running blank."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.checks import looks
from docgen.checks.drilled import Drilled, drilled
from docgen.checks.finding import Finding, Grade
from docgen.checks.oriented import Oriented, apart
from docgen.checks.subject import Subject, where
from docgen.geometry.cutters import SolidFault
from docgen.geometry.make import cylinder, frame_along
from docgen.geometry.outlines import bounds
from docgen.geometry.shapes import Extrusion, HalfSpace, Shape, Vec
from docgen.geometry.solids import common, made
from docgen.piece.model import Part, Run
from docgen.piece.records import Defect, Feature, Origin, Stage

TITLE = "knots and joinery where later cuts go"
CODES = ("knot-in-cut", "knot-at-corner", "hole-in-later-cut")
LOOKS = looks.Looks(looks.knots)

MARGIN = 3.0
"""mm of sound wood between a knot and a cut, about 1/8 in. Common practice."""

LEAST = 1.0  # mm³ shared; less is a touch
ROOT2 = math.sqrt(2.0)


@dataclass(frozen=True, slots=True)
class Flaw:
    """A knot in the part's axes: its line into the wood and its radius, mm."""

    feature: Feature
    defect: Defect
    start: Vec
    way: Vec

    def grown(self, by: float) -> Extrusion:
        """Return the knot with a margin all round, as a solid of data."""
        return cylinder(
            self.start, self.way, float(self.defect.diameter) / 2 + by, float(self.defect.depth) + by, before=by
        )


def flaws(part: Part) -> Iterator[Flaw]:
    """Yield the stated knots of a part."""
    for feature in part.features:
        for defect in feature.made.defects:
            way = [0.0, 0.0, 0.0]
            way[defect.face.axis] = -1.0 if defect.face.side else 1.0
            p = defect.point
            yield Flaw(feature, defect, (float(p[0]), float(p[1]), float(p[2])), (way[0], way[1], way[2]))


def check(subject: Subject) -> Iterator[Finding]:
    """Yield knots nearer than 3 mm to a cut or within the corner of a running blank, and holes that a later cut opens."""
    for part in subject.piece.parts:
        for flaw in flaws(part):
            yield from _beside_cuts(part, flaw)
            yield from _at_corners(subject, part, flaw)
        yield from _opened(part)


def _beside_cuts(part: Part, flaw: Flaw) -> Iterator[Finding]:
    for feature in part.features:
        if any(_shares(flaw.grown(MARGIN), cut.shape, part) > LEAST for cut in feature.made.cuts):
            yield Finding(
                Grade.CARE,
                "knot-in-cut",
                (part.path,),
                f"The {flaw.defect.what} of {part.path} lies in {feature.title}, or within 3 mm of it.",
                "3 mm (1/8 in) of sound wood between a knot and any joint, hole or shaped edge",
                "common practice: wild grain tears out, and a tongue or a thread does not hold in it",
                where(flaw.feature.origin, feature.origin, part.origin),
                (("diameter", float(flaw.defect.diameter), "mm"),),
                "turn the board end for end, choose another, or move the joint",
            )


def _shares(knot: Extrusion, cutter: Shape, part: Part) -> float:
    """Return how much of a grown knot a cutter would take, mm³; the boxes are asked first."""
    if isinstance(cutter, HalfSpace):
        reach = knot.high - knot.low
        radius = (bounds(knot.outline)[1][0] - bounds(knot.outline)[0][0]) / 2
        middle = knot.frame.point((0.0, 0.0, (knot.low + knot.high) / 2))
        beyond = sum((middle[i] - cutter.point[i]) * cutter.normal[i] for i in range(3))
        if beyond < -math.hypot(radius, reach / 2):
            return 0.0
    elif isinstance(cutter, Extrusion) and apart(_box(knot), _box(cutter)) >= 0:
        return 0.0
    try:
        return common(made(knot, 1e5), made(cutter, 10 * max(float(s) for s in part.size)))
    except SolidFault:
        return 0.0


def _box(shape: Extrusion) -> Oriented:
    (x0, y0), (x1, y1) = bounds(shape.outline)
    return Oriented.of((x0, y0, shape.low), (x1, y1, shape.high), shape.frame)


def _at_corners(subject: Subject, part: Part, flaw: Flaw) -> Iterator[Finding]:
    """Yield a knot so near the end of a part of a running blank that the saw or the rounding of the corner takes it."""
    for run in subject.piece.runs:
        if part.path not in run.parts:
            continue
        kerf = next((b.kerf for b in subject.schedules.blanks if b.name == run.name), 0)
        zone = float(part.size[2]) + float(kerf) / ROOT2 + MARGIN
        edge = float(flaw.defect.diameter) / 2
        near = min((d - edge for d in _to_ends(subject, part, run, flaw)), default=math.inf)
        if near < zone - 1e-6:
            yield _corner_finding(subject, part, run, flaw, (near, zone))


def _to_ends(subject: Subject, part: Part, run: Run, flaw: Flaw) -> Iterator[float]:
    """Yield the distances from the knot's middle to the ends of the part that meet its neighbours in the run."""
    n, long = run.parts.index(part.path), float(part.size[0])
    ends = [part.frame.point((x, float(part.size[1]) / 2, float(part.size[2]) / 2)) for x in (0.0, long)]
    for k in (n - 1, n + 1):
        if run.closed or 0 <= k < len(run.parts):
            other = subject.oriented(run.parts[k % len(run.parts)]).middle
            yield flaw.start[0] if math.dist(ends[0], other) < math.dist(ends[1], other) else long - flaw.start[0]


def _corner_finding(subject: Subject, part: Part, run: Run, flaw: Flaw, by: tuple[float, float]) -> Finding:
    near, zone = by
    return Finding(
        Grade.CARE,
        "knot-at-corner",
        (part.path,),
        f"The {flaw.defect.what} of {part.path} ends {subject.say(near)} from the corner; over {subject.say(zone)} there the blank {run.name} is "
        "sawn, mitred and shaped.",
        "thickness + kerf / √2 + 3 mm on both sides of a corner of a running blank stay free of knots",
        "geometry of the mitre; the margin is common practice",
        where(flaw.feature.origin, run.origin, part.origin),
        (("from the corner", near, "mm"), ("kept free", zone, "mm")),
        "shift the parts along the blank, or choose another board",
    )


def _opened(part: Part) -> Iterator[Finding]:
    """Yield holes that are drilled first and that a cut after glue-up, or at the fitting, opens from the side."""
    later = [f for f in part.features if f.stage is not Stage.PART and not f.made.holes]
    for hole in drilled(part) if later else ():
        if hole.feature.stage is not Stage.PART:
            continue
        for feature in later:
            if any(_opens(hole, cut.shape, part) for cut in feature.made.cuts):
                yield _opened_finding(part, hole, feature)


def _opens(hole: Drilled, cutter: Shape, part: Part) -> bool:
    if isinstance(cutter, Extrusion):
        r = hole.radius
        around = Oriented.of((-r, -r, 0.0), (r, r, hole.length), frame_along(hole.start, hole.way))
        if apart(around, _box(cutter)) >= 0:
            return False
    return _shares(hole.shape(), cutter, part) > LEAST


def _opened_finding(part: Part, hole: Drilled, feature: Feature) -> Finding:
    origin: Origin = hole.feature.origin
    return Finding(
        Grade.CARE,
        "hole-in-later-cut",
        (part.path,),
        f"{hole.feature.title} of {part.path} lie where {feature.title} goes: the cutter runs into the hole, or into its screw.",
        "what is drilled or screwed first keeps clear of what is cut after glue-up",
        "solids of hole and cutter; common practice",
        where(origin, feature.origin, part.origin),
        (),
        "move the hole, or drill it after that cut",
    )
