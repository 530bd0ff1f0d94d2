"""Screw heads and washers against what moves or stands beside them: slides, drawers, other parts."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.slides import box_of, slide_boxes
from docgen.checks.subject import Box, Subject, box_overlap, boxes_meet, where
from docgen.geometry.make import cylinder
from docgen.geometry.shapes import Vec
from docgen.geometry.solids import made, overlap
from docgen.piece.model import Fastener

TITLE = "screw heads against slides, drawers and parts"
CODES = ("head-hits-slide", "head-hits-drawer", "head-hits-part")
LOOKS = looks.Looks(looks.fasteners)


def head_box(f: Fastener, point: Vec) -> Box:
    """Return the box around head and washer at `point` in the piece's axes, mm."""
    radius, height = float(f.head[0]) / 2, float(f.head[1])
    out = tuple(-d for d in f.direction)
    tip = tuple(point[i] + out[i] * height for i in range(3))
    # A disc of radius r square to d reaches r · √(1 − d²) along each axis.
    spread = tuple(radius * max(0.0, 1.0 - f.direction[i] ** 2) ** 0.5 for i in range(3))
    low = tuple(min(point[i], tip[i]) - spread[i] for i in range(3))
    high = tuple(max(point[i], tip[i]) + spread[i] for i in range(3))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def check(subject: Subject) -> Iterator[Finding]:
    """Yield heads that stand in the room of a slide, in the way of a drawer, or in another part."""
    for f in subject.piece.fasteners:
        if f.head[0] <= 0 or f.head[1] <= 0:
            continue
        for p in f.points:
            point: Vec = (float(p[0]), float(p[1]), float(p[2]))
            yield from _against_drawers(subject, f, point)
            yield from _against_parts(subject, f, point)


def _against_drawers(subject: Subject, f: Fastener, point: Vec) -> Iterator[Finding]:
    head = head_box(f, point)
    for drawer in subject.piece.drawers:
        for slide in slide_boxes(subject, drawer):
            into = box_overlap(head, slide)
            if into > 0:
                yield _finding(
                    subject, f, point, "head-hits-slide", f"the slide of {drawer.called}", into, drawer.parts
                )
        box = box_of(subject, drawer)
        if box is not None:
            # The box runs out to the front by the slide's length: everything on its way is in its way.
            way: Box = ((box[0][0], box[0][1] - float(drawer.slide_length), box[0][2]), box[1])
            into = box_overlap(head, way)
            if into > 0:
                yield _finding(subject, f, point, "head-hits-drawer", f"the way of {drawer.called}", into, drawer.parts)


def _against_parts(subject: Subject, f: Fastener, point: Vec) -> Iterator[Finding]:
    head = head_box(f, point)
    drawn = {p for d in subject.piece.drawers for p in d.parts}
    solid = None
    for part in subject.piece.parts:
        if part.path in drawn or not boxes_meet(head, subject.placed(part.path).bounds):
            continue
        if solid is None:
            out: Vec = (-f.direction[0], -f.direction[1], -f.direction[2])
            solid = made(cylinder(point, out, float(f.head[0]) / 2, float(f.head[1]), before=0.0), 1e5)
        found = overlap(solid, subject.placed(part.path))
        if found is not None:
            yield _finding(subject, f, point, "head-hits-part", part.path, found.thickness, (part.path,))


def _finding(
    subject: Subject, f: Fastener, point: Vec, code: str, what: str, into: float, parts: tuple[str, ...]
) -> Finding:
    at = f"{subject.say(point[0])} across, {subject.say(point[1])} deep, {subject.say(point[2])} up"
    return Finding(
        Grade.STOP,
        code,
        tuple(dict.fromkeys((*(p for p in f.parts if p), *parts))),
        f"The head of screw {f.key} (with its washer {subject.say(f.head[0])} across, {subject.say(f.head[1])} high) at {at} "
        f"stands {subject.say(into)} in {what}.",
        "box around head and washer clear of slides, of the drawer's box on its whole way, and of the wood",
        "geometry; sizes of heads from ISO 7380-1, ISO 4762, ASME B18.3 and B18.22.1",
        where(f.origin),
        (("runs in by", into, "mm"),),
        "move the screw, sink its head, or raise or lower the slide",
    )
