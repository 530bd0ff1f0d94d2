"""Solid parts fixed to each other whose grain runs differently: how far they want to move apart between their fixings."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations, product

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, where
from docgen.checks.trenches import box_of
from docgen.checks.year import year
from docgen.geometry.make import dot
from docgen.geometry.shapes import Extrusion, Vec
from docgen.piece.model import Fastener, Joint, Part
from docgen.piece.records import Feature, Origin, Purpose
from docgen.piece.woods import movement
from docgen.trade.movement import Movement, change
from docgen.trade.names import INCH, UnknownName
from docgen.trade.threads import find

TITLE = "solid wood fixed across the grain of other solid wood"
CODES = ("cross-grain",)
LOOKS = looks.Looks(looks.both(looks.solid, looks.either(looks.fasteners, looks.joints)))

ALLOWED = INCH / 16
"""mm that two parts may move against each other between their fixings: what glue and screws still take. Common practice."""

USUAL = (6.0, 10.0)
"""Wood moisture over the year, %, where the file states none. Source: Wood Handbook, chapter 13, for most interiors, from memory."""


@dataclass(frozen=True, slots=True)
class Fixing:
    """A point in the piece's axes, mm, at which two parts cannot slip by more than `play` mm, or along a slot by its reach."""

    at: Vec
    play: float
    origin: Origin
    slot: Vec = (0.0, 0.0, 0.0)


def check(subject: Subject) -> Iterator[Finding]:
    """Yield pairs of solid parts that move against each other by more than 1/16 in between two of their fixings.

    Each part moves across its grain only, flat-sawn; over the moisture that the file states, else 6 to 10 %.
    """
    moisture = _moisture(subject)
    fixed: dict[tuple[str, str], list[Fixing]] = {}
    for fastener in subject.piece.fasteners:
        if all(fastener.parts):
            fixed.setdefault(fastener.parts, []).extend(_fastened(subject, fastener))
    for joint in subject.piece.joints:
        if joint.holds:
            for host in joint.parts[1:]:
                fixed.setdefault((joint.parts[0], host), []).extend(_glued(subject.piece.part(host), joint))
    for (one, two), fixings in fixed.items():
        yield from _pair(subject, subject.piece.part(one), subject.piece.part(two), fixings, moisture)


def _moisture(subject: Subject) -> tuple[float, float]:
    told = year(subject.piece)
    return USUAL if told is None else (told.dry, told.wet)


def _fastened(subject: Subject, fastener: Fastener) -> list[Fixing]:
    """Return a fixing at each screw; a bolt can slip in its clearance hole, a countersunk screw cannot."""
    play = 0.0
    part = subject.piece.part(fastener.parts[0])
    holes = [
        h for f in part.features for h in f.made.holes if h.name == fastener.key and h.purpose is Purpose.CLEARANCE
    ]
    try:
        play = max((float(h.diameter - find(fastener.thread).major) / 2 for h in holes), default=0.0)
    except UnknownName:  # a wood screw: its head centres it
        play = 0.0
    return [
        Fixing((float(p[0]), float(p[1]), float(p[2])), max(play, 0.0), fastener.origin, fastener.slot)
        for p in fastener.points
    ]


def _glued(host: Part, joint: Joint) -> list[Fixing]:
    """Return the corners of what the joint cuts into the face of `host`."""
    names = {name for path, name in joint.features if path == host.path}
    return [
        Fixing(host.frame.point(corner), 0.0, joint.origin)
        for feature in host.features
        if feature.name in names
        for corner in _corners(host, feature)
    ]


def _corners(host: Part, feature: Feature) -> Iterator[Vec]:
    """Yield the corners of a feature's cuts on the face that the cutter enters, inside the part's nominal box."""
    for cut in feature.made.cuts:
        if not isinstance(cut.shape, Extrusion):
            continue
        low, high = box_of(cut.shape)
        ends = [(max(low[i], 0.0), min(high[i], float(host.size[i]))) for i in range(3)]
        into = max(range(3), key=lambda i, s=cut.shape: abs(s.frame.rotation[i][2]))  # type: ignore[misc]
        ends[into] = (ends[into][0], ends[into][0])
        yield from product(*ends)


def _wood(part: Part) -> Movement | None:
    return None if part.hardware else movement(part.material)


def _moves(part: Part, wood: Movement, d: Vec, moisture: tuple[float, float]) -> Vec:
    """Return by how much two points of a part that lie `d` apart move apart: only what of `d` runs across the grain."""
    grain = part.frame.direction((1.0, 0.0, 0.0))
    along = sum(a * b for a, b in zip(d, grain, strict=True))
    x, y, z = (change(a - along * g, wood.tangential, *moisture) for a, g in zip(d, grain, strict=True))
    return x, y, z


def _slipped(move: Vec, slot: Vec) -> Vec:
    """Return what is left of a movement when a fixing travels along its slot as far as that reaches."""
    reach = math.hypot(*slot)
    if not reach:
        return move
    along = sum(a * b for a, b in zip(move, slot, strict=True)) / reach
    taken = max(-reach, min(reach, along)) / reach
    return (move[0] - slot[0] * taken, move[1] - slot[1] * taken, move[2] - slot[2] * taken)


def _pair(
    subject: Subject, one: Part, two: Part, fixings: list[Fixing], moisture: tuple[float, float]
) -> Iterator[Finding]:
    first, second = _wood(one), _wood(two)
    if first is None or second is None:
        return
    worst = (0.0, 0.0, 0.0)
    ways = [p.frame.direction(way) for p in (one, two) for way in ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0))]
    for a, b in combinations(fixings, 2):
        d = (b.at[0] - a.at[0], b.at[1] - a.at[1], b.at[2] - a.at[2])
        x, y = _moves(one, first, d, moisture), _moves(two, second, d, moisture)
        move = (x[0] - y[0], x[1] - y[1], x[2] - y[2])
        left = _slipped(_slipped(move, a.slot), b.slot)
        # Told along one way across the grain, as a rule lies on it, not over the diagonal of a tenon or a board's edge.
        along = ((abs(dot(left, w)) - a.play - b.play, abs(dot(move, w)), abs(dot(d, w))) for w in ways)
        worst = max(worst, *along)
    more, apart, width = worst
    if more <= ALLOWED:
        return
    room = apart - more
    yield Finding(
        Grade.CARE,
        "cross-grain",
        (one.path, two.path),
        f"{one.path} and {two.path} are held over {subject.say(width)}, and their grain runs differently: from {moisture[0]:g} to "
        f"{moisture[1]:g} % moisture they move {subject.beside(apart, float(ALLOWED) + room)} against each other if flat-sawn, with {subject.say(room)} of play.",
        "each part moves by ΔD = D · C · (M₂ − M₁) across its grain and not along it; the difference between two fixings, "
        "less the play in their holes, is at most 1/16 in (1.6 mm)",
        f"Wood Handbook, FPL-GTR-190, Equation 13-2; figures: {'; '.join(dict.fromkeys((first.source, second.source)))}; "
        "1/16 in is common practice",
        where(*(f.origin for f in fixings), one.origin),
        (("movement", apart, "mm"), ("play", room, "mm"), ("held over", width, "mm")),
        "slotted holes, buttons, a tongue left dry, a narrower tenon, or glue at one place only and room at the others",
    )
