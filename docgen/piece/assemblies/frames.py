"""Upright frames of stiles and rails: where their parts lie, and how their corners are joined."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from docgen.expressions import Expr
from docgen.piece.assemblies.terms import AXES, SIDES, Box, face, from_high, from_low, given, with_span
from docgen.piece.bench import Draft, Lazy
from docgen.piece.faults import Fault
from docgen.piece.joints.tenoning import TENON
from docgen.piece.model import FACE_WORDS
from docgen.project.fields import Choice, Count, Field, Flag, Length, Many, MaterialName, Nested

Span = tuple[Expr, Expr]
UP = 2
THROUGH = ("half laps", "bridles")
"""Ways to join corners in which the boxes of stiles and rails reach through each other."""


@dataclass(frozen=True, slots=True)
class Frame:
    """A frame that was said: its stiles, and its rails from the lowest to the highest."""

    draft: Draft
    face: str  # the face that is seen
    box: Box
    stiles: tuple[str, str]
    rails: tuple[str, ...]
    group: str = ""
    parts: list[str] = field(default_factory=list)  # all that were said so far, panels and beads among them

    @property
    def flat(self) -> int:
        """The axis square to the frame."""
        return FACE_WORDS[self.face][0]

    @property
    def beside(self) -> int:
        """The level axis in the frame."""
        return 1 - self.flat

    @property
    def openings(self) -> tuple[tuple[str, str], ...]:
        """The rails below and above each opening."""
        return tuple(zip(self.rails, self.rails[1:], strict=False))

    def opening(self, low: str, high: str, grow: Expr) -> Box:
        """Return the box of an opening, grown on its four sides."""
        first, last = SIDES[self.beside]
        level = (face(self.stiles[0], last) - grow, face(self.stiles[1], first) + grow)
        upright = (face(low, "top") - grow, face(high, "bottom") + grow)
        return with_span(with_span(self.box, self.beside, level), UP, upright)


def said(draft: Draft, values: Lazy, box: Box, *, inner: Expr | None = None, group: str = "") -> Frame:
    """Say the stiles, the rails and the joints at their corners; return the frame.

    `inner` is what grooves or rabbets take from the rails' inner edges: the tenons keep clear of it.
    """
    way = _corners(values)
    frame = _members(draft, values, box, lapped=way in THROUGH, group=group)
    for rail in frame.rails:
        _joined(frame, values, rail, way, inner)
    return frame


def _corners(values: Lazy) -> str:
    """Return how the corners are joined; `Fault` unless it is said in one way."""
    ways = [f.name for f in CORNERS if values[f.name] not in (None, False)]
    if len(ways) != 1:
        found = " and ".join(ways) or "nothing"
        names = ", ".join(f.name for f in CORNERS)
        raise Fault("frame-corners", f"the corners are joined in one way, here is {found}", "", f"one of {names}")
    return ways[0]


def _members(draft: Draft, values: Lazy, box: Box, *, lapped: bool, group: str) -> Frame:
    """Say the stiles, as high as the frame, and the rails: between them, or as long as the frame where they are lapped."""
    seen = values.values.get("face", "front")
    beside = 1 - FACE_WORDS[seen][0]
    first, last = SIDES[beside]
    common = {"material": values["material"], "show": seen, "group": group}
    width = values["width"]
    stiles = (f"{draft.name}.{first} stile", f"{draft.name}.{last} stile")
    spans = (from_low(box[beside][0], width), from_high(box[beside][1], width))
    hung = _hung(values, (first, last))
    for path, span, word in zip(stiles, spans, (first, last), strict=True):
        called = f"{draft.name} {hung.get(word, word)} stile"
        draft.part(path, grain="up", box=with_span(box, beside, span), called=called, **common)
    level = box[beside] if lapped else (face(stiles[0], last), face(stiles[1], first))
    rails = []
    for word, upright in _rails(values, box[UP]):
        rails.append(f"{draft.name}.{word}")
        spot = with_span(with_span(box, beside, level), UP, upright)
        draft.part(rails[-1], grain=AXES[beside], box=spot, called=f"{draft.name} {word}", **common)
    return Frame(draft, seen, box, stiles, tuple(rails), group, [*stiles, *rails])


def _hung(values: Lazy, sides: tuple[str, str]) -> dict[str, str]:
    """Return what the stiles of a door that hangs at one side are called: of two doors they are the same in mirror image."""
    hinges = values.values.get("hinges")
    if hinges is None or hinges["side"] not in sides:
        return {}
    return {side: "hanging" if side == hinges["side"] else "closing" for side in sides}


def _rails(values: Lazy, upright: Span) -> list[tuple[str, Span]]:
    """Return the names and heights of the rails, from the lowest to the highest."""
    width = values["width"]
    middle = values["middle"]
    out = [("bottom rail", from_low(upright[0], values["bottom"] or width))]
    for n, up in enumerate(middle, 1):
        word = "middle rail" if len(middle) == 1 else f"middle rail {n}"
        out.append((word, from_low(up, values["middle width"] or width)))
    out.append(("top rail", from_high(upright[1], values["top"] or width)))
    return out


def _joined(frame: Frame, values: Lazy, rail: str, way: str, inner: Expr | None) -> None:
    """Say the joints at both ends of a rail."""
    draft, how = frame.draft, values[way]
    if way == "tenons":
        draft.say("joints", "mortise and tenon", end=rail, into=list(frame.stiles), **_tenon(frame, how, rail, inner))
        return
    for stile in frame.stiles:
        if way == "half laps":
            draft.say("joints", "half lap", over=rail, under=stile, face=frame.face)
        elif way == "bridles":
            # At a corner the stile's end is slotted, in between the end of the rail.
            ends = (rail, stile) if rail in (frame.rails[0], frame.rails[-1]) else (stile, rail)
            draft.say("joints", "bridle", tenon=ends[0], slot=ends[1], thickness=how["thickness"])
        elif way == "dowels":
            draft.say("joints", "dowel", part=rail, into=stile, **given(how))
        else:
            draft.say("joints", "loose tenon", end=rail, into=stile, **given(how))


def _tenon(frame: Frame, how: Lazy, rail: str, inner: Expr | None) -> dict[str, Any]:
    """Return the fields of a rail's tenons: wide shoulders and haunches at the frame's ends, narrow ones within."""
    outer = {frame.rails[0]: "bottom", frame.rails[-1]: "top"}
    within = how["inner"] or inner
    shoulder: dict[str, Expr] = {}
    haunch: dict[str, Expr] = {}
    for edge in ("bottom", "top"):
        if outer.get(rail) == edge:
            shoulder[edge] = how["outer"]
            if how["haunch"] is not None:
                haunch[edge] = how["haunch"]
        elif within is not None:
            shoulder[edge] = within
    out = {name: how[name] for name in ("thickness", "length", "through", "rounded")}
    return {**out, "shoulder": shoulder or None, "haunch": haunch or None}


MEMBERS = (
    Field("material", MaterialName(), "what stiles and rails are made of", required=True),
    Field("width", Length(above=0), "of stiles and rails", required=True),
    Field("top", Length(above=0), "width of the top rail, where it differs"),
    Field("bottom", Length(above=0), "width of the bottom rail, where it differs"),
    Field("middle", Many(Length(), least=0), "heights at which middle rails begin", default="[]"),
    Field("middle width", Length(above=0), "width of the middle rails, where it differs"),
    Field("face", Choice(("front", "back", "left", "right")), "the face that is seen", default="front"),
)
"""The fields of stiles and rails."""

CORNERS = (
    Field(
        "tenons",
        Nested(
            (
                Field("thickness", Length(above=0), "of the tenons", required=True),
                Field("length", Length(above=0), "of blind tenons"),
                Field("through", Flag(), "they go through the stiles", default="no"),
                Field("outer", Length(above=0), "shoulder toward the frame's lower and upper end", required=True),
                Field(
                    "inner", Length(above=0), "shoulder toward an opening; absent: its groove, or its rabbet and a wall"
                ),
                Field("haunch", Length(above=0), "length of a haunch beside the outer shoulder; it fills the groove"),
                Field("rounded", Flag(), "edges half round, as the router leaves the mortises", default="no"),
            )
        ),
        "mortise and tenon at the ends of the rails",
    ),
    Field("half laps", Flag(), "rails lapped over the stiles", default="no"),
    Field(
        "bridles",
        Nested((Field("thickness", Length(above=0), "of the tenons; absent: a third of the frame"),)),
        "slotted ends that straddle tenons",
    ),
    Field(
        "dowels",
        Nested(
            (
                Field("diameter", Length(above=0), "of the dowels", required=True),
                Field("count", Count(), "at each end of a rail", required=True),
                Field("depth", Length(above=0), "of the holes in each part", required=True),
            )
        ),
        "dowels in the ends of the rails",
    ),
    Field("loose tenons", Nested(TENON), "loose tenons in the ends of the rails"),
)
"""The ways to join the corners; one is said."""
