"""How a part is turned for its second slanted cut: a board is turned as the step says, cut, and held against the part."""

import math
from collections.abc import Iterator

import manifold3d
import pytest

from docgen.geometry.shapes import HalfSpace, Vec
from docgen.piece.model import Part, Piece
from docgen.schedules.rows import SetupRow
from docgen.schedules.turning import BLANK, WRONG, Slant, turning, turns
from tests.support.steps import BOARDS, example, listed

SIZE = (600, 200, 20)
HALF_TURNS = {"end for end, flat": (-1, -1, 1), "end over end": (-1, 1, -1), "over about the long axis": (1, -1, -1)}
"""What a half turn makes of length, width and thickness; for a part that is ripped these lie along the fence, across it, up."""

BOARD = (
    BOARDS
    + """
parts:
  board: {of: boards, grain: across, box: {across: [0, 600], deep: [0, 200], up: [0, 20]}, show: top}
operations:
"""
)


def bevels(*cuts: str) -> str:
    return BOARD + "".join(f"  - bevel: {{part: board, {cut}, label: slant}}\n" for cut in cuts)


CASES = {
    "tilted, leaning to each other": bevels("end: [left, right], long point: top, angle: 30 deg"),
    "tilted, parallel": bevels(
        "end: left, long point: top, angle: 30 deg", "end: right, long point: bottom, angle: 30 deg"
    ),
    "swung, leaning to each other": bevels("end: [left, right], long point: front, angle: 30 deg"),
    "swung, parallel": bevels(
        "end: left, long point: front, angle: 30 deg", "end: right, long point: back, angle: 30 deg"
    ),
    "edges leaning to each other": bevels("end: [front, back], long point: bottom, angle: 20 deg"),
    "edges parallel": bevels(
        "end: front, long point: top, angle: 20 deg", "end: back, long point: bottom, angle: 20 deg"
    ),
} | {
    f"compound, {flat} and {up}": bevels(
        "end: left, long point: top, angle: 20 deg, second long point: front, second angle: 30 deg",
        f"end: right, long point: {up}, angle: 20 deg, second long point: {flat}, second angle: 30 deg",
    )
    for flat in ("front", "back")
    for up in ("top", "bottom")
}


def planes(part: Part) -> list[HalfSpace]:
    return [c.shape for f in part.features for c in f.made.cuts if isinstance(c.shape, HalfSpace)]


def told(piece: Piece, setups: tuple[SetupRow, ...]) -> str:
    (row,) = (s for s in setups if s.machine == "table saw")
    return turning(piece, row)


def turned(text: str, edges: bool) -> tuple[Vec, Vec]:
    """Return what a step makes of length, width and thickness, and of the saw's plane along, across and up."""
    (turn,) = (signs for words, signs in HALF_TURNS.items() if words in text)
    along, across, up = (float(v) for v in turn)
    swung = -1.0 if "to its other side" in text else 1.0
    return (along, across, up), (1.0, swung, 1.0) if not edges else (swung, 1.0, 1.0)


def scaled(v: Vec, by: Vec) -> Vec:
    return (v[0] * by[0], v[1] * by[1], v[2] * by[2])


def sawn(board: manifold3d.Manifold, point: Vec, normal: Vec) -> manifold3d.Manifold:
    """Return what stays of a board: what lies beyond the plane falls off."""
    away = sum(p * n for p, n in zip(point, normal, strict=True))
    return board.trim_by_plane((-normal[0], -normal[1], -normal[2]), -away)


@pytest.mark.parametrize("name", CASES)
def test_a_board_turned_as_the_step_says_comes_out_as_drawn(name: str) -> None:
    piece, lists = listed(CASES[name])
    part = piece.part("board")
    one, two = planes(part)
    turn, saw = turned(told(piece, lists.setups), "edges" in name)
    board = manifold3d.Manifold.cube(SIZE)
    board = sawn(board, one.point, one.normal)
    # On the table again the other end stands at the same blade: in place only the point that its cut goes through is set.
    board = sawn(board.transform(matrix(turn)), scaled(two.point, turn), scaled(one.normal, saw))
    assert two.normal == pytest.approx(scaled(scaled(one.normal, saw), turn))
    drawn = sawn(sawn(manifold3d.Manifold.cube(SIZE), one.point, one.normal), two.point, two.normal)
    back = board.transform(matrix(turn))
    assert (back - drawn).volume() + (drawn - back).volume() == pytest.approx(0, abs=1e-3)


