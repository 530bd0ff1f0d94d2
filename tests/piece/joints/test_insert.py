import pytest

from docgen.piece.records import Authority, Purpose
from tests.piece.joints.making import problems, trial

# A bracket 18 thick under a table's top of the same thickness; M6 inserts 13 long.
TOP = """
parts:
  bracket: {of: board, grain: across, box: {across: [0, 200], deep: [0, 60], up: [0, 18]}}
  top: {of: board, grain: across, box: {across: [0, 400], deep: [0, 300], up: [18, 36]}}
joints:
  - insert: {through: bracket, into: top, at: [{across: 40, deep: 30}, {across: 160, deep: 30}],
      insert: {bore: 9.5, length: %s%s}, thread: M6%s}
"""


def test_insert_is_bored_as_its_sheet_says_and_the_bolt_cannot_bottom():
    table = trial(TOP % (10, "", ""), thick="18")
    (clear,), (bore,) = table.holes("bracket"), table.holes("top")
    assert (bore.purpose, bore.authority, bore.drill) == (Purpose.BORE, Authority.HARDWARE, "9.5 mm")
    assert clear.depth is None and clear.name == bore.name
    (bolt,) = table.piece.fasteners
    # 1.8 + 18 + 10 = 29.8: 30 goes 10.2 deep, the bore 2 more; 5.8 of the top are left.
    assert (float(bolt.length), float(bolt.engagement)) == (30, 10)
    assert float(bore.depth) == pytest.approx(12.2)
    (item,) = table.piece.items
    assert (item.what, item.count) == ("threaded insert M6 × 1", 2)
    assert item.size == "10 mm long, in bores of 9.5"


def test_depth_of_the_sheet_is_kept():
    table = trial(TOP % (10, ", depth: 12, under: 0.5", ""), thick="18")
    assert float(table.holes("top")[0].depth) == 12
    assert table.figure("insert", "into the wood") == pytest.approx(10.2)


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ((16, "", ""), "insert-breaks-through"),
        ((10, "", ", length: 22"), "bolt-too-short"),
        ((10, ", depth: 12", ", length: 35"), "bolt-bottoms-in-bore"),
        ((10, "", ", thread: M77"), "unknown-hardware"),
    ],
)
def test_what_goes_wrong_is_told(said, code):
    body = TOP % said
    body = body.replace("thread: M6, thread", "thread")
    assert {p.code for p in problems(body, thick="18")} == {code}
