"""Holes too near the edge or the end of their part, measured on the finished solid."""

from __future__ import annotations

import math
from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.make import cross, unit
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import Feature, HoleRow, Purpose

TITLE = "holes near edges and ends"
CODES = ("hole-breaks-out", "hole-near-edge", "hole-near-end")
LOOKS = looks.Looks(looks.holes)

EDGE = 1.5
"""Diameters from a hole's centre to an edge. Source: National Design Specification for Wood, Table 12.5.1C, from memory."""

DOWEL = 1.0
"""Diameters from a dowel's centre to an edge: a dowel takes up to half of the thickness. Common practice."""

END = 4.0
"""Diameters from a bolt's or screw's centre to an end. Source: the same, Table 12.5.1A (perpendicular or compression), from memory."""

LOADED = (Purpose.CLEARANCE, Purpose.TAPPED, Purpose.PILOT)
"""Holes in which a screw pulls at the wood; dowels, pegs and sleeves only have to keep off the edge."""

WAYS = 16
GRAINED = 0.7  # how far the plane square to a hole must hold the grain for it to have ends
SAME = 1e-3  # mm


def check(subject: Subject) -> Iterator[Finding]:
    """Yield holes whose centre is nearer than 1.5 diameters to an edge, or a screw's nearer than 4 to an end."""
    for part in subject.piece.parts:
        for feature in part.features:
            for hole in feature.made.holes:
                yield from _hole(subject, part, feature, hole)


def _hole(subject: Subject, part: Part, feature: Feature, hole: HoleRow) -> Iterator[Finding]:
    """Yield at most one finding of each code for a row: that of the hole that is worst off."""
    worst: dict[str, float] = {}
    for point in hole.points:
        edge, end = _distances(subject, part, hole, (float(point[0]), float(point[1]), float(point[2])))
        worst["edge"] = min(edge, worst.get("edge", math.inf))
        worst["end"] = min(end, worst.get("end", math.inf))
    if not worst:
        return
    d = float(hole.diameter)
    nearest = min(worst.values())
    if nearest <= d / 2 + SAME:
        yield _finding(subject, part, feature, hole, Grade.STOP, "hole-breaks-out", "the rim", nearest, 0.5)
        return
    edge = DOWEL if hole.purpose is Purpose.DOWEL else EDGE
    if worst["edge"] < edge * d - SAME:
        yield _finding(subject, part, feature, hole, Grade.CARE, "hole-near-edge", "an edge", worst["edge"], edge)
    solid_wood = part.material.solid_wood
    least = END if solid_wood and hole.purpose in LOADED else edge
    if worst["end"] < least * d - SAME:
        yield _finding(subject, part, feature, hole, Grade.CARE, "hole-near-end", "an end", worst["end"], least)


def _distances(subject: Subject, part: Part, hole: HoleRow, mouth: Vec) -> tuple[float, float]:
    """Return the distance from the hole's axis to the nearest edge and the nearest end of the wood, mm.

    Rays run square to the hole from the middle of its depth: along the grain for the ends, 45° and more across it for
    the edges. The wood's far side counts, so that a neighbouring hole is no edge; a ray that meets no wood gives 0.
    A hole in end grain has edges all round and no end.
    """
    into = unit(hole.direction)
    thick = float(part.size[hole.face.axis])
    depth = thick if hole.depth is None else min(float(hole.depth), thick)
    # A hole that comes out by an end is judged there, where the wood about it is thinnest.
    at = depth / 2 if hole.reach is None else float(hole.reach) - float(hole.diameter)
    if hole.meets:  # near the mouth, before the bore that it meets
        at = depth / 4
    start: Vec = (mouth[0] + into[0] * at, mouth[1] + into[1] * at, mouth[2] + into[2] * at)
    one = _across(into)
    two = cross(into, one)
    grained = abs(one[0]) > GRAINED
    ways: list[Vec] = []
    ends: list[bool] = []
    for k in range(WAYS):
        a = 2 * math.pi * k / WAYS
        c, s = math.cos(a), math.sin(a)
        along = abs(s) < 1e-9
        if grained and abs(c) > math.sqrt(0.5) + 1e-9 and not along:
            continue
        ways.append((one[0] * c + two[0] * s, one[1] * c + two[1] * s, one[2] * c + two[2] * s))
        ends.append(grained and along)
    edge, end = math.inf, math.inf
    for wood, is_end in zip(subject.own_mesh(part.path).woods([start] * len(ways), ways), ends, strict=True):
        far = wood[-1][1] if wood else 0.0
        if is_end:
            end = min(end, far)
        else:
            edge = min(edge, far)
    return edge, end


def _across(into: Vec) -> Vec:
    """Return a direction square to the hole that lies as near to the grain as it can."""
    along = (1.0, 0.0, 0.0) if abs(into[0]) < 0.9 else (0.0, 1.0, 0.0)
    d = into[0] * along[0] + into[1] * along[1] + into[2] * along[2]
    return unit((along[0] - d * into[0], along[1] - d * into[1], along[2] - d * into[2]))


def _finding(
    subject: Subject,
    part: Part,
    feature: Feature,
    hole: HoleRow,
    grade: Grade,
    code: str,
    what: str,
    distance: float,
    least: float,
) -> Finding:
    d = float(hole.diameter)
    name = f"hole {hole.name}".strip()
    if grade is Grade.STOP:
        message = f"A {name} of {part.path} breaks out: its centre is {subject.say(distance)} from the rim of the wood, its diameter {subject.say(d)}."
    else:
        message = (
            f"A {name} of {part.path} has its centre {subject.say(distance)} from {what}, {distance / d:.1f} of its diameters of "
            f"{subject.say(d)}; {subject.say(least * d)} is the least."
        )
    return Finding(
        grade,
        code,
        (part.path,),
        message,
        f"centre to edge at least {EDGE:g} diameters, of a dowel {DOWEL:g}, a loaded hole in solid wood to the end at least {END:g}",
        "National Design Specification for Wood, Tables 12.5.1A and C, from memory; used here as check values",
        where(feature.origin, part.origin),
        (("distance", distance, "mm"), ("diameters", distance / d, "")),
        "move the hole inward, or take a smaller screw",
    )
