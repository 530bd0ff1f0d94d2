"""Does the piece stand: centre of gravity against the feet, at rest, with groups tilted, with drawers out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from docgen.checks.finding import Finding, Grade
from docgen.checks.subject import Subject
from docgen.geometry.shapes import Vec, turned
from docgen.trade.stability import Tipping, centre_of_gravity, push_to_tip, tipping_over

TITLE = "tipping: at rest, tilted, with drawers out"
CODES = ("tips-over", "tips-easily", "stability")

FLOOR = 1.0
"""mm over the lowest point that still stand on the floor."""

CAREFUL = 10.0
"""Degrees that a piece should lean before it tips: the slope of the test for television stands. Common practice for furniture."""

WAYS = {(0.0, -1.0): "the front", (0.0, 1.0): "the back", (-1.0, 0.0): "the left", (1.0, 0.0): "the right"}


@dataclass(frozen=True, slots=True)
class State:
    """How the piece stands: what is moved by which placement, as words."""

    words: str
    masses: tuple[tuple[float, Vec], ...]


def check(subject: Subject) -> Iterator[Finding]:
    """Yield the least firm state, as a note, or as care under 10°, or as stop when it falls by itself.

    Pieces that the file says hang on the wall, and those whose lowest point is not at height 0, are passed over;
    so are those of unknown weight.
    """
    if subject.piece.stands == "wall":
        return
    feet = _feet(subject)
    if feet is None:
        return
    try:
        states = list(_states(subject))
        found = [(s, centre_of_gravity(s.masses)) for s in states]
        told = [(s, mass, centre, tipping_over(centre, feet)) for s, (mass, centre) in found]
    except ValueError:
        return  # nothing to weigh, or a support that is no area
    if told:
        yield _finding(subject, *min(told, key=lambda t: (t[3].angle, t[0].words)))


def _feet(subject: Subject) -> list[tuple[float, float]] | None:
    """Return the points that touch the floor (height 0); None when nothing does."""
    out: list[tuple[float, float]] = []
    for part in subject.piece.parts:
        low, _ = subject.placed(part.path).bounds
        if abs(low[2]) > FLOOR:
            if low[2] < -FLOOR:
                return None
            continue
        points = subject.mesh(part.path).triangles.reshape(-1, 3)
        out += [(x, y) for x, y in np.unique(points[points[:, 2] <= FLOOR][:, :2], axis=0).tolist()]
    return out or None


def _states(subject: Subject) -> Iterator[State]:
    """Yield rest, each group at each end of its range, each drawer out, and both together."""
    piece = subject.piece
    groups = [(f"{g.name} at {abs(float(a)):g}°", {p: turned(g.axis, float(a), g.point).point for p in g.parts})
              for g in piece.groups for a in g.range if a]  # fmt: skip
    drawers = [(f"{d.name} out", d.parts, -float(d.slide_length)) for d in piece.drawers]
    yield _state(subject, "at rest", {}, {})
    out = {path: by for _, paths, by in drawers for path in paths}
    for words, moves in groups:
        yield _state(subject, words, moves, {})
        if out:
            yield _state(subject, f"{words}, drawers out", moves, out)
    for words, paths, by in drawers:
        yield _state(subject, words, {}, dict.fromkeys(paths, by))
    if len(drawers) > 1:
        yield _state(subject, "all drawers out", {}, out)


def _state(subject: Subject, words: str, moves: dict, out: dict[str, float]) -> State:  # type: ignore[type-arg]
    masses = []
    for part in subject.piece.parts:
        kg = subject.weight(part)
        if kg is None:
            raise ValueError(f"the weight of {part.path} is not known")
        centre = subject.placed(part.path).centroid
        if part.path in moves:
            centre = moves[part.path](centre)
        masses.append((kg, (centre[0], centre[1] + out.get(part.path, 0.0), centre[2])))
    return State(words, tuple(masses))


def _finding(subject: Subject, state: State, mass: float, centre: Vec, tip: Tipping) -> Finding:
    top = max(subject.placed(p.path).bounds[1][2] for p in subject.piece.parts)
    push = push_to_tip(mass, tip.distance, top)
    way = WAYS[max(WAYS, key=lambda w: w[0] * tip.outward[0] + w[1] * tip.outward[1])]
    falls = tip.distance <= 0
    grade = Grade.STOP if falls else Grade.CARE if tip.angle < CAREFUL else Grade.NOTE
    code = {Grade.STOP: "tips-over", Grade.CARE: "tips-easily", Grade.NOTE: "stability"}[grade]
    message = f"Standing on a level floor: {mass:.1f} kg, centre of gravity {subject.say(centre[2])} up. Least firm {state.words}, toward {way}: "
    message += (
        f"the centre hangs {subject.say(-tip.distance)} outside the feet, and it falls."
        if falls
        else f"{subject.say(tip.distance)} inside the feet, it tips at {tip.angle:.1f}°, or by a level push of {push:.0f} N "
        f"({push / 9.80665:.1f} kg) at its top, {subject.say(top)} up."
    )
    return Finding(
        grade,
        code,
        (),
        message,
        "tipping angle = atan(distance of the centre from the line of the feet / its height); empty, without hardware, floor level",
        "statics of a rigid body; weights from solids and densities; 10° as care is common practice; a caution, not a rating",
        None,
        (
            ("weight", mass, "kg"),
            ("centre of gravity, up", centre[2], "mm"),
            ("inside the feet by", tip.distance, "mm"),
            ("tips at", tip.angle, "deg"),
            ("push at the top", push, "N"),
        ),
        "" if grade is Grade.NOTE else "spread the feet, lower the weight, or fix the piece to the wall",
    )
