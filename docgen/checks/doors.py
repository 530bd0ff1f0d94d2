"""Inset doors over the year: what their upright boards swell by against the gap at the edge away from the hinges."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.checks.year import Year, year
from docgen.geometry.shapes import Vec
from docgen.piece.model import Group, Joint, Part
from docgen.piece.woods import movement
from docgen.trade.movement import change

TITLE = "seasonal movement of inset doors against their gaps"
CODES = ("door-binds",)
LOOKS = looks.Looks(looks.doors, looks.moisture, "no moisture or humidity")

WHOLE = 0.95
"""Share of a door's height from which an upright board is one of its stiles, or the door itself: beads are shorter."""

REACH = 20.0  # mm: what stands further away is no neighbour
UP = 1 - 1e-9
SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Door:
    """A group that is hung at one side: the joint that hangs it, its uprights, and the side that is free (0 left, 1 right)."""

    group: Group
    joint: Joint
    uprights: tuple[Part, ...]
    free: int


def doors(subject: Subject) -> Iterator[Door]:
    """Yield the groups that turn about an upright axis and are hung by a joint that states its clearance."""
    piece = subject.piece
    for group in piece.groups:
        if group.axis != 2:
            continue
        for joint in piece.joints:
            hung = joint.parts[0] in group.parts and any(p not in group.parts for p in joint.parts)
            if hung and any(name in ("clearance", "gap") for name, _, _ in joint.figures):
                low, high = _extent(subject, group)
                tall = [piece.part(p) for p in group.parts if _upright(subject, piece.part(p), high[2] - low[2])]
                middle = (low[0] + high[0]) / 2
                yield Door(group, joint, tuple(tall), 1 if group.point[0] < middle else 0)
                break


def _extent(subject: Subject, group: Group) -> tuple[Vec, Vec]:
    boxes = [subject.placed(p).bounds for p in group.parts]
    low = tuple(min(b[0][i] for b in boxes) for i in range(3))
    high = tuple(max(b[1][i] for b in boxes) for i in range(3))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _upright(subject: Subject, part: Part, height: float) -> bool:
    """Return True for solid wood whose grain runs up over nearly the whole door."""
    low, high = subject.placed(part.path).bounds
    along = part.frame.direction((1.0, 0.0, 0.0))
    return part.material.solid_wood and abs(along[2]) > UP and high[2] - low[2] >= WHOLE * height


def check(subject: Subject) -> Iterator[Finding]:
    """Yield doors whose uprights swell by more than the gap at their free edge; half of it where another door hangs there."""
    told = year(subject.piece)
    if told is None:
        return
    hung = list(doors(subject))
    for door in hung:
        found = gap(subject, door)
        if found is None:
            continue
        room, other = found
        meets = any(other in d.group.parts for d in hung if d is not door)
        room = room / 2 if meets else room
        grows = [_grows(p, told) for p in door.uprights]
        if grows and None not in grows and sum(g[0] for g in grows if g) > room + SAME:
            yield _finding(subject, door, [g for g in grows if g], room, told, meets)


def _grows(part: Part, told: Year) -> tuple[float, float] | None:
    """Return what a part swells by across its grain, mm, flat-sawn and quarter-sawn."""
    wood = movement(part.material)
    if wood is None:
        return None
    wide = float(part.size[1])
    return change(wide, wood.tangential, told.start, told.wet), change(wide, wood.radial, told.start, told.wet)


def gap(subject: Subject, door: Door) -> tuple[float, str] | None:
    """Return the gap at the free edge, mm, and what stands there, by a ray at half height; None where nothing is near."""
    low, high = _extent(subject, door.group)
    edge = high[0] if door.free else low[0]
    start = (edge, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2)
    found = subject.ahead(start, 0, door.free, door.group.parts)
    return found if found is not None and found[0] <= REACH else None


def _finding(
    subject: Subject, door: Door, grows: list[tuple[float, float]], room: float, told: Year, meets: bool
) -> Finding:
    flat, quarter = (sum(g[i] for g in grows) for i in (0, 1))
    names = " and ".join(p.called for p in door.uprights)
    half = ", its half of the gap between both doors" if meets else ""
    return Finding(
        Grade.CARE,
        "door-binds",
        tuple(p.path for p in door.uprights),
        f"{door.group.name} grows wider by {subject.say(flat)} from {told.start:g} to {told.wet:g} % moisture if {names} are "
        f"flat-sawn; at its free edge it has {subject.say(room)}{half}.",
        "Σ D · C · (M₂ − M₁) of the upright boards ≤ gap at the free edge; what hangs grows away from its hinges",
        "Wood Handbook, FPL-GTR-190, Equation 13-2 and Table 13-5; the gap is measured on the solids",
        where(door.joint.origin),
        (("swelling", flat, "mm"), ("room", room, "mm"), ("swelling, quarter-sawn", quarter, "mm")),
        f"a wider gap, quarter-sawn stiles ({subject.say(quarter)}), or fit it on a damp day",
    )
