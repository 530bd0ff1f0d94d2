"""Screws and holes that run through a mortise, a groove or another pocket of the same part."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.drilled import Drilled, drilled
from docgen.checks.finding import Finding, Grade
from docgen.checks.oriented import Oriented, apart
from docgen.checks.subject import Subject, where
from docgen.checks.trenches import trenches
from docgen.geometry.make import box, frame_along
from docgen.geometry.shapes import Extrusion, Frame, Shape
from docgen.geometry.solids import common, made
from docgen.piece.model import Part
from docgen.piece.records import Feature, Purpose

TITLE = "screws and holes through mortises and grooves"
CODES = ("screw-through-pocket", "hole-into-pocket")
LOOKS = looks.Looks(looks.holes)

SCREWS = (Purpose.CLEARANCE, Purpose.PILOT, Purpose.TAPPED)

LEAST = 1.0  # mm³ of a hole in a pocket; less is a touch
TOUCH = 0.1  # mm


def check(subject: Subject) -> Iterator[Finding]:
    """Yield, once for a row and a pocket, holes of a part that run into a pocket of another joint."""
    for part in subject.piece.parts:
        holes = list(drilled(part))
        if not holes:
            continue
        told: set[tuple[str, str, str]] = set()
        for feature, shape, around in _pockets(subject, part):
            for hole in holes:
                key = (feature.name, hole.feature.name, hole.row.name)
                if key in told or _belong(subject, part, hole, feature) or apart(_around(hole), around) > -TOUCH:
                    continue
                inside = common(made(hole.shape(), 1e5), made(shape, 1e5))
                if inside > LEAST:
                    told.add(key)
                    yield _finding(part, hole, feature, inside)


def _pockets(subject: Subject, part: Part) -> Iterator[tuple[Feature, Shape, Oriented]]:
    """Yield the pockets and trenches of a part, with their boxes in its axes."""
    for cavity in subject.cavities(part.path):
        shape = cavity.shape
        low, high = sorted((cavity.mouth, cavity.bottom))
        yield cavity.feature, Extrusion(shape.outline, shape.frame, low, high), cavity.oriented()
    known = {c.feature.name for c in subject.cavities(part.path)}
    for trench in trenches(part):
        if trench.feature.name not in known:
            yield trench.feature, box(trench.low, trench.high), Oriented.of(trench.low, trench.high, Frame())


def _around(hole: Drilled) -> Oriented:
    r = hole.radius
    return Oriented.of((-r, -r, 0.0), (r, r, hole.length), frame_along(hole.start, hole.way))


def _belong(subject: Subject, part: Part, hole: Drilled, pocket: Feature) -> bool:
    """Return True when one joint made both, or the hole's mate is what the pocket takes: then one holds the other."""
    return pocket.name == hole.feature.name or any(
        (part.path, pocket.name) in joint.features
        and ((part.path, hole.feature.name) in joint.features or hole.row.mate in joint.parts)
        for joint in subject.piece.joints
    )


def _finding(part: Part, hole: Drilled, pocket: Feature, inside: float) -> Finding:
    screw = hole.row.purpose in SCREWS
    return Finding(
        Grade.CARE,
        "screw-through-pocket" if screw else "hole-into-pocket",
        (part.path,),
        f"{hole.feature.title} of {part.path} runs through {pocket.title}"
        + (": the screw finds no wood there, or goes through what lies in it." if screw else "."),
        "a fastener's hole keeps clear of the mortises and grooves of other joints",
        "solids of the hole and of the cutter; common practice",
        where(hole.feature.origin, pocket.origin, part.origin),
        (("of the hole in the pocket", inside, "mm³"),),
        "move the screw past the pocket, or shorten it",
    )
