"""Inset fronts: the gap along each side, where the case stands beside it, against the gap that the file asks for."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.nesting import beside, front_of
from docgen.checks.subject import Subject, where
from docgen.geometry.shapes import Vec
from docgen.piece.model import Drawer, Part

TITLE = "gaps along the sides of inset fronts"
CODES = ("front-gap", "front-rubs")
LOOKS = looks.Looks(looks.drawers)

NEAR = 0.1
"""mm by which a gap along a side may differ from the one that is asked for. Common practice: a sheet of card tells it."""

REACH = 10.0  # mm: what stands further away is no neighbour
SIDES = ((0, 0, "left"), (0, 1, "right"), (2, 0, "bottom"), (2, 1, "top"))
PLACES = (0.15, 0.5, 0.85)


def check(subject: Subject) -> Iterator[Finding]:
    """Yield the sides of inset fronts whose gap differs from the stated one by more than 0.1 mm, at three places each."""
    for drawer in subject.piece.drawers:
        front = front_of(subject.piece, drawer)
        if front is None or drawer.gap <= 0:
            continue
        for word, found in gaps(subject, drawer, front):
            off = max(found, key=lambda gap: abs(gap - float(drawer.gap)))
            if abs(off - float(drawer.gap)) > NEAR + 1e-6:
                yield _finding(subject, drawer, front, word, off)


def gaps(subject: Subject, drawer: Drawer, front: Part) -> Iterator[tuple[str, list[float]]]:
    """Yield (side, gaps at up to three places) where other wood stands within 10 mm of the front's edge."""
    low, high = subject.placed(front.path).bounds
    near = beside(subject, front, drawer.parts, REACH)
    for axis, side, word in SIDES:
        run = 2 - axis
        starts: list[Vec] = []
        for share in PLACES:
            p = [0.0, (low[1] + high[1]) / 2, 0.0]
            p[axis] = (low[axis] + high[axis]) / 2
            p[run] = low[run] + share * (high[run] - low[run])
            starts.append((p[0], p[1], p[2]))
        way: Vec = (1.0 if side else -1.0, 0.0, 0.0) if axis == 0 else (0.0, 0.0, 1.0 if side else -1.0)
        own = subject.mesh(front.path).woods(starts, [way] * len(starts))
        meets = [subject.mesh(p).woods(starts, [way] * len(starts)) for p in near]
        found = []
        for k, wood in enumerate(own):
            others = [m[k][0][0] for m in meets if m[k]]
            if wood and others and min(others) - wood[-1][1] <= REACH:
                found.append(min(others) - wood[-1][1])
        if found:
            yield word, found


def _finding(subject: Subject, drawer: Drawer, front: Part, word: str, gap: float) -> Finding:
    rubs = gap <= 0
    return Finding(
        Grade.STOP if rubs else Grade.CARE,
        "front-rubs" if rubs else "front-gap",
        (front.path,),
        f"{front.path} runs {subject.say(-gap)} into the case at its {word}."
        if rubs
        else f"At the {word} of {front.path} the gap is {subject.say(gap)}; {subject.say(drawer.gap)} is asked for.",
        "an inset front keeps the same gap on all sides, to within 0.1 mm",
        "geometry, measured on the solids at three places a side; the tolerance is common practice",
        where(drawer.origin, front.origin),
        (("gap", gap, "mm"), ("asked for", float(drawer.gap), "mm")),
        "give the front that side's size from the opening as measured, less the gap",
    )
