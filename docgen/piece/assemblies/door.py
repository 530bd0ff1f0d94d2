"""A door in an opening: frame and panel, or glazed; inset with gaps, or over it; hung at one side."""

from __future__ import annotations

from docgen.expressions import Expr
from docgen.piece.assemblies import frames
from docgen.piece.assemblies.frame_and_panel import INFILL, filled
from docgen.piece.assemblies.terms import SIDES, Box, from_high, from_low, given
from docgen.piece.bench import Draft, Lazy
from docgen.piece.faults import Fault
from docgen.piece.joints.hinge import HINGE
from docgen.piece.joints.hung import HINGES
from docgen.project.fields import Box as BoxField
from docgen.project.fields import ByFace, Field, Length, Many, Nested, Word

EDGES = ("left", "right", "bottom", "top")


def build(draft: Draft, values: Lazy) -> None:
    """Say the door with its panels or panes, and how it hangs."""
    frame = filled(draft, values, _box(values), group=draft.name)
    hinges = values["hinges"]
    if hinges is not None:
        _hinges(draft, hinges, frame)


def _hinges(draft: Draft, hinges: Lazy, frame: frames.Frame) -> None:
    """Say hinges that are let in, as they are measured; or only how the door hangs and what is bought."""
    stile = f"{draft.name}.{hinges['side']} stile"
    said = given(hinges)
    let_in, at = said.pop("let_in"), said.pop("at")
    if let_in is None:
        draft.say("joints", "hung", name=draft.name, parts=frame.parts, stile=stile, **said)
        return
    draft.say(
        "joints",
        "hinge",
        turns=stile,
        on=said["on"],
        barrel_at="front",
        at=[{"up": up} for up in at],
        hinge=let_in,
        opens=said["opens"],
        name=draft.name,
        **{"with": [part for part in frame.parts if part != stile]},
    )


def _box(values: Lazy) -> Box:
    """Return the door's box: the opening less the gaps, or more by what it laps over the case."""
    opening, thick = values["opening"], values["thickness"]
    lap = values["overlay"] is not None or values["overlays"] is not None
    gap = values["gap"] is not None or values["gaps"] is not None
    if lap == gap:
        found = "both" if lap else "neither"
        message = f"a door stands in its opening with gaps, or over it by an overlay; here is {found}"
        raise Fault("door-fit", message, "", "gap: 1/16, or overlay: 3/8")
    spans = list(opening)
    for axis in (0, 2):
        low, high = (_edge(values, "overlay" if lap else "gap", edge) for edge in SIDES[axis])
        first, last = opening[axis]
        spans[axis] = (first - low, last + high) if lap else (first + low, last - high)
    front = opening[1][0]
    spans[1] = from_high(front - values["behind"], thick) if lap else from_low(front + values["set back"], thick)
    return spans[0], spans[1], spans[2]


def _edge(values: Lazy, word: str, edge: str) -> Expr:
    """Return the gap or overlay at one edge."""
    found: Expr | None = (values[f"{word}s"] or {}).get(edge, values[word])
    if found is None:
        message = f"nothing is said of the {word} at the {edge}"
        raise Fault("door-fit", message, f"{word}s", f"{word}: for all edges, or {word}s for each of them")
    return found


_HANGING = (
    *HINGES,
    Field(
        "let in", Nested(HINGE), "hinges let in to door and case, as they are measured; kind and count come from here"
    ),
    Field("at", Many(Length(), least=0), "heights of the middles of hinges that are let in", default="[]"),
)

WORD = Word(
    name="door",
    room="assembly",
    help="a frame-and-panel or glazed door in an opening: inset with gaps or over the case, hung at one side",
    fields=(
        Field("opening", BoxField(), "the clear opening; its deep span starts at the case's front", required=True),
        Field("thickness", Length(above=0), "of the door's frame", required=True),
        Field("gap", Length(least=0), "left free all round an inset door"),
        Field("gaps", ByFace(Length(least=0)), "where the gap differs: at the edge that meets another door"),
        Field("overlay", Length(), "how far a door in front of the case laps over each edge of the opening"),
        Field("overlays", ByFace(Length()), "where the overlay differs"),
        Field("set back", Length(least=0), "of an inset door behind the case's front", default="0"),
        Field("behind", Length(least=0), "air between the case and an overlay door", default="0"),
        *frames.MEMBERS[:-1],
        *frames.CORNERS,
        *INFILL,
        Field("hinges", Nested(_HANGING), "how it hangs; absent: it is lifted out"),
    ),
    example="""\
door:
  door:
    opening: {across: [left.right, right.left], deep: [0, 11], up: [bottom.top, top.bottom]}
    thickness: 3/4
    gap: 1/16
    material: frame stock
    width: 2 1/4
    tenons: {thickness: 1/4, length: 1 1/4, outer: 1/2}
    glass: {material: glass, thickness: 1/8, rabbet: 3/8, depth: 3/8, clearance: 1/16, beads: {material: beads}}
    hinges: {on: left, side: left, kind: 'butt hinge, 2 in', count: 2}
""",
    build=build,
)
