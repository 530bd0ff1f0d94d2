"""Which way parts leave each other where a joint does not tell it, and where there is no joint at all."""

from __future__ import annotations

from docgen.piece.model import Joint, Piece
from docgen.schedules.partings import Parting, beside, clusters, partings
from tests.support.pieces import part, piece
from tests.support.steps import example


def facing(of: Piece) -> set[tuple[str, str, int, int]]:
    return {(i.part, i.other, i.axis, i.sign) for i in beside(of, partings(of))}


def made(name: str) -> Piece:
    return example(name)[0]


def by_pair(of: Piece) -> dict[tuple[str, str], Parting]:
    return {(i.part, i.other): i for i in partings(of)}


def test_a_mitred_frame_opens_in_its_plane_and_a_pane_leaves_through_its_thickness() -> None:
    """The sides are flush both ways through the frame: by neither face one leaves the other."""
    ways = by_pair(made("map-case"))
    corners = [i for (a, b), i in ways.items() if {a, b} <= {f"front.{k}" for k in ("left", "right", "top", "bottom")}]
    assert len(corners) == 4 and {i.axis for i in corners} == {0}
    assert ways["front.panel", "front.left"].axis == ways["front.panel", "front.top"].axis == 1


def test_a_pane_amid_its_rails_leaves_through_its_thickness() -> None:
    of = piece(
        part("rail", ((0, 400), (0, 20), (0, 60)), "across"),
        part("pane", ((10, 390), (8, 12), (50, 300)), "up", number=2),
        joints=(Joint("groove", "", ("pane", "rail"), ()),),
    )
    (one,) = partings(of)
    assert one.axis == 1


def test_halves_that_cross_still_part() -> None:
    """All faces or all middles are level in a cross: it parts where the least is shared."""
    of = piece(
        part("one", ((0, 400), (190, 210), (0, 20)), "across"),
        part("other", ((190, 210), (0, 400), (0, 20)), "deep", number=2),
        joints=(Joint("half lap", "", ("one", "other"), ()),),
    )
    assert len(partings(of)) == 1


def test_a_rail_under_a_shelf_faces_it() -> None:
    assert facing(made("wall-shelf")) == {("shelf", "rail", 2, 1)}


def test_drawers_above_one_another_and_doors_beside_one_another_face_each_other() -> None:
    chest = facing(made("seed-chest"))
    assert ("bottom drawer.front", "drawer.1.front", 2, -1) in chest
    assert ("drawer.1.front", "drawer.2.front", 2, -1) in chest
    assert ("left door.right stile", "right door.left stile", 0, -1) in facing(made("door-cabinet"))


def test_what_stands_between_two_sides_leaves_by_neither() -> None:
    """Beads lie against all four sides of their frame and against its pane: they come off the pane."""
    beads = {i for i in facing(made("door-cabinet")) if "bead" in i[0] + i[1] and "shelf" not in i[0] + i[1]}
    assert beads and {(a, axis, sign) for a, _, axis, sign in beads} == {
        ("left door.pane", 1, -1),
        ("right door.pane", 1, -1),
    }
    # A drawer between the sides of its case.
    assert not {i for i in facing(made("seed-chest")) if i[2] == 0}


def test_parts_that_are_far_apart_or_meet_in_an_edge_do_not_face_each_other() -> None:
    of = piece(
        part("one", ((0, 100), (0, 100), (0, 20))),
        part("far", ((0, 100), (0, 100), (60, 80)), number=2),
        part("corner", ((100, 200), (0, 100), (20, 40)), number=3),
        part("near", ((0, 100), (0, 100), (-25, -5)), number=4),
    )
    assert {frozenset(i[:2]) for i in facing(of)} == {frozenset(("one", "near"))}


def test_the_whole_of_most_wood_stays() -> None:
    """A glazed door has more parts than its case: both doors leave it to the front all the same."""
    of = made("door-cabinet")
    gone = {c.parts[0].partition(".")[0]: (c.axis, c.sign) for c in clusters(of, partings(of))}
    assert gone == {"left door": (1, -1), "right door": (1, -1)}
