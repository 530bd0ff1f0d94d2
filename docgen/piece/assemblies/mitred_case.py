"""A case of three or four boards that meet in mitres, with the grain running around."""

from __future__ import annotations

from itertools import pairwise

from docgen.piece.assemblies.terms import AXES, SIDES, Box, face, from_high, from_low, side, with_span
from docgen.piece.bench import Draft, Lazy
from docgen.piece.joints.mitre_strength import KEYS, SPLINE
from docgen.piece.joints.tenoning import TENON
from docgen.project.fields import Box as BoxField
from docgen.project.fields import Choice, Field, Flag, Length, Many, MaterialName, Nested, Word

ROUND = ("left", "top", "right", "bottom")
"""The order of the boards along the blank."""

GRAIN = {"left": "up", "right": "up", "top": "across", "bottom": "across"}
INNER = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


def build(draft: Draft, values: Lazy) -> None:
    """Say the boards, their mitres, the rabbet round the front and the rounded corners."""
    boards = [b for b in ROUND if b in values["boards"]]
    for board in boards:
        draft.part(
            f"{draft.name}.{board}",
            material=values["material"],
            grain=GRAIN[board],
            box=_box(values["box"], board, values["thickness"]),
            show=board,
            called=side(draft.name, board),
        )
    corners = list(pairwise(boards))
    if len(boards) == len(ROUND):
        corners.append((boards[-1], boards[0]))
    for pair in corners:
        paths = [f"{draft.name}.{b}" for b in pair]
        draft.say("joints", "mitre", parts=paths, **{how: values[how] for how in ("tenons", "spline", "keys")})
        if values["corner"] is not None:
            draft.say("edges", "glued corner", part=paths, corner=" ".join(pair), radius=values["corner"])
    if values["front rabbet"] is not None:
        _rabbet(draft, values, boards)
    if values["grain around"]:
        paths = [f"{draft.name}.{b}" for b in boards]
        draft.say("joints", "grain around", parts=paths, name=draft.name, radius=values["corner"])


def _box(box: Box, board: str, thickness: object) -> Box:
    """Return the board's span: the whole outside, and its thickness from the outside in."""
    axis, high = {"left": (0, False), "right": (0, True), "top": (2, True), "bottom": (2, False)}[board]
    low_end, high_end = box[axis]
    span = from_high(high_end, thickness) if high else from_low(low_end, thickness)  # type: ignore[arg-type]
    return with_span(box, axis, span)


def _rabbet(draft: Draft, values: Lazy, boards: list[str]) -> None:
    """Say the rabbet round the front; it runs out where the case has no board."""
    box, rabbet = values["box"], values["front rabbet"]
    opening = {}
    for axis, name in enumerate(AXES):
        spans = list(box[axis])
        for high, word in enumerate(SIDES[axis]):
            if word in boards:
                spans[high] = face(f"{draft.name}.{word}", INNER[word])
        opening[name] = spans
    missing = [board for board in ROUND if board not in boards]
    draft.say(
        "operations",
        "glued rabbet",
        part=[f"{draft.name}.{b}" for b in boards],
        face="front",
        opening=opening,
        into=rabbet["into"],
        depth=rabbet["depth"],
        bearing=rabbet["bearing"],
        open=missing or None,
    )


WORD = Word(
    name="mitred case",
    room="assembly",
    help="three or four boards that meet in mitres along their long arrises, the grain running around",
    fields=(
        Field("box", BoxField(), "outside of the case, from low to high on each axis", required=True),
        Field("material", MaterialName(), "what the boards are made of", required=True),
        Field("thickness", Length(above=0), "thickness of the boards", required=True),
        Field("boards", Many(Choice(ROUND), least=2), "which boards there are", default="[left, top, right]"),
        Field("corner", Length(above=0), "outside radius of the corners, cut after glue-up; absent: left sharp"),
        Field(
            "front rabbet",
            Nested(
                (
                    Field("into", Length(above=0), "how far it goes into the thickness", required=True),
                    Field("depth", Length(above=0), "how far it goes back from the front", required=True),
                    Field(
                        "bearing",
                        Length(above=0),
                        "diameter of the bit's bearing, which leaves the corners round",
                        required=True,
                    ),
                )
            ),
            "rabbet round the inside of the front, cut after glue-up with a bit that is guided by a bearing",
        ),
        Field("tenons", Nested(TENON), "loose tenons in the mitres"),
        Field("spline", Nested(SPLINE), "a loose strip in grooves along each mitre"),
        Field("keys", Nested(KEYS), "thin keys in slots sawn across the glued corners"),
        Field("grain around", Flag(), "the boards are cut in turn from one blank", default="yes"),
    ),
    example="""\
case:
  mitred case:
    box: {across: [0, 34], deep: [0, 16], up: [22, 28 1/2]}
    material: case boards
    thickness: 13/16
    corner: 1 1/8
    front rabbet: {into: 3/8, depth: 3/4, bearing: 5/8}
""",
    build=build,
)
