"""What a joinery section shows: the screw with its wood, what holds a pane, and nothing that hangs in the air."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import pytest

from docgen.drawing.boxes import Box
from docgen.drawing.breaks import zigzag
from docgen.drawing.dimensions.lanes import as_lane
from docgen.drawing.dimensions.sides import Side
from docgen.drawing.dimensions.wanted import Linear, Rules
from docgen.drawing.hatching import Cut, hidden
from docgen.drawing.records import Line, Path, Pen, Text
from docgen.drawing.wording import Notes
from docgen.geometry.reach import corners
from docgen.geometry.section import Ring, Windowed, broken, distance, own_drawn, share_within, without
from docgen.packet.fonts import PacketMetrics
from docgen.piece.records import SizeKind
from docgen.schedules.planes import tip
from docgen.sheets import exploded, joinery
from docgen.sheets.joint_bolts import drawn_bolts
from docgen.sheets.joint_cut import Blanks, CutView, cut_view
from docgen.sheets.joint_detail import Detail, lower, pictured
from docgen.sheets.joint_screws import root_radius
from docgen.sheets.joint_sizes import _on_wood, elsewhere, wanted
from docgen.sheets.joint_view import enlarged_window, section_picture
from docgen.sheets.joint_window import off_hollows
from tests.sheets.test_joinery import context, pages, said


def details(name: str, word: str) -> list[Detail]:
    return [d for group in joinery.details(context(name)) for d in group if d.meeting.joint.word == word]


def cut_of(name: str, word: str) -> CutView:
    cut = details(name, word)[0].cut
    assert cut is not None
    return cut


def test_a_screwed_corner_is_cut_through_its_screw_where_the_blank_is_tapered_away() -> None:
    """The side lies on the slope of a tapered end: a plane in the side passes the end by, one through the screw does not."""
    corner = details("tool-tote", "screwed")[0]
    assert corner.cut is not None and corner.meeting.parts == ("front", "left end")
    (screw, head), *others = corner.cut.plane.fasteners
    assert not others and [float(v) for v in (screw.grip, screw.engagement)] == [12.7, 19.05]
    (x0, y0), (x1, y1) = corner.cut.window
    for at in (head, tip(screw, head)):
        x, y = corner.cut.plane.view.flat(at)
        assert x0 + 5 < x < x1 - 5 and y0 + 5 < y < y1 - 5
    assert math.dist(head, tip(screw, head)) == pytest.approx(31.75)  # 1 1/4 in
    assert root_radius(screw, []) == pytest.approx(25.4 * 5 / 64 / 2)


def test_it_is_drawn_at_true_size_and_says_its_pilot() -> None:
    text = said(pages("joinery", "tool-tote"))
    assert "A – A 1 : 1" in " ".join(text.split())
    assert "pilot drill 5⁄64, 3⁄4 deep, drilled through front into left end when both lie together" in text
    assert "Detail " not in text  # nothing that no plane cuts


def test_screws_that_enter_otherwise_have_a_section_of_their_own() -> None:
    assert [d.meeting.parts for d in details("tool-tote", "screwed")] == [("front", "left end"), ("front", "bottom")]


def test_another_plane_is_taken_where_the_first_misses_a_part() -> None:
    of = context("wall-shelf")
    found = details("wall-shelf", "housing")[0].meeting
    plane = found.planes[0]
    away = replace(plane, point=(0.0, -900.0, 0.0))
    blanks = Blanks.of(of.piece.parts)
    assert found.spare  # the other ways to cut it are kept
    assert list(joinery._cuts(of, blanks, found, (away,))) == []
    assert len(list(joinery._cuts(of, blanks, found, (away, plane)))) == 1


def test_what_holds_a_pane_is_cut_and_hatched() -> None:
    cut = cut_of("door-cabinet", "panel in frame")
    assert [face.part.path for face in cut.faces] == ["left door.pane", "left door.left stile", "left door.left bead"]
    assert all(face.shown for face in cut.faces)
    text = said(pages("joinery", "door-cabinet"))
    assert "8 left door hanging stile, held by 13 left door left bead" in " ".join(text.split())


def test_a_screw_of_another_joint_is_shown_to_its_point() -> None:
    """The plane through the back's rabbet passes a screw that fixes the back: its hole is not left empty."""
    cut = cut_of("door-cabinet", "panel in rabbet")
    (screw, head), *_ = cut.passing
    x, y = cut.plane.view.flat(tip(screw, head))
    (x0, y0), (x1, y1) = cut.window
    assert x0 < x < x1 and y0 < y < y1
    of = context("door-cabinet")
    parts = [of.piece.part(p) for p in ("case.back", "case.left")]
    bare = cut_view(parts, Blanks.of(of.piece.parts), cut.plane, of.solids)
    assert bare is not None and not bare.passing


