"""Upright frames of stiles and rails: where their parts lie, and how their corners are joined."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from docgen.expressions import Expr
from docgen.piece.assemblies.terms import AXES, SIDES, Box, face, from_high, from_low, given, with_span
from docgen.piece.bench import Draft, Lazy
from docgen.piece.faults import Fault
from docgen.piece.joints.pocket_screws import JIG
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
    def behind(self) -> str:
        """The face opposite to the one that is seen."""
        low, high = SIDES[self.flat]
        return high if self.face == low else low

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
    way = corners(values)
    frame = _members(draft, values, box, lapped=way in THROUGH, group=group)
    for rail in frame.rails:
        _joined(frame, values, rail, way, inner)
    return frame


def corners(values: Lazy) -> str:
    """Return how the corners are joined; `Fault` unless it is said in one way."""
    known = [f.name for f in (*CORNERS, POCKETS) if f.name in values.values]
    ways = [name for name in known if values[name] not in (None, False)]
    if len(ways) != 1:
        found = " and ".join(ways) or "nothing"
        names = ", ".join(known)
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
    for word, upright in _rails(draft, values, box[UP]):
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


def _rails(draft: Draft, values: Lazy, upright: Span) -> list[tuple[str, Span]]:
    """Return the names and heights of the rails, from the lowest to the highest."""
    width = values["width"]
    low, high = from_low(upright[0], values["bottom"] or width), from_high(upright[1], values["top"] or width)
    wide = values["middle width"] or width
    places = list(values["middle"])
    if values["middle count"] is not None:
        if places:
            message = "middle rails have places or are evenly spaced, here they are both"
            raise Fault("frame-spacing", message, "middle count", "middle: [...], or middle count: 2")
        places = evenly((low[1], high[0]), draft.count(values["middle count"]), wide)
    words = ["middle rail"] if len(places) == 1 else [f"middle rail {n}" for n in range(1, len(places) + 1)]
    middle = [(word, from_low(up, wide)) for word, up in zip(words, places, strict=True)]
    return [("bottom rail", low), *middle, ("top rail", high)]


def evenly(clear: Span, count: int, wide: Expr) -> list[Expr]:
    """Return where members as wide as `wide` begin that leave equal openings in `clear`."""
    gap = (clear[1] - clear[0] - wide * count) / (count + 1)
    return [clear[0] + gap * n + wide * (n - 1) for n in range(1, count + 1)]


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
        else:
            butted(frame, way, how, rail, stile, UP)


def butted(frame: Frame, way: str, how: Lazy, part: str, into: str, across: int) -> None:
    """Say the joint of an end that butts against another member; the end's width lies along the axis `across`."""
    draft = frame.draft
    if way == "dowels":
        draft.say("joints", "dowel", part=part, into=into, **given(how))
    elif way == "loose tenons":
        draft.say("joints", "loose tenon", end=part, into=into, **given(how))
    else:
        low, high = (face(part, word) for word in SIDES[across])
        count = draft.count(how["count"])
        places = [{AXES[across]: low + (high - low) * Fraction(2 * n + 1, 2 * count)} for n in range(count)]
        fields = {name: how[name] for name in ("length", "gauge", "jig")}
        draft.say("joints", "pocket screws", through=part, into=into, face=frame.behind, at=places, **fields)


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
    Field("middle count", Count(), "in place of heights: how many middle rails, with equal openings between them"),
    Field("middle width", Length(above=0), "width of the middle rails, where it differs"),
    Field("face", Choice(("front", "back", "left", "right")), "the face that is seen", default="front"),
)
"""The fields of stiles and rails."""

DOWELS = (
    Field("diameter", Length(above=0), "of the dowels", required=True),
    Field("count", Count(), "at each end of a rail", required=True),
    Field("depth", Length(above=0), "of the holes in each part", required=True),
)
"""The fields of dowels in the ends of rails."""

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
        Nested(DOWELS),
        "dowels in the ends of the rails",
    ),
    Field("loose tenons", Nested(TENON), "loose tenons in the ends of the rails"),
)
"""The ways to join the corners; one is said."""

POCKETS = Field(
    "pocket screws",
    Nested(
        (
            Field("count", Count(), "at each end, evenly over its width", default="2"),
            Field("length", Length(above=0), "of the screws, as bought", required=True),
            Field("gauge", Count(least=0), "number of the screw: 7 for No. 7", default="8"),
            Field("jig", Nested(JIG), "the figures of the pocket jig's own sheet", required=True),
        )
    ),
    "pocket screws from behind, for frames that are glued before a case",
)
"""One more way, where a case holds the frame flat."""
