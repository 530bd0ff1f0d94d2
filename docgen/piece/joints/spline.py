"""Spline: a loose strip in grooves along the edges of boards that lie side by side."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.joints import filling
from docgen.piece.joints.edging import Edges, flush_is_a_face, pairs
from docgen.piece.joints.housing_place import Band
from docgen.piece.joints.meeting import NEAR
from docgen.piece.model import Item, Joint, Sets
from docgen.piece.operations.dado import Dado
from docgen.piece.records import Authority, Origin
from docgen.project.fields import FaceWord, Field, Length, Many, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number, Units, plain_length

NOTE = "of plywood, or of hardwood with its grain across the joint; thickness to the groove"


def spline_item(sizes: tuple[Number, Number, Number], units: Units, origin: Origin, where: str) -> Item:
    """Return a spline for the hardware list: thickness × width × length."""
    size = " × ".join(plain_length(v, units) for v in sizes) + f" {units.sign}"
    return Item("spline", 1, size, Authority.CUT, NOTE, origin, where, Sets.GLUED)


def build(bench: Bench, values: Bound) -> None:
    """Cut both grooves wherever two boards of the list are neighbours, and note the splines."""
    if flush_is_a_face(bench, values):
        for found in pairs(bench, values, 2 * values["depth"]):
            _join(bench, values, found)


def _band(values: Bound, found: Edges) -> Band:
    """Return where the groove lies in the first board's thickness: centred, or so far from a face."""
    thick, wide = found.one.size[2], values["thickness"]
    if values["flush"] is None:
        return Band((thick - wide) / 2, (thick + wide) / 2)
    low = values["below"]
    return Band(thick - low - wide, thick - low) if found.one.face(values["flush"]).side else Band(low, low + wide)


def _join(bench: Bench, values: Bound, found: Edges) -> None:
    """Groove two neighbours."""
    here = _band(values, found)
    there = found.band(here)
    deep, stop = values["depth"], values["stopped"]
    features = []
    for part, edge, band in ((found.one, found.edge, here), (found.two, found.other, there)):
        ends: tuple[Number | None, Number | None] = (stop, part.size[0] - stop) if stop else (None, None)
        cut = Dado(edge, 0, band.low, band.high, deep, *ends, round_end=bool(stop), label="groove")
        features.append((part.path, bench.add(part.path, cut, title="groove for a spline").name))
    start, end = max(found.at.low[0], 0), min(found.at.high[0], found.two.size[0])
    if stop:  # the cutter leaves round ends: the strip ends where they begin
        start, end = start + stop + values["thickness"] / 2, end - stop - values["thickness"] / 2
    run = end - start
    clear = values["clearance"]
    origin = Origin(values.span, values.because)
    width = 2 * (deep - clear) + (found.gap if found.gap > NEAR else 0)
    one, two = found.one.path, found.two.path
    size = (values["thickness"], width, run)
    bench.item(spline_item(size, bench.units, origin, f"{one} to {two}"))
    line = float(found.two.size[1]) + float(found.gap) / 2 if found.other.side else -float(found.gap) / 2
    middle = found.two.frame.point((float(start + end) / 2, line, float(there.low + there.high) / 2))
    ways = found.two.frame.direction((1.0, 0.0, 0.0)), found.two.frame.direction((0.0, 1.0, 0.0))
    strip = filling.spline(middle, ways, size, clear, (one, two), tuple(features), shows=not stop)
    figures: tuple[tuple[str, Number, str], ...] = (
        ("groove width", values["thickness"], "length"),
        ("groove depth", deep, "length"),
        ("spline width", width, "length"),
    )
    bench.joint(
        Joint(
            "spline",
            f"{one} splined to {two}",
            (one, two),
            tuple(features),
            figures,
            origin,
            found.one.frame.direction((0.0, 1.0, 0.0)),
            loose=(strip,),
        )
    )


WORD = Word(
    name="spline",
    room="joint",
    help="a loose strip in grooves along the edges of boards that lie side by side",
    fields=(
        Field("boards", Many(PartName(), least=2), "the boards in their order", required=True),
        Field("thickness", Length(above=0), "of the spline, and width of the grooves", required=True),
        Field("depth", Length(above=0), "of each groove", required=True),
        Field("flush", FaceWord(), "the face from which the groove is measured; absent: centred"),
        Field("below", Length(least=0), "how far the groove lies under that face", default="0"),
        Field("stopped", Length(above=0), "how far before each end the grooves stop; absent: they run out"),
        Field("clearance", Length(least=0), "left free at the bottom of each groove for glue", default="0.5 mm"),
    ),
    example="spline: {boards: [top 1, top 2], thickness: 1/4, depth: 3/8}",
    build=build,
)
