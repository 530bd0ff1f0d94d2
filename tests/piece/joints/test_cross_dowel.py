import pytest

from docgen.piece.records import Authority, Purpose
from tests.piece.joints.making import problems, trial

# A side rail of a bench, 30 × 90, bolted to a leg 40 thick; the dowels are bored in from the rail's inner face.
RAIL = """
parts:
  leg: {of: thick, grain: up, box: {across: [0, 40], deep: [0, 90], up: [0, 420]}}
  rail: {of: board, grain: across, box: {across: [40, 900], deep: [10, 40], up: [250, 340]}}
joints:
  - cross dowel: {through: leg, into: rail, at: [{deep: 25, up: 275}, {deep: 25, up: 315}], face: %s, set back: 35,
      dowel: {diameter: 10, length: %s}, thread: M6%s}
"""


def body(*said):
    return "  thick: {species: sugar maple, thickness: 40}\n" + RAIL % said


def trial_of(*said):
    return trial(body(*said), thick="30")


def test_both_bores_meet_in_the_dowel():
    bench = trial_of("back", 14, "")
    (clear,), (long, cross) = bench.holes("leg"), bench.holes("rail")
    assert (clear.purpose, long.purpose, cross.purpose) == (Purpose.CLEARANCE, Purpose.CLEARANCE, Purpose.BORE)
    assert (long.authority, long.mate, cross.authority) == (Authority.MATE, "leg", Authority.HARDWARE)
    # The bolt runs 15 under the back; the dowel's thread is 7 from its end, its bore 15 + 7 deep.
    assert float(cross.depth) == 22 and float(cross.diameter) == 10
    assert {float(p[0]) for p in cross.points} == {35}
    assert not bench.inside("rail", (75, 25, 275)) and not bench.inside("rail", (75, 39, 275))
    assert not bench.inside("rail", (45, 25, 275)) and bench.inside("rail", (75, 17, 275))
    assert bench.inside("rail", (45, 25, 285))


def test_the_bolt_goes_right_through_the_dowel_and_its_bore_deeper():
    bench = trial_of("back", 14, "")
    (bolt,) = bench.piece.fasteners
    # Washer 1.8 + leg 40 + 35 + 5 = 81.8: in stock 90, 48.2 into the rail, bored 2 deeper.
    assert (float(bolt.length), float(bolt.engagement), bolt.count, bolt.metal) == (90, 10, 2, True)
    assert float(bench.holes("rail")[0].depth) == pytest.approx(50.2)
    assert bench.figure("cross dowel", "into the wood") == pytest.approx(48.2)
    (item,) = bench.piece.items
    assert (item.what, item.size, item.count) == ("cross dowel (barrel nut) M6 × 1", "10 × 14 mm", 2)
    assert "length from washers 1.8 + grip 40 + into the other part 48.2" in bolt.notes[0]
    assert bolt.depends == ("milling of thick",) and bolt.passes == 30


@pytest.mark.parametrize(
    ("said", "code"),
    [
        (("left", 14, ""), "dowel-face"),
        (("back", 40, ""), "dowel-stands-out"),
        (("back", 28, ""), "dowel-breaks-through"),
        (("back", 14, ", length: 75"), "bolt-too-short"),
        (("back", 14, ", length: 75, washer: 0"), "bolt-too-short"),
    ],
)
def test_what_goes_wrong_is_told(said, code):
    assert {p.code for p in problems(body(*said), thick="30")} == {code}
