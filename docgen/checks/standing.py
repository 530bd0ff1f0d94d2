"""The states in which a piece stands: empty and loaded, with groups tilted and drawers out; and the feet that it stands on."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from docgen.checks import looks
from docgen.checks.sag import at_top, load_on
from docgen.checks.subject import Subject, around
from docgen.geometry.shapes import Vec, turned
from docgen.schedules.terms import stated

FLOOR = 1.0
"""mm over the lowest point that still stand on the floor."""


@dataclass(frozen=True, slots=True)
class State:
    """How the piece stands: what is moved by which placement, as words."""

    words: str
    masses: tuple[tuple[float, Vec], ...]


def feet(subject: Subject) -> list[tuple[float, float]] | None:
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


def states(subject: Subject) -> Iterator[State]:
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
        yield _state(f"{d.called} out", empty, {}, dict.fromkeys(d.parts, by))
        if in_drawers:
            load = {d.name: in_drawers[d.name]}
            yield _state(
                f"{d.called} out with {subject.weigh(load[d.name][0])} in it",
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
    """Return what is stated to lie on shelves and on the top, in the middle of each board's upper face.

    What stands on the top is stated once for the whole: boards that make the top together share it by their areas.
    """
    top = top_of(subject)
    drawn = {p for d in subject.piece.drawers for p in d.parts}
    boards = [p for p in subject.piece.parts if p.path not in drawn and looks.level(p)]
    whole = sum(_area(subject, p.path) for p in boards if at_top(subject, p, top))
    found: dict[str, tuple[float, Vec]] = {}
    for part in boards:
        load = load_on(subject, part, top)
        if load:
            low, high = subject.placed(part.path).bounds
            share = _area(subject, part.path) / whole if at_top(subject, part, top) else 1.0
            found[f"on {part.path}"] = (load * share, ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2, high[2]))
    return found


def _area(subject: Subject, path: str) -> float:
    low, high = subject.placed(path).bounds
    return (high[0] - low[0]) * (high[1] - low[1])


def top_of(subject: Subject) -> float:
    """Return how high the highest part reaches, mm."""
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
