import re
from dataclasses import replace
from fractions import Fraction

from docgen.piece.model import Kind, Piece
from docgen.piece.records import BOTH, Allowance, Authority, Face, Feature, HoleRow, Made, Mark, Purpose, Stage
from docgen.schedules.mark_matches import other_faces
from docgen.schedules.sticks import marks_of, on_stick, sticks
from docgen.units import Units
from tests.support.examples import example as piece_of
from tests.support.pieces import part
from tests.support.steps import example

FRONT = Face(1, 0)


def hole(*positions: int, face: Face = FRONT, name: str = "A") -> HoleRow:
    points = tuple((Fraction(p), Fraction(0), Fraction(10)) for p in positions)
    return HoleRow(name, Purpose.PLAIN, face, points, (0.0, 1.0, 0.0), Fraction(8), "8 mm")


def feature(name: str, made: Made) -> Feature:
    return Feature(name, name.split()[0], name, Stage.PART, made)


def board(path: str, number: int, *features: Feature):
    return part(path, [(0, 20), (0, 300), (0, 900)], "up", number=number, features=features)


def piece(*parts) -> Piece:
    return Piece("Bench", "", "", "", "", Units(), "third angle", "", (), (), parts)


def test_hole_centres_are_marks_unless_the_hole_marks_them_itself() -> None:
    alone = board("a", 1, feature("hole 1", Made(holes=(hole(100, 200),))))
    assert [(m.position, m.wood, m.label) for m in marks_of(alone)] == [
        (100, 0, "hole A, 8 mm"),
        (200, 0, "hole A, 8 mm"),
    ]
    told = Made(holes=(hole(100),), marks=(Mark(Fraction(100), 0, "tapped hole A", FRONT),))
    assert [m.label for m in marks_of(board("a", 1, feature("hole 1", told)))] == ["tapped hole A"]


def test_holes_side_by_side_are_one_mark_and_holes_in_an_end_none() -> None:
    two = hole(100, 100)
    end = hole(0, face=Face(0, 0), name="B")
    marks = marks_of(board("a", 1, feature("hole 1", Made(holes=(two, end)))))
    assert [m.label for m in marks] == ["2 holes A, 8 mm"]


def test_equal_labels_of_two_features_get_their_numbers() -> None:
    inside = Face(2, 1)
    dadoes = [
        feature(
            f"dado {k}",
            Made(marks=(Mark(Fraction(100 * k), -1, "dado", inside), Mark(Fraction(100 * k + 18), 1, "dado", inside))),
        )
        for k in (1, 2)
    ]
    assert [m.label for m in marks_of(board("a", 1, *dadoes))] == ["1st dado", "1st dado", "2nd dado", "2nd dado"]
    assert [m.label for m in marks_of(board("a", 1, dadoes[0]))] == ["dado", "dado"]


def marked(path: str, number: int, face: Face, at: int = 100):
    return board(path, number, feature("dado 1", Made(marks=(Mark(Fraction(at), -1, "dado", face),))))


def test_other_hand_shares_the_stick_and_another_place_does_not() -> None:
    left, right, other = (
        marked("left", 1, Face(2, 1)),
        marked("right", 2, Face(2, 0)),
        marked("odd", 3, Face(2, 1), 101),
    )
    found = sticks(piece(left, right, other), (Kind(("left",), ("right",)), Kind(("odd",))))
    assert [(s.parts, s.mirrored) for s in found] == [(("left",), ("right",)), (("odd",), ())]
    assert found[0].length == (0, 900)
    assert found[0].datum == "bottom end"


def test_a_part_that_starts_from_another_end_has_a_stick_of_its_own() -> None:
    standing = marked("standing", 1, Face(2, 1))
    lying = part("lying", [(0, 900), (0, 300), (0, 20)], "across", number=2, features=standing.features)
    assert standing.word(Face(0, 0)) != lying.word(Face(0, 0))
    found = sticks(piece(standing, lying), (Kind(("standing",)), Kind(("lying",))))
    assert [(s.parts, s.datum) for s in found] == [(("standing",), "bottom end"), (("lying",), "left end")]


