from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.geometry.shapes import HalfSpace
from docgen.piece.hole_names import named
from docgen.piece.model import Fastener, Part
from docgen.piece.records import Allowance, Authority, Cut, Face, HoleRow, Made, Purpose, SlotRow
from docgen.schedules.drilling import drilling
from docgen.schedules.setups import FIRST, MATED
from tests.support.examples import example as piece_of
from tests.support.pieces import INCH, feature, part, piece
from tests.support.steps import example

SIDE = ((0, 20), (0, 300), (0, 700))
OTHER = ((480, 500), (0, 300), (0, 700))
IN = (0.0, 0.0, 1.0)


def holes(face: Face, *points: tuple[int, int, int], name: str = "A", **more: object) -> HoleRow:
    direction = tuple((1.0 if face.side == 0 else -1.0) if i == face.axis else 0.0 for i in range(3))
    said: dict[str, object] = {"name": name, "purpose": Purpose.PLAIN, "face": face, "points": points, "direction": direction,
            "diameter": Fraction(6), "drill": "6 mm"}  # fmt: skip
    return HoleRow(**(said | more))  # type: ignore[arg-type]


def drilled(path: str, box: object, *rows: HoleRow, number: int = 1) -> Part:
    return part(path, box, number=number, features=(feature("hole", Made(holes=rows)),))  # type: ignore[arg-type]


def test_positions_from_the_datum_end_and_edge() -> None:
    of = piece(drilled("left side", SIDE, holes(Face(2, 0), (100, 40, 0), (600, 40, 0))))
    (row,) = drilling(of)
    assert (row.face, row.datum_end, row.datum_edge) == ("right", "bottom end", "front edge")
    assert row.at == ((100, 40), (600, 40))
    assert (row.each, row.total) == (2, 2)


def test_both_hands_share_a_row() -> None:
    # both sides have their thickness axis to the left: the inside is the low face on the left, the high one on the right
    of = piece(
        drilled("left side", SIDE, holes(Face(2, 0), (100, 40, 0))),
        drilled("right side", OTHER, holes(Face(2, 1), (100, 40, 20)), number=2),
    )
    (row,) = drilling(of)
    assert (row.parts, row.mirrored, row.total) == (("left side",), ("right side",), 2)
    assert row.face == "right (left in the mirrored)"


def test_only_equal_positions_from_equal_datums_share_a_row() -> None:
    def chart(x: int, face: Face) -> list[tuple[str, ...]]:
        of = piece(
            drilled("left side", SIDE, holes(Face(2, 0), (100, 40, 0))),
            drilled("right side", OTHER, holes(face, (x, 40, 20)), number=2),
        )
        return [(*r.parts, "|", *r.mirrored) for r in drilling(of)]

    assert chart(100, Face(2, 1)) == [("left side", "|", "right side")]
    assert chart(100, Face(2, 0)) == [("left side", "right side", "|")]  # the same face: alike, no mirror image
    assert chart(101, Face(2, 1)) == [("left side", "|"), ("right side", "|")]  # a millimetre off


def test_a_leaning_hole_shares_no_row_with_one_that_leans_elsewhere() -> None:
    def rows(lean: float) -> int:
        a = holes(Face(2, 0), (100, 40, 0), direction=(0.2, 0.0, 0.98))
        b = holes(Face(2, 0), (100, 40, 0), direction=(lean, 0.0, 0.98))
        return len(drilling(piece(drilled("a", SIDE, a), drilled("b", OTHER, b, number=2))))

    assert (rows(0.2), rows(-0.2)) == (1, 2)


def test_other_names_make_another_row() -> None:
    of = piece(
        drilled("a", SIDE, holes(Face(2, 0), (100, 40, 0), name="B")),
        drilled("b", OTHER, holes(Face(2, 0), (100, 40, 0), name="A"), number=2),
    )
    assert [r.name for r in drilling(of)] == ["A", "B"]


def test_rows_run_by_name() -> None:
    names = ["AA", "B", "", "A", "Z"]
    of = piece(drilled("a", SIDE, *(holes(Face(2, 0), (100 + i, 40, 0), name=n) for i, n in enumerate(names))))
    assert [r.name for r in drilling(of)] == ["A", "B", "Z", "AA", ""]


def test_two_equal_rows_on_one_part_stay_two() -> None:
    of = piece(drilled("a", SIDE, holes(Face(2, 0), (100, 40, 0)), holes(Face(2, 0), (100, 40, 0))))
    assert len(drilling(of)) == 2


