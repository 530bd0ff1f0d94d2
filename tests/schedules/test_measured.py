from docgen.schedules.measured import measured
from tests.piece.joints.making import built

CASE = """\
docgen: 1
piece: Case
units: mm
sizes: {board: 20, groove: board / 2, slot: groove - 2, deep: 6, width: 600}
measured:
  board: {value: 19.6, on: 2026-04-11}
  deep: 6.2
materials:
  boards: {species: white oak, thickness: board}
  thin: {sheet: "plywood, birch", thickness: 6}
parts:
  side: {of: boards, grain: up, box: {across: [0, board], deep: [0, 200], up: [0, 400]}}
  shelf: {of: boards, grain: across, box: {across: [side.right, width], deep: [0, 200], up: [100, 100 + board]}}
  back: {of: thin, grain: up, box: {across: [0, width], deep: [200, 206], up: [0, 400]}}
  door: {of: thin, grain: up, box: {across: [slot, width], deep: [-6, 0], up: [0, 400]}}
joints:
  - housing: {shelf: shelf, into: side, depth: deep}
"""


def test_each_measured_size_tells_what_it_replaced_and_where_it_went() -> None:
    board, deep = measured(built(CASE).piece)
    assert (board.name, board.source, board.on) == ("board", "measured", "2026-04-11")
    assert board.drawn is not None and float(board.used.value) == 19.6 and board.drawn.value == 20
    # The formulas made of it, and through the slot the door; the back is of another sheet.
    assert board.sizes == ("groove", "slot") and board.parts == ("side", "shelf", "door")
    assert (deep.on, deep.sizes, deep.parts) == ("", (), ("side", "shelf"))


def test_a_value_set_for_this_run_is_told_as_such() -> None:
    rows = measured(built(CASE, sets={"board": "19", "width": "500"}).piece)
    assert [(r.name, r.source, r.on) for r in rows] == [
        ("board", "set", ""), ("deep", "measured", ""), ("width", "set", "")]  # fmt: skip
    assert rows[2].parts == ("shelf", "back", "door")


def test_nothing_measured_is_nothing_told() -> None:
    text = CASE.replace("measured:\n  board: {value: 19.6, on: 2026-04-11}\n  deep: 6.2\n", "")
    assert measured(built(text).piece) == ()