def test_a_section_keeps_off_other_cuts_in_its_parts() -> None:
    """Through the middle of the seed chest's runner goes the slot of its screw: cut there it would stand as two hooks."""
    cut = cut_of("seed-chest", "runner in groove")
    runner = next(face for face in cut.faces if face.part.path.endswith("runner"))
    assert len(runner.shown) == 1 and not runner.shown[0].broken
    part = runner.part
    slots = [f for f in part.features if f.word == "slotted hole"]
    reach = [p for f in slots for c in f.made.cuts for p in (corners(c.shape, part.frame) @ cut.plane.normal).tolist()]
    level = sum(a * b for a, b in zip(cut.plane.point, cut.plane.normal, strict=True))
    assert reach and min(abs(level - p) for p in reach) >= 1.9
    assert all(len(w.rings) == 1 for w in runner.shown)


def test_another_part_is_shown_where_it_lies_against_these() -> None:
    """The map case's front stands a millimetre off: in the section of the case's corner it would be a loose fragment."""
    for d in details("map-case", "mitre"):
        assert d.cut is not None
        every = [w for face in d.cut.faces for w in face.shown]
        for other in d.cut.beside:
            assert distance(other.shown, every) < 0.5
        for fill in d.cut.fills:
            assert fill.thing in d.meeting.loose


def test_a_wedge_is_cut_where_it_pushed_the_tenon_aside() -> None:
    cut = cut_of("splayed-stool", "socket")
    (wedge,) = cut.fills
    assert wedge.thing.what == "wedge" and wedge.cut.value == "long grain"
    leg = next(face for face in cut.faces if face.part.path == "front left leg")
    assert area(without(leg.shown, wedge.shown, cut.window)) == pytest.approx(area(leg.shown))
    top = max(y for w in wedge.shown for ring in w.rings for _, y in ring)
    assert top == pytest.approx(450)  # sawn flush with the seat
    assert "wedge 4 × 25 × 35 mm" in " ".join(said(pages("joinery", "splayed-stool")).split())


def test_wedges_stand_over_the_part_by_which_they_go_in() -> None:
    of = context("splayed-stool")
    scattered = exploded._scattered(of)
    wedges = scattered.items[len(of.piece.parts) :]
    assert len(wedges) == 4
    for topology, frame in wedges:
        low = min(frame.point(tuple(v))[2] for v in topology.points.tolist())
        assert low > 450 + scattered.moves["seat"][2]
    assert "4× wedge 4 × 25 × 35 mm" in " ".join(said(pages("exploded", "splayed-stool")).split())


def area(shown: Sequence[Windowed]) -> float:
    return sum(abs(shoelace(w.rings[0])) - sum(abs(shoelace(hole)) for hole in w.rings[1:]) for w in shown)


def shoelace(ring: Ring) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)) / 2


def square(x0: float, y0: float, x1: float, y1: float) -> Windowed:
    ring = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return Windowed((ring,), ((*ring, ring[0]),), ())


def test_shares_and_distances() -> None:
    """By hand: of a square of 10 a room takes a strip of 4; squares from 0 to 10 and from 13 lie 3 apart."""
    assert share_within([square(0, 0, 10, 10)], ((6.0, -5.0), (20.0, 20.0))) == pytest.approx(0.4)
    (left,) = without([square(0, 0, 10, 10)], [square(6, -1, 12, 12)], ((-1.0, -1.0), (11.0, 11.0)))
    assert area([left]) == pytest.approx(60) and left.broken == ()
    assert share_within([], ((0.0, 0.0), (1.0, 1.0))) == 0.0
    assert distance([square(0, 0, 10, 10)], [square(13, 0, 20, 10)]) == pytest.approx(3.0)
    assert distance([], [square(0, 0, 1, 1)]) == math.inf


