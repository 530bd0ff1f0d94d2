"""Wood left beside rabbets: the lip that a step along an arris leaves in the thickness, and what stands behind its wall."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.checks.trenches import box_of
from docgen.geometry.shapes import Extrusion, Vec
from docgen.piece.model import Part
from docgen.piece.records import Feature

TITLE = "wood left beside rabbets"
CODES = ("lip-thin",)
LOOKS = looks.Looks(lambda piece: any(True for p in piece.parts for _ in rabbets(p)))

LEAST = 3.0
"""mm of wood that a rabbet's lip should keep, about 1/8 in. Common practice."""

SAME = 1e-3  # mm
BEGINS = 0.2  # mm: wood that begins further from the rabbet's wall belongs to what lies behind another cut
STATIONS = (0.1, 0.3, 0.5, 0.7, 0.9)
UPRIGHT = 1e-9


@dataclass(frozen=True, slots=True)
class Rabbet:
    """A step along an arris, in the part's axes: its box inside the part, and the two sides from which it is open."""

    feature: Feature
    low: Vec
    high: Vec
    opens: tuple[tuple[int, int], tuple[int, int]]  # (axis, side) of both faces


def rabbets(part: Part) -> Iterator[Rabbet]:
    """Yield the cuts of a part that are rabbets by their shape: open to two faces that meet, closed to their opposites."""
    size = [float(s) for s in part.size]
    for feature in part.features:
        if feature.made.holes or feature.made.allowances:
            continue
        for cut in feature.made.cuts:
            shape = cut.shape
            if not isinstance(shape, Extrusion) or not _square(shape):
                continue
            low, high = box_of(shape)
            opens = [(i, s) for i in range(3) for s, out in ((0, low[i] < -SAME), (1, high[i] > size[i] + SAME)) if out]
            across = [(i, s) for i, s in opens if (i, 1 - s) not in opens]
            if len(across) == 2 and _runs(size, low, high, 3 - across[0][0] - across[1][0]):
                kept = [(max(low[i], 0.0), min(high[i], size[i])) for i in range(3)]
                if all(b - a > SAME for a, b in kept):
                    a, b, c = kept
                    yield Rabbet(feature, (a[0], b[0], c[0]), (a[1], b[1], c[1]), (across[0], across[1]))


def _square(shape: Extrusion) -> bool:
    upright = any(abs(abs(shape.frame.rotation[i][2]) - 1) < UPRIGHT for i in range(3))
    return upright and all(e.ccw for e in shape.outline.edges if e.centre is not None)


def _runs(size: list[float], low: Vec, high: Vec, along: int) -> bool:
    """Return True when the step is longer along the arris than it is wide or deep: else it is a notch."""
    run = min(high[along], size[along]) - max(low[along], 0.0)
    others = [min(high[i], size[i]) - max(low[i], 0.0) for i in range(3) if i != along]
    return run > max(others)


def check(subject: Subject) -> Iterator[Finding]:
    """Yield rabbets that leave less than 3 mm of wood behind one of their two walls, after all cuts."""
    known: dict[object, list[tuple[float, Rabbet]]] = {}
    for part in subject.piece.parts:
        key = subject.solids.key(part.path)
        if key not in known:
            known[key] = [(left, r) for r in rabbets(part) if (left := _left(subject, part, r)) < LEAST - SAME]
        for left, rabbet in known[key]:
            yield _finding(subject, part, rabbet, left)


def _left(subject: Subject, part: Part, rabbet: Rabbet) -> float:
    """Return the least wood behind the two walls of a rabbet, mm, from rays at five places along it."""
    along = 3 - rabbet.opens[0][0] - rabbet.opens[1][0]
    starts: list[Vec] = []
    ways: list[Vec] = []
    for axis, side in rabbet.opens:
        for share in STATIONS:
            p = [(a + b) / 2 for a, b in zip(rabbet.low, rabbet.high, strict=True)]
            p[along] = rabbet.low[along] + share * (rabbet.high[along] - rabbet.low[along])
            p[axis] = rabbet.low[axis] if side else rabbet.high[axis]
            d = [0.0, 0.0, 0.0]
            d[axis] = -1.0 if side else 1.0
            starts.append((p[0], p[1], p[2]))
            ways.append((d[0], d[1], d[2]))
    found = subject.own_mesh(part.path).woods(starts, ways)
    return min((w[0][1] - w[0][0] for w in found if w and w[0][0] < BEGINS), default=float("inf"))


def _finding(subject: Subject, part: Part, rabbet: Rabbet, left: float) -> Finding:
    return Finding(
        Grade.CARE,
        "lip-thin",
        (part.path,),
        f"{rabbet.feature.title} leaves a lip of {subject.say(left)} along {part.path}.",
        "at least 3 mm (1/8 in) of wood beside a rabbet after all cuts, measured on the finished solid",
        "common practice",
        where(rabbet.feature.origin, part.origin),
        (("wood left", left, "mm"), ("least", LEAST, "mm")),
        "a shallower rabbet, or a thicker board",
    )
