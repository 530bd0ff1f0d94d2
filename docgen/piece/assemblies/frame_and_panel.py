"""Frame and panel: stiles and rails round panels in grooves or panes in rabbets."""

from __future__ import annotations

from fractions import Fraction

from docgen.piece.assemblies import frames, infill
from docgen.piece.assemblies.terms import Box
from docgen.piece.bench import Draft, Lazy
from docgen.piece.faults import Fault
from docgen.project.fields import Box as BoxField
from docgen.project.fields import Field, Nested, Word, Words
from docgen.units import Kind, Quantity

WALL = {"inch": Quantity(Fraction(254, 80), Kind.LENGTH), "mm": Quantity(Fraction(4), Kind.LENGTH)}
"""Wood between a rabbet's end and the mortise beside it: 1/8 in or 4 mm. Common practice: 3 mm at the least."""

INFILL = (
    Field("panel", Nested(infill.PANEL), "panels in grooves"),
    Field("glass", Nested(infill.GLASS), "panes in rabbets; one of panel and glass is said"),
)


def filled(draft: Draft, values: Lazy, box: Box, group: str = "") -> frames.Frame:
    """Say the frame and what fills its openings; return the frame."""
    panel, glass = values["panel"], values["glass"]
    if (panel is None) == (glass is None):
        found = "neither" if panel is None else "both"
        raise Fault(
            "frame-infill", f"the frame holds panels or panes, here is {found}", "", "panel: {…}, or glass: {…}"
        )
    # A groove may run on through the mortise; beside a rabbet the mortise keeps a wall.
    inner = panel["groove"] if panel is not None else glass["rabbet"] + WALL[draft.units.system]
    frame = frames.said(draft, values, box, inner=inner, group=group)
    if panel is not None:
        infill.panels(frame, values, panel)
    else:
        infill.panes(frame, glass)
    return frame


def build(draft: Draft, values: Lazy) -> None:
    """Say the frame with its panels or panes."""
    filled(draft, values, values["box"], values["group"] or "")


WORD = Word(
    name="frame and panel",
    room="assembly",
    help="stiles and rails round panels in grooves, free to move, or panes in rabbets behind beads",
    fields=(
        Field("box", BoxField(), "outside of the frame, from low to high on each axis", required=True),
        *frames.MEMBERS,
        *frames.CORNERS,
        *INFILL,
        Field("group", Words(), "name of the group that it turns with"),
    ),
    example="""\
side:
  frame and panel:
    box: {across: [0, 3/4], deep: [0, 14], up: [0, 30]}
    face: left
    material: frame stock
    width: 2 1/4
    bottom: 3
    tenons: {thickness: 1/4, length: 1 1/4, outer: 1/2, haunch: 3/8}
    panel: {material: panel boards, thickness: 1/4, groove: 3/8, clearance: 1/8}
""",
    build=build,
)
