"""The chain of sizes: what hangs on what, what a difference moves, what has to be measured first."""

from pathlib import Path

import pytest

from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.model import Piece
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.blanks import blanks
from docgen.schedules.chain import chain
from docgen.schedules.holds import FOLLOWS, times
from docgen.schedules.meant import lengths
from docgen.schedules.moves import Chain
from docgen.schedules.rows import ChainRows
from tests.support.steps import example

WORDS = vocabulary()
TEXT = """
docgen: 1
piece: Trial
units: mm
sizes:
  width: 800
  board: 20
  half: board / 2
  shelves: 3
  gap: 2
materials:
  boards: {species: white oak, thickness: board}
  ply: {sheet: "plywood, birch", thickness: 6}
parts:
  left side: {of: boards, grain: up, box: {across: [0, board], deep: [0, 200], up: [0, 600]}}
  right side: {of: boards, grain: up, box: {across: [width - board, width], deep: [0, 200], up: [0, 600]}}
  shelf: {of: boards, grain: across, box: {across: [left side.right, right side.left], deep: [0, 200], up: [200, 200 + board]}}
  rung: {of: boards, grain: up, box: {across: [300, 300 + board], deep: [0, 100], up: [shelf.top, 600 / shelves + 300]}}
  back: {of: ply, grain: up, authority: measure first,
    box: {across: [half + gap, width - half - gap], deep: [194, 200], up: [0, 600]}}
joints:
  - housing: {shelf: shelf, into: [left side, right side], depth: 6}
  - panel in rabbet: {panel: back, into: [left side, right side], gap: gap}
"""


def made(text: str = TEXT, **sets: str) -> Piece:
    return build(read_project("trial.yaml", text, WORDS, sets), WORDS)


def rows(piece: Piece) -> ChainRows:
    return chain(piece, kinds(piece, Solids(piece)))


def test_a_difference_is_followed_through_sizes_and_faces() -> None:
    moved = {(m.path, m.what): m.factor for m in Chain(made()).moves("board")}
    assert moved["shelf", "length"] == -2
    assert moved["shelf", "thickness"] == moved["left side", "thickness"] == 1
    assert moved["back", "width"] == -1  # half the board at each side
    assert moved["rung", "length"] == -1  # it stands on the shelf
    assert ("left side", "length") not in moved


@pytest.mark.parametrize("name", ["width", "board", "gap"])
def test_moves_agree_with_the_piece_built_anew(name: str) -> None:
    base = made()
    value = next(v.value for n, v, _ in base.sizes if n == name)
    anew = made(**{name: f"{float(value) + 1:g}"})
    moved = {(m.path, m.what): m.factor for m in Chain(base).moves(name)}
    for part in base.parts:
        for what, before, after in zip(
            ("length", "width", "thickness"), part.size, anew.part(part.path).size, strict=True
        ):
            assert moved.get((part.path, what), 0) == after - before


def test_the_face_that_stays_is_told_where_a_board_gets_thicker() -> None:
    row = next(r for r in rows(made()).sizes if r.name == "board")
    told = {path: word for word, paths in row.stays for path in paths}
    assert told == {"left side": "left", "right side": "right", "shelf": "bottom", "rung": "left"}
    held = next(h for h in rows(made()).holds if h.what.startswith("thickness of “boards”"))
    assert "; the left face of left side, rung, the right face of right side, " in held.moves


def test_counts_and_made_sizes_are_no_lengths() -> None:
    assert lengths(made()) == ("width", "board", "gap")