def test_a_picture_is_not_made_so_small_that_it_tells_nothing() -> None:
    of = context("door-cabinet")
    found = pictured(of, details("door-cabinet", "panel in frame")[0], 84.0, 180.0)
    assert found.scale == (1, 1) and lower(of, found, 5.0) is None


def test_an_enlarged_view_is_narrow_enough_to_be_enlarged() -> None:
    (x0, y0), (x1, y1) = enlarged_window((0.0, 0.0, 0.0), 900.0)
    assert x1 - x0 <= 100.0 and y1 - y0 <= 100.0


def test_a_short_break_has_no_zigzag() -> None:
    (short,), (long,) = zigzag((0.0, 0.0), (0.0, 2.0)), zigzag((0.0, 0.0), (0.0, 6.0))
    assert len(short.points) == 2 and len(long.points) == 6


def rings(cut: CutView) -> list[tuple[tuple[float, float], ...]]:
    """Return the outlines of the fasteners of a section, along and beside their axis, view mm from the seat of the head."""
    records, _ = drawn_bolts(cut, 1.0, (0.0, 0.0))
    ((fastener, head), *_) = (*cut.plane.fasteners, *cut.passing)
    (x, y), (u, v) = cut.plane.view.flat(head), cut.plane.view.flat(fastener.direction)
    turned = [
        tuple(((p[0] - x) * u + (p[1] - y) * v, (p[1] - y) * u - (p[0] - x) * v) for p in r.points)
        for r in records
        if isinstance(r, Path)
    ]
    return [ring for ring in turned if max(abs(square) for _, square in ring) < 20]


@pytest.mark.parametrize(
    ("name", "word", "where"),
    [("tool-tote", "screwed", "in"), ("settle", "screwed", "on"), ("side-table", "buttons", "on")],
)
def test_heads_stand_on_the_wood_or_are_sunk_in_it(name: str, word: str, where: str) -> None:
    """A countersunk head lies within the wood, a pan or round one on its seat; both are wider than the shank."""
    shank, head = rings(cut_of(name, word))[:2]
    alongs = [along for along, _ in head]
    assert max(abs(s) for _, s in head) > 1.3 * max(abs(s) for _, s in shank)
    assert (min(alongs) >= -1e-6) if where == "in" else (max(alongs) <= 1e-6 and min(alongs) < -1)


def test_wood_behind_a_screw_is_not_drawn() -> None:
    box = Box(5.0, 5.0, 3.0, 3.0)
    through = Path(((0.0, 5.0), (10.0, 5.0)), Pen.VISIBLE)
    beside = Path(((0.0, 0.0), (10.0, 0.0), (10.0, 1.0)), Pen.VISIBLE, closed=True)
    left = hidden([through, beside], [box])
    assert left == [Line((0.0, 5.0), (2.0, 5.0), Pen.VISIBLE), Line((8.0, 5.0), (10.0, 5.0), Pen.VISIBLE), beside]


def test_a_plane_passes_by_parts_that_are_not_joined() -> None:
    """The back's rabbet runs past the shelves: cut at a shelf, the side would show its dado and the shelf's screw."""
    cut = cut_of("bookcase", "panel in rabbet")
    level = cut.plane.point[2]
    shelves = [p.box[2] for p in context("bookcase").piece.parts if "shelf" in p.path]
    assert len(shelves) > 2
    assert not any(low - 2 < level < high + 2 for low, high in shelves)
    assert not cut.beside


def test_a_part_is_hatched_alike_in_every_section() -> None:
    """A part that is met in several joints has one slope; parts that are joined have two."""
    for name in ("sketching-desk", "dovetailed-box", "settle"):
        of = context(name)
        kind = {p: k for k, same in enumerate(of.kinds) for p in (*same.parts, *same.mirrored)}
        seen: dict[tuple[int, Cut], set[float]] = {}
        for group in joinery.details(of):
            for cut in (d.cut for d in group if d.cut is not None):
                end = [f for f in cut.faces if f.cut in (Cut.END, Cut.LAYER)]
                assert len({f.degrees for f in end}) == len(end)
                for face in end:
                    seen.setdefault((kind[face.part.path], face.cut), set()).add(face.degrees)
        assert seen and all(len(slopes) == 1 for slopes in seen.values())


