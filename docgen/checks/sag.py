"""Sag of shelves, tops and drawer bottoms under the loads that the file states."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject, boxes_meet, where
from docgen.piece.model import Part
from docgen.schedules.terms import stated
from docgen.trade.beams import CREEP, GRAVITY, sag_uniform, second_moment
from docgen.trade.density import panel, wood
from docgen.trade.names import UnknownName

TITLE = "sag of shelves under the stated loads"
CODES = ("shelf-sags",)
LOOKS = looks.Looks(looks.boards, looks.says("shelf load", "top load", "drawer load"), "no load")

EYE = 600.0
"""The first sag that is meant not to be seen, as a share of the span: 1/600, 0.02 in in a foot; from 1/32 in a foot the eye notices.

Source: a woodworking magazine on shelves (2007); common practice before and after it.
"""

HIDDEN = 200.0
"""The same for the bottoms of drawers. Common practice."""

WOODS = "stiffness by Table 5-3; twice in time by creep, from memory"

TOUCH = 0.2  # mm

WIDE = 3  # times as wide as thick a shelf is at the least
LIES = 5.0  # mm over a board: what is no further lies on it, or runs on it
PLACES = (0.1, 0.3, 0.5, 0.7, 0.9)  # of its length


@dataclass(frozen=True, slots=True)
class Stiff:
    """Bending stiffness along the part's length, MPa, and the factor to which a sag grows in time."""

    modulus: float
    creep: float
    source: str


def stiffness(part: Part) -> Stiff | None:
    """Return how stiff a part's material is along its length; None where the tables do not know it."""
    material = part.material
    try:
        if material.stiffness is not None:
            return Stiff(
                material.stiffness, CREEP, "stiffness as the file states it; twice in time by creep, from memory"
            )
        if material.solid_wood:
            return Stiff(wood(material.species).modulus, CREEP, WOODS)
        sheet = panel(material.sheet)
    except UnknownName:
        return None
    return Stiff(sheet.along, sheet.creep, f"stiffness and creep: {sheet.source}; from memory")


def check(subject: Subject) -> Iterator[Finding]:
    """Yield shelves of known stiffness whose first sag under the stated load is over 1/600 of the span between supports.

    The bottom of a drawer, which nobody sees and which is held at more than two edges, may sag 1/200 of it.
    """
    boards = [p for p in subject.piece.parts if looks.level(p)]
    top = max((subject.placed(p.path).bounds[1][2] for p in subject.piece.parts), default=0.0)
    for part in boards:
        load = load_on(subject, part, top)
        if load is None or load <= 0:
            continue
        stiff = stiffness(part)
        if stiff is None:
            continue
        span = clear_span(subject, part)
        length = float(part.size[0])
        newtons = load * GRAVITY * span / length
        first = sag_uniform(newtons, span, stiff.modulus, second_moment(part.size[1], part.size[2]))
        share = HIDDEN if any(part.path in d.parts for d in subject.piece.drawers) else EYE
        if first > span / share:
            yield _finding(subject, part, load, span, first, stiff, share)


def load_on(subject: Subject, part: Part, top: float) -> float | None:
    """Return the stated load in kg: a drawer's for its parts, the top's for what lies highest, else that of a shelf.

    None for a board that is no shelf, and where the file states no such load.
    """
    piece = subject.piece
    if any(part.path in d.runners for d in piece.drawers):
        return None
    if any(part.path in d.parts for d in piece.drawers):
        name = "drawer load"
    elif at_top(subject, part, top):
        name = "top load"
    else:
        name = "shelf load"
    value = stated(piece, name)
    if value is None or (name == "shelf load" and not is_shelf(subject, part)):
        return None
    return float(value)


def at_top(subject: Subject, part: Part, top: float) -> bool:
    """Return True for a part whose upper side is the highest of the piece, `top` mm up."""
    return abs(subject.placed(part.path).bounds[1][2] - top) < TOUCH


def is_shelf(subject: Subject, part: Part) -> bool:
    """Return True for a level board that things can be put on.

    It is at least three times as wide as thick, and no other part lies on it at more than half of the places along its
    middle: a runner under a drawer, a kicker and a rail are none. Common practice.
    """
    if float(part.size[1]) < WIDE * float(part.size[2]):
        return False
    low, high = subject.placed(part.path).bounds
    long = 0 if high[0] - low[0] >= high[1] - low[1] else 1
    bare = 0
    for share in PLACES:
        at = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, high[2] + TOUCH / 10]
        at[long] = low[long] + share * (high[long] - low[long])
        ahead = subject.ahead((at[0], at[1], at[2]), 2, 1, (part.path,))
        bare += ahead is None or ahead[0] > LIES
    return 2 * bare >= len(PLACES)


def clear_span(subject: Subject, part: Part) -> float:
    """Return the greatest length without support, mm: between the part's nominal ends and what stands right under it."""
    inner = part.frame.inverse()
    mine = subject.placed(part.path)
    blocked: list[tuple[float, float]] = []
    for other in subject.piece.parts:
        if other.path == part.path or not boxes_meet(subject.placed(other.path).bounds, mine.bounds, TOUCH):
            continue
        box = subject.placed(other.path).bounds
        if abs(box[1][2] - mine.bounds[0][2]) < TOUCH:
            ends = sorted(inner.point(c)[0] for c in (box[0], box[1]))
            blocked.append((ends[0], ends[1]))
    at, widest = 0.0, 0.0
    for low, high in sorted(blocked):
        widest = max(widest, low - at)
        at = max(at, high)
    return max(widest, float(part.size[0]) - at)


def _finding(
    subject: Subject, part: Part, load: float, span: float, first: float, stiff: Stiff, share: float
) -> Finding:
    why = "is where the eye notices" if share == EYE else "is enough for a bottom that nobody sees"
    return Finding(
        Grade.CARE,
        "shelf-sags",
        (part.path,),
        f"{part.path} carries {subject.weigh(load)} over {subject.say(span)} and sags {subject.beside(first, span / share)} at once, in time about "
        f"{subject.say(first * stiff.creep)}; {subject.say(span / share)} {why}.",
        f"5 · W · L³ / (384 · E · I) ≤ L / {share:.0f}, supported at both ends, load spread evenly, not glued in",
        f"Wood Handbook, Equation 9-2; {stiff.source}; L/{share:.0f} is common practice",
        where(part.origin),
        (
            ("sag at once", first, "mm"),
            ("sag in time", first * stiff.creep, "mm"),
            ("span", span, "mm"),
            ("load", load, "kg"),
        ),
        "a thicker board, a shorter span, a stiffening edge, or less load",
    )