MEANT = """
docgen: 1
piece: Meant
units: mm
sizes: {SIZES, w: 800, more: 5}
materials: {b: {species: white oak, thickness: 20}}
parts:
  a: {of: b, grain: across, box: {across: [0, w], deep: [0, DEEP], up: [0, 20]}}
  c: {of: b, grain: across, box: {across: [0, w], deep: [0, 180], up: [20, 40]}}
joints:
  - fixed: {parts: c, with: brads, count: COUNT, size: 20 mm, note: by hand}
operations:
  - bevel: {part: a, end: left, long point: top, angle: ANGLE}
"""


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ("lean: 12", {"ANGLE": "lean"}),
        ("lean: 6, twice: lean * 2", {"ANGLE": "twice"}),
        ("lean: 12", {"DEEP": "180 + 100 * sin(lean)"}),
        ("lean: 12, run: 100 * tan(lean)", {"DEEP": "180 + run"}),
        ("lean: 12", {"ANGLE": "10 deg + lean / 10"}),
        ("lean: 12", {"DEEP": "160 + lean + 10 * sin(lean)"}),
        ("lean: 1/2", {"DEEP": "160 + lean + asin(lean) / (10 deg)"}),
        ("lean: 24", {"COUNT": "lean"}),
        ("lean: 20", {"COUNT": "lean + 4"}),
        ("lean: 3", {"DEEP": "180 + 5 * sqrt(lean)"}),
        ("lean: 3", {"DEEP": "60 mm * lean"}),
        ("lean: 3", {"DEEP": "540 / lean"}),
        ("lean: 0.25", {"DEEP": "w * lean"}),
        ("lean: 0.25", {"ANGLE": "atan(lean)"}),
        ("lean: 12", {"ANGLE": "lean", "DEEP": "168 + lean"}),
        ("lean: 24", {"COUNT": "lean", "DEEP": "168 + lean"}),
        (
            "lean: 12",
            {"[20, 40]}": "[20, 40]}, turn: {about: up, by: lean, at: {across: 0, deep: 0}}", "DEEP": "168 + lean"},
        ),
    ],
)
def test_angles_counts_and_ratios_are_no_lengths(sizes: str, said: dict[str, str]) -> None:
    text = MEANT.replace("SIZES", sizes)
    for word, otherwise in {"ANGLE": "12", "COUNT": "24", "DEEP": "180 + more", **said}.items():
        text = text.replace(word, otherwise)
    found = lengths(made(text))
    assert "lean" not in found and "w" in found, found
    assert [r.name for r in rows(made(text)).sizes] == [n for n in found if n != "more" or "DEEP" not in said]


@pytest.mark.parametrize(
    "deep", ["180 + lean", "w * 1/4 - lean", "'max(lean, 180)'", "sin(30) * lean + 180", "lean / 2 + 180"]
)
def test_a_plain_number_used_as_a_length_is_one(deep: str) -> None:
    text = MEANT.replace("SIZES", "lean: 12").replace("DEEP", deep).replace("COUNT", "24")
    assert lengths(made(text.replace("ANGLE", "atan(lean / 60)"))) == ("lean", "w")


def test_arrows_go_from_a_part_to_what_is_fitted_to_it() -> None:
    told = rows(made())
    titles = [b.title for b in told.boxes]
    named = {(titles[a], titles[b]) for a, b in told.arrows}
    assert named == {("side", "shelf"), ("shelf", "rung"), ("side", "back")}
    assert [b.column for b in told.boxes] == [0, 1, 1, 2]
    shelf = told.boxes[titles.index("shelf")]
    assert shelf.lines == ("length: 760 + 2 × 6, from left side to right side",)


def test_a_step_that_another_one_holds_gets_no_arrow() -> None:
    text = TEXT.replace("box: {across: [300, 300 + board]", "box: {across: [left side.right, left side.right + board]")
    told = rows(made(text))
    titles = [b.title for b in told.boxes]
    assert ("side", "rung") not in {(titles[a], titles[b]) for a, b in told.arrows}


def test_a_part_whose_end_is_cut_against_another_hangs_on_it() -> None:
    piece = made(Path("examples/sketching-desk.yaml").read_text(encoding="utf-8"))
    told = rows(piece)
    titles = [b.title for b in told.boxes]
    assert {titles[a] for a, b in told.arrows if titles[b] == "rear leg"} == {"front leg"}  # which hangs on the case


