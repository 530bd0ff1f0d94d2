"""Does a piece that hangs on the wall have a way to be fixed to it: holes for screws, or hangers that are bought."""

from __future__ import annotations

import re
from collections.abc import Iterator

from docgen.checks import looks
from docgen.checks.drilled import Drilled, along, drilled
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, around, where
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.schedules.wall_holes import for_the_wall

TITLE = "screws into the wall, for a piece that hangs on it"
CODES = ("no-wall-fixing", "wall-screw-barred", "wall-place")
LOOKS = looks.Looks(lambda piece: piece.stands == "wall")

HANGERS = re.compile(r"\b(hanger|hanging|keyhole|wall|cleat)", re.IGNORECASE)
"""What bought things that hold a piece to a wall are called. Common practice."""

CLEAR = 0.1  # mm inside the hole, where the ray begins

RULE = (
    "a piece that hangs on a wall has holes right through for screws, or hangers; wood behind such a hole has one too"
)


def check(subject: Subject) -> Iterator[Finding]:
    """Yield care where a wall piece has neither screw holes toward the wall nor hangers, and where wood bars such a hole."""
    if subject.piece.stands != "wall":
        return
    holes = [(p, hole) for p in subject.piece.parts for hole in drilled(p) if for_the_wall(p, hole.row)]
    told: set[tuple[str, str, tuple[str, ...]]] = set()
    for part, hole in holes:
        barred = _barred(subject, part, hole)
        key = (part.path, hole.row.name, barred)
        if barred and key not in told:
            told.add(key)
            yield _in_the_way(part, hole, barred)
    if holes:
        yield _placed(subject, holes)
    if not holes and not _hangers(subject):
        yield Finding(
            Grade.CARE,
            "no-wall-fixing",
            (),
            "The piece hangs on the wall, and nothing fixes it there: no hole for a screw leads to the wall, and no hanger is listed.",
            RULE,
            "common practice",
            advice="two screw holes through a rail or the back, into posts or plugs of the wall, or hangers among the parts",
        )


def _placed(subject: Subject, holes: list[tuple[Part, Drilled]]) -> Finding:
    """Return where the piece goes on its wall: how high, and its holes from its left end and its lower edge."""
    low, high = around([subject.placed(p.path).bounds for p in subject.piece.parts])
    spots = sorted({(round(at[0] - low[0], 3), round(at[2] - low[2], 3)) for at in _mouths(holes)})
    columns: dict[float, list[float]] = {}
    for across, up in spots:
        columns.setdefault(across, []).append(up)
    told = "; ".join(
        f"{subject.say(across)} from the left end: {' and '.join(subject.say(up) for up in ups)} up"
        for across, ups in columns.items()
    )
    wide = spots[-1][0] - spots[0][0]
    spread = f" The outermost stand {subject.say(wide)} apart." if wide > CLEAR else ""
    height = (
        f"its lower edge hangs {subject.say(low[2])} above the floor and its top {subject.say(high[2])}, as drawn."
        if low[2] > CLEAR
        else "how high it hangs is not told: its lower edge is drawn at floor height."
    )
    return Finding(
        Grade.NOTE,
        "wall-place",
        (),
        f"On the wall: {height} Holes, above its lower edge, {told}.{spread}",
        "places at the wall's side of each hole, from the left end and the lower edge of the whole piece",
        "measured on the drawing",
        where(*(h.feature.origin for _, h in holes)),
        advice="draw a level line on the wall first; mark the rest through the holes of the piece itself",
    )


def _mouths(holes: list[tuple[Part, Drilled]]) -> Iterator[Vec]:
    """Yield where each hole comes out toward the wall, in the piece's axes."""
    for part, hole in holes:
        yield part.frame.point(hole.end if part.frame.direction(hole.way)[1] > 0 else hole.start)


def _barred(subject: Subject, part: Part, hole: Drilled) -> tuple[str, ...]:
    """Return the parts that stand between the hole's end and the wall."""
    way = part.frame.direction(hole.way)
    to_wall = way[1] > 0
    out: Vec = way if to_wall else (-way[0], -way[1], -way[2])
    at = along(part.frame.point(hole.end if to_wall else hole.start), out, -CLEAR)
    others = (p.path for p in subject.piece.parts if p.path != part.path)
    return tuple(path for path in others if subject.mesh(path).wood(at, out))


def _in_the_way(part: Part, hole: Drilled, barred: tuple[str, ...]) -> Finding:
    name = f" {hole.row.name}" if hole.row.name else ""
    return Finding(
        Grade.CARE,
        "wall-screw-barred",
        (part.path, *barred),
        f"The screws through holes{name} of {part.path} meet {' and '.join(barred)} before the wall: no hole is drilled there.",
        RULE,
        "rays from the end of each hole, square to the wall; common practice",
        where(hole.feature.origin, part.origin),
        advice=f"drill {' and '.join(barred)} at the same places",
    )


def _hangers(subject: Subject) -> bool:
    piece = subject.piece
    bought = [item.what for item in piece.items] + [p.path for p in piece.parts if p.hardware]
    return any(HANGERS.search(text) for text in bought)
