"""How the file says holes and rows of holes."""

from __future__ import annotations

from dataclasses import replace

from docgen.piece.bench import Bench
from docgen.piece.model import Part
from docgen.piece.operations import saying
from docgen.piece.operations.ground import in_plane, need
from docgen.piece.operations.hole import Hole, On
from docgen.piece.operations.hole_row import HoleLine
from docgen.piece.records import Face, Purpose, Sink
from docgen.project.fields import Angle, ByFace, Choice, Count, Field, Flag, Length, Many, Place, Plain, Word, Words
from docgen.project.statements import Bound
from docgen.units import Number


def said_hole(part: Part, values: Bound, purpose: Purpose) -> Hole:
    """Return the hole that the file's statement describes on `part`."""
    face = part.face(values["face"])
    points = tuple(saying.on_face(part, face, at, values["from"] or ()) for at in values["at"])
    sink: Sink | None = None
    if values["countersink"] is not None:
        sink = Sink(values["countersink"], None, values["sink angle"])
    elif values["counterbore"] is not None:
        sink = Sink(values["counterbore"], values["counterbore depth"] or values["diameter"], None)
    return Hole(
        face=face,
        points=points,
        diameter=values["diameter"],
        depth=values["depth"],
        purpose=purpose,
        name=values["name"] or "",
        drill=values["drill"] or "",
        sink=sink,
        thread=values["thread"] or "",
        thread_depth=values["thread depth"],
        percent=None if values["percent"] is None else float(values["percent"]),
        tip=180 if values["flat"] else None,
        leans=_leans(part, face, values),
        template=bool(values["template"]),
        note=values["note"] or "",
    )


def _leans(part: Part, face: Face, values: Bound) -> tuple[Number, Number]:
    leans: dict[int, Number] = {}
    for word, lean in (values["lean"] or {}).items():
        toward = part.face(word)
        need(toward.axis != face.axis, "lean-face", "a hole leans toward a face beside its own", "lean")
        leans[toward.axis] = lean if toward.side else -lean
    u, v = in_plane(face)
    return leans.get(u, 0), leans.get(v, 0)


def build(bench: Bench, values: Bound) -> None:
    """Drill holes as the file says them; without a name each statement takes the next letter."""
    name = values["name"] or bench.next_name()
    for part in saying.parts(bench, values):
        hole = replace(said_hole(part, values, Purpose(values["purpose"])), name=name)
        title = values["label"] or "hole"
        if any(hole.leans):
            for at in hole.points:
                hole.check_exit(part, at)
        if values["count"] is None:
            bench.add(part.path, replace(hole, label=title), title=title, stage=saying.stage(values))
            continue
        need(values["run"] is not None and values["spacing"] is not None, "row-missing", "a row needs both", "count")
        along = saying.part_axis(part, saying.DIRECTIONS.index(values["run"]))
        mirrored = part.face(("left", "front", "bottom")[saying.DIRECTIONS.index(values["run"])]).side == 1
        if mirrored:
            hole = replace(hole, points=(_far(hole, along, values["spacing"], values["count"]),))
        row = HoleLine(replace(hole, label=title), along, values["spacing"], values["count"])
        bench.add(part.path, row, title=f"row of {values['count']} holes", stage=saying.stage(values))


def _far(hole: Hole, along: int, spacing: Number, count: int) -> On:
    """Return the other end of a row whose direction runs against the part's axis."""
    u, _ = in_plane(hole.face)
    a, b = hole.points[0]
    back = spacing * (count - 1)
    return (a - back, b) if along == u else (a, b - back)


WORD = Word(
    name="hole",
    room="hole",
    help="A hole, or equal holes, in a face: through, blind, countersunk, counterbored, tapped; or a row of them.",
    fields=(
        saying.PART,
        saying.FACE,
        Field("at", Many(Place()), "where: two directions of the face", required=True),
        saying.FROM,
        Field("diameter", Length(above=0), "width of the hole", required=True),
        Field("depth", Length(above=0), "depth of the full width; without it the hole goes through"),
        Field("purpose", Choice(tuple(p.value for p in Purpose)), "what it is for", default="plain"),
        Field("name", Words(), "letter in the drilling chart"),
        Field("drill", Words(), "drill as bought"),
        Field("countersink", Length(above=0), "diameter of a countersink"),
        Field("sink angle", Angle(least=1, most=179), "included angle of the countersink", default="90 deg"),
        Field("counterbore", Length(above=0), "diameter of a counterbore"),
        Field("counterbore depth", Length(above=0), "depth of the counterbore"),
        Field("thread", Words(), "full designation of a thread: 1/4-20 UNC"),
        Field("thread depth", Length(above=0), "full threads"),
        Field("percent", Plain(least=0), "per cent of thread"),
        Field("flat", Flag(), "flat-bottomed bit", default="no"),
        Field("lean", ByFace(Angle(least=0, most=80)), "degrees from square, toward a face, as the drill goes in"),
        Field("run", Choice(saying.DIRECTIONS), "direction of a row"),
        Field("spacing", Length(above=0), "spacing in a row"),
        Field("count", Count(least=2), "holes in a row"),
        Field("template", Flag(), "print a true-size drilling template", default="no"),
        Field("note", Words(), "a note for the chart"),
        saying.LABEL,
        saying.STAGE,
    ),
    example="hole: {part: left side, face: right, at: {up: 6, deep: 2}, diameter: 1/4, depth: 3/8}",
    build=build,
)
