"""The labels of a true-size drawing together: in which order they take their places, and what their leaders run through."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from docgen.drawing.boxes import crossing
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Line, Pen, Record
from docgen.drawing.tiling.ink import Segment, inside
from docgen.drawing.tiling.labels import (
    AROUND,
    CLEAR,
    Label,
    arrow_room,
    caption,
    double_arrow,
    room_for,
    set_rows,
    stands,
)
from docgen.drawing.tiling.room import Room, touches

ORDERS = 3  # in which labels are placed, where leaders run through something
OFF = 1.5  # mm from where a leader begins: so far it may run through what it is drawn from

Set: TypeAlias = tuple[Label, Bounds, Segment | None]
"""A label where it stands: its box, and its leader where it has one."""


def place(labels: Sequence[Label], room: Room, boundary: Sequence[Segment], metrics: Metrics) -> list[Record]:
    """Return lettering and leaders of `labels`, and note in `room` what they take.

    `boundary` is the outline in which captions like to stand. A label for which nothing is free takes the place
    where it covers least: only a spare one is ever left out.
    """
    out: list[Record] = []
    for label, box, leader in _arranged(labels, room, boundary, metrics):
        room.take(box, leader)
        if leader:
            out.append(Line(leader[0], leader[1], Pen.THIN))
        out.extend(set_rows(label.rows, box[0] + CLEAR, box[3] - CLEAR, metrics))
        if label.arrow is not None:
            down = arrow_room(label.arrow)[1]
            out.extend(double_arrow(((box[0] + box[2]) / 2, box[1] + down / 2), label.arrow))
    return out


def clashes(labels: Sequence[Label], room: Room, boundary: Sequence[Segment], metrics: Metrics) -> int:
    """Return how many leaders would run through a line, a label or another leader; `room` stays as it is."""
    return len(_clashing(_arranged(labels, room, boundary, metrics), room))


def _arranged(labels: Sequence[Label], room: Room, boundary: Sequence[Segment], metrics: Metrics) -> list[Set]:
    """Return where labels stand, in their order: those whose leaders would run through something choose first, the last of them before the others."""
    order = list(range(len(labels)))
    best: tuple[int, list[Set], list[int]] | None = None
    for _ in range(ORDERS):
        found = _in_turn([(k, labels[k]) for k in order], room, boundary, metrics)
        keys = sorted(found)
        bad = [keys[n] for n in _clashing([found[k] for k in keys], room)]
        kept = [found[k] for k in keys if not (labels[k].spare and k in bad)]
        count = sum(not labels[k].spare for k in bad)
        if best is None or (count, -len(kept)) < (best[0], -len(best[1])):
            best = (count, kept, bad)
        tried = [*reversed(bad), *(k for k in order if k not in bad)]
        if not bad or tried == order:
            break
        order = tried
    return best[1] if best else []


def _in_turn(
    labels: Sequence[tuple[int, Label]], room: Room, boundary: Sequence[Segment], metrics: Metrics
) -> dict[int, Set]:
    """Return where each label stands that is placed, by its number, each off those before it; `room` stays as it is."""
    out: dict[int, Set] = {}
    boxes, leaders = len(room.boxes), len(room.leaders)
    for k, label in labels:
        box, leader = stands(label, room, boundary, metrics)
        if label.less and not _own(box, leader, room):
            label = replace(label, rows=label.less)
            box, leader = stands(label, room, boundary, metrics)
        if label.spare and not _own(box, leader, room):
            continue
        room.take(box, leader)
        out[k] = (label, box, leader)
    del room.boxes[boxes:], room.leaders[leaders:]
    return out


def _clashing(placed: Sequence[Set], room: Room) -> list[int]:
    """Return which of the placed labels have leaders that run through a drawn line, another label or another leader."""
    out = []
    for n, (_, _, leader) in enumerate(placed):
        if leader is None:
            continue
        (x, y), end = leader
        share = min(0.5, OFF / math.dist(*leader))  # the line that is meant, with its width
        beyond = ((x + share * (end[0] - x), y + share * (end[1] - y)), end)
        others = [other for k, other in enumerate(placed) if k != n]
        if room.across(beyond)[0] or any(
            touches(leader, box) or (far and crossing(*leader, *far)) for _, box, far in others
        ):
            out.append(n)
    return out


def crowded(labels: Sequence[Label], room: Room, boundary: Sequence[Segment], metrics: Metrics) -> bool:
    """Return whether one of `labels` finds no free place in `room`, once those before it have theirs; `room` is filled.

    A place is not free either if its leader has to run through a label.
    """
    for label in labels:
        box, leader = stands(label, room, boundary, metrics)
        if not _own(box, leader, room):
            return True
        room.take(box, leader)
    return False


def _own(box: Bounds, leader: Segment | None, room: Room) -> bool:
    """Return whether a place is free, and its leader runs through no label."""
    return room.free(box) and not (leader is not None and room.across(leader)[3])


def fits_inside(label: Label, room: Room, boundary: Sequence[Segment], metrics: Metrics) -> bool:
    """Return whether a caption finds a free place within the outline, with AROUND mm to spare for other labels."""
    wide, tall = room_for(label, metrics)
    box, _ = caption(label, wide + 2 * AROUND, tall + 2 * AROUND, room, boundary)
    return room.free(box) and inside(((box[0] + box[2]) / 2, (box[1] + box[3]) / 2), boundary)