def test_holes_that_the_mate_rules_are_not_on_the_stick() -> None:
    ruled = replace(hole(40), authority=Authority.MATE)
    mark = Mark(Fraction(40), 0, "tapped hole A", FRONT)
    found = marks_of(
        board(
            "a", 1, feature("hole 1", Made(holes=(ruled,), marks=(mark,))), feature("hole 2", Made(holes=(hole(90),)))
        )
    )
    assert [m.position for m in found] == [90]


def test_a_stick_counts_from_the_shoulder_where_a_tongue_reaches_past_it() -> None:
    tongue = Made(
        marks=(Mark(Fraction(0), 1, "tongue", FRONT),), allowances=(Allowance(Face(0, 0), Fraction(6), "tongue"),)
    )
    (found,) = sticks(piece(board("a", 1, feature("tongue", tongue))), (Kind(("a",)),))
    assert found.datum == "bottom shoulder"
    assert found.length == (-6, 900)


def test_marks_that_stand_alike_need_not_carry_the_same_words() -> None:
    a = (Mark(Fraction(5), -1, "dado for shelf", FRONT), Mark(Fraction(9), 0, "hole", Face(2, 0)))
    b = (Mark(Fraction(5), -1, "dado for rail", FRONT), Mark(Fraction(9), 0, "hole", Face(2, 1)))
    assert other_faces(a, b) == (FRONT, Face(2, 1))
    assert other_faces(a, b[:1]) is None
    assert other_faces(a, (b[0], Mark(Fraction(9), 1, "hole", Face(2, 1)))) is None


def test_faces_follow_the_part_that_is_turned_and_a_shoulder_goes_with_them() -> None:
    """The second part is the first with its front to the back; its shoulder is marked on the front all the same."""
    back = Face(1, 1)
    a = (
        Mark(Fraction(0), BOTH, "shoulder", FRONT),
        Mark(Fraction(9), -1, "slot", back),
        Mark(Fraction(9), -1, "cut", FRONT),
    )
    b = (
        Mark(Fraction(0), BOTH, "shoulder", FRONT),
        Mark(Fraction(9), -1, "cut", back),
        Mark(Fraction(9), -1, "slot", FRONT),
    )
    assert other_faces(a, b) == (back, FRONT, back)
    apart = (b[0], b[1], Mark(Fraction(9), -1, "slot", Face(2, 0)))
    assert other_faces(a, apart) == (FRONT, Face(2, 0), back)  # no turn does it: by their labels


def test_parts_are_grouped_by_the_faces_that_carry_their_marks() -> None:
    left, right, third = marked("left", 1, Face(2, 1)), marked("right", 2, Face(2, 0)), marked("third", 3, Face(2, 0))
    (stick,) = sticks(piece(left, right, third), (Kind(("left",), ("right", "third")),))
    words = left.word(Face(2, 1)), left.word(Face(2, 0))
    assert stick.faces == ((("left",), (words[0],)), (("right", "third"), (words[1],)))


def test_holes_of_a_row_are_called_as_on_all_pages() -> None:
    row = replace(hole(100, 200, 200, 300), names=("A1", "A2", "A3", "A4"))
    told = Made(holes=(row,), marks=tuple(Mark(Fraction(p), 0, "screw hole A", FRONT) for p in (100, 300)))
    labels = [m.label for m in marks_of(board("a", 1, feature("hole 1", told)))]
    assert labels == ["screw hole A1", "2 holes A2, A3, 8 mm", "screw hole A4"]
    many = replace(hole(*[50] * 5), names=tuple(f"A{n}" for n in range(1, 6)))
    assert [m.label for m in marks_of(board("a", 1, feature("hole 1", Made(holes=(many,)))))] == [
        "5 holes A1 to A5, 8 mm"
    ]


def test_numbers_run_from_the_datum_and_what_a_mortise_is_for_is_told() -> None:
    first, second = (
        feature(f"dado {k}", Made(marks=tuple(Mark(Fraction(at + w), w, "dado", FRONT) for w in (-1, 1))))
        for k, at in ((1, 300), (2, 100))
    )
    told = [(m.position, m.label) for m in marks_of(board("a", 1, first, second))]
    assert told == [(99, "1st dado"), (101, "1st dado"), (299, "2nd dado"), (301, "2nd dado")]
    _, lists = example("settle")
    stile = next(s for s in lists.sticks if s.name.startswith("left stile"))
    assert list(dict.fromkeys(m.label for m in stile.marks if m.label.startswith("mortise"))) == [
        "mortise for foot rail",
        "mortise for crest",
    ]


