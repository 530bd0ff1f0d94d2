"""Wood screws: how much of them holds in the second part, whether their points come out of it, and how near its edge they are."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.drilled import along
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.make import frame_along
from docgen.geometry.shapes import Vec
from docgen.piece.model import Fastener
from docgen.trade.fasteners import wood_screw
from docgen.trade.names import UnknownName

TITLE = "wood screws: hold, points and edges"
CODES = ("screw-holds-little", "screw-breaks-through", "screw-near-edge")
LOOKS = looks.Looks(looks.wood_screws)

LEAST_HOLD = 2.5
"""Diameters of a wood screw in the part that holds it: some 10 mm (3/8 in) of a No. 8. Common practice in furniture."""

LEAST_BEHIND = 3.0
"""mm of wood to leave beyond a screw's point, about 1/8 in. Common practice."""

LEAST_BESIDE = 1.5
"""Diameters from a screw's centre to an edge of the part that holds it. Source: National Design Specification for Wood, Table
12.5.1C, from memory."""

INTO = (0.0, 0.0, 1.0)  # of a screw's own frame
WAYS = 8
SAME = 1e-3
ASIDE = 0.3  # mm beside the shank, where the pilot hole has left wood


def check(subject: Subject) -> Iterator[Finding]:
    """Yield screws whose point comes out or nearly so, that could go deeper and hold by under 2.5 diameters, or near an edge.

    How near an edge they are is asked of those that no feature drills for: `hole_edges` sees the others.
    """
    for f in subject.piece.fasteners:
        found = re.fullmatch(r"No\. (\d+)", f.thread)
        if found is None or f.length is None or not all(f.parts):
            continue
        try:
            shank = float(wood_screw(int(found[1])).shank)
        except UnknownName:
            continue
        behind = min(_behind(subject, f, p, shank) for p in _points(f))
        yield from _point(subject, f, behind)
        if f.pilot:
            yield from _edge(subject, f, min(_beside(subject, f, p) for p in _points(f)) / shank)
        held = float(f.engagement)
        if held < LEAST_HOLD * shank - SAME and behind > LEAST_BEHIND + SAME:
            yield _holds(subject, f, held / shank, shank)


def _points(f: Fastener) -> list[Vec]:
    return [(float(p[0]), float(p[1]), float(p[2])) for p in f.points]


def _behind(subject: Subject, f: Fastener, head: Vec, shank: float) -> float:
    """Return the wood of the second part beyond a screw's point, mm: the least of four lines beside the shank."""
    screw, off = frame_along(head, f.direction), shank / 2 + ASIDE
    starts = [screw.point((x * off, y * off, 0.0)) for x, y in ((1, 0), (-1, 0), (0, 1), (0, -1))]
    tip = float(f.grip) + float(f.engagement)
    ends = [w[0][1] for w in subject.mesh(f.parts[1]).woods(starts, [screw.direction(INTO)] * 4) if w]
    return min(ends, default=0.0) - tip


def _beside(subject: Subject, f: Fastener, head: Vec) -> float:
    """Return the wood of the second part beside a screw, in the middle of what holds, mm: the least of eight ways."""
    screw = frame_along(head, f.direction)
    at = screw.point((0.0, 0.0, float(f.grip) + float(f.engagement) / 2))
    turns = [2 * math.pi * n / WAYS for n in range(WAYS)]
    sides = [screw.direction((math.cos(a), math.sin(a), 0.0)) for a in turns]
    found = subject.mesh(f.parts[1]).woods([at] * WAYS, sides)
    free = (w[0][1] for w, side in zip(found, sides, strict=True) if w and not _filled(subject, f, at, side, w[0][1]))
    return min(free, default=math.inf)


def _filled(subject: Subject, f: Fastener, at: Vec, side: Vec, far: float) -> bool:
    """Return whether another part lies where the wood beside a screw ends, by its box: a shelf in its dado."""
    beyond = along(at, side, far + ASIDE)
    for part in subject.piece.parts:
        if part.path != f.parts[1]:
            low, high = subject.oriented(part.path).bounds()
            if all(low[i] < beyond[i] < high[i] for i in range(3)):
                return True
    return False


def _edge(subject: Subject, f: Fastener, beside: float) -> Iterator[Finding]:
    if beside >= LEAST_BESIDE - SAME:
        return
    yield Finding(
        Grade.CARE,
        "screw-near-edge",
        f.parts,
        f"A screw {f.key} ({f.thread}) stands {beside:.1f} of its diameters from an edge of {f.parts[1]}: it splits it.",
        f"a screw stands at least {LEAST_BESIDE} diameters from the edges of the part that holds it",
        "National Design Specification for Wood, Table 12.5.1C, from memory; measured on the solids",
        where(f.origin),
        (("diameters", beside, ""), ("least", LEAST_BESIDE, "")),
        "a place nearer to the middle of what holds it, or a thinner screw",
    )


def _point(subject: Subject, f: Fastener, behind: float) -> Iterator[Finding]:
    if behind >= LEAST_BEHIND - SAME:
        return
    out = behind < -SAME
    yield Finding(
        Grade.STOP if out else Grade.CARE,
        "screw-breaks-through",
        f.parts,
        f"Screw {f.key} ({f.thread} × {subject.say(f.length or 0)}) comes {subject.say(-behind)} out of {f.parts[1]}."
        if out
        else f"Screw {f.key} ({f.thread} × {subject.say(f.length or 0)}) ends {subject.say(behind)} from the far side of {f.parts[1]}.",
        "grip + engagement ≤ wood along the screw − 3 mm (1/8 in)",
        "geometry, measured on the solids beside the pilot holes; 3 mm is common practice",
        where(f.origin),
        (("wood beyond the point", behind, "mm"),),
        "a shorter screw, or thicker wood",
    )


def _holds(subject: Subject, f: Fastener, diameters: float, shank: float) -> Finding:
    return Finding(
        Grade.CARE,
        "screw-holds-little",
        f.parts,
        f"Screw {f.key} ({f.thread} × {subject.say(f.length or 0)}) holds in {subject.say(f.engagement)} of {f.parts[1]}, "
        f"{diameters:.1f} of its diameters; there is room for more.",
        f"a wood screw holds over at least {LEAST_HOLD:g} diameters, or as far as the wood goes less 3 mm",
        "common practice in furniture; building rules ask for 6 diameters and more",
        where(f.origin),
        (("engagement", float(f.engagement), "mm"), ("diameters", diameters, ""), ("least", LEAST_HOLD * shank, "mm")),
        "a longer screw, or a deeper bore for its head",
    )
