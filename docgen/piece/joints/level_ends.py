"""Level ends: a leaning leg is cut level at the floor and at the top, its foot's corners rounded."""

from __future__ import annotations

from docgen.geometry.make import dot
from docgen.geometry.shapes import Vec
from docgen.piece.bench import Bench
from docgen.piece.joints.meeting import outward
from docgen.piece.model import Joint, Part
from docgen.piece.operations import saying
from docgen.piece.operations.corner import CornerRadius
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.scribed_cut import ScribedCut
from docgen.piece.records import Face, Origin
from docgen.project.fields import Field, Length, PartName, Word
from docgen.project.statements import Bound
from docgen.units import Number


def level_cut(part: Part, up: Number, *, top: bool, label: str) -> EndCut | None:
    """Return the cut of the part's upper or lower end at a height of the piece, None when it takes nothing."""
    way: Vec = (0.0, 0.0, 1.0 if top else -1.0)
    inner = part.frame.inverse()
    normal, point = inner.direction(way), inner.point((part.frame.origin[0], part.frame.origin[1], float(up)))
    end = max((Face(0, 0), Face(0, 1)), key=lambda f: dot(outward(f), normal))
    corners = [(x, y, z) for x in (0, part.size[0]) for y in (0, part.size[1]) for z in (0, part.size[2])]
    beyond = max(sum((float(c[i]) - point[i]) * normal[i] for i in range(3)) for c in corners)
    return None if beyond < 1e-6 else EndCut.through(end, point, normal, label)


def build(bench: Bench, values: Bound) -> None:
    """Cut the ends level and round the foot."""
    part = bench.part(values["part"])
    made = []
    foot = None
    for field, top in (("top", True), ("bottom", False)):
        if values[field] is None:
            continue
        cut = level_cut(part, values[field], top=top, label="level top" if top else "foot, cut level")
        if cut is not None:
            if values["stage"] == "fitted":  # no machine takes a piece that stands
                mate = values["flush with"] if top else None
                label = f"end, flush with the {bench.part(mate).called}" if mate else cut.label
                cut = ScribedCut(cut.end, cut.at, cut.slopes, label, bench.part(mate).called if mate else "")
            made.append(bench.add(part.path, cut, title=cut.label, stage=saying.stage(values)).name)
            foot = foot if top else cut
    if values["foot radius"] is not None and foot is not None:
        for side in (0, 1):
            corner = CornerRadius(
                Face(2, 1), foot.end, Face(1, side), values["foot radius"], cut=foot, label="corner of the foot"
            )
            made.append(bench.add(part.path, corner, title=corner.label, stage=saying.stage(values)).name)
    bench.joint(
        Joint(
            word="level ends",
            title=f"level ends of {part.path}",
            parts=(part.path,),
            features=tuple((part.path, name) for name in made),
            origin=Origin(values.span, values.because),
        )
    )


WORD = Word(
    name="level ends",
    room="joint",
    help="a leaning part is cut level at given heights, and the corners of its foot are rounded",
    fields=(
        Field("part", PartName(), "the leaning part", required=True),
        Field("top", Length(), "height of the level cut at its upper end; absent: none"),
        Field("bottom", Length(), "height of the level cut at its foot; absent: none"),
        Field("foot radius", Length(above=0), "of the foot's corners, in the plane of the lean; absent: left sharp"),
        saying.STAGE,
        Field("flush with", PartName(), "what the upper end comes through, where it is cut flush when fitted"),
    ),
    example="level ends: {part: leg, bottom: 0, foot radius: 3/8}",
    build=build,
)