def test_what_is_cut_to_a_measured_place_leads_to_no_part_that_only_stands_before_it() -> None:
    # the rail stands against the back, which comes last; its own length lies between the sides
    told = example("map-case")[1].chain
    titles = [b.title for b in told.boxes]
    named = {(titles[a], titles[b]) for a, b in told.arrows}
    assert ("case left side", "rail") in named and ("case right side", "rail") in named
    assert not any(foot == "back" for foot, _ in named)


def test_among_sums_the_decimal_stands_alone() -> None:
    lines = [line for b in example("sketching-desk")[1].chain.boxes for line in b.lines]
    assert "length: 18.118 + 2 × 3/16, from divider to case right side" in lines


def test_what_hangs_on_nothing_is_told_apart() -> None:
    text = TEXT.replace(
        "joints:", "  peg: {of: boards, grain: up, box: {across: [400, 420], deep: [0, 40], up: [700, 800]}}\njoints:"
    )
    assert rows(made(text)).alone == ("peg",)


def test_hold_points_by_authority() -> None:
    held = {h.what: h for h in rows(made()).holds}
    stock = held["thickness of “boards”, milled"]
    assert stock.figure == "20 mm" and stock.before == "cutting any joint of it"
    assert "length of shelf −2 ×" in stock.moves and "width of back −1 ×" in stock.moves
    assert held["thickness of “ply”, as it came"].moves == FOLLOWS
    back = held["the place of back: 2× side"]
    assert (back.figure, back.before) == ("place: 600 × 780 mm; back: 600 × 776 mm", "cutting back")
    assert back.moves == "its length in full, its width less 2 mm a side" and back.parts == ("back",)
    assert [h.name for h in rows(made()).holds] == [f"H{n}" for n in range(1, len(held) + 1)]


def test_a_thickness_that_is_made_of_other_sizes_says_of_which() -> None:
    text = TEXT.replace("thickness: 6}", "thickness: half}").replace("deep: [194, 200]", "deep: [200 - half, 200]")
    held = {h.what: h for h in rows(made(text)).holds}
    assert held["thickness of “ply”, as it came"].moves == "made of “board”: bring it to that thickness"


def test_measured_sizes_come_first_with_their_day() -> None:
    told = rows(made(TEXT + "measured:\n  gap: {value: 3, on: 2026-05-01}\n"))
    assert (told.sizes[0].name, told.sizes[0].source, told.sizes[0].on) == ("gap", "measured", "2026-05-01")
    assert told.sizes[0].used == ("panel in rabbet",)
    assert told.sizes[1].name == "board"  # thicknesses next


def test_factors_are_told_with_their_sign() -> None:
    assert (times(-2), times(1), times(1.0306136)) == ("−2 ×", "+1 ×", "+1.031 ×")


def test_parts_hang_on_the_blank_that_they_are_cut_from() -> None:
    text = Path("examples/sketching-desk.yaml").read_text(encoding="utf-8")
    piece = made(text)
    told = chain(piece, kinds(piece, Solids(piece)), blanks(piece))
    at = next(i for i, b in enumerate(told.boxes) if b.title == "blank case, cut first")
    assert {told.boxes[b].parts for a, b in told.arrows if a == at} == {("case.left",), ("case.top",), ("case.right",)}
    assert all(told.boxes[a].column < told.boxes[b].column for a, b in told.arrows)
    assert told.boxes[at].lines[0].startswith("length: its 3 parts + ")


def test_the_desk_follows_its_boards_into_the_drawer() -> None:
    text = Path("examples/sketching-desk.yaml").read_text(encoding="utf-8")
    moved = {(m.path, m.what): m.factor for m in Chain(made(text)).moves("board")}
    # two sides and the divider: the drawer box is narrower by three times the difference
    assert moved["drawer.back", "length"] == -3
    assert Chain(made(text)).moves("bearing") == ()
