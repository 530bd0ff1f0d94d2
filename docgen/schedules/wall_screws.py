"""Screws that hang a piece on its wall: how long they have to be, from what they pass and what the maker states of the wall.

Nothing is said of what they carry: that is for those who know the wall, and for the local code.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from docgen.geometry.reach import box_corners
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part, Piece
from docgen.piece.operations.ground import settled
from docgen.piece.records import HoleRow
from docgen.schedules.rows import HardwareRow
from docgen.schedules.wall_holes import wall_holes
from docgen.units import Number, Units, plain_length, unit_length

WALL = "Into the wall"
COVERING, EMBEDMENT = "wall covering", "wall embedment"
"""The conditions that tell of the wall: what lies before its bearing part, and how deep screws go into that."""

STEP = {"inch": Fraction(254, 80), "mm": Fraction(1)}
"""mm: screws are told long enough to the next 1/8 in or millimetre; what is sold next longer is taken."""

SAME = 0.01

DEFER = (
    "what screw, plug and embedment hold in this wall, and how many, its builder or the local code says: the drawing promises "
    "no load"
)


@dataclass(frozen=True, slots=True)
class Screw:
    """One screw into the wall: the hole under its head, where it starts, and what it passes up to the wall.

    `layers` are names with lengths along the screw, mm; `way` leads to the wall, piece axes.
    """

    part: Part
    row: HoleRow
    head: Vec
    way: Vec
    layers: tuple[tuple[str, float], ...]

    @property
    def total(self) -> float:
        """All that it passes."""
        return sum(long for _, long in self.layers)


def wall_screws(piece: Piece) -> tuple[HardwareRow, ...]:
    """Return a row for each kind of screw into the wall, those that pass the same together."""
    told = {name: quantity.value for name, quantity, _ in piece.conditions}
    covering, embedment = told.get(COVERING), told.get(EMBEDMENT)
    found: dict[tuple[str, str, str], list[Screw]] = {}
    for screw in screws(piece):
        beyond = None if embedment is None else float((covering or 0) + embedment) / screw.way[1]
        size = _size(screw.row, None if beyond is None else screw.total + beyond, piece.units)
        note = _note(piece, screw, covering, embedment)
        found.setdefault((_what(screw.row), size, note), []).append(screw)
    return tuple(
        HardwareRow(
            what=what,
            size=size,
            count=len(alike),
            where="; ".join(dict.fromkeys(f"{s.row.name}: {s.part.path}".removeprefix(": ") for s in alike)),
            depends=("the wall is known",),
            note=f"{note}; {DEFER}",
            group=WALL,
        )
        for (what, size, note), alike in found.items()
    )


def screws(piece: Piece) -> tuple[Screw, ...]:
    """Return the screws: holes on one axis, as through a rail and the back behind it, are one, its head in the first."""
    wall = _wall(piece)
    first: dict[tuple[int, int], Screw] = {}
    for part, _, row in wall_holes(piece):
        for point in row.points:
            screw = _screw(piece, part, row, (float(point[0]), float(point[1]), float(point[2])), wall)
            end = _along(screw.head, screw.way, (wall - screw.head[1]) / screw.way[1])
            spot = (round(end[0]), round(end[2]))
            if spot not in first or screw.head[1] < first[spot].head[1]:
                first[spot] = screw
    return tuple(first.values())


def _screw(piece: Piece, part: Part, row: HoleRow, point: Vec, wall: float) -> Screw:
    """Return the screw through one hole, with what it passes up to the plane of the wall, drilled there or not."""
    way, head = part.frame.direction(row.direction), part.frame.point(point)
    if way[1] < 0:  # drilled from the back: the head lies where the drill comes out
        head = _along(head, way, float(part.size[row.face.axis]) / abs(row.direction[row.face.axis]))
        way = (-way[0], -way[1], -way[2])
    sunk = 0.0 if row.sink is None or row.sink.angle is not None else float(row.sink.depth or 0)
    head = _along(head, way, sunk)
    end = (wall - head[1]) / way[1]
    layers: list[tuple[str, float, float]] = []
    for other in piece.parts:
        span = _inside(other, head, way)
        if span is not None and min(span[1], end) - max(span[0], 0.0) > SAME:
            layers.append((other.path, max(span[0], 0.0), min(span[1], end)))
    layers.sort(key=lambda layer: (layer[1], layer[2]))
    return Screw(part, row, head, way, tuple(_gaps(layers, end)))


def _gaps(layers: list[tuple[str, float, float]], end: float) -> Iterator[tuple[str, float]]:
    """Yield the layers one after the other, with the air between them; what lies in another one counts once."""
    reach = 0.0
    for name, low, high in (*layers, ("", end, end)):
        if low - reach > SAME:
            yield "air", low - reach
        if name and high - max(low, reach) > SAME:
            yield name, high - max(low, reach)
        reach = max(reach, high)


def _inside(part: Part, start: Vec, way: Vec) -> tuple[float, float] | None:
    """Return from where to where a line runs in the part's nominal box."""
    back = part.frame.inverse()
    p, d = back.point(start), back.direction(way)
    low, high = -math.inf, math.inf
    for i in range(3):
        if abs(d[i]) < 1e-12:
            if not -SAME < p[i] < float(part.size[i]) + SAME:
                return None
            continue
        one, two = sorted((-p[i] / d[i], (float(part.size[i]) - p[i]) / d[i]))
        low, high = max(low, one), min(high, two)
    return (low, high) if high > low else None


def _along(p: Vec, way: Vec, by: float) -> Vec:
    return (p[0] + way[0] * by, p[1] + way[1] * by, p[2] + way[2] * by)


def _wall(piece: Piece) -> float:
    """Return where the plane of the wall stands: at the back of all parts at rest."""
    return max(
        (
            float(corner[1])
            for part in piece.parts
            for corner in box_corners((0.0, 0.0, 0.0), tuple(float(s) for s in part.size), part.frame)  # type: ignore[arg-type]
        ),
        default=0.0,
    )


def _what(row: HoleRow) -> str:
    """Return what is bought, by what the hole's mouth is made for."""
    if row.sink is not None and row.sink.angle is not None:
        return "screw into the wall, flat head"
    return "screw into the wall, with a washer" if row.sink is None else "screw into the wall, head in the counterbore"


def _size(row: HoleRow, length: float | None, units: Units) -> str:
    drill = row.drill or unit_length(row.diameter, units)
    if length is None:
        return f"to pass {drill}"
    step = STEP[units.system]
    least = math.ceil(length / float(step) - 1e-6) * step
    return f"to pass {drill}, at least {plain_length(least, units)} {units.sign} long"


def _note(piece: Piece, screw: Screw, covering: Number | None, embedment: Number | None) -> str:
    """Return the chain that the length comes from; what the file does not state is named."""
    units = piece.units
    layers = [f"{name} {plain_length(settled(long), units)}" for name, long in screw.layers]
    if embedment is None:
        return (
            f"length from {' + '.join(layers)} + the wall's covering + the screw's hold in the wall: "
            "measure both at the wall before you buy"
        )
    for name, value in (("covering", covering), ("in the wall, as stated", embedment)):
        if value:
            layers.append(f"{name} {plain_length(settled(float(value) / screw.way[1]), units)}")
    return f"length from {' + '.join(layers)}"
