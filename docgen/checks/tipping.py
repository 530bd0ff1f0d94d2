"""Does the piece stand: centre of gravity against the feet, empty and loaded, with groups tilted, with drawers out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from docgen.checks import looks
from docgen.checks.finding import Finding, Grade
from docgen.checks.sag import load_on
from docgen.checks.subject import Subject, around
from docgen.geometry.shapes import Vec, turned
from docgen.schedules.terms import stated
from docgen.trade.beams import GRAVITY
from docgen.trade.stability import Tipping, centre_of_gravity, push_to_tip, tipping_over

TITLE = "tipping: empty, loaded, tilted, with drawers out, and by a push"
UNSTEADY = ("tips-over", "tips-easily", "push-tips")
"""Findings after which a piece is not loaded before it is fixed."""

CODES = (*UNSTEADY, "stability")
LOOKS = looks.Looks(looks.on_floor)

FLOOR = 1.0
"""mm over the lowest point that still stand on the floor."""

CAREFUL = 10.0
"""Degrees that a piece should lean before it tips: the slope of the test for television stands. Common practice for furniture."""

FIRMLY = 30.0
"""Degrees from which a piece stands so firmly in all its states that nothing need be told. Common practice."""

ANCHOR = "fix it to the wall: a strap or bracket near the top at each end, screwed into a stud or masonry, not into plaster alone"

SOURCE = "statics of a rigid body; weights from solids and densities; 10° as care is common practice; a caution, not a rating"

ALONE = " Counted without a sitter: nobody sits, leans or climbs on it."

FIRM = ("at rest", "loaded")

WAYS = {(0.0, -1.0): "the front", (0.0, 1.0): "the back", (-1.0, 0.0): "the left", (1.0, 0.0): "the right"}


@dataclass(frozen=True, slots=True)
class State:
    """How the piece stands: what is moved by which placement, as words."""

    words: str
    masses: tuple[tuple[float, Vec], ...]


def check(subject: Subject) -> Iterator[Finding]:
    """Yield the least firm state: a note under 30°, care under 10°, stop when it falls by itself; care where a stated push tips it.

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
        if min(t[3].angle for t in told) < FIRMLY:
            yield _finding(subject, told)
        yield from _pushed(subject, min((t for t in told if t[0].words in FIRM), key=lambda t: t[1] * t[3].distance))


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
    """Yield rest, each group at each end of its range, each drawer out, both together; and the same with what is stated to lie on it."""
    piece = subject.piece
    groups = [(f"{g.name} at {abs(float(a)):g}°", {p: turned(g.axis, float(a), g.point).point for p in g.parts})
              for g in piece.groups for a in g.range if a]  # fmt: skip
    drawers = [(d, -float(d.slide_length)) for d in piece.drawers]
    in_drawers = _in_drawers(subject)
    empty = _masses(subject)
    yield _state("at rest", empty, {}, {})
    out = {path: by for d, by in drawers for path in d.parts}
    for words, moves in groups:
        yield _state(words, empty, moves, {})
        if out:
            yield _state(f"{words}, drawers out", empty, moves, out)
    for d, by in drawers:
        yield _state(f"{d.name} out", empty, {}, dict.fromkeys(d.parts, by))
        if in_drawers:
            load = {d.name: in_drawers[d.name]}
            yield _state(
                f"{d.name} out with {load[d.name][0]:.1f} kg in it",
                empty | load,
                {},
                dict.fromkeys((*d.parts, d.name), by),
            )
    if len(drawers) > 1:
        yield _state("all drawers out", empty, {}, out)
    lying = _lying(subject)
    if lying or in_drawers:
        yield _state("loaded", empty | lying | in_drawers, {}, {})
    if in_drawers and len(drawers) > 1:
        full = empty | in_drawers
        yield _state("all drawers out and full", full, {}, out | {d.name: by for d, by in drawers})


def _masses(subject: Subject) -> dict[str, tuple[float, Vec]]:
    masses = {}
    for part in subject.piece.parts:
        kg = subject.weight(part)
        if kg is None:
            raise ValueError(f"the weight of {part.path} is not known")
        masses[part.path] = (kg, subject.placed(part.path).centroid)
    return masses


