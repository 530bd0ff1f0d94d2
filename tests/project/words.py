"""A small vocabulary with every kind of field, and a good file, for the tests of this room."""

from __future__ import annotations

from docgen.project.fields import (
    Angle,
    Box,
    ByFace,
    Choice,
    Count,
    FaceWord,
    Field,
    Flag,
    Length,
    Many,
    Mass,
    MaterialName,
    Nested,
    PartName,
    Place,
    Plain,
    Reach,
    Word,
    Words,
)  # fmt: skip
from docgen.project.model import Vocabulary


def nothing(*_: object) -> None:
    """Carry out nothing."""


def word(name: str, room: str, *fields: Field) -> Word:
    return Word(name, room, f"What {name} does.", fields, f"- {name}: {{}}", nothing)


HOUSING = word(
    "housing",
    "joint",
    Field("shelf", PartName(), "the part that enters", required=True),
    Field("into", Many(PartName()), "the parts that it enters", required=True),
    Field("depth", Length(above=0), "depth of the cut", required=True),
    Field("stop", ByFace(Length(least=0)), "how far before a face it stops"),
    Field("round end", Flag(), "leave the cutter's radius", default="no"),
)
ROUND_OVER = word(
    "round over",
    "edge",
    Field("part", PartName(), "the part", required=True),
    Field("along", Many(Words()), "arrises by their two faces", required=True),
    Field("radius", Length(above=0), "radius", default="1/8"),
)
HOLES = word(
    "bore",
    "hole",
    Field("part", PartName(), "the part", required=True),
    Field("face", FaceWord(), "the face", required=True),
    Field("at", Many(Place(need=("across",))), "where", required=True),
    Field("count", Count(), "how many", default="1"),
    Field("lean", Angle(least=-45, most=45), "from square"),
    Field("purpose", Choice(("plain", "tapped")), "what for", default="plain"),
)
CUT = word(
    "cut",
    "operation",
    Field("part", PartName(), "the part", required=True),
    Field("reach", Reach(), "from and to"),
    Field("reaches", Many(Reach()), "several of them", default="[[0, 1], [2, 3]]"),
    Field("feed", Plain(least=0), "a plain number"),
    Field("weight", Mass(), "a mass"),
    Field("inside", Box(), "a box"),
)
CASE = word(
    "case",
    "assembly",
    Field("of", MaterialName(), "material", required=True),
    Field("box", Box(), "outside", required=True),
    Field(
        "run",
        Nested((Field("kerf", Length(above=0), "saw", default="1/8"), Field("parts", Many(PartName()), "order"))),
        "the blank",
    ),
)

VOCABULARY = Vocabulary(
    operations={"cut": CUT},
    edges={"round over": ROUND_OVER},
    holes={"bore": HOLES},
    joints={"housing": HOUSING},
    assemblies={"case": CASE},
)

GOOD = """\
docgen: 1
piece: Porch bench
number: PB-3
revision: A
date: 2026-03-02
author: Workshop
units: inch
finest: 1/32
notes: [Oil before use., "Keep: dry"]

sizes:
  seat: width / 2        # names may be used before they stand
  width: 42
  board: 13/16
  lean: 12 deg
  seat_height: 17 1/2
  plate: 3 mm

measured:
  board: {value: 0.805, on: 2026-03-04}

materials:
  case boards: {species: black cherry, thickness: board, bought: 4/4, stock: [96, 8]}
  pane: {sheet: float glass, thickness: plate, density: 2500}

parts:
  left side:
    of: case boards
    grain: up
    box: {across: [0, board], deep: [0, 14], up: [0, seat_height]}
  right side:
    of: case boards
    grain: up
    box: {across: [width - board, width], deep: [0, 14], up: [0, seat_height]}
    turn: {about: across, at: {up: 0, deep: 7}, by: lean}
    show: right
    authority: measure first
  shelf:
    of: case boards
    grain: across
    box: {across: [left side.right, right side.left], deep: [3/8, 14], up: [6, shelf.bottom + board]}
    group: tray
    note: planed last

assemblies:
  bin:
    case: {of: pane, box: {across: [0, 5], deep: [0, 5], up: [0, left side.top]}, run: {parts: bin.left}}

joints:
  - housing: {shelf: shelf, into: [left side, right side], depth: 1/4, stop: {front: 3/4}, round end: yes}

edges:
  - round over: {part: bin.lid, along: top front}

holes:
  - bore: {part: left side, face: left, at: [{across: 1, up: 2}, {across: bin.left.right}], count: 2, lean: lean}

operations:
  - cut: {part: shelf, reach: [1, shelf.top], feed: 3, weight: 2 kg, inside: {across: [0, 1], deep: [0, 1], up: [0, 1]}}

conditions:
  moisture: {from: 6, to: 12, on the day: 8}
  shelf load: 66 lb

shop:
  saw depth: 3
  bits: [1/4, 1/2]
  drills: ["17/64", "#7"]
"""
