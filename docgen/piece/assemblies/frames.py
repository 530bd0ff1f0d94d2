"""Upright frames of stiles and rails: where their parts lie, how their corners are joined, what fills their openings."""

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
    frame = _members(draft, values, box, lapped=way == "half laps", group=group)
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
    for path, span, word in zip(stiles, spans, (first, last), strict=True):
        called = f"{draft.name} {word} stile"
        draft.part(path, grain="up", box=with_span(box, beside, span), called=called, **common)
    level = box[beside] if lapped else (face(stiles[0], last), face(stiles[1], first))
    rails = []
    for word, upright in _rails(values, box[UP]):
        rails.append(f"{draft.name}.{word}")
        spot = with_span(with_span(box, beside, level), UP, upright)
        draft.part(rails[-1], grain=AXES[beside], box=spot, called=f"{draft.name} {word}", **common)
    return Frame(draft, seen, box, stiles, tuple(rails), group, [*stiles, *rails])


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


def panels(frame: Frame, values: Lazy, panel: Lazy) -> None:
    """Say a panel in grooves for each opening, in the middle of the frame's thickness."""
    draft, flat = frame.draft, frame.flat
    low, high = frame.box[flat]
    span = (low + (high - low - panel["thickness"]) / 2, low + (high - low + panel["thickness"]) / 2)
    tenoned = values["tenons"] is not None and values["tenons"]["haunch"] is not None
    for number, (below, above) in enumerate(frame.openings, 1):
        path = f"{draft.name}.panel" if len(frame.openings) == 1 else f"{draft.name}.panel {number}"
        frame.parts.append(path)
        draft.part(
            path,
            material=panel["material"],
            grain=panel["grain"] or "up",
            box=with_span(frame.opening(below, above, panel["groove"] - panel["clearance"]), flat, span),
            show=frame.face,
            group=frame.group,
            authority="measure",
        )
        into = [*frame.stiles, below, above]
        # Where haunches fill them the grooves run out; else they would show in the ends of the stiles.
        draft.say("joints", "panel in groove", panel=path, into=into, clearance=panel["clearance"], stopped=not tenoned)


def panes(frame: Frame, glass: Lazy) -> None:
    """Say a pane in rabbets for each opening, laid in from behind, and its beads."""
    for number, rails in enumerate(frame.openings, 1):
        _pane(frame, glass, rails, "" if len(frame.openings) == 1 else f" {number}")


def _pane(frame: Frame, glass: Lazy, rails: tuple[str, str], number: str) -> None:
    draft, flat = frame.draft, frame.flat
    path = f"{draft.name}.pane{number}"
    frame.parts.append(path)
    draft.part(
        path,
        material=glass["material"],
        grain="up",
        box=with_span(frame.opening(*rails, glass["rabbet"] - glass["clearance"]), flat, _layer(frame, glass, True)),
        show=frame.face,
        group=frame.group,
        authority="measure",
    )
    ring = [frame.stiles[0], rails[1], frame.stiles[1], rails[0]]
    draft.say(
        "joints",
        "panel in frame",
        panel=path,
        frame=ring,
        clearance=glass["clearance"],
        depth=glass["depth"],
        **{"from": _behind(frame)},
        stopped=True,
        bed=glass["bed"],
    )
    if glass["beads"] is not None:
        _beads(frame, glass, rails, number)


def _behind(frame: Frame) -> str:
    """Return the face opposite to the one that is seen."""
    low, high = SIDES[frame.flat]
    return high if frame.face == low else low


def _layer(frame: Frame, glass: Lazy, pane: bool) -> Span:
    """Return where the pane lies in the frame's thickness: on the rabbet's floor; or what is left of the rabbet behind it."""
    low, high = frame.box[frame.flat]
    deep, bed = glass["depth"], glass["bed"]
    thick = glass["thickness"] if bed is None else glass["thickness"] + bed
    if FACE_WORDS[frame.face][1] == 0:  # seen from the low side, laid in from the high one
        floor, back = high - deep, high
        return from_high(floor + thick, glass["thickness"]) if pane else (floor + thick, back)
    floor, back = low + deep, low
    return from_low(floor - thick, glass["thickness"]) if pane else (back, floor - thick)


def _beads(frame: Frame, glass: Lazy, rails: tuple[str, str], number: str) -> None:
    """Say four beads that hold the pane, mitred round the rabbet."""
    draft, beside = frame.draft, frame.beside
    wide = glass["rabbet"]
    hole = with_span(frame.opening(*rails, wide), frame.flat, _layer(frame, glass, False))
    first, last = SIDES[beside]
    edges = (
        (first, beside, from_low(hole[beside][0], wide), "up"),
        ("top", UP, from_high(hole[UP][1], wide), AXES[beside]),
        (last, beside, from_high(hole[beside][1], wide), "up"),
        ("bottom", UP, from_low(hole[UP][0], wide), AXES[beside]),
    )
    paths = []
    for word, axis, span, grain in edges:
        paths.append(f"{draft.name}.{word} bead{number}")
        draft.part(
            paths[-1],
            material=glass["beads"]["material"],
            grain=grain,
            box=with_span(hole, axis, span),
            group=frame.group,
            authority="measure",
            called=f"{draft.name} {word} bead{number}",
        )
    frame.parts.extend(paths)
    for k, path in enumerate(paths):
        draft.say("joints", "mitre", parts=[path, paths[(k + 1) % 4]])


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

PANEL = (
    Field("material", MaterialName(), "what the panel is made of", required=True),
    Field("thickness", Length(above=0), "of the panel, and width of the grooves", required=True),
    Field("groove", Length(above=0), "depth of the grooves", required=True),
    Field("clearance", Length(least=0), "left free in the bottom of each groove", required=True),
    Field("grain", Choice(AXES), "where its grain runs; absent: up"),
)

GLASS = (
    Field("material", MaterialName(), "what the pane is made of", required=True),
    Field("thickness", Length(above=0), "of the pane", required=True),
    Field("rabbet", Length(above=0), "how far the rabbet goes into the width of stiles and rails", required=True),
    Field("depth", Length(above=0), "of the rabbet, from behind", required=True),
    Field("clearance", Length(least=0), "left free on each side of the pane", required=True),
    Field("bed", Length(above=0), "thickness of tape or putty between rabbet and pane"),
    Field(
        "beads",
        Nested((Field("material", MaterialName(), "strips that fill the rabbet behind the pane", required=True),)),
        "what holds the pane: strips mitred round it; absent: putty or pins",
    ),
)