def test_thickness_is_measured_from_the_show_face() -> None:
    row = holes(Face(1, 0), (100, 0, 5))
    plain = drilled("a", SIDE, row)
    of = piece(plain)
    (chart,) = drilling(of)
    assert (chart.datum_edge, chart.at) == ("right face", ((100, 5),))
    of = piece(replace(plain, show=Face(2, 1)))
    (chart,) = drilling(of)
    assert (chart.datum_edge, chart.at) == ("left face", ((100, 15),))


def test_holes_in_end_grain_are_placed_by_edge_and_face() -> None:
    of = piece(drilled("a", SIDE, holes(Face(0, 1), (700, 30, 10))))
    (row,) = drilling(of)
    assert (row.face, row.datum_end, row.datum_edge, row.at) == ("top", "front edge", "right face", ((30, 10),))


def test_a_lengthened_end_is_a_shoulder_and_a_leaning_one_its_long_point() -> None:
    longer = feature("tongue", Made(allowances=(Allowance(Face(0, 0), 6, "tongue"),)))
    leaning = feature("bevel", Made(cuts=(Cut(HalfSpace((0.0, 0.0, 0.0), (-0.9, 0.3, 0.0))),)))
    square = feature("cut", Made(cuts=(Cut(HalfSpace((5.0, 0.0, 0.0), (-1.0, 0.0, 0.0))),)))
    other_end = feature("bevel", Made(cuts=(Cut(HalfSpace((700.0, 0.0, 0.0), (0.9, 0.3, 0.0))),)))
    hole = feature("hole", Made(holes=(holes(Face(2, 0), (100, 40, 0)),)))

    def datum(*features: object) -> str:
        of = piece(part("a", SIDE, features=(hole, *features)))  # type: ignore[arg-type]
        return drilling(of)[0].datum_end

    assert datum() == datum(square) == datum(other_end) == "bottom end"
    assert datum(longer) == "bottom shoulder"
    assert datum(leaning) == "bottom end, long point"


def test_a_tapped_hole_says_its_fastener_and_what_lies_behind() -> None:
    inch = Fraction(254, 10)
    bolt = Fastener(
        "A", "machine screw, button head", "1/4-20 UNC", inch * 3 / 2, 1, engagement=inch * 5 / 8, wood_behind=inch / 8
    )
    hole = holes(
        Face(2, 0),
        (100, 40, 0),
        purpose=Purpose.TAPPED,
        thread="1/4-20 UNC",
        depth=inch,
        diameter=inch / 4,
        fastener="A",
    )
    of = piece(drilled("leg", SIDE, hole), units=INCH, fasteners=(bolt,))
    (row,) = drilling(of)
    assert row.fastener == "1/4-20 UNC × 1 1/2 machine screw, button head"
    assert row.engagement == inch * 5 / 8
    assert row.note == "the drill's point reaches ≈1/16 in further; 1/8 in of wood is left behind it"
    clearance = replace(hole, purpose=Purpose.CLEARANCE, depth=None)
    of = piece(drilled("case", SIDE, clearance), units=INCH, fasteners=(bolt,))
    (row,) = drilling(of)
    assert (row.engagement, row.note) == (None, "")
    screw = Fastener("A", "wood screw, round head", "No. 8", 30, 1, engagement=12)
    pilot = replace(hole, purpose=Purpose.PILOT, thread="", depth=Fraction(12))
    (row,) = drilling(piece(drilled("top", SIDE, pilot), fasteners=(screw,)))
    assert row.engagement == 12  # as the joint's drawing and the hardware list tell it


def test_pairs_of_parts_name_all_their_mates() -> None:
    of = piece(
        drilled("left leg", SIDE, holes(Face(2, 0), (100, 40, 0), mate="left side", note="mark through left side")),
        drilled(
            "right leg",
            OTHER,
            holes(Face(2, 1), (100, 40, 20), mate="right side", note="mark through right side"),
            number=2,
        ),
    )
    (row,) = drilling(of)
    assert (row.hole.mate, row.hole.note) == ("left side, right side", "mark through left side, right side")


def test_the_chart_goes_by_time_and_then_by_the_drill() -> None:
    rows = (
        holes(Face(2, 0), (100, 40, 0), name="A", diameter=Fraction(8)),
        holes(Face(2, 0), (100, 80, 0), name="B", diameter=Fraction(3), authority=Authority.MATE),
        holes(Face(2, 0), (100, 90, 0), name="C", diameter=Fraction(5)),
    )
    of = piece(part("a", SIDE, features=tuple(feature(r.name, Made(holes=(r,))) for r in rows)))
    assert [(r.name, r.when) for r in drilling(of)] == [("C", FIRST), ("A", FIRST), ("B", MATED)]