def test_sheet_stock_cut_flat_is_told_in_the_key() -> None:
    assert "across, flat" in said(pages("joinery", "dovetailed-box"))
    assert "across, flat" not in said(pages("joinery", "side-table"))


def test_extension_lines_reach_the_wood() -> None:
    """A rabbet takes the corner from which it is told: the line is drawn to the face behind the panel."""
    for name, word in (("bookcase", "panel in rabbet"), ("sketching-desk", "panel in frame")):
        of, cut = context(name), cut_of(name, word)
        for w in (w for w in wanted(cut, Notes(of.piece.units)) if isinstance(w, Linear)):
            rings = [ring for face in cut.faces for shown in face.shown for ring in shown.rings]
            for end in (w.a, w.b):
                assert min(math.dist(end, q) for ring in rings for q in ring) < 0.1
            lane = as_lane(w, w.a, w.b, Side("top", 900.0), Rules(), PacketMetrics())
            assert {lane.first, lane.second} == {w.a, w.b}  # drawn from the wood, not from the window's rim


def test_the_end_of_a_size_is_moved_square_to_it_and_not_far() -> None:
    ring = [(0.0, 0.0), (20.0, 0.0), (20.0, 30.0), (9.0, 30.0), (9.0, 40.0), (0.0, 40.0)]
    level = (1.0, 0.0)
    assert _on_wood((9.0, 40.0), level, [ring]) == (9.0, 40.0)  # a corner of the wood
    assert _on_wood((20.0, 40.0), level, [ring]) == (20.0, 30.0)  # down to where the face ends
    assert _on_wood((20.0, 15.0), level, [ring]) == (20.0, 15.0)  # on the face
    assert _on_wood((15.0, 40.0), level, [ring]) == (15.0, 30.0)  # onto a level face
    assert _on_wood((20.0, 90.0), level, [ring]) == (20.0, 90.0)
    assert _on_wood((25.0, 40.0), level, [ring]) == (25.0, 40.0)


def test_what_is_set_into_a_joint_is_shown_whole_in_its_second_section() -> None:
    """The second section of a loose tenon was bounded by the width of its mortise: the tenon was broken off at both ends."""
    for of in details("sketching-desk", "loose tenon"):
        assert of.cut is not None and of.cut.fills
        for fill in of.cut.fills:
            assert not any(w.broken for w in fill.shown)


def test_pieces_that_lie_against_one_another_are_broken_off_by_one_line() -> None:
    side: list[Ring] = [((0.0, 0.0), (0.0, 4.0)), ((0.0, 4.0), (0.0, 9.0)), ((0.0, 12.0), (0.0, 15.0))]
    other: Ring = ((3.0, 0.0), (0.0, 0.0))
    shown = [Windowed((), (), ((a, b),)) for a, b in (*side, other)]
    assert broken(shown) == [((0.0, 0.0), (0.0, 9.0)), ((0.0, 12.0), (0.0, 15.0)), ((0.0, 0.0), (3.0, 0.0))]


def test_what_stands_in_a_row_in_both_parts_is_told_once() -> None:
    """Pins and tails have one spacing: it is told as it is cut, not again as the mate has it."""
    of = context("dovetailed-box")
    for word in ("dovetail", "finger"):
        for detail in details("dovetailed-box", word):
            assert detail.cut is not None
            texts = [w.text for w in wanted(detail.cut, Notes(of.piece.units)) if isinstance(w, Linear)]
            for name in ("spacing", "socket "):
                assert len([t for t in texts if f"{name}" in t and "(" not in t]) <= 1
            assert not any(t.startswith("1×") for t in texts)


def test_a_bore_is_told_where_nothing_else_is() -> None:
    """The handle's bore in the end of a tote stood without a figure: its width, and the wood that it goes through."""
    cut = cut_of("tool-tote", "socket")
    told = wanted(cut, Notes(context("tool-tote").piece.units))
    assert [w.text for w in told if isinstance(w, Linear)] == ["⌀1 1⁄4", "3⁄4"]


def test_the_window_reaches_the_ends_of_what_is_told() -> None:
    """A tenon's middle is told from the far face of a leg that the window broke off: its extension line began in the air."""
    for of in details("side-table", "mortise and tenon"):
        assert of.cut is not None
        (x0, y0), (x1, y1) = of.cut.window
        for w in wanted(of.cut, Notes(context("side-table").piece.units)):
            if isinstance(w, Linear):
                assert all(x0 <= x <= x1 and y0 <= y <= y1 for x, y in (w.a, w.b))


