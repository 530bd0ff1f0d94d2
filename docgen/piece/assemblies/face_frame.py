"""A face frame: stiles and rails that are glued before a case, or stand alone."""

from __future__ import annotations

from docgen.piece.assemblies import frames, middle_stiles
from docgen.piece.bench import Draft, Lazy
from docgen.project.fields import Box as BoxField
from docgen.project.fields import Field, Word


def build(draft: Draft, values: Lazy) -> None:
    """Say the frame."""
    middle_stiles.said(frames.said(draft, values, values["box"]), values)


WORD = Word(
    name="face frame",
    room="assembly",
    help="stiles and rails with open fields between them: mortise and tenon, half laps, bridles, dowels, loose tenons or pocket screws",
    fields=(
        Field("box", BoxField(), "outside of the frame, from low to high on each axis", required=True),
        *frames.MEMBERS,
        middle_stiles.FIELD,
        *frames.CORNERS,
        frames.POCKETS,
    ),
    example="""\
face:
  face frame:
    box: {across: [0, 36], deep: [-3/4, 0], up: [4, 34]}
    material: face stock
    width: 1 3/4
    middle: [26]
    middle stiles: {bay: 1, count: 1}
    dowels: {diameter: 3/8, count: 2, depth: 1}
""",
    build=build,
)
