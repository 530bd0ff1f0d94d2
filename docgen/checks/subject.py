"""What a check looks at: the piece, its solids where they stand, equal parts and the lists."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field, replace
from fractions import Fraction

from docgen.checks.cavities import Cavity, cavities
from docgen.checks.finding import Finding, Grade
from docgen.checks.oriented import Oriented, apart
from docgen.checks.rays import LEAST, Mesh
from docgen.checks.tell import fine
from docgen.geometry.shapes import Frame, Vec, turned
from docgen.geometry.solids import Solid
from docgen.piece.model import Group, Kind, Part, Piece
from docgen.piece.records import Origin, Stage
from docgen.piece.solids import Solids
from docgen.places import Span
from docgen.schedules.rows import Schedules
from docgen.schedules.terms import weight
from docgen.trade.names import INCH
from docgen.trade.weights import force_told, weight_told
from docgen.units import Number, Units, plain_length

Box = tuple[Vec, Vec]

FINER = 2  # times that a figure beside a limit is told finer


@dataclass(slots=True)
class Subject:
    """Everything that the checks ask for; solids in the piece's axes are made once."""

    piece: Piece
    solids: Solids
    kinds: tuple[Kind, ...]
    schedules: Schedules
    _placed: dict[str, Solid] = field(default_factory=dict)
    _meshes: dict[str, Mesh] = field(default_factory=dict)
    _own: dict[str, Mesh] = field(default_factory=dict)
    _oriented: dict[str, Oriented] = field(default_factory=dict)
    _cavities: dict[str, tuple[Cavity, ...]] = field(default_factory=dict)

    def placed(self, path: str) -> Solid:
        """Return a finished part where it stands at rest, in the piece's axes."""
        if path not in self._placed:
            self._placed[path] = self.solids.solid(path, Stage.FITTED).moved(self.piece.part(path).frame)
        return self._placed[path]

    def mesh(self, path: str) -> Mesh:
        """Return the mesh of a finished part where it stands at rest, for measuring along rays."""
        if path not in self._meshes:
            self._meshes[path] = Mesh.of(self.placed(path))
        return self._meshes[path]

    def own_mesh(self, path: str) -> Mesh:
        """Return the mesh of a finished part in its own axes."""
        if path not in self._own:
            self._own[path] = Mesh.of(self.solids.solid(path, Stage.FITTED))
        return self._own[path]

    def oriented(self, path: str) -> Oriented:
        """Return the box of a finished part in its own axes, where it stands at rest."""
        if path not in self._oriented:
            low, high = self.solids.solid(path, Stage.FITTED).bounds
            self._oriented[path] = Oriented.of(low, high, self.piece.part(path).frame)
        return self._oriented[path]

    def cavities(self, path: str) -> tuple[Cavity, ...]:
        """Return the mortises and other pockets of a part, in its own axes."""
        if path not in self._cavities:
            self._cavities[path] = tuple(cavities(self.piece.part(path)))
        return self._cavities[path]

    def apart(self, one: str, other: str) -> float:
        """Return how far the boxes of two parts stand apart, mm, each in its own axes; below 0 they share room."""
        return apart(self.oriented(one), self.oriented(other))

    def called(self, path: str) -> str:
        """Return what a part is called on paper."""
        return self.piece.part(path).called

    def ahead(self, start: Vec, axis: int, side: int, without: Collection[str] = ()) -> tuple[float, str] | None:
        """Return how far the next wood stands from `start` along an axis of the piece, mm, and the part; None for none.

        `side` is 1 for the way up the axis, 0 for the way down. Only parts whose boxes lie on the way are asked.
        """
        way = [0.0, 0.0, 0.0]
        way[axis] = 1.0 if side else -1.0
        across = [i for i in range(3) if i != axis]
        found = []
        for part in self.piece.parts:
            if part.path in without:
                continue
            low, high = self.oriented(part.path).bounds()
            beyond = high[axis] > start[axis] if side else low[axis] < start[axis]
            if beyond and all(low[i] - LEAST < start[i] < high[i] + LEAST for i in across):
                wood = self.mesh(part.path).wood(start, (way[0], way[1], way[2]))
                if wood:
                    found.append((wood[0][0], part.path))
        return min(found, default=None)

    def swung(self, path: str, group: Group, degrees: float) -> Solid:
        """Return a part of `group` when the group stands at `degrees` from rest."""
        return self.placed(path).moved(turned(group.axis, degrees, group.point))

    def weight(self, part: Part) -> float | None:
        """Return the weight of a finished part in kg, None where its density is unknown."""
        return weight(part, self.solids)

    def say(self, mm: Number) -> str:
        """Return a length as the file's units print it, with the unit; no coarser than a rule's own divisions.

        A file that prints sizes to 0.5 mm is judged to 0.1 mm all the same.
        """
        return f"{plain_length(mm, self._fine)} {self.piece.units.sign}"

    def beside(self, mm: Number, limit: Number) -> str:
        """Return a length that is held against a limit: as fine as it takes to read as more or less than that, not as equal."""
        said, units = self.say(mm), self._fine
        for _ in range(FINER):
            if float(mm) == float(limit) or _plain(mm, units) != _plain(limit, units):
                return said
            units = replace(units, finest=units.finest / (10 if units.system == "mm" else 2))
            said = f"{plain_length(mm, units)} {units.sign}"
        return said

    @property
    def _fine(self) -> Units:
        return fine(self.piece.units)

    def weigh(self, kg: float) -> str:
        """Return a weight as the file's units print it: in inches pounds, kilograms beside them."""
        return weight_told(kg, self.piece.units.system)

    def force(self, newtons: float) -> str:
        """Return a force the same way: pounds-force, newtons beside them."""
        return force_told(newtons, self.piece.units.system)

    def about(self, mm: Number) -> str:
        """Return a length of which only the size matters, as an estimate's figures are: to 1/8 in, or to 1 mm."""
        step = INCH / 8 if self.piece.units.system == "inch" else Fraction(1)
        return self.say(round(Fraction(mm) / step) * step)


def _plain(mm: Number, units: Units) -> str:
    return plain_length(mm, units).replace("≈", "").strip()


def boxes_meet(a: Box, b: Box, by: float = 0.0) -> bool:
    """Return True when two boxes come nearer than `by` mm (0: overlap) to each other on all axes."""
    return all(min(a[1][i], b[1][i]) - max(a[0][i], b[0][i]) > -by for i in range(3))


def box_overlap(a: Box, b: Box) -> float:
    """Return how deep two boxes run into each other, mm: the least of the three overlaps; below 0 apart."""
    return min(min(a[1][i], b[1][i]) - max(a[0][i], b[0][i]) for i in range(3))


def around(boxes: list[Box]) -> Box:
    """Return the box around boxes."""
    low = tuple(min(b[0][i] for b in boxes) for i in range(3))
    high = tuple(max(b[1][i] for b in boxes) for i in range(3))
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def where(*origins: Origin) -> Span | None:
    """Return the place in the file of the first record that has one."""
    return next((o.span for o in origins if o.span is not None), None)


def shifted(by: Vec) -> Frame:
    """Return the placement that moves without turning."""
    return Frame(origin=by)


__all__ = ["Box", "Finding", "Grade", "Subject", "around", "box_overlap", "boxes_meet", "shifted", "where"]
