"""What fills the openings of frames: panels in grooves, panes in rabbets with their beads."""

from __future__ import annotations

from docgen.piece.assemblies.frames import UP, Frame, Span
from docgen.piece.assemblies.terms import AXES, SIDES, from_high, from_low, with_span
from docgen.piece.bench import Lazy
from docgen.piece.model import FACE_WORDS
from docgen.project.fields import Choice, Field, Length, MaterialName, Nested


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
        **{"from": frame.behind},
        stopped=True,
        bed=glass["bed"],
    )
    if glass["beads"] is not None:
        _beads(frame, glass, rails, number)


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