def test_what_a_mark_is_for_is_told_for_all_parts_of_the_stick() -> None:
    # the rails of each door are that door's own
    _, lists = example("door-cabinet")
    stile = next(s for s in lists.sticks if "hanging stile" in s.name)
    assert list(dict.fromkeys(m.label for m in stile.marks if "mortise" in m.label)) == [
        "mortise for left or right door bottom rail",
        "mortise for left or right door top rail",
    ]
    _, lists = example("sketching-desk")
    rear = next(s for s in lists.sticks if s.name.startswith("left rear leg"))
    assert "end against left or right front leg, short point" in {m.label for m in rear.marks}
    front = next(s for s in lists.sticks if s.name.startswith("left front leg"))
    assert [m.label for m in front.marks if "mortise" in m.label] == [
        "1st mortise",
        "1st mortise",
        "2nd mortise",
        "2nd mortise",
    ]


def test_lines_that_stand_alone_are_not_counted_and_no_figure_follows_a_word() -> None:
    """Of two shoulders each is at its own end; "mortise 2" beside a length reads as the mortise's width."""
    for name in ("settle", "sketching-desk", "seed-chest"):
        _, lists = example(name)
        labels = [mark.label for stick in lists.sticks for mark in stick.marks]
        assert not [text for text in labels if re.search(r"(shoulder|mortise|dado|tongue|point|begins) \d", text)]
    _, lists = example("settle")
    apron = next(s for s in lists.sticks if s.name.startswith("apron"))
    assert [m.label for m in apron.marks] == ["tenon, shoulder", "tenon, shoulder"]


def test_a_slot_has_the_name_of_all_other_pages() -> None:
    _, lists = example("seed-chest")
    runner = next(s for s in lists.sticks if "runner" in s.name)
    assert [m.label for m in runner.marks] == ["screw hole A or C", "slot B1 or D1", "slot B2 or D2"]


def test_a_trench_is_told_by_what_lies_in_it() -> None:
    _, lists = example("settle")
    end = next(s for s in lists.sticks if s.name.startswith("left end"))
    assert [m.label for m in end.marks if "dado" in m.label] == ["dado for seat", "dado for seat"]


def test_a_line_at_the_end_of_the_blank_tells_nothing_and_no_step_sends_to_it() -> None:
    """A taper that runs the whole length begins at the end itself; a turner is told the diameter at his ends."""
    piece, lists = example("tool-tote")
    end = next(s for s in lists.sticks if s.name.startswith("left end"))
    assert not [m.label for m in end.marks if "taper" in m.label] and "dado for bottom" in {m.label for m in end.marks}
    assert not [s for s in lists.sticks if s.name == "handle"]  # one diameter from end to end
    for said in ("taper on a sled", "lathe, turning"):
        assert "story stick" not in next(r.see for r in lists.work if said in r.what)
    _, lists = example("splayed-stool")
    leg = next(s for s in lists.sticks if "leg" in s.name)
    assert (float(leg.marks[0].position), leg.marks[0].label) == (0, "A ⌀26")
    side = piece.part("left end")
    on = {f.word: on_stick(side, f) for f in side.features}
    assert not on["taper"] and on["dado"]


def test_holes_side_by_side_are_several_in_words_too() -> None:
    _, lists = example("tool-tote")
    front = next(s for s in lists.sticks if s.name == "front")
    assert front.marks[0].label == "screw holes A1, A2" and "screw hole C1" in {m.label for m in front.marks}


def test_holes_marked_through_a_hinge_are_not_on_the_stick() -> None:
    """The leaf's own holes rule, whose sheet may differ; its recess is cut by the stick. Those of a slide are laid out."""
    ruled = Made(holes=(replace(hole(100, 200), authority=Authority.HARDWARE),))
    late = replace(feature("pilot holes A", ruled), stage=Stage.FITTED)
    assert marks_of(board("door", 1, late)) == ()
    assert [m.position for m in marks_of(board("side", 1, feature("slide screws", ruled)))] == [100, 200]
    for name in ("door-cabinet", "map-case", "dovetailed-box"):
        said = [m.label for p in piece_of(name).piece.parts for m in marks_of(p)]
        assert any("hinge" in label for label in said) and not any("pilot hole" in label for label in said)
