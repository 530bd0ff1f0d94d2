"""Screws that no driver reaches: what stands in line with their heads when they are driven."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.drilled import along, drilled
from docgen.checks.finding import Finding, Grade
from docgen.checks.reach import obstacles
from docgen.checks.subject import Subject, where
from docgen.geometry.make import unit
from docgen.geometry.shapes import Vec
from docgen.piece.records import Origin
from docgen.schedules.glueups import glueups
from docgen.schedules.wall_holes import for_the_wall

TITLE = "room in line with each screw for its driver"
CODES = ("driver-no-room",)
LOOKS = looks.Looks(looks.either(looks.wood_screws, lambda piece: piece.stands == "wall"))

SHORT = 100.0
"""mm in line with a screw that a short driver, or a bit in a right-angle drive, takes at the least. Common practice."""

LONG = 200.0
"""mm that a hand driver or a drill takes in line, for the long screws into a wall. Common practice."""

OVER = 0.2  # mm above the head, where the ray begins

RULE = f"{SHORT:.0f} mm are free in line with the head when the screw is driven, {LONG:.0f} mm before a screw into the wall"
SOURCE = "rays on the solids of the finished parts; the length of a short driver is common practice"


def check(subject: Subject) -> Iterator[Finding]:
    """Yield wood screws, and holes for the wall, before whose heads other wood stands when they are driven.

    Before screws of the piece only what is glued to one of their own parts counts: the rest may come later. Screws into the
    wall are driven last of all, when only drawers and what turns are out of the way.
    """
    yield from _into_wood(subject)
    if subject.piece.stands == "wall":
        yield from _into_wall(subject)


def _into_wood(subject: Subject) -> Iterator[Finding]:
    screws = [f for f in subject.piece.fasteners if f.thread.startswith("No. ") and any(f.direction) and all(f.parts)]
    if not screws:
        return
    units = [set(unit.parts) for unit in glueups(subject.piece)]
    for f in screws:
        there = set(f.parts).union(*(u for u in units if u & set(f.parts)))
        out = unit((-f.direction[0], -f.direction[1], -f.direction[2]))
        heads = [along((float(p[0]), float(p[1]), float(p[2])), out, OVER) for p in f.points]
        yield from _judged(subject, f"screw {f.key} of {f.parts[0]}", f.parts, heads, out, (there, SHORT), f.origin)


def _into_wall(subject: Subject) -> Iterator[Finding]:
    everything = {p.path for p in subject.piece.parts}
    for part in subject.piece.parts:
        for hole in drilled(part):
            if not for_the_wall(part, hole.row):
                continue
            way = part.frame.direction(hole.way)
            to_wall = way[1] > 0
            out: Vec = (-way[0], -way[1], -way[2]) if to_wall else way
            head = along(part.frame.point(hole.start if to_wall else hole.end), out, OVER)
            name = f"the wall screw {hole.row.name} of {part.path}".replace("  ", " ")
            yield from _judged(subject, name, (part.path,), [head], out, (everything, LONG), hole.feature.origin)


def _judged(
    subject: Subject,
    name: str,
    parts: tuple[str, ...],
    heads: list[Vec],
    out: Vec,
    room: tuple[set[str], float],
    origin: Origin,
) -> Iterator[Finding]:
    """Yield one finding for the head with least room, if that is less than a driver takes."""
    there, need = room
    around = obstacles(subject)
    found = [(around.free(head, [out], subject)[0], head) for head in heads]
    free, head = min(found)
    if free >= need:
        return
    bars = _first(subject, head, out, there, need)
    if bars is None:
        return
    at = f"{subject.say(head[0])} across, {subject.say(head[1])} deep, {subject.say(head[2])} up"
    yield Finding(
        Grade.CARE,
        "driver-no-room",
        tuple(dict.fromkeys((*parts, bars[1]))),
        f"{'No' if bars[0] < SHORT else 'Only a short'} driver reaches {name} at {at}: {bars[1]} stands {subject.say(bars[0])} before "
        "its head.",
        RULE,
        SOURCE,
        where(origin),
        (("free", bars[0], "mm"), ("needed", need, "mm")),
        f"move it, drive it before {bars[1]} is on, or bore {bars[1]} for the driver",
    )


def _first(subject: Subject, head: Vec, out: Vec, there: set[str], need: float) -> tuple[float, str] | None:
    """Return how far off the first of these parts stands in line with a head, nearer than is needed."""
    away = {p for d in subject.piece.drawers for p in d.parts} | {p for g in subject.piece.groups for p in g.parts}
    found = [
        (max(wood[0][0], 0.0), path)
        for path in sorted(there - away)
        if (wood := subject.mesh(path).wood(head, out)) and wood[0][0] < need
    ]
    return min(found, default=None)
