"""Where the examples' parts meet, compared with what a drafter would cut there."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

from docgen.piece.build import build
from docgen.piece.model import Piece
from docgen.piece.records import SizeKind
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.meetings import Meeting, meetings
from docgen.schedules.partings import clusters, partings
from tests.piece.joints.making import trial

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@cache
def piece(name: str, **sizes: str) -> Piece:
    words = vocabulary()
    path = EXAMPLES / f"{name}.yaml"
    return build(read_project(str(path), path.read_text(encoding="utf-8"), words, dict(sizes)), words)


@cache
def found(name: str) -> tuple[Meeting, ...]:
    return meetings(piece(name))


def one(name: str, word: str, *parts: str) -> Meeting:
    return next(m for m in found(name) if m.joint.word == word and set(parts) <= set(m.parts))


def told(meeting: Meeting, plane: int = 0) -> set[tuple[str, float]]:
    return {(t.size.label, round(float(t.size.value), 2)) for t in meeting.planes[plane].sizes}


@pytest.mark.parametrize("name", ["sketching-desk", "bookcase", "side-table", "wall-shelf"])
def test_every_joint_of_two_parts_is_cut_or_stands_for_another(name: str) -> None:
    of = piece(name)
    shown = {m.joint.word for m in found(name)}
    assert shown == {j.word for j in of.joints if len(set(j.parts)) > 1}
    assert all(m.planes for m in found(name))


def test_a_housing_is_cut_across_the_board_and_at_its_stop() -> None:
    meeting = one("wall-shelf", "housing", "shelf")
    across, stop = meeting.planes
    assert across.normal == pytest.approx((0, -1, 0))
    assert {("dado", 20.0), ("deep", 6.0), ("tongue", 6.0)} <= told(meeting)
    assert stop.normal == pytest.approx((0, 0, 1))
    assert {("stop", 5.0), ("notch", 15.0)} <= told(meeting, 1)
    assert across.point[1] < -20 or 5 < abs(across.point[1]) < 180  # where the dado runs


def test_mortise_and_tenon_are_cut_through_cheeks_and_through_shoulders() -> None:
    meeting = one("side-table", "mortise and tenon", "front apron", "front left leg")
    assert {("tenon", 20.0), ("deep", 21.5), ("", 8.0)} <= told(meeting)
    assert {("mortise", 68.0), ("shoulder", 8.0), ("shoulder", 14.0)} <= told(meeting, 1)
    cheeks, shoulders = meeting.planes
    assert cheeks.normal == pytest.approx((0, 0, 1)) and shoulders.normal == pytest.approx((0, -1, 0))
    assert shoulders.point[1] == pytest.approx(39.0)  # through the middle of the mortise


def test_a_mitre_is_cut_square_to_its_edge() -> None:
    meeting = one("sketching-desk", "mitre", "case.left", "case.top")
    assert meeting.planes[0].normal == pytest.approx((0, -1, 0))
    assert told(meeting) == {("from square", 45.0)}


def test_a_bolt_lies_in_the_plane_with_its_bores() -> None:
    meeting = one("sketching-desk", "bolted", "case.left")
    plane = meeting.planes[0]
    (held,) = plane.fasteners
    assert held[0].thread == "1/4-20 UNC"
    assert {b.row.purpose.value for b in plane.bores} == {"clearance", "tapped"}
    n = plane.normal
    assert abs(sum(held[0].direction[i] * n[i] for i in range(3))) < 1e-9
    assert abs(sum((float(held[1][i]) - plane.point[i]) * n[i] for i in range(3))) < 0.01


def test_a_raked_joint_is_cut_flat_through_both_legs() -> None:
    meeting = one("sketching-desk", "loose tenon", "stand.left rear")
    assert meeting.planes[0].normal == pytest.approx((1, 0, 0))
    assert ("mortise", 22.23) in told(meeting) or ("mortise", 22.22) in told(meeting)


def test_joints_that_are_alike_are_told_once() -> None:
    (housing,) = (m for m in found("bookcase") if m.joint.word == "housing")
    assert len(housing.also) == 9  # five shelves, two ends each
    tenons = [m for m in found("side-table") if m.joint.word == "mortise and tenon"]
    assert sum(1 + len(m.also) for m in tenons) == 8
    stops = [m for m in found("sketching-desk") if m.joint.word == "housing" and "bottom" in m.parts]
    assert len(stops) == 2  # the divider's stop in the bottom is another than the bottom's in the sides


def test_a_changed_size_moves_the_plane_and_its_window() -> None:
    before = one("sketching-desk", "housing", "bottom", "case.left").planes[0]
    changed = meetings(piece("sketching-desk", dado_deep="3/8"))
    after = next(m for m in changed if m.joint.word == "housing" and set(m.parts) == {"bottom", "case.left"}).planes[0]
    assert (after.high[0] - after.low[0]) - (before.high[0] - before.low[0]) == pytest.approx(25.4 / 8, abs=1e-6)


def test_parts_leave_the_way_that_they_came() -> None:
    ways = {(p.part, p.other): (p.axis, p.sign) for p in partings(piece("side-table"))}
    assert ways["front apron", "front left leg"] == (0, 1)
    assert ways["left apron", "front left leg"] == (1, 1)
    assert ways["left apron", "top"] == (2, -1)
    assert {(p.axis, p.sign) for p in partings(piece("bookcase")) if p.part == "back panel"} == {(1, 1)}


def test_wholes_leave_together() -> None:
    of = piece("sketching-desk")
    gone = {c.parts[0].partition(".")[0]: (c.axis, c.sign) for c in clusters(of, partings(of))}
    assert gone["easel"] == (2, 1) and gone["stand"] == (2, -1) and gone["drawer"] == (1, -1)
    assert "case" not in gone
    every = [p for c in clusters(of, partings(of)) for p in c.parts]
    assert len(every) == len(set(every))
    assert clusters(piece("bookcase"), partings(piece("bookcase"))) == ()


def test_what_nothing_ties_is_lifted_out_in_the_order_in_which_it_stands() -> None:
    """The lenses' tray stands loose in its box under a lid on hinges: the tray comes up, and the lid further."""
    of = piece("dovetailed-box")
    gone = {c.parts: (c.axis, c.sign, c.steps) for c in clusters(of, partings(of))}
    assert gone[("lid",)] == (2, 1, 2)
    tray = next(parts for parts in gone if "tray bottom" in parts)
    assert gone[tray] == (2, 1, 1) and len(tray) == 5 and all(p.startswith("tray") for p in tray)
    assert len(gone) == 2


