"""Tongue and groove: boards side by side, a tongue along the edge of each in a groove of the next."""

from __future__ import annotations

from docgen.piece.bench import Bench
from docgen.piece.faults import figure
from docgen.piece.joints.edging import Edges, flush_is_a_face, pairs
from docgen.piece.joints.housing_place import band
from docgen.piece.joints.mortise_and_tenon import DEEPER, FAT, usual
from docgen.piece.joints.telling import fault
from docgen.piece.model import Joint
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.tongue import Tongue
from docgen.piece.records import Origin
from docgen.project.fields import FaceWord, Field, Length, Many, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


def build(bench: Bench, values: Bound) -> None:
    """Leave the tongues and cut the grooves, wherever two boards of the list are neighbours."""
    if flush_is_a_face(bench, values):
        for found in pairs(bench, values, values["length"]):
            _join(bench, values, found)


def _join(bench: Bench, values: Bound, found: Edges) -> None:
    """Join one board to the next."""
    one, two, long = found.one, found.two, values["length"]
    stays = band(one, values["thickness"], values["flush"])
    if stays.high - stays.low >= one.size[2]:
        message = f"a tongue {figure(values['thickness'])} thick does not come out of {figure(one.size[2])}"
        fault(values, "thickness", "tenon-too-thick", message, "a tongue thinner than the board", on=bench)
        return
    deeper = usual(DEEPER, values["deeper"], bench.units)
    fat = usual(FAT, values["fat"], bench.units)
    there = found.band(stays)
    tongue = Tongue(
        found.edge, stays.low, stays.high, long, fat, reason="tongue for its groove", beside="shoulder", mate="groove"
    )
    groove = Dado(found.other, 0, there.low, there.high, long + deeper, label="groove")
    a = bench.add(one.path, tongue, title=f"tongue into {two.path}")
    b = bench.add(two.path, groove, title=f"groove for {one.path}")
    figures: tuple[tuple[str, Number, str], ...] = (
        ("tongue thickness", stays.high - stays.low, "length"),
        ("tongue length", long, "length"),
        ("groove depth", long + deeper, "length"),
        ("gap", found.gap, "length"),
        ("fat", fat, "length"),
    )
    bench.joint(
        Joint(
            "tongue and groove",
            f"{one.path} tongued into {two.path}",
            (one.path, two.path),
            ((one.path, a.name), (two.path, b.name)),
            figures,
            Origin(values.span, values.because),
        )
    )


WORD = Word(
    name="tongue and groove",
    room="joint",
    help="boards side by side, a tongue along the edge of each in a groove of the next; where boxes stand apart a gap stays",
    fields=(
        Field(
            "boards",
            Many(PartName(), least=2),
            "the boards in their order; each has its tongue toward the next",
            required=True,
        ),
        Field("thickness", Length(above=0), "of the tongue: about a third of the board", required=True),
        Field("length", Length(above=0), "how far the tongue stands out", required=True),
        Field("flush", FaceWord(), "the face that a bare-faced tongue is flush with; absent: centred"),
        Field("deeper", Length(least=0), "how much deeper the groove is; absent: 1/16 in or 1.5 mm"),
        Field("fat", Length(least=0), "left on the cheeks until the tongue is fitted; absent: 1/64 in or 0.5 mm"),
    ),
    example="tongue and groove: {boards: [back 1, back 2, back 3], thickness: 1/4, length: 5/16}",
    build=build,
)
