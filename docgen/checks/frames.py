"""Frames round panes: opposite rails as long as each other, and the outside that follows from the pane."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.shapes import Vec
from docgen.piece.model import Pane, Part

TITLE = "rails of frames against each other and against what they hold"
CODES = ("rails-differ", "frame-size-differs")
LOOKS = looks.Looks(looks.panes)

NEAR = 0.1
"""mm by which the long points of two opposite rails may differ: cut to one stop they do not. Common practice."""

PARALLEL = 1 - 1e-6


def check(subject: Subject) -> Iterator[Finding]:
    """Yield opposite rails that are not alike, and frames whose outside is not what the chain from the pane says."""
    for pane in subject.piece.panes:
        rails = [subject.piece.part(p) for p in pane.frame]
        for one, other in combinations(rails, 2):
            if _parallel(one, other):
                yield from _differ(subject, pane, one, other)
        yield from _outside(subject, pane)


def _parallel(one: Part, other: Part) -> bool:
    a, b = (p.frame.direction((1.0, 0.0, 0.0)) for p in (one, other))
    return abs(a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) > PARALLEL


def _long(subject: Subject, part: Part) -> float:
    """Return the length of a finished rail, long point to long point, mm."""
    low, high = subject.solids.solid(part.path).bounds
    return high[0] - low[0]


def _differ(subject: Subject, pane: Pane, one: Part, other: Part) -> Iterator[Finding]:
    a, b = _long(subject, one), _long(subject, other)
    if abs(a - b) > NEAR + 1e-6:
        yield Finding(
            Grade.CARE,
            "rails-differ",
            (one.path, other.path),
            f"{one.path} is {subject.say(a)} long to its long points and {other.path} {subject.say(b)}: the frame does not close square.",
            "opposite rails of a frame are cut to one stop, to within 0.1 mm",
            "geometry; the tolerance is common practice",
            where(pane.origin, one.origin),
            (("difference", abs(a - b), "mm"),),
            "give both the same length, and cut them against one stop block",
        )


def _outside(subject: Subject, pane: Pane) -> Iterator[Finding]:
    """Compare the outside that the chain of sizes says with that of the rails as they stand, in the pane's axes."""
    part = subject.piece.part(pane.pane)
    told = {name: float(value) for name, value, kind in pane.figures if kind == "length"}
    inner = part.frame.inverse()
    corners: list[Vec] = []
    for path in pane.frame:
        rail = subject.piece.part(path)
        low, high = subject.solids.solid(path).bounds
        corners += [
            inner.point(rail.frame.point((x, y, z)))
            for x in (low[0], high[0])
            for y in (low[1], high[1])
            for z in (low[2], high[2])
        ]
    for axis, name in ((0, "long"), (1, "wide")):
        said = told.get(f"outside {name}")
        if said is None:
            continue
        real = max(c[axis] for c in corners) - min(c[axis] for c in corners)
        if abs(real - said) > NEAR + 1e-6:
            yield Finding(
                Grade.CARE,
                "frame-size-differs",
                (*pane.frame, pane.pane),
                f"From {pane.pane} outward the frame should be {subject.say(said)} on its {name} side; its rails stand {subject.say(real)} apart.",
                f"outside = {pane.word} + 2 · clearance − 2 · rabbet + 2 · width of the rails",
                "geometry of the chain of sizes, against the rails as they stand",
                where(pane.origin),
                (("by the chain", said, "mm"), ("as it stands", real, "mm")),
                f"rails of one width, or the {pane.word}'s size from the opening as measured",
            )