def test_an_edge_of_the_picture_runs_through_no_hollow_of_another_joint() -> None:
    """The mortise of a loose tenon was broken off in the section of a bolt: it looked like a notch in the leg."""
    square = (
        (0.0, 0.0),
        (40.0, 0.0),
        (40.0, 60.0),
        (25.0, 60.0),
        (25.0, 42.0),
        (15.0, 42.0),
        (15.0, 60.0),
        (0.0, 60.0),
    )
    of = details("sketching-desk", "bolted")[0].cut
    assert of is not None
    plane = replace(of.plane, low=(5.0, 10.0), high=(35.0, 20.0))
    window = ((-2.0, 2.0), (42.0, 48.0))
    assert off_hollows(window, [[square]], plane) == (window[0], (42.0, 40.0))
    upset = tuple((x, 50.0 - y) for x, y in square)
    low = replace(plane, low=(5.0, 30.0), high=(35.0, 40.0))
    assert off_hollows(((-2.0, 2.0), (42.0, 48.0)), [[upset]], low) == ((-2.0, 10.0), (42.0, 48.0))
    lying = tuple((y, x) for x, y in square)
    side = replace(plane, low=(10.0, 5.0), high=(20.0, 35.0))
    assert off_hollows(((2.0, -2.0), (48.0, 42.0)), [[lying]], side) == ((2.0, -2.0), (40.0, 42.0))
    near = replace(plane, high=(35.0, 38.0))  # too near the joint to be left out
    assert off_hollows(window, [[square]], near) == window
    solid = ((0.0, 0.0), (40.0, 0.0), (40.0, 60.0), (0.0, 60.0))
    assert off_hollows(window, [[solid]], plane) == window


def test_what_lies_about_a_joint_does_not_hang_on_the_crop() -> None:
    """A back that only stands near a mitre was called what holds it once the picture was cropped closer."""
    for of in details("map-case", "mitre"):
        assert of.cut is not None and len(of.cut.faces) == 2


def test_the_bottoms_of_bores_are_shown() -> None:
    """Cropped closer, the holes of a hinge ended in the break line."""
    for of in details("map-case", "hinge"):
        assert of.cut is not None
        (x0, y0), (x1, y1) = of.cut.window
        for bore in of.cut.plane.bores:
            assert bore.row.depth is not None
            deep = float(bore.row.depth)
            x, y = of.cut.plane.view.flat(tuple(m + deep * d for m, d in zip(bore.mouth, bore.direction, strict=True)))  # type: ignore[arg-type]
            assert x0 + 3 < x < x1 - 3 and y0 + 3 < y < y1 - 3


def test_stubs_of_other_parts_are_left_out() -> None:
    for name in ("settle", "seed-chest", "sketching-desk"):
        for of in (d for group in joinery.details(context(name)) for d in group):
            for w in (w for other in of.cut.beside for w in other.shown) if of.cut else ():
                xs, ys = zip(*w.rings[0], strict=True)
                assert not w.broken or min(max(xs) - min(xs), max(ys) - min(ys)) >= 3.0


def test_of_another_part_so_much_is_drawn_that_it_shows_a_part() -> None:
    """The edge of a drawer front was a stroke in the air; the other apron's tenon is cut as wood, in its own mortise."""
    square = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
    own = Windowed((square,), ((*square, square[0]),), ())
    piece = Windowed((), (((0.0, 20.0), (0.0, 9.0), (9.0, 9.0), (9.0, 14.0)),), (((9.0, 14.0), (0.0, 20.0)),))
    assert own_drawn(piece, [own]) == pytest.approx((16.0, 9.0, 11.0), abs=0.03)
    first = details("side-table", "mortise and tenon")[0].cut
    lap = next(d.cut for d in details("map-case", "dowel") if d.cut and bits(d.cut) > 20.0)
    assert first is not None and [f.part.path for f in first.faces if f.aside] == ["left apron"]
    assert not first.beside and not phantom("side-table", first) and phantom("map-case", lap)


