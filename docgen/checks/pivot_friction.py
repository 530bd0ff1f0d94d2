"""What pivots must hold by friction, so that a group that tilts stays where it is put."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.geometry.shapes import turned
from docgen.piece.model import Fastener, Group
from docgen.trade.beams import GRAVITY
from docgen.trade.names import UnknownName
from docgen.trade.threads import find
from docgen.trade.weights import POUND_FORCE, moment_told

TITLE = "friction that pivots must hold"
SLIPS = "pivot-slips"
"""The finding after which nobody lets go of what was turned up."""

CODES = ("pivot-torque", SLIPS, "stay-holds")
LOOKS = looks.Looks(looks.both(looks.tilting, looks.bolts))

FRICTION = 0.2
"""Of a washer on wood or on a low-friction washer, dry. Common practice; from 0.1 to 0.4 in use."""

CLAMPS = 500.0
"""N with which a bolt in tapped wood can be kept drawn up for years. Common practice; wood gives way and the bolt slackens."""

ON_AXIS = 0.5  # mm from the axis to a bolt that is a pivot of it
STEPS = 12


@dataclass(frozen=True, slots=True)
class Held:
    """The greatest moment about the axis on the way, N·m, and the angle from rest at which it acts."""

    moment: float
    degrees: float


def check(subject: Subject) -> Iterator[Finding]:
    """Yield one finding for each group that turns about a level axis on bolts: care where friction alone cannot hold it."""
    for group in subject.piece.groups:
        pivots = [f for f in subject.piece.fasteners if _is_pivot(f, group)]
        if group.axis == 2 or not pivots:
            continue
        held = greatest(subject, group)
        if held is not None and held.moment > 0:
            yield _finding(subject, group, pivots, held)


def _is_pivot(f: Fastener, group: Group) -> bool:
    """Return True for a bolt that lies on the group's axis and joins one of its parts to a part that stays."""
    if sum(p in group.parts for p in f.parts) != 1 or not f.points:
        return False
    across = [i for i in range(3) if i != group.axis]
    return all(math.hypot(*(float(p[i]) - group.point[i] for i in across)) <= ON_AXIS for p in f.points)


def greatest(subject: Subject, group: Group) -> Held | None:
    """Return the greatest moment of the group's weight about its axis between rest and the end of its range.

    None where the weight of a part is not known. At rest it lies on something, so rest itself does not count.
    """
    weighed = [(subject.weight(subject.piece.part(p)), subject.placed(p).centroid) for p in group.parts]
    if any(kg is None for kg, _ in weighed):
        return None
    level = 1 - group.axis  # the level direction square to the axis
    end = max((float(a) for a in group.range), key=abs)
    found = []
    for k in range(1, STEPS + 1):
        degrees = end * k / STEPS
        turn = turned(group.axis, degrees, group.point)
        moment = sum((kg or 0.0) * GRAVITY * (turn.point(c)[level] - group.point[level]) for kg, c in weighed)
        found.append(Held(abs(moment) / 1000.0, abs(degrees)))
    return max(found, key=lambda h: (h.moment, -h.degrees))


def _rubs(f: Fastener) -> float:
    """Return the mean radius on which a pivot's washers rub, mm."""
    try:
        inner = float(find(f.thread).major)
    except UnknownName:
        inner = 0.0
    return (max(float(f.head[0]), inner) + inner) / 4


def _round(newtons: float) -> float:
    """Return a force to two figures that count: it is an estimate."""
    if not 0 < newtons < math.inf:
        return newtons
    step = 10.0 ** (math.floor(math.log10(newtons)) - 1)
    return round(newtons / step) * step


def _force(newtons: float, system: str) -> str:
    """Return an estimated force to two figures in either unit."""
    told = f"{_round(newtons):.0f} N"
    return f"{_round(newtons / POUND_FORCE):.0f} lbf ({told})" if system == "inch" else told


def _finding(subject: Subject, group: Group, pivots: list[Fastener], held: Held) -> Finding:
    count = sum(len(f.points) for f in pivots)
    radius = sum(_rubs(f) * len(f.points) for f in pivots) / count
    clamp = held.moment * 1000.0 / (count * FRICTION * radius) if radius > 0 else math.inf
    slips = clamp > CLAMPS
    kilos = sum(subject.weight(subject.piece.part(p)) or 0.0 for p in group.parts)
    system = subject.piece.units.system
    message = (
        f"{group.name} weighs {subject.weigh(kilos)} and pulls with up to {moment_told(held.moment, system)} about its {count} pivots, "
        f"at {held.degrees:.0f}° from rest. Held by friction alone each bolt would have to clamp with about {_force(clamp, system)}"
    )
    if group.stays[0]:
        return _stayed(subject, group, pivots, held, kilos)
    return Finding(
        Grade.CARE if slips else Grade.NOTE,
        SLIPS if slips else "pivot-torque",
        group.parts,
        f"{message}: it will not stay up by itself." if slips else f"{message}.",
        f"clamping force = moment / (pivots · {FRICTION:g} · mean radius of the washers) ≤ {CLAMPS:.0f} N in tapped wood",
        "statics; weights from solids and densities; friction and clamping force are common practice",
        where(*(f.origin for f in pivots)),
        (
            ("moment", held.moment, "N·m"),
            ("at", held.degrees, "deg"),
            ("clamping force", clamp, "N"),
            ("mean radius", radius, "mm"),
        ),
        "a stay, a prop or a notched strut that carries the weight, or the axis nearer to the middle of the weight"
        if slips
        else "draw the bolts up until it stays, and again after the first season",
    )


def _stayed(subject: Subject, group: Group, pivots: list[Fastener], held: Held, kilos: float) -> Finding:
    """Return what the stays of a group have to hold: their own sheets say whether they do."""
    (count, kind), system = group.stays, subject.piece.units.system
    return Finding(
        Grade.NOTE,
        "stay-holds",
        group.parts,
        f"{group.name} weighs {subject.weigh(kilos)} and pulls with up to {moment_told(held.moment, system)} about its pivots, at "
        f"{held.degrees:.0f}° from rest. {count} × {kind.split(',')[0]} {'has' if count == 1 else 'have'} to hold that together, and what leans "
        "on it besides.",
        "moment = weight · level distance of its centre from the axis, greatest on the way; held by the stays, not by friction",
        "statics; weights from solids and densities; what a stay holds its own sheet says",
        where(*(f.origin for f in pivots)),
        (("moment", held.moment, "N·m"), ("at", held.degrees, "deg")),
        "choose the stays by that moment, and try them with the hand under it before it is let go",
    )
