"""Doors and lids that hang on let-in hinges are tried before the finish, while their edges can be planed. Common practice."""

from __future__ import annotations

from collections.abc import Iterator

from docgen.piece.model import Group, Piece
from docgen.piece.records import Authority, Stage
from docgen.schedules.rows import WorkRow
from docgen.schedules.steps import AT_FITTING, step
from docgen.units import unit_length

GAP = "gap"
"""The figure of a joint that tells how far apart its parts stand."""


def tried(piece: Piece) -> Iterator[WorkRow]:
    """Yield the dry hanging of what turns on hinges whose screw holes are drilled by now."""
    groups = [g for g in piece.groups if _hinged(piece, g)]
    if not groups:
        return
    names, many = ", ".join(g.name for g in groups), len(groups) > 1
    glazed = any(pane.pane in g.parts for pane in piece.panes for g in groups)
    yield step(
        AT_FITTING,
        f"Hang {names} dry, two screws in each leaf{', without glass' if glazed else ''}. Gap at the hinges, as drawn: {_gaps(piece, groups)}. "
        f"Open and close {'each' if many else 'it'}; where it rubs, or a gap is uneven, plane an edge that carries no hinge. Then take "
        f"{'them' if many else 'it'} down.",
        "general views, joinery details",
        f"an edge planed after the finish{' and the glass' if glazed else ''}: try it now",
        _needed(piece, groups),
        key="hang dry",
    )


def _hinged(piece: Piece, group: Group) -> bool:
    """Return whether a bought thing, marked through its own holes, holds what turns: a leaf of a hinge."""
    return any(
        hole.authority is Authority.HARDWARE
        for path in group.parts
        for feature in piece.part(path).features
        if feature.stage is Stage.FITTED
        for hole in feature.made.holes
    )


def _needed(piece: Piece, groups: list[Group]) -> list[str]:
    """Return what turns, panes left out, and what it hangs on."""
    turning = [p for g in groups for p in g.parts]
    hung_on = [p for j in piece.joints if len(set(turning) & set(j.parts)) == 1 for p in j.parts if p not in turning]
    panes = {pane.pane for pane in piece.panes}
    return [p for p in dict.fromkeys((*turning, *hung_on)) if p not in panes]


def _gaps(piece: Piece, groups: list[Group]) -> str:
    """Return the gaps between what turns and what it hangs on, each once: "3 mm"."""
    turning = {p for g in groups for p in g.parts}
    found = [
        value
        for joint in piece.joints
        if len(turning & set(joint.parts)) == 1 and any(path in turning for path, _ in joint.features)
        for name, value, _ in joint.figures
        if name == GAP
    ]
    return ", ".join(dict.fromkeys(unit_length(value, piece.units) for value in found)) or "none"
