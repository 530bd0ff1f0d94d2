"""Which parts are the same: compared by their solids, both hands told apart.

Two parts are one kind when a half turn about one of the box's axes, or none, lays one solid on the other; parts of
square section may also be rolled a quarter. They are a left and a right when only a mirror image fits.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import product

import numpy as np
import numpy.typing as npt

from docgen.geometry.solids import Solid
from docgen.piece.model import Kind, Part, Piece
from docgen.piece.records import Stage
from docgen.piece.solids import Solids

Floats = npt.NDArray[np.float64]

CLOSE = 1e-3
"""Vertices closer than this are the same, mm."""

ROUND = 1.7e-4
"""Shift before rounding, mm: keeps common fractions of an inch and a millimetre off the middle between two steps."""


@dataclass(slots=True)
class _Group:
    part: Part
    solid: Solid
    same: list[str] = field(default_factory=list)
    mirrored: list[str] = field(default_factory=list)


def kinds(piece: Piece, solids: Solids) -> tuple[Kind, ...]:
    """Return the kinds in the order of their first parts; each part is in one kind."""
    groups: list[_Group] = []
    for part in piece.parts:
        solid = solids.solid(part.path, Stage.FITTED)
        for group in groups:
            if not _alike(part, group.part) or abs(solid.volume - group.solid.volume) > 1.0:
                continue
            hand = _hand(group, part, solid)
            if hand:
                (group.same if hand > 0 else group.mirrored).append(part.path)
                break
        else:
            groups.append(_Group(part, solid, [part.path]))
    return tuple(Kind(tuple(g.same), tuple(g.mirrored)) for g in groups)


def _alike(a: Part, b: Part) -> bool:
    """Return whether two parts are of one material, size, authority and have the same holes and work."""
    return (
        a.material == b.material
        and a.authority == b.authority
        and a.hardware == b.hardware
        and all(abs(float(x) - float(y)) < CLOSE for x, y in zip(a.size, b.size, strict=True))
        and _work(a) == _work(b)
    )


def _work(part: Part) -> list[tuple[str, ...]]:
    """Return what the solid does not show of a part's work: threads, purposes, stages, fits."""
    out = [(str(f.stage), f.word) for f in part.features]
    holes = [
        ("hole", h.purpose.value, h.thread, str(h.authority), h.drill, f"{float(h.diameter):.3f}")
        for f in part.features
        for h in f.made.holes
    ]
    return sorted([*out, *holes])


def _hand(group: _Group, part: Part, solid: Solid) -> int:
    """Return 1 when the part is the group's own, −1 when it is its mirror image, 0 when neither."""
    mine, theirs = _vertices(part, solid), _vertices(group.part, group.solid)
    if len(mine) != len(theirs):
        return 0
    wanted = _rows(theirs)
    square = abs(float(part.size[1]) - float(part.size[2])) < CLOSE
    for hand in (1, -1):
        for turn in _turns(hand, square=square):
            if np.array_equal(_rows(mine @ turn), wanted):
                return hand
    return 0


def _vertices(part: Part, solid: Solid) -> Floats:
    """Return the solid's vertices, (n, 3) mm, from the middle of the nominal box."""
    middle = np.array([float(s) / 2 for s in part.size])
    vertices: Floats = solid.mesh()[0] - middle
    return vertices


def _rows(points: Floats) -> npt.NDArray[np.int64]:
    """Return the points rounded and in one order, each once."""
    return np.unique(np.round((points + ROUND) / CLOSE).astype(np.int64), axis=0)


def _turns(hand: int, *, square: bool) -> Iterable[Floats]:
    """Yield the turns (hand 1) or mirrorings (hand −1) that keep the line of the length axis."""
    for signs in product((1.0, -1.0), repeat=3):
        for swap in (False, True) if square else (False,):
            turn = np.diag(signs)
            if swap:
                turn = turn[:, [0, 2, 1]]
            if round(float(np.linalg.det(turn))) == hand:
                yield turn