def test_slots_have_a_row_of_their_own() -> None:
    slots = tuple(SlotRow("A", Face(2, 0), (x, 40, 0), 1, 12, 5, (10, 4)) for x in (100, 600))
    of = piece(part("a", SIDE, features=tuple(feature(f"slot {i}", Made(slots=(s,))) for i, s in enumerate(slots))))
    (row,) = drilling(replace(of, parts=named(of.parts)))
    assert (row.name, row.total, row.marks, row.hole.drill) == ("A", 2, ("A1", "A2"), "router")
    assert "5 mm wide and 12 mm long over all along the width" in row.hole.note
    assert row.hole.sink is not None and (row.hole.sink.diameter, row.hole.sink.depth) == (10, 4)


def test_the_nearest_drill_on_hand_is_told_where_the_drill_is_missing() -> None:
    def near(*drills: str) -> str:
        of = piece(
            drilled("a", SIDE, holes(Face(2, 0), (100, 40, 0), diameter=Fraction("6.8"), drill="6.8 mm")),
            shop=(("drills", drills),),
        )
        return drilling(of)[0].on_hand

    assert near("6 mm", "7 mm") == "7 mm"
    assert near("6 mm", "6.8 mm") == "" == near()


def test_a_hole_through_which_a_piece_hangs_is_told_to_be_for_the_wall() -> None:
    rail = part("rail", ((0, 700), (0, 20), (0, 60)), number=1)
    through = holes(rail.face("front"), (100, 30, 10), name="W")
    rows = (through, replace(through, name="X", direction=tuple(-d for d in IN[::-1])))  # X does not lead to the wall
    of = piece(replace(rail, features=(feature("hole", Made(holes=rows)),)))
    for stands, said in (("wall", {"W": "for a screw into the wall", "X": ""}), ("floor", {"W": "", "X": ""})):
        assert {r.name: r.note for r in drilling(replace(of, stands=stands))} == said


def test_a_flat_bottomed_hole_has_no_point_to_reach_further() -> None:
    """A part sheet says flat-bottomed: the chart must not warn of a point that is not there."""
    for tip, note, said in (
        (None, "", "the drill's point reaches 1.8 mm further"),  # 118°: 0.3 of the diameter
        (90, "", "the drill's point reaches 3 mm further"),
        (180, "", "flat-bottomed bit"),
        (180, "flat-bottomed bit; the dowel's own sheet rules", ""),
    ):
        of = piece(drilled("rail", SIDE, holes(Face(2, 0), (100, 40, 0), depth=Fraction(20), tip=tip, note=note)))
        assert [r.note for r in drilling(of)] == [said]


def test_pilots_in_a_recess_are_told_from_its_floor() -> None:
    # 3/8 long screws through a leaf of 1/16: 5/16 of wood below the recess, which is 1/16 deep in turn
    _, lists = example("dovetailed-box")
    rows = [r.hole for r in lists.chart if "hinge" in r.hole.note]
    assert {hole.depth for hole in rows} == {Fraction(254, 10) * Fraction(3, 8)}
    assert {hole.note for hole in rows} == {
        "marked through the hinge's own holes; 5/16 in deep from the floor of the recess"
    }
    (setup,) = [s for s in lists.setups if any("hinges" in title for _, title in s.parts)]
    assert setup.note == "when fitting; 5/16 in deep from the floor of the recess"


@pytest.mark.parametrize(
    ("name", "figure"), [("map-case", 4.5), ("dovetailed-box", 25.4 * 11 / 64), ("door-cabinet", 5.0)]
)
def test_the_screws_of_a_hinge_are_measured_from_its_edge_on_both_parts(name: str, figure: float) -> None:
    """Half the recess in from the edge that the barrel stands before, on sheet and chart; not from the far side of a lid."""
    piece = piece_of(name).piece
    screws = [(p, f, h) for p in piece.parts for f in p.features for h in f.made.holes if h.off is not None]
    assert len(screws) >= 2
    for at, cut, hole in screws:
        places = [s for s in cut.made.sizes if s.parameters[0].startswith("points")]
        across = {s.value for s in places if hole.off is not None and abs(s.along[hole.off.axis]) == 1}
        assert [float(v) for v in across] == [pytest.approx(figure)], at.path
    rows = [r for r in drilling(piece) if r.hole.off is not None]
    assert rows and all(float(b) == pytest.approx(figure) for r in rows for _, b in r.at)