CASE = """
parts:
  left: {of: board, grain: up, box: {across: [0, 20], deep: [0, 300], up: [0, 600]}}
  right: {of: board, grain: up, box: {across: [580, 600], deep: [0, 300], up: [0, 600]}}
  %s: {of: board, grain: across, box: {across: [20, 580], deep: [0, 300], up: [%s]}}
  shelf: {of: board, grain: across, box: {across: [22, 578], deep: [10, 300], up: [300, 320]}}
joints:
  - housing: {shelf: %s, into: [left, right], depth: 8}
"""


@pytest.mark.parametrize(("board", "up", "way"), [("bottom", "0, 20", (2, 1)), ("top", "580, 600", (1, -1))])
def test_a_loose_shelf_leaves_its_case_where_that_is_open(board: str, up: str, way: tuple[int, int]) -> None:
    of = trial(CASE % (board, up, board), thick="20").piece
    (shelf,) = clusters(of, partings(of))
    assert shelf.parts == ("shelf",) and (shelf.axis, shelf.sign) == way


def test_a_round_end_is_cut_along_its_middle_line() -> None:
    """The stool's leg is seen in the plane of its true lean: that plane holds the plumb line and the leg's middle line."""
    meeting = one("splayed-stool", "socket", "front left leg")
    plane, leg = meeting.planes[0], meeting.joint.closes
    assert abs(sum(a * b for a, b in zip(plane.normal, leg, strict=True))) < 1e-6
    assert abs(plane.normal[2]) < 1e-6


def test_a_bore_that_leans_is_told_by_its_width_its_lean_and_what_it_goes_through() -> None:
    (found,) = meetings(piece("splayed-stool"))
    told = {(t.size.kind, t.size.label): round(float(t.size.value), 2) for t in found.planes[0].sizes}
    assert told == {
        (SizeKind.DIAMETER, ""): 25.0,
        (SizeKind.LENGTH, ""): 36.0,
        (SizeKind.ANGLE, "from square"): 17.54,  # atan √(tan² 11° + tan² 14°), the figure of the joint
    }
    assert math.degrees(math.atan(math.hypot(math.tan(math.radians(11)), math.tan(math.radians(14))))) == pytest.approx(
        17.544, abs=0.001
    )
    wide = next(t for t in found.planes[0].sizes if t.size.kind is SizeKind.DIAMETER)
    assert math.dist(wide.start, wide.end) == pytest.approx(25.0)


def test_bores_that_go_in_square_are_told_in_words_alone() -> None:
    every = [t for m in meetings(piece("sketching-desk")) for p in m.planes for t in p.sizes]
    assert every and not any(t.size.kind is SizeKind.DIAMETER for t in every)
