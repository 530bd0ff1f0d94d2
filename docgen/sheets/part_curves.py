"""A curve laid out point by point: its points numbered in the view, and their places as pairs in a table."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from docgen.drawing.breaks import Gone, moved
from docgen.drawing.dimensions.wanted import Callout
from docgen.drawing.once import Figure
from docgen.drawing.records import Line, Pen, Record
from docgen.drawing.unfold import Station
from docgen.geometry.lines import View
from docgen.geometry.shapes import Vec
from docgen.piece.datums import as_placed, datum, measured
from docgen.piece.model import Part
from docgen.piece.operations.ground import in_plane, level, settled, spot
from docgen.piece.records import Axis, Face, Feature, Size, SizeKind, Stage
from docgen.sheets.part_broken import axis_of
from docgen.units import Number, Units, format_length

TICK = 1.2  # mm on paper: half a cross at a point of the curve
SAME = 1e-4  # mm


@dataclass(frozen=True, slots=True)
class Pin:
    """One point of a curve: its number there, where it lies, and the sizes that say so."""

    number: str
    face: Face
    at: Vec
    sizes: tuple[Size, ...]
    feature: Feature


def pins(part: Part, faces: tuple[Face, ...]) -> tuple[Pin, ...]:
    """Return the points of the part's curves that have names on their template, on the face of the views that shows them."""
    return tuple(pin for f in part.features if f.stage is Stage.PART for pin in _of(part, f, faces))


def _of(part: Part, feature: Feature, faces: tuple[Face, ...]) -> Iterator[Pin]:
    for template in feature.made.templates:
        named = [p for p in template.points if p[2]]
        face = next((f for f in (template.face, Face(template.face.axis, 1 - template.face.side)) if f in faces), None)
        axes = in_plane(template.face)
        for n, (x, y, _) in enumerate(named if face is not None else (), 1):
            at = spot({axes[0]: x, axes[1]: y, template.face.axis: level(part, template.face)})
            sizes = [as_placed(part, s, feature) for s in feature.made.sizes if s.kind is SizeKind.LENGTH]
            here = tuple(s for s in sizes if all(abs(s.end[i] - at[i]) < SAME for i in axes))
            if face is not None and here:
                yield Pin(str(n), face, at, here, feature)


def left_to_views(every: tuple[Figure, ...], table: tuple[Pin, ...]) -> tuple[Figure, ...]:
    """Return the figures without those that say nothing but places of points in the table."""
    told = {_key(s) for pin in table for s in pin.sizes}
    return tuple(f for f in every if f.overall or f.asked or not all(_key(s) in told for s in f.sizes))


def _key(size: Size) -> tuple[object, ...]:
    return (size.kind, size.start, size.end, size.value)


def tag_wishes(table: tuple[Pin, ...], face: Face, view: View) -> list[Callout]:
    """Return the numbers at the points of the curves that are told on a face, each with what the table says of it."""
    return [
        Callout(f"pin {pin.feature.name} {pin.number}", view.flat(pin.at), 0.0, (pin.number,), pin.sizes, near=True)
        for pin in table
        if pin.face == face
    ]


def ticks(table: tuple[Pin, ...], station: Station, scale: float, gone: tuple[Gone, ...]) -> list[Record]:
    """Return a small cross at each point of the curves that are told in a view, about its paper origin."""
    axis = axis_of(station.view) if gone else None
    out: list[Record] = []
    for pin in (p for p in table if p.face == station.face):
        seen = station.view.flat(pin.at)
        x, y = (c * scale for c in (moved(seen, axis, gone) if axis is not None else seen))
        out += [Line((x - TICK, y), (x + TICK, y), Pen.THIN), Line((x, y - TICK), (x, y + TICK), Pen.THIN)]
    return out


def rows(
    part: Part, table: tuple[Pin, ...], units: Units, names: dict[Face, str]
) -> Iterator[tuple[Face, str, tuple[tuple[str, ...], ...]]]:
    """Yield for each curve the face that it is told on, what it is called, and the rows of its table, the head first."""
    for name in dict.fromkeys(pin.feature.name for pin in table):
        own = [pin for pin in table if pin.feature.name == name]
        face, feature = own[0].face, own[0].feature
        axes = in_plane(face)
        head = ("point", *(f"from {names[datum(part, i)]}" for i in axes))
        told = [(pin.number, *(_place(part, pin, i, units) for i in axes)) for pin in own]
        yield face, feature.title or feature.word, (head, *told)


def _place(part: Part, pin: Pin, axis: Axis, units: Units) -> str:
    """Return a coordinate from the datum of the part, as its size has it."""
    for s in pin.sizes:
        if abs(s.along[axis]) > 1 - SAME:
            return format_length(s.value, units)
    value: Number = settled(pin.at[axis])
    return format_length(measured(part, datum(part, axis), value), units)
