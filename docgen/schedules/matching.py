"""Holes that match across parts carry one name on both: A1 in the case, A1 in the stand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol, TypeAlias

from docgen.geometry.shapes import Vec
from docgen.piece.model import Part
from docgen.piece.records import Authority, HoleRow
from docgen.units import Number

Place: TypeAlias = tuple[str, str, str, int, int, str]
"""Part, name, purpose, axis and side of the face, drill: one row of holes on one part."""


class Seated(Protocol):
    """A row of holes on a part, with its positions from the datums."""

    @property
    def part(self) -> Part:
        """The part that is drilled."""
        ...

    @property
    def hole(self) -> HoleRow:
        """The row of holes."""
        ...

    @property
    def at(self) -> tuple[tuple[Number, Number], ...]:
        """From the datum end and the datum edge, for each hole."""
        ...


def place(seat: Seated) -> Place:
    """Return what a row of holes is found by."""
    hole = seat.hole
    return (seat.part.path, hole.name, hole.purpose.value, hole.face.axis, hole.face.side, hole.drill)


def matched(seats: Sequence[Seated]) -> dict[Place, tuple[str, ...]]:
    """Return for each row the names of its holes: numbers behind the row's name where it has several holes.

    The row that is not marked through another part leads: its holes are numbered from the datum end on. A hole of the
    mate gets the number of the hole on whose axis it lies.
    """
    out: dict[Place, tuple[str, ...]] = {}
    for seat in sorted(seats, key=lambda s: (s.hole.authority is Authority.MATE, s.part.number)):
        if not seat.hole.name or place(seat) in out:
            continue
        leads = [
            s for s in seats
            if s.hole.name == seat.hole.name and place(s) in out and _mates(s, seat) and len(s.at) == len(seat.at)
        ]  # fmt: skip
        out[place(seat)] = _named_after(leads[0], out[place(leads[0])], seat) if leads else _numbered(seat)
    return out


def _mates(a: Seated, b: Seated) -> bool:
    return a.hole.mate == b.part.path or b.hole.mate == a.part.path


def _numbered(seat: Seated) -> tuple[str, ...]:
    name, count = seat.hole.name, len(seat.at)
    if count == 1:
        return (name,)
    order = sorted(range(count), key=lambda i: tuple(float(v) for v in seat.at[i]))
    tie = "-" if name[-1].isdigit() else ""
    return tuple(f"{name}{tie}{order.index(i) + 1}" for i in range(count))


def _named_after(lead: Seated, marks: tuple[str, ...], seat: Seated) -> tuple[str, ...]:
    """Return the leading row's names for the holes that lie on the same axes."""
    way = lead.part.frame.direction(lead.hole.direction)
    axes = [lead.part.frame.point(_vec(p)) for p in lead.hole.points]
    mine = [seat.part.frame.point(_vec(p)) for p in seat.hole.points]
    return tuple(marks[min(range(len(axes)), key=lambda i: _off(axes[i], way, at))] for at in mine)


def _vec(p: tuple[Number, Number, Number]) -> Vec:
    return (float(p[0]), float(p[1]), float(p[2]))


def _off(through: Vec, way: Vec, at: Vec) -> float:
    """Return the square of the distance of a point from the axis."""
    d = tuple(b - a for a, b in zip(through, at, strict=True))
    along = sum(x * w for x, w in zip(d, way, strict=True))
    return sum((x - along * w) ** 2 for x, w in zip(d, way, strict=True))
