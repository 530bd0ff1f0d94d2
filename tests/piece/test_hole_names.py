from dataclasses import replace

from docgen.piece.hole_names import named
from docgen.piece.model import Part
from docgen.piece.records import Authority, Face, HoleRow, Made, Purpose, SlotRow
from docgen.schedules.drilling import drilling
from docgen.sheets.part_holes import tags
from tests.schedules.test_drilling import OTHER, SIDE, drilled, holes
from tests.support.examples import example
from tests.support.pieces import feature, part, piece

EXAMPLES = ("sketching-desk", "side-table", "door-cabinet", "tool-tote", "map-case")


def names(parts: tuple[Part, ...]) -> list[tuple[str, ...]]:
    return [h.names for p in named(parts) for f in p.features for h in f.made.holes]


def leg(*ups: float) -> Part:
    """Return a leg against the outside of the side, its length the other way round, drilled at heights of the piece."""
    turned = part("leg", ((-40, 0), (0, 80), (0, 700)), number=2)
    own = turned.frame.inverse()
    points = tuple(tuple(round(v) for v in own.point((0.0, 40.0, up))) for up in ups)
    row = HoleRow(
        "A", Purpose.TAPPED, turned.face("right"), points, own.direction((-1.0, 0.0, 0.0)), 6, "6 mm",
        mate="side", authority=Authority.MATE,
    )  # type: ignore[arg-type]  # fmt: skip
    return replace(turned, features=(feature("hole", Made(holes=(row,))),))


def test_a_hole_has_one_name_in_both_parts_that_it_joins() -> None:
    row = holes(Face(2, 1), (600, 40, 20), (100, 40, 20), mate="leg", purpose=Purpose.CLEARANCE)
    side = drilled("side", SIDE, row)
    both = named((side, leg(100.0, 600.0)))
    assert [h.names for p in both for f in p.features for h in f.made.holes] == [("A2", "A1"), ("A1", "A2")]
    assert [(r.marks, [float(a) for a, _ in r.at]) for r in drilling(piece(*both))] == [(("A1", "A2"), [100, 600])] * 2


def test_a_single_hole_keeps_its_name_and_a_name_that_ends_in_a_digit_gets_a_point() -> None:
    rows = holes(Face(2, 0), (100, 40, 0)), holes(Face(2, 0), (50, 60, 0), (10, 60, 0), name="S1")
    assert names((drilled("a", SIDE, *rows),)) == [("A",), ("S1.2", "S1.1")]


def test_two_rows_of_one_name_in_a_part_are_numbered_on() -> None:
    rows = holes(Face(2, 0), (100, 40, 0), (200, 40, 0)), holes(Face(2, 0), (50, 60, 0), diameter=8)
    assert names((drilled("a", SIDE, *rows),)) == [("A1", "A2"), ("A3",)]


def test_a_row_whose_holes_lie_on_no_two_axes_of_the_mates_has_numbers_of_its_own() -> None:
    side = drilled("side", SIDE, holes(Face(2, 1), (100, 40, 20), (600, 40, 20), mate="leg"))
    assert names((side, leg(100.0, 110.0)))[1] == ("A1", "A2")  # both lie nearest to A1


def test_slots_are_named_with_the_pilot_holes_below_them() -> None:
    slots = tuple(SlotRow("A", Face(2, 0), (at, 40, 0), 0, 12, 5) for at in (600, 100))  # type: ignore[arg-type]
    rail = part("rail", SIDE, features=(feature("slot", Made(slots=slots)),))
    top = drilled("top", OTHER, holes(Face(2, 1), (100, 40, 20), (600, 40, 20), mate="rail"), number=2)
    one, other = named((rail, top))
    assert [s.called for f in one.features for s in f.made.slots] == ["A2", "A1"]
    assert [h.names for f in other.features for h in f.made.holes] == [("A1", "A2")]


def test_no_two_holes_of_a_part_have_one_name_and_the_chart_tells_them_as_the_parts_do() -> None:
    seen = 0
    for name in EXAMPLES:
        of = example(name)
        for p in of.piece.parts:
            every = [n for f in p.features for h in f.made.holes for n in h.names]
            assert len(set(every)) == len(every), (name, p.path, every)
            seen += len(every)
            tagged = [t for t in tags(p) if t.row.name]
            assert all(tuple(map(float, t.row.points[t.row.names.index(t.tag)])) == t.at for t in tagged)
        for row in drilling(of.piece):
            for path in row.parts:
                told = {n for f in of.piece.part(path).features for h in f.made.holes for n in h.names}
                told |= {s.called for f in of.piece.part(path).features for s in f.made.slots}
                assert set(row.marks) <= told, (name, path, row.marks)
    assert seen > 100