def matrix(turn: Vec) -> list[list[float]]:
    """Return a turn about the corner as rows; one that mirrored the board would be none."""
    assert math.prod(turn) == 1
    return [[turn[i] if i == j else 0.0 for j in range(4)] for i in range(3)]


def saw_steps(name: str) -> Iterator[tuple[Piece, SetupRow, str]]:
    piece, lists = example(name)
    by_key = {f"set-up {s.number}": s for s in lists.setups}
    for step in lists.work:
        if step.wrong.startswith(WRONG):
            yield piece, by_key[step.key], step.what


@pytest.mark.parametrize("name", ["sketching-desk", "map-case", "tool-tote", "door-cabinet"])
def test_each_part_of_an_example_that_is_cut_twice_comes_out_as_told(name: str) -> None:
    seen = 0
    for piece, row, what in saw_steps(name):
        titles = set(row.parts)
        for path in dict.fromkeys(p for p, _ in row.parts):
            part = piece.part(path)
            cut = [
                c.shape.normal
                for f in part.features
                if (path, f.title) in titles
                for c in f.made.cuts
                if isinstance(c.shape, HalfSpace)
            ]
            if len(cut) == 2 and BLANK not in what:
                turn, saw = turned(what, abs(cut[0][1]) > 0.8)
                assert cut[1] == pytest.approx(scaled(scaled(cut[0], saw), turn), abs=1e-6), (path, what)
                seen += 1
    assert seen


def test_parts_of_both_kinds_at_one_set_up_have_each_their_own_turn() -> None:
    # a step-stool's sides lean to one side, the ends of its treads to each other: the same tilt for both
    (what,) = (what for _, row, what in saw_steps("step-stool") if row.what == "bevel")
    assert "left side, right side end over end, the other face up: the two lie parallel." in what
    assert (
        "lower tread, upper tread end for end, flat on the table, the same face up: the two lean to each other." in what
    )


def test_what_comes_off_one_blank_in_turn_is_turned_over_about_its_long_axis() -> None:
    for name in ("map-case", "sketching-desk"):
        (what,) = (what for piece, row, what in saw_steps(name) if row.what == "bevel")
        assert what.endswith(BLANK) and "For the second" not in what


def test_turning_over_about_the_long_axis_gives_the_next_mitre_of_a_blank() -> None:
    """What is left of the blank lies at the right of the blade: its cut is the next part's left end, what falls off has the other."""
    (one, two) = planes(listed(CASES["tilted, leaning to each other"])[0].part("board"))
    left, right = sorted((one.normal, two.normal))
    rest = scaled(left, (1, -1, -1))  # outward of what is left, turned over
    assert right == pytest.approx(scaled(rest, (-1, -1, -1)))


def test_one_slanted_end_wants_no_turn_and_a_taper_has_its_sled() -> None:
    piece, lists = listed(bevels("end: left, long point: top, angle: 30 deg"))
    assert told(piece, lists.setups) == ""
    assert [w.wrong for w in lists.work if "slant" in w.what] == [WRONG]
    legs, tables = example("side-table")
    taper = next(s for s in tables.setups if s.what.startswith("taper"))
    assert turning(legs, taper) == ""


def test_ends_of_two_tilts_are_two_set_ups_and_no_turn_lies_between() -> None:
    piece, lists = listed(
        bevels("end: left, long point: top, angle: 30 deg", "end: right, long point: top, angle: 20 deg")
    )
    rows = [s for s in lists.setups if s.machine == "table saw"]
    assert len(rows) == 2 and not any(turning(piece, row) for row in rows)


def test_two_cuts_at_one_end_are_not_turned_for() -> None:
    lean = Slant(0, (0.8, 0.6, 0.0))
    assert turns([lean, Slant(0, (0.8, -0.6, 0.0))]) == ()


def test_a_sled_in_place_of_the_gauge_is_called_so() -> None:
    one, two = Slant(0, (0.5, 0.8660254, 0.0)), Slant(0, (-0.5, 0.8660254, 0.0))
    ((noun, way),) = turns([one, two], fence="sled's fence")
    assert noun == "end" and way.do.endswith("the same edge along the sled's fence")
