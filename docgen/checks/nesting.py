"""Fronts, panes and backs in their openings: an even gap at the corners, where radius meets radius."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeAlias

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.shapes import Vec
from docgen.piece.model import Drawer, Joint, Part, Piece
from docgen.piece.records import Face, Origin

Stretches: TypeAlias = list[tuple[float, float]]
"""Wood along a ray: from where to where, mm."""

ORDER = ("top", "bottom", "left", "right", "front", "back")
SAME = 1e-3  # mm

TITLE = "corners of inset fronts against their openings"
CODES = ("front-corner-gap",)
LOOKS = looks.Looks(lambda piece: any(True for _ in nested(piece)))

WIDEST = 1.5
"""A corner gap over so many times the gap along the sides is seen: a square corner in a square one has 1.41. Common practice."""

TIGHTEST = 0.5
"""A corner gap under so many times the gap along the sides rubs. Common practice."""


def front_of(piece: Piece, drawer: Drawer) -> Part | None:
    """Return the drawer's front: of its parts the one that stands furthest forward; None for a drawer without parts."""
    parts = [piece.part(p) for p in drawer.parts]
    return min(parts, key=lambda p: (_forward(p), p.number), default=None)


def _forward(part: Part) -> float:
    x, y, z = (float(s) for s in part.size)
    return min(part.frame.point((a, b, c))[1] for a in (0.0, x) for b in (0.0, y) for c in (0.0, z))


@dataclass(frozen=True, slots=True)
class Nested:
    """A part that lies in an opening with an even gap round it: a drawer's front, a pane, a panel in rabbets."""

    part: Part
    gap: float
    own: tuple[str, ...]  # parts that move with it: they are no neighbours
    origin: Origin


def nested(piece: Piece) -> Iterator[Nested]:
    """Yield the fronts of drawers, the panes in frames, and the panels whose joint states a gap."""
    for drawer in piece.drawers:
        front = front_of(piece, drawer)
        if front is not None:
            yield Nested(front, float(drawer.gap), drawer.parts, drawer.origin)
    told = {pane.pane for pane in piece.panes}
    for pane in piece.panes:
        yield Nested(piece.part(pane.pane), float(pane.clearance), (pane.pane,), pane.origin)
    for joint in piece.joints:
        gap = next((float(value) for name, value, _ in joint.figures if name == "gap"), 0.0)
        if gap and joint.parts[0] not in told and lies_in(joint):
            turning = next((g.parts for g in piece.groups if joint.parts[0] in g.parts), ())
            yield Nested(piece.part(joint.parts[0]), gap, (joint.parts[0], *turning), joint.origin)


def lies_in(joint: Joint) -> bool:
    """Return True for a joint whose first part lies in what is cut in the others, as a panel does in its rabbets."""
    hosts = {path for path, _ in joint.features}
    return bool(hosts) and joint.parts[0] not in hosts


def check(subject: Subject) -> Iterator[Finding]:
    """Yield corners of nested parts where the gap is much wider or narrower than along their sides."""
    for lies in nested(subject.piece):
        if lies.gap <= 0:
            continue
        part, aside = lies.part, lies.gap
        for word, gap in _uneven(subject, lies):
            yield Finding(
                Grade.CARE,
                "front-corner-gap",
                (part.path,),
                f"At the {word} corner of {part.path} the gap is {subject.say(gap)}, along its sides {subject.say(aside)}."
                if gap > 0
                else f"The {word} corner of {part.path} stands {subject.say(-gap)} in the wood beside it.",
                "radius of the part that nests = radius that the cutter leaves in the rabbet's corner − gap",
                "geometry of two arcs with one centre; how uneven a gap may be is common practice",
                where(lies.origin, part.origin),
                (("gap at the corner", gap, "mm"), ("gap along the sides", aside, "mm")),
                f"give the corner the rabbet's radius less the gap, or square the rabbet; {part.called} is cut to it",
            )


def beside(subject: Subject, part: Part, own: tuple[str, ...], reach: float) -> list[str]:
    """Return the parts, its own companions left out, whose boxes come within `reach` mm of a part's."""
    return [
        p.path
        for p in subject.piece.parts
        if p.path not in own and p.path != part.path and subject.apart(p.path, part.path) < reach
    ]


def _uneven(subject: Subject, lies: Nested) -> Iterator[tuple[str, float]]:
    """Yield (corner, gap along its diagonal) for the corners where that is much wider or narrower than along the sides.

    Where the part lies close against wood at one of the corner's two sides, no gap runs round it: there is nothing to judge.
    """
    part = lies.part
    (x0, y0, z0), (x1, y1, z1) = subject.solids.solid(part.path).bounds
    inset = min(x1 - x0, y1 - y0) / 2
    k = 1.0 / math.sqrt(2)
    corners = [(sx, sy) for sy in (1, 0) for sx in (0, 1)]
    signs = [(1.0 if sx else -1.0, 1.0 if sy else -1.0) for sx, sy in corners]
    starts = [
        part.frame.point(((x1 - inset) if sx else x0 + inset, (y1 - inset) if sy else y0 + inset, (z0 + z1) / 2))
        for sx, sy in corners
    ]
    aslant = _ahead(subject, lies, starts, [(k * x, k * y, 0.0) for x, y in signs])
    for n, gap in enumerate(aslant):
        if gap is None or TIGHTEST * lies.gap - SAME <= gap <= WIDEST * lies.gap + SAME:
            continue
        (x, y), (sx, sy) = signs[n], corners[n]
        sides = _ahead(subject, lies, [starts[n]] * 2, [(x, 0.0, 0.0), (0.0, y, 0.0)])
        if all(side is None or side > SAME for side in sides):
            named = [part.word(Face(0, sx)), part.word(Face(1, sy))]
            yield " ".join(sorted(named, key=ORDER.index)), gap


def _ahead(subject: Subject, lies: Nested, starts: list[Vec], ways: list[Vec]) -> list[float | None]:
    """Return how far behind the part's own wood the next wood stands on rays from points in it, `ways` in part axes."""
    reach = 4.0 * lies.gap + 10.0
    turned = [lies.part.frame.direction(way) for way in ways]
    own = subject.mesh(lies.part.path).woods(starts, turned)
    meets = [subject.mesh(p).woods(starts, turned) for p in beside(subject, lies.part, lies.own, reach)]
    return [_beyond(wood, [m[n] for m in meets], reach) for n, wood in enumerate(own)]


def _beyond(own: Stretches, others: list[Stretches], reach: float) -> float | None:
    """Return how far behind a part's own wood the next wood begins on a ray, mm; None where none stands within reach."""
    if not own or not any(others):
        return None
    leaves = own[-1][1]
    nearest = min((s[0] for m in others for s in m if s[1] > leaves - reach), default=math.inf)
    return nearest - leaves if nearest - leaves <= reach else None
