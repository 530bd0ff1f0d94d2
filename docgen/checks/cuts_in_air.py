"""Work that meets no wood: features whose cutters take nothing away, holes whose mouths lie beside their part."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.solids import SolidFault, blank, cut
from docgen.piece.model import Part
from docgen.piece.records import Feature

TITLE = "cuts that take nothing and holes beside their part"
CODES = ("cut-in-air", "hole-beside-part")

LEAST = 0.5  # mm³
SAME = 1e-6  # mm


def check(subject: Subject) -> Iterator[Finding]:
    """Yield features that leave the blank as it was, and hole centres outside the blank."""
    for part in subject.piece.parts:
        for feature in part.features:
            if feature.made.cuts and _removed(part, feature) < LEAST:
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
