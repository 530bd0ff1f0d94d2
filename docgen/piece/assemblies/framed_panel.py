"""A mitred frame round a panel or pane that lies in a rabbet with clearance."""

from __future__ import annotations

from docgen.piece.assemblies.terms import AXES, SIDES, Box, from_high, from_low, with_span
from docgen.piece.bench import Draft, Lazy
from docgen.piece.joints.tenoning import TENON
from docgen.piece.model import FACE_WORDS
from docgen.project.fields import Box as BoxField
from docgen.project.fields import FaceWord, Field, Length, MaterialName, Nested, Word, Words


def build(draft: Draft, values: Lazy) -> None:
    """Say four rails, the panel, the rabbet it lies in and the mitres."""
    flat, high = FACE_WORDS[values["face"]]
    i, j = (a for a in range(3) if a != flat)
    group = values["group"] or ""
    rails = [(j, i, word) for word in SIDES[i]] + [(i, j, word) for word in SIDES[j]]
    paths = {word: f"{draft.name}.{word}" for _, _, word in rails}
    for along, across, word in rails:
        draft.part(
            paths[word],
            material=values["material"],
            grain=AXES[along],
            box=_edge(values["box"], across, values["width"], high_side=word == SIDES[across][1]),
            show=values["face"],
            group=group,
            called=f"{draft.name}, {word} rail",
        )
    panel = f"{draft.name}.panel"
    draft.part(
        panel,
        material=values["panel"]["material"],
        grain=values["panel"]["grain"] or AXES[i],
        box=_panel(values, flat, bool(high)),
        show=values["face"],
        group=group,
        authority="measure",
    )
    ring = [paths[SIDES[i][0]], paths[SIDES[j][1]], paths[SIDES[i][1]], paths[SIDES[j][0]]]
    draft.say("joints", "panel in frame", panel=panel, frame=ring, clearance=values["panel"]["clearance"])
    for k, path in enumerate(ring):
        draft.say("joints", "mitre", parts=[path, ring[(k + 1) % 4]], tenons=values["tenons"])


def _edge(box: Box, axis: int, width: object, *, high_side: bool) -> Box:
    """Return the rail along one edge of the frame's box."""
    low, high = box[axis]
    span = from_high(high, width) if high_side else from_low(low, width)  # type: ignore[arg-type]
    return with_span(box, axis, span)


def _panel(values: Lazy, flat: int, high: bool) -> Box:
    """Return where the panel lies: in the rabbet less the clearance, flush with the frame's face."""
    panel, box = values["panel"], values["box"]
    inset = values["width"] - panel["rabbet"] + panel["clearance"]
    for axis in range(3):
        low, top = box[axis]
        if axis != flat:
            box = with_span(box, axis, (low + inset, top - inset))
    low, top = values["box"][flat]
    span = from_high(top, panel["thickness"]) if high else from_low(low, panel["thickness"])
    return with_span(box, flat, span)


WORD = Word(
    name="frame round a panel",
    room="assembly",
    help="four rails mitred in the flat, with a rabbet that holds a panel or pane with clearance all round",
    fields=(
        Field("box", BoxField(), "outside of the frame, from low to high on each axis", required=True),
        Field("material", MaterialName(), "what the rails are made of", required=True),
        Field("width", Length(above=0), "width of the rails", required=True),
        Field("face", FaceWord(), "the side from which the panel is laid in", required=True),
        Field(
            "panel",
            Nested(
                (
                    Field("material", MaterialName(), "what the panel is made of", required=True),
                    Field("thickness", Length(above=0), "its thickness: the depth of the rabbet", required=True),
                    Field("rabbet", Length(above=0), "how far the rabbet goes into the rails' width", required=True),
                    Field("clearance", Length(least=0), "left free on each side", required=True),
                    Field("grain", Words(), "where its grain runs: across, deep or up"),
                )
            ),
            "the panel",
            required=True,
        ),
        Field("tenons", Nested(TENON), "loose tenons in the mitres"),
        Field("group", Words(), "name of the group that the frame turns with"),
    ),
    example="""\
window:
  frame round a panel:
    box: {across: [0, 24], deep: [0, 1 1/4], up: [30, 48]}
    material: frame stock
    width: 2 1/2
    face: back
    panel: {material: glass, thickness: 1/8, rabbet: 3/8, clearance: 1/16}
""",
    build=build,
)
