"""What a pane lies in: depth for pane, backer and bedding, and something other than glue that keeps it there."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.shapes import Vec
from docgen.piece.model import Pane

TITLE = "depth behind panes and panels for backer, bedding and stops"
CODES = ("pane-bed-shallow", "pane-unheld")
LOOKS = looks.Looks(looks.panes)

LAYERS = ("backer", "bed")
"""Names of the figures by which a pane's joint states what lies in the rabbet with it."""

STOP = 3.0
"""mm of rabbet behind a pane for a stop, putty or pins, about 1/8 in. Common practice."""

NEAR = 0.05  # mm
UPWARD = 0.5  # of the way out of the rabbet, upward: the pane lies in it by its own weight
INSIDE = 2.0  # mm from the pane's edge to where the rabbet's floor is felt for


def check(subject: Subject) -> Iterator[Finding]:
    """Yield rabbets too shallow for what is stated to lie in them, and panes that glue alone would have to hold."""
    for pane in subject.piece.panes:
        layers = {name: float(value) for name, value, _ in pane.figures if name in LAYERS}
        thick, deep = float(subject.piece.part(pane.pane).size[2]), float(pane.rabbet[1])
        needed = thick + sum(layers.values())
        if layers and needed > deep + NEAR:
            yield _shallow(subject, pane, layers, needed)
        way = _out(subject, pane)
        if way is not None and way[2] < UPWARD and deep - needed < STOP - NEAR:
            yield _unheld(subject, pane, deep - needed)


def _out(subject: Subject, pane: Pane) -> Vec | None:
    """Return the way out of the rabbet, in the piece's axes; None where its floor is not found on one side alone."""
    part = subject.piece.part(pane.pane)
    x, y, z = (float(s) for s in part.size)
    starts = [
        part.frame.point(p)
        for p in (
            (x / 2, INSIDE, z / 2),
            (x / 2, y - INSIDE, z / 2),
            (INSIDE, y / 2, z / 2),
            (x - INSIDE, y / 2, z / 2),
        )
    ]
    floors = []
    for side in (1.0, -1.0):
        way = part.frame.direction((0.0, 0.0, side))
        hits = [w for rail in pane.frame for w in subject.mesh(rail).woods(starts, [way] * len(starts))]
        floors.append(any(w and w[0][0] < z / 2 + STOP for w in hits))
    if floors[0] == floors[1]:
        return None
    return part.frame.direction((0.0, 0.0, -1.0 if floors[0] else 1.0))


def _shallow(subject: Subject, pane: Pane, layers: dict[str, float], needed: float) -> Finding:
    deep = float(pane.rabbet[1])
    told = ", ".join(f"{name} {subject.say(value)}" for name, value in layers.items())
    return Finding(
        Grade.CARE,
        "pane-bed-shallow",
        (pane.pane, *pane.frame),
        f"{pane.pane} with {told} needs a rabbet {subject.say(needed)} deep; it is {subject.say(deep)}.",
        f"rabbet depth ≥ {pane.word} + backer + bedding",
        "geometry; what lies in the rabbet as the file states it",
        where(pane.origin),
        (("needed", needed, "mm"), ("rabbet", deep, "mm")),
        "a deeper rabbet, or a thinner backer",
    )


def _unheld(subject: Subject, pane: Pane, left: float) -> Finding:
    return Finding(
        Grade.CARE,
        "pane-unheld",
        (pane.pane,),
        f"{pane.pane} does not lie in its rabbet by its own weight, and {subject.say(max(left, 0.0))} of depth are left for what holds it.",
        f"glue alone does not hold a {pane.word}: at least 3 mm (1/8 in) of the rabbet stay for stops, putty or pins",
        "common practice",
        where(pane.origin),
        (("left", left, "mm"), ("least", STOP, "mm")),
        "a deeper rabbet with stops, turn buttons, or screwed battens",
    )
