"""Windows and hand holes too near the rim of their part, measured on the finished solid all round the opening."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.outlines import length, point_at, signed_area
from docgen.geometry.shapes import Outline, Vec
from docgen.piece.model import Part
from docgen.piece.records import Feature, Template

TITLE = "windows and hand holes near the rim"
CODES = ("opening-breaks-out", "opening-thin")
LOOKS = looks.Looks(looks.openings)

HOLDS = 3.0
"""Wood that an opening needs all round to be one at all, mm. Common practice."""

SHARE = 1.0
"""Thicknesses of the part that should be left beside an opening: less splits when a hand or a tool pulls. Common practice."""

STEP = 4.0  # mm between the places that are measured
INSIDE = 0.5  # mm inside the opening at which a ray starts, in the air


def check(subject: Subject) -> Iterator[Finding]:
    """Yield openings with less than 3 mm of wood beside them (stop), or less than the part is thick (care)."""
    for part in subject.piece.parts:
        for feature in part.features:
            for template in feature.made.templates:
                for opening in template.openings:
                    yield from _opening(subject, part, feature, template, opening)


def _opening(subject: Subject, part: Part, feature: Feature, template: Template, opening: Outline) -> Iterator[Finding]:
    left = _least(subject, part, template, opening)
    thick = float(part.size[template.face.axis])
    if left < HOLDS - 1e-6:
        grade, code, least = Grade.STOP, "opening-breaks-out", HOLDS
    elif left < SHARE * thick - 1e-6:
        grade, code, least = Grade.CARE, "opening-thin", SHARE * thick
    else:
        return
    yield Finding(
        grade,
        code,
        (part.path,),
        f"{feature.title[:1].upper()}{feature.title[1:]} of {part.path} leaves {subject.say(left)} of wood beside it at its "
        f"narrowest; {subject.say(least)} is the least.",
        "at least 3 mm (1/8 in) of wood all round an opening, and as much as the part is thick where it is to be held by",
        "rays on the finished solid; common practice",
        where(feature.origin, part.origin),
        (("wood left", left, "mm"), ("thickness", thick, "mm")),
        "move the opening inward, or make it smaller",
    )


def _least(subject: Subject, part: Part, template: Template, opening: Outline) -> float:
    """Return the least wood beside an opening, square to its line, at the middle of the thickness."""
    axis = template.face.axis
    u, v = (i for i in range(3) if i != axis)
    around = length(opening)
    ccw = signed_area(opening) > 0  # then the wood lies to the right of the run
    count = max(8, round(around / STEP))
    starts: list[Vec] = []
    ways: list[Vec] = []
    for k in range(count):
        (x, y), (dx, dy) = point_at(opening, around * (k + 0.5) / count)
        nx, ny = (dy, -dx) if ccw else (-dy, dx)
        start = [0.0, 0.0, 0.0]
        start[u], start[v], start[axis] = x - INSIDE * nx, y - INSIDE * ny, float(part.size[axis]) / 2
        way = [0.0, 0.0, 0.0]
        way[u], way[v] = nx, ny
        starts.append((start[0], start[1], start[2]))
        ways.append((way[0], way[1], way[2]))
    return min(_beside(wood) for wood in subject.own_mesh(part.path).woods(starts, ways))


def _beside(wood: list[tuple[float, float]]) -> float:
    """Return the wood that begins at the opening's line; 0 where there is none."""
    if not wood or wood[0][0] > 2 * INSIDE:
        return 0.0
    return wood[0][1] - wood[0][0]
