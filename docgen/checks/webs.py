"""Dados and grooves in the two faces of one board: the wood between them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import combinations

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.checks.trenches import Trench, trenches
from docgen.piece.model import Part

TITLE = "wood between dados and grooves in the two faces of a board"
CODES = ("web-thin", "web-breaks")
LOOKS = looks.Looks(lambda piece: any(len({t.side for t in trenches(p)}) > 1 for p in piece.parts))

LEAST = 3.0
"""mm of wood to leave between two trenches, about 1/8 in. Common practice."""

SAME = 1e-3


def check(subject: Subject) -> Iterator[Finding]:
    """Yield boards in which a trench of one face comes within 3 mm of one in the other face; the worst pair of each board."""
    for part in subject.piece.parts:
        pairs = [(web(part, a, b), a, b) for a, b in combinations(trenches(part), 2) if a.side != b.side]
        left, one, two = min(pairs, key=lambda pair: pair[0], default=(math.inf, None, None))
        if left < LEAST - SAME and one is not None and two is not None:
            yield _finding(subject, part, left, one, two)


def web(part: Part, one: Trench, two: Trench) -> float:
    """Return the least distance between two trenches, mm: between their boxes, as far as these lie in the part."""
    gaps = []
    for i in range(3):
        size = float(part.size[i])
        (a, b), (c, d) = ((max(t.low[i], 0.0), min(t.high[i], size)) for t in (one, two))
        gaps.append(max(a - d, c - b, 0.0))
    return math.hypot(*gaps)


def _finding(subject: Subject, part: Part, left: float, one: Trench, two: Trench) -> Finding:
    gone = left < SAME
    names = f"{one.feature.title} and {two.feature.title}"
    return Finding(
        Grade.STOP if gone else Grade.CARE,
        "web-breaks" if gone else "web-thin",
        (part.path,),
        f"In {part.path} {names} break into each other: no wood is left between them."
        if gone
        else f"In {part.path} {names}, cut in its two faces, leave {subject.say(left)} of wood between them.",
        "at least 3 mm (1/8 in) of wood between the dados and grooves of a board's two faces",
        "geometry of both cuts; 3 mm (1/8 in) as the least is common practice",
        where(one.feature.origin, two.feature.origin, part.origin),
        (("wood left", left, "mm"), ("least", LEAST, "mm")),
        "set one higher or lower, make one shallower, or take a thicker board",
    )
