"""Which parts are the same: compared by their solids, both hands told apart.

Two parts are one kind when a half turn about one of the box's axes, or none, lays one solid on the other; parts of
square section may also be rolled a quarter. They are a left and a right when only a mirror image fits. Where both have a
face that shows, none is laid on the other's back: two stiles that fit turned over would hide the good face of one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import product

import numpy as np
import numpy.typing as npt

from docgen.geometry.shapes import Frame
from docgen.geometry.solids import Solid, common
from docgen.piece.model import Kind, Part, Piece
from docgen.piece.solids import Solids

Floats = npt.NDArray[np.float64]

CLOSE = 1e-3
"""Vertices closer than this are the same, mm."""

OFF = 0.05
"""Centres of volume further apart than this belong to different solids, mm."""

APART = 1e-4
"""Share by which second moments of volume of two different solids differ at least, or they are compared whole."""

LEAST, SHARE = 2.0, 1e-5
"""What two equal solids may fail to share, from the facets of their curves: mm³, and part of the volume."""


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
        solid = solids.alike(part.path)
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
    middle = np.array([float(s) / 2 for s in part.size])
    there = np.array([float(s) / 2 for s in group.part.size])
    mine, theirs = np.array(solid.centroid) - middle, np.array(group.solid.centroid) - there
    square = abs(float(part.size[1]) - float(part.size[2])) < CLOSE
    for hand in (1, -1):
        for turn in _turns(hand, square=square):
            if not _shows(turn, part, group.part):
                continue
            if np.abs(turn @ mine - theirs).max() < OFF and _fits(group.solid, _laid(solid, turn, hand, middle, there)):
                return hand
    return 0


def _shows(turn: Floats, part: Part, onto: Part) -> bool:
    """Return whether a turn does not lay the face of a part that shows on the one opposite to that of another.

    A quarter roll brings it to the next side: a square leg shows two of them.
    """
    if part.show is None or onto.show is None:
        return True
    mine, theirs = (np.eye(3)[show.axis] * (2 * show.side - 1) for show in (part.show, onto.show))
    return bool(turn @ mine @ theirs > -1 + CLOSE)


def _laid(solid: Solid, turn: Floats, hand: int, middle: Floats, there: Floats) -> Solid:
    """Return the solid turned (or mirrored) about its box's middle and laid on the other's box."""
    if hand < 0:
        flip = np.diag((1.0, 1.0, -1.0))
        solid, turn, middle = solid.mirrored(2), turn @ flip, flip @ middle
    origin = there - turn @ middle
    rows = tuple(tuple(float(x) for x in row) for row in turn)
    return solid.moved(Frame(rows, (float(origin[0]), float(origin[1]), float(origin[2]))))  # type: ignore[arg-type]


def _fits(a: Solid, b: Solid) -> bool:
    """Return whether two solids of equal volume fill the same space.

    Second moments tell most that do not. Facets of a curve may lie a hundredth of a millimetre apart between two hands; then what they share is measured.
    """
    mine, theirs = _moments(a), _moments(b)
    if np.abs(mine - theirs).max() > APART * float(np.trace(mine)):
        return False
    return a.volume - common(a, b) < LEAST + SHARE * a.volume


def _moments(solid: Solid) -> Floats:
    """Return the integral of x·xᵀ over the solid about the middle of its bounds, mm⁵: told by tetrahedra from there."""
    vertices, triangles = solid.mesh()
    low, high = (np.array(corner) for corner in solid.bounds)
    corners = (vertices - (low + high) / 2)[triangles]
    six = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2]))
    whole = corners.sum(axis=1)
    each = np.einsum("n,ni,nj->ij", six, whole, whole) + np.einsum("n,nki,nkj->ij", six, corners, corners)
    out: Floats = each / 120.0
    return out


def _turns(hand: int, *, square: bool) -> Iterable[Floats]:
    """Yield the turns (hand 1) or mirrorings (hand −1) that keep the line of the length axis."""
    for signs in product((1.0, -1.0), repeat=3):
        for swap in (False, True) if square else (False,):
            turn = np.diag(signs)
            if swap:
                turn = turn[:, [0, 2, 1]]
            if round(float(np.linalg.det(turn))) == hand:
                yield turn
