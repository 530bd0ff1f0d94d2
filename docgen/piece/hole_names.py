"""Every hole has one name on all pages, and holes that match across parts share it: A1 in the case, A1 in the stand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.geometry.shapes import Vec
from docgen.piece.datums import datum, measured
from docgen.piece.model import Part
from docgen.piece.records import Authority, Face, Feature, HoleRow, Point, SlotRow
from docgen.units import exact


@dataclass(frozen=True, slots=True)
class _Row:
    """Equal holes, or slots by their middles, in one face of a part."""

    part: Part
    key: Hashable
    name: str
    face: Face
    points: tuple[Point, ...]
    direction: Vec
    mate: str = ""
    led: bool = False  # marked through another part


def slots_alike(part: Part) -> list[list[SlotRow]]:
    """Return the slots of a part, those of one name, face and size together, in order."""
    found: dict[Hashable, list[SlotRow]] = {}
    for slot in (s for f in part.features for s in f.made.slots):
        found.setdefault(slot_key(slot), []).append(slot)
    return list(found.values())


def slot_key(slot: SlotRow) -> Hashable:
    """Return what slots that are told together have in common."""
    return (slot.name, slot.face, slot.along, exact(slot.length), exact(slot.width), slot.bore)


def named(parts: Sequence[Part]) -> tuple[Part, ...]:
    """Return the parts with a name at each of their holes and slots: the row's, with a number where a part has several.

    The row that is not marked through another part leads: its holes are numbered from the datum end on. A hole of the
    mate gets the number of the hole on whose axis it lies.
    """
    rows = [row for part in parts for row in _rows(part)]
    several = Counter((row.part.path, row.name) for row in rows for _ in row.points)
    given: Counter[tuple[str, str]] = Counter()
    out: dict[Hashable, tuple[str, ...]] = {}
    done: list[_Row] = []
    for row in sorted(rows, key=lambda r: (r.led, r.part.number)):
        leads = [r for r in done if r.name == row.name and _mates(r, row) and len(r.points) == len(row.points)]
        mine = (row.part.path, row.name)
        after = _named_after(leads[0], out[leads[0].key], row) if leads else ()
        if len(set(after)) < len(row.points):
            after = _numbered(row, given[mine]) if several[mine] > 1 else (row.name,)
        given[mine] += len(row.points)
        out[row.key] = after
        done.append(row)
    return tuple(
        replace(part, features=tuple(_told(part, i, f, out) for i, f in enumerate(part.features))) for part in parts
    )


def _rows(part: Part) -> Iterator[_Row]:
    for i, feature in enumerate(part.features):
        for k, hole in enumerate(feature.made.holes):
            if hole.name:
                led = hole.authority is Authority.MATE
                key = (part.path, i, k)
                yield _Row(part, key, hole.name, hole.face, hole.points, hole.direction, hole.mate, led)
    for slots in slots_alike(part):
        first = slots[0]
        if first.name:
            points = tuple(s.centre for s in slots)
            yield _Row(part, (part.path, slot_key(first)), first.name, first.face, points, inward(first.face))


def inward(face: Face) -> Vec:
    """Return the direction square into the wood from a face of the box."""
    into = -1.0 if face.side else 1.0
    return (into * (face.axis == 0), into * (face.axis == 1), into * (face.axis == 2))


def _told(part: Part, nth: int, feature: Feature, names: dict[Hashable, tuple[str, ...]]) -> Feature:
    made = feature.made
    if not made.holes and not made.slots:
        return feature
    holes = tuple(_with_names(h, names.get((part.path, nth, k), ())) for k, h in enumerate(made.holes))
    slots = tuple(_slot_with_name(part, s, names) for s in made.slots)
    return replace(feature, made=replace(made, holes=holes, slots=slots))


def _with_names(hole: HoleRow, names: tuple[str, ...]) -> HoleRow:
    return replace(hole, names=names) if names else hole


def _slot_with_name(part: Part, slot: SlotRow, names: dict[Hashable, tuple[str, ...]]) -> SlotRow:
    key = slot_key(slot)
    found = names.get((part.path, key))
    if not found:
        return slot
    alike = next(slots for slots in slots_alike(part) if slot_key(slots[0]) == key)
    return replace(slot, called=found[alike.index(slot)])


def _mates(a: _Row, b: _Row) -> bool:
    return a.mate == b.part.path or b.mate == a.part.path


def _numbered(row: _Row, before: int) -> tuple[str, ...]:
    """Return the row's names, numbered from the datum end on behind those that the part has `before`."""
    axes = [i for i in range(3) if i != row.face.axis]
    at = [tuple(float(measured(row.part, datum(row.part, axis), p[axis])) for axis in axes) for p in row.points]
    order = sorted(range(len(at)), key=lambda i: at[i])
    tie = "." if row.name[-1].isdigit() else ""
    return tuple(f"{row.name}{tie}{before + order.index(i) + 1}" for i in range(len(at)))


def _named_after(lead: _Row, names: tuple[str, ...], row: _Row) -> tuple[str, ...]:
    """Return the leading row's names for the holes that lie on the same axes."""
    way = lead.part.frame.direction(lead.direction)
    axes = [lead.part.frame.point(_vec(p)) for p in lead.points]
    mine = [row.part.frame.point(_vec(p)) for p in row.points]
    return tuple(names[min(range(len(axes)), key=lambda i: _off(axes[i], way, at))] for at in mine)


def _vec(p: Point) -> Vec:
    return (float(p[0]), float(p[1]), float(p[2]))


def _off(through: Vec, way: Vec, at: Vec) -> float:
    """Return the square of the distance of a point from the axis."""
    d = tuple(b - a for a, b in zip(through, at, strict=True))
    along = sum(x * w for x, w in zip(d, way, strict=True))
    return sum((x - along * w) ** 2 for x, w in zip(d, way, strict=True))