def test_another_part_ends_in_a_break_line_where_the_picture_does() -> None:
    """Two strokes of dash and dot below a tray hung in the air: the ledge that it rests on."""
    of = context("dovetailed-box")
    cut = next(d.cut for d in details("dovetailed-box", "panel in groove") if d.cut and bits(d.cut) > 8.0)
    bare, told = (replace(cut, beside=()), cut)
    found = [
        section_picture(c, [1] * len(c.faces), 2.0, of, Notes(of.piece.units), bare=True).records for c in (bare, told)
    ]
    breaks = [sum(len(r.points) for r in records if isinstance(r, Path) and r.pen is Pen.BREAK) for records in found]
    assert any(w.broken for other in cut.beside for w in other.shown) and breaks[1] > breaks[0]


def bits(cut: CutView) -> float:
    every = [w for face in cut.faces for w in face.shown]
    return max((own_drawn(w, every)[0] for other in cut.beside for w in other.shown), default=0.0)


def phantom(name: str, cut: CutView) -> int:
    of = context(name)
    picture = section_picture(cut, [1] * len(cut.faces), 1.0, of, Notes(of.piece.units), bare=True)
    return sum(isinstance(r, Path) and r.pen is Pen.PHANTOM for r in picture.records)


def test_pins_are_said_to_be_marked_from_their_tails() -> None:
    assert "3 is marked from 1" in " ".join(said(pages("joinery", "dovetailed-box")).split())


def test_a_shoulder_is_told_in_words_where_the_tenon_alone_is_cut() -> None:
    """Its extension line would end in the stile, where nothing is cut."""
    other = details("door-cabinet", "mortise and tenon")[2].cut
    assert other is not None
    notes = Notes(context("door-cabinet").piece.units)
    assert elsewhere(other, notes) == ["2× shoulder 14"]
    assert not any("shoulder" in w.text for w in wanted(other, notes) if isinstance(w, Linear))
    assert all(not elsewhere(d.cut, notes) for d in details("door-cabinet", "housing") if d.cut)


def test_corners_of_one_kind_are_cut_alike_whatever_the_ends_noise() -> None:
    """Sockets as wide as they are deep enter by the way in which they do not run through: all four corners show one plane."""
    (detail,) = details("dovetailed-box", "dovetail")
    assert detail.cut is not None and len(detail.meeting.also) == 3
    assert any(t.size.kind is SizeKind.ANGLE for t in detail.cut.plane.sizes)


def test_a_second_section_reaches_to_both_parts() -> None:
    """The slot across a mitred corner is told where its width is measured: its window lay beside one of the parts."""
    both = details("map-case", "mitre")
    assert [len(d.cut.faces) for d in both if d.cut] == [2, 2, 2, 2]


def test_another_part_is_drawn_where_it_shows_a_part_and_has_its_number() -> None:
    """Two lines of a drawer side and the corner of a front were drawn in the air, and no part had its number."""
    for name in ("seed-chest", "dovetailed-box", "side-table", "sketching-desk"):
        of = context(name)
        for cut in (d.cut for group in joinery.details(of) for d in group if d.cut is not None):
            picture = section_picture(cut, [99] * len(cut.faces), 1.0, of, Notes(of.piece.units))
            drawn = [r for r in picture.records if isinstance(r, Path) and r.pen is Pen.PHANTOM]
            numbers = {r.text for r in picture.records if isinstance(r, Text) and r.bold} - {"99"}
            parts = {b.part.path for b in cut.beside if b.part is not None}
            assert len(numbers) <= len(parts) and bool(numbers) <= bool(drawn)
            rooms = sum(len(w.edges) for m in cut.metal if m.thing.room for w in m.shown)
            whole = sum(len(w.edges) for b in cut.beside if b.part is None for w in b.shown if not w.broken)
            assert numbers or len(drawn) <= rooms + whole
    top = details("side-table", "mortise and tenon")[1].cut
    assert top is not None and [b.part.path for b in top.beside if b.part] == ["top"]


def test_a_joint_is_called_by_what_is_cut() -> None:
    """At the foot of its sides a chest's shelf lies in rabbets: a dado would have no wall there."""
    titles = [r.text for s in pages("joinery", "seed-chest") for r in s.records if isinstance(r, Text) and r.bold]
    assert titles.count("Rabbet") == 1 and titles.count("Housing") == 1
    assert "Rabbet" not in [r.text for s in pages("joinery", "settle") for r in s.records if isinstance(r, Text)]
