"""A mitred frame round a panel or pane that lies in a rabbet with clearance, a backer behind it."""

from __future__ import annotations

from typing import Any

from docgen.piece.assemblies.terms import AXES, SIDES, Box, from_high, from_low, with_span
from docgen.piece.bench import Draft, Lazy
from docgen.piece.faults import Fault
from docgen.piece.joints.mitre_strength import KEYS, SPLINE
from docgen.piece.joints.tenoning import TENON
from docgen.piece.model import FACE_WORDS
from docgen.project.fields import Box as BoxField
from docgen.project.fields import FaceWord, Field, Length, MaterialName, Nested, Word, Words


def build(draft: Draft, values: Lazy) -> None:
    """Say four rails, the panel, the rabbet it lies in and the mitres."""
    flat, high = FACE_WORDS[values["face"]]
    i, j = (a for a in range(3) if a != flat)
    group = values["group"] or ""
    # Flush with the face it is laid in from, the panel is what is seen; deeper in a rabbet it is seen from the other side.
    seen = values["show"] or (values["face"] if values["panel"]["depth"] is None else SIDES[flat][1 - high])
    rails = [(j, i, word) for word in SIDES[i]] + [(i, j, word) for word in SIDES[j]]
    paths = {word: f"{draft.name}.{word}" for _, _, word in rails}
    for along, across, word in rails:
        draft.part(
            paths[word],
            material=values["material"],
            grain=AXES[along],
            box=_edge(values["box"], across, values["width"], high_side=word == SIDES[across][1]),
            show=seen,
            group=group,
            called=f"{draft.name} {word} rail",
        )
    panel = f"{draft.name}.panel"
    draft.part(
        panel,
        material=values["panel"]["material"],
        grain=values["panel"]["grain"] or AXES[i],
        box=_laid(values, flat, bool(high)),
        show=seen,
        group=group,
        authority="measure",
    )
    backer = values["backer"]
    if backer is not None:
        draft.part(
            f"{draft.name}.backer",
            material=backer["material"],
            grain=values["panel"]["grain"] or AXES[i],
            box=_laid(values, flat, bool(high), behind=True),
            group=group,
            authority="measure",
        )
    ring = [paths[SIDES[i][0]], paths[SIDES[j][1]], paths[SIDES[i][1]], paths[SIDES[j][0]]]
    draft.say("joints", "panel in frame", panel=panel, frame=ring, **_bed(values))
    strength = {name: values[name] for name in ("tenons", "spline", "keys")}
    for k, path in enumerate(ring):
        draft.say("joints", "mitre", parts=[path, ring[(k + 1) % 4]], **strength)


def _bed(values: Lazy) -> dict[str, Any]:
    """Return how the panel lies in its rabbet."""
    panel, backer = values["panel"], values["backer"]
    deep = panel["depth"]
    if deep is None and (backer is not None or panel["bed"] is not None):
        message = "the rabbet is as deep as the panel is thick: nothing else finds room in it"
        raise Fault("panel-depth", message, "panel", "depth: of the rabbet, for panel, bed and backer")
    return {
        "clearance": panel["clearance"],
        "depth": deep,
        "from": None if deep is None else values["face"],
        "bed": panel["bed"],
        "backer": None if backer is None else backer["thickness"],
    }


def _edge(box: Box, axis: int, width: object, *, high_side: bool) -> Box:
    """Return the rail along one edge of the frame's box."""
    low, high = box[axis]
    span = from_high(high, width) if high_side else from_low(low, width)  # type: ignore[arg-type]
    return with_span(box, axis, span)


def _laid(values: Lazy, flat: int, high: bool, *, behind: bool = False) -> Box:
    """Return where the panel lies: in the rabbet less the clearance, on its floor; or the backer behind it."""
    panel, box = values["panel"], values["box"]
    inset = values["width"] - panel["rabbet"] + panel["clearance"]
    for axis in range(3):
        low, top = box[axis]
        if axis != flat:
            box = with_span(box, axis, (low + inset, top - inset))
    low, top = values["box"][flat]
    up = panel["bed"]
    under = panel["thickness"] if behind else None
    lift = under if up is None else up if under is None else up + under
    thick = values["backer"]["thickness"] if behind else panel["thickness"]
    deep = panel["depth"] or panel["thickness"]
    floor = top - deep if high else low + deep
    if lift is not None:
        floor = floor + lift if high else floor - lift
    return with_span(box, flat, from_low(floor, thick) if high else from_high(floor, thick))


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
            "show", FaceWord(), "the side that is seen; absent: that face if the panel is flush with it, else the other"
        ),
        Field(
            "panel",
            Nested(
                (
                    Field("material", MaterialName(), "what the panel is made of", required=True),
                    Field("thickness", Length(above=0), "its thickness", required=True),
                    Field("rabbet", Length(above=0), "how far the rabbet goes into the rails' width", required=True),
                    Field("clearance", Length(least=0), "left free on each side", required=True),
                    Field("grain", Words(), "where its grain runs: across, deep or up"),
                    Field(
                        "depth", Length(above=0), "of the rabbet, where more lies in it; absent: the panel's thickness"
                    ),
                    Field("bed", Length(above=0), "thickness of tape, putty or felt under a pane"),
                )
            ),
            "the panel",
            required=True,
        ),
        Field(
            "backer",
            Nested(
                (
                    Field("material", MaterialName(), "what it is made of", required=True),
                    Field("thickness", Length(above=0), "its thickness", required=True),
                )
            ),
            "a board behind the panel, in the same rabbet",
        ),
        Field("tenons", Nested(TENON), "loose tenons in the mitres"),
        Field("spline", Nested(SPLINE), "a loose strip in grooves along each mitre"),
        Field("keys", Nested(KEYS), "thin keys in slots sawn across the glued corners"),
        Field("group", Words(), "name of the group that the frame turns with"),
    ),
    example="""\
window:
  frame round a panel:
    box: {across: [0, 24], deep: [0, 1 1/4], up: [30, 48]}
    material: frame stock
    width: 2 1/2
    face: back
    panel: {material: glass, thickness: 1/8, rabbet: 3/8, clearance: 1/16, depth: 5/8}
    backer: {material: thin ply, thickness: 1/4}
""",
    build=build,
)