def _in_drawers(subject: Subject) -> dict[str, tuple[float, Vec]]:
    """Return the stated load of each drawer, in the middle of its parts; nothing where none is stated."""
    load = stated(subject.piece, "drawer load")
    if not load:
        return {}
    found = {}
    for d in subject.piece.drawers:
        low, high = around([subject.placed(p).bounds for p in d.parts])
        found[d.name] = (float(load), tuple((a + b) / 2 for a, b in zip(low, high, strict=True)))
    return found  # type: ignore[return-value]


def _lying(subject: Subject) -> dict[str, tuple[float, Vec]]:
    """Return what is stated to lie on shelves and on the top, in the middle of each board's upper face."""
    top = _top(subject)
    drawn = {p for d in subject.piece.drawers for p in d.parts}
    found: dict[str, tuple[float, Vec]] = {}
    for part in subject.piece.parts:
        load = None if part.path in drawn or not looks.level(part) else load_on(subject, part, top)
        if load:
            low, high = subject.placed(part.path).bounds
            found[f"on {part.path}"] = (load, ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, high[2]))
    return found


def _top(subject: Subject) -> float:
    return max(subject.placed(p.path).bounds[1][2] for p in subject.piece.parts)


def _state(
    words: str,
    masses: Mapping[str, tuple[float, Vec]],
    moves: Mapping[str, Callable[[Vec], Vec]],
    out: Mapping[str, float],
) -> State:
    moved = []
    for name, (kg, centre) in masses.items():
        at = moves[name](centre) if name in moves else centre
        moved.append((kg, (at[0], at[1] + out.get(name, 0.0), at[2])))
    return State(words, tuple(moved))


Told = tuple[State, float, Vec, Tipping]


def _finding(subject: Subject, told: Sequence[Told]) -> Finding:
    state, mass, centre, tip = min(told, key=lambda t: (t[3].angle, t[0].words))
    top = _top(subject)
    push = push_to_tip(mass, tip.distance, top)
    falls = tip.distance <= 0
    grade = Grade.STOP if falls else Grade.CARE if tip.angle < CAREFUL else Grade.NOTE
    code = {Grade.STOP: "tips-over", Grade.CARE: "tips-easily", Grade.NOTE: "stability"}[grade]
    message = f"Standing on a level floor: {mass:.1f} kg, centre of gravity {subject.about(centre[2])} up. Least firm of all its states: {state.words}, toward {_way(tip)}; "
    message += (
        f"the centre hangs {subject.about(-tip.distance)} outside the feet, and it falls."
        if falls
        else f"{subject.about(tip.distance)} inside the feet, it tips at {tip.angle:.1f}°, or by a level push of {push:.0f} N "
        f"({push / GRAVITY:.1f} kg) at its top, {subject.say(top)} up."
    )
    message += ALONE
    return Finding(
        grade,
        code,
        (),
        message,
        "tipping angle = atan(distance of the centre from the line of the feet / its height); without hardware, floor level",
        SOURCE,
        None,
        (
            ("weight", mass, "kg"),
            ("centre of gravity, up", centre[2], "mm"),
            ("inside the feet by", tip.distance, "mm"),
            ("tips at", tip.angle, "deg"),
            ("push at the top", push, "N"),
            *((f"tips {s.words} at", t.angle, "deg") for s, _, _, t in told if s is not state),
        ),
        "" if grade is Grade.NOTE else f"spread the feet, lower the weight, or {ANCHOR}",
    )


def _way(tip: Tipping) -> str:
    return WAYS[max(WAYS, key=lambda w: w[0] * tip.outward[0] + w[1] * tip.outward[1])]


def _pushed(subject: Subject, told: Told) -> Iterator[Finding]:
    """Yield care where the stated level push at the top tips the piece as it stands at rest, empty or loaded."""
    stated_push = stated(subject.piece, "side push")
    if not stated_push:
        return
    state, mass, _, tip = told
    top = _top(subject)
    push, least = float(stated_push) * GRAVITY, push_to_tip(mass, tip.distance, top)
    if push <= least:
        return
    yield Finding(
        Grade.CARE,
        "push-tips",
        (),
        f"The stated level push of {push:.0f} N ({float(stated_push):.1f} kg) at the top, {subject.say(top)} up, tips the piece toward "
        f"{_way(tip)}: {least:.0f} N are enough {state.words}.",
        "push that tips = weight · distance of the centre from the line of the feet / height of the push",
        SOURCE,
        None,
        (("push", push, "N"), ("tips by", least, "N")),
        f"spread the feet, or {ANCHOR}",
    )
