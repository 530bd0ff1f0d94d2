"""How drawers on wood are hung, and what ties them to the case."""

from dataclasses import replace

from docgen.piece.model import Drawer, Item, Joint, Sets
from docgen.piece.records import Authority
from docgen.schedules.hanging import STOP, hung
from docgen.schedules.partings import clusters, partings
from docgen.schedules.putting_together import fronts
from docgen.schedules.untied import untied
from tests.support.pieces import part, piece
from tests.support.steps import at, at_key, at_set_up, example, steps

CHEST = "seed-chest"


def test_runners_are_tried_dry_before_the_front_is_measured_and_waxed_at_the_end() -> None:
    text, rows = steps(CHEST), example(CHEST)[1].work
    hangs = at_key(CHEST, "hang drawer.1")
    assert text[hangs].startswith("Try drawer 1 left runner, drawer 1 right runner dry in the grooves")
    assert "without glue" in text[hangs] and "front will stand flush" in text[hangs]
    assert at_key(CHEST, "glue drawer.1.left") < hangs < at_key(CHEST, "fit drawer.1.front")
    assert rows[hangs].parts[:2] == ("drawer.1.left runner", "drawer.1.right runner")
    waxed = at(CHEST, "Rub hard wax")
    assert at_key(CHEST, "fasten A") < waxed < at(CHEST, "Fix drawer 1 front")
    assert "slide bottom drawer, drawer 1, drawer 2 in again" in text[waxed]
    # Glued is the box alone: no step glues a strip.
    assert not any("runner" in row.what for row in rows if row.key.startswith("glue"))


def test_a_drawer_on_the_case_is_planed_to_run() -> None:
    told = steps(CHEST)[at_key(CHEST, "hang bottom drawer")]
    assert told.startswith("Slide the box of bottom drawer in on case shelf 1, dry: plane the lower edges")
    assert "slides" not in told
    # 330 deep, back 6: the box of 296 ends 10 before it, and 18 behind the front edge its front still wants.
    assert "with the front of its box 18 mm behind the front edge of the case" in told
    assert "glue a stop block behind each mark: it fits into the 10 mm that are left" in told
    (item,) = [i for i in example(CHEST)[0].items if i.what == "stop block"]
    assert (item.count, item.size) == (2, "40 × 10 × 8 mm")


def test_a_front_is_measured_beside_the_one_that_comes_before_it() -> None:
    holds = {h.parts[0]: h for h in example(CHEST)[1].chain.holds if h.parts and h.parts[0].endswith(".front")}
    one, two = holds["drawer.1.front"], holds["drawer.2.front"]
    assert one.what == "the place of drawer 1 front: 2× case side, bottom drawer front"
    assert one.moves == "its length less 2 mm a side, its width as drawn, 116 mm"  # nothing stands over it yet
    assert two.moves == "its length less 2 mm a side, its width less 2 mm a side"


def test_the_stick_of_the_case_has_the_places_of_its_runners() -> None:
    _, lists = example(CHEST)
    (stick,) = [s for s in lists.sticks if "case.left" in s.parts]
    # low 19, rows of 118, boxes 8 up and 100 high, strips 16: 19 + 118 + 8 + 42 + 16 and 118 more. The upper edge: the
    # lower one is planed when the strip is fitted.
    told = [(float(m.position), m.label) for m in stick.marks if m.label.startswith("runner")]
    assert told == [(203, "runner, upper edge"), (321, "runner, upper edge")]


def test_the_places_of_both_pairs_of_runners_are_told_where_their_screws_are_marked() -> None:
    told = steps(CHEST)[at_set_up(CHEST, "pilot holes A")]
    assert (
        "Drawer 1 left runner on case left side, drawer 1 right runner on case right side: its back end 321 mm "
        "from the front edge;" in told
    )
    assert "its top edge 203 mm from the bottom end." in told and "its top edge 321 mm from the bottom end." in told


def test_pilots_for_strips_are_drilled_before_the_case_is_glued() -> None:
    assert at_set_up(CHEST, "pilot holes A") < at_key(CHEST, "glue case.left")
    # A top is screwed on from the frame that has to be glued first.
    assert at_set_up("side-table", "pilot holes A") > at("side-table", "Glue up")


def test_screws_of_bottoms_and_fronts_have_places_on_the_chart() -> None:
    piece, lists = example(CHEST)
    told = steps(CHEST)
    assert "through its holes" in told[at_key(CHEST, "lay drawer.1.bottom")]
    fixed = told[at(CHEST, "Fix drawer 1 front")]
    assert "4 × No. 8 × 25 wood screws, pan head through holes" in fixed and "of drawer 1 box front" in fixed
    assert "through them into drawer 1 front. " in fixed
    (row,) = [r for r in lists.chart if r.hole.mate == "drawer.1.front"]
    # 28 in from either edge of the box front, 100 high, 60 from its shoulders; 2 over the 4.4 of a No. 8.
    assert sorted({float(p[1]) for p in row.hole.points}) == [28, 72] and float(row.hole.diameter) == 6.4
    assert not any(r.what.startswith("Fasten drawer 1 box front") for r in lists.work)
    assert not any(i.sets is Sets.FIXES for i in piece.items)


def test_screws_that_several_parts_share_evenly_are_told_by_the_part() -> None:
    shared = replace(
        example(CHEST)[0],
        fasteners=(),
        items=(
            Item(
                "screws, pan head",
                8,
                "No. 8 × 25",
                Authority.CUT,
                sets=Sets.FIXES,
                parts=("bottom drawer.front", "drawer.1.front"),
            ),
        ),
    )
    first, second, _ = (row.what for row in fronts(shared))
    assert all("with 4 × screws, pan head, No. 8 × 25. Shut the drawer" in row for row in (first, second))
    uneven = replace(shared, items=(replace(shared.items[0], count=9),))
    assert (
        "9 × screws, pan head, No. 8 × 25 for bottom drawer front, drawer 1 front together" in next(fronts(uneven)).what
    )


def test_the_case_under_a_drawer_covers_no_exit_of_it() -> None:
    told = repr(example(CHEST)[1].setups)
    assert "hides later what breaks out there" in told and "case shelf 1, hides" not in told


def test_a_strip_is_milled_fat_and_long_and_its_groove_is_cut_to_its_figure() -> None:
    told = steps(CHEST)
    assert "“strips” to 16.5 mm, 0.5 mm over its figure" in told[at(CHEST, "Last pass")]
    hold = next(h for h in example(CHEST)[1].chain.holds if "“strips”" in h.what)
    assert hold.figure == "16.5 mm, 0.5 mm over its figure" and hold.moves.endswith("enter what is found less 0.5 mm")
    sized = told[at(CHEST, "Cut all parts to width")]
    assert "Leave wood on, to be fitted later: 4× drawer runner: length 276 mm, 3 mm over." in sized
    (row,) = [r for r in example(CHEST)[1].cutting if r.title == "drawer runner"]
    assert row.note == "first cut to length 276 mm, 3 mm over; thickness 16.5 mm, 0.5 mm over: fitted later"
    hangs = told[at_key(CHEST, "hang drawer.1")]
    assert "Plane the lower edge of each, no other" in hangs and "0.5 mm of play in height" in hangs
    assert "with the front of its box 18 mm behind the front edge of the case" in hangs
    (setup,) = [s for s in example(CHEST)[1].setups if any("groove for drawer.1.left runner" in t for _, t in s.parts)]
    assert setup.proof[0] == "an offcut of the same stock, 14 mm thick"
    assert setup.proof[1].endswith("the runner is left fat, and fitted to it later")


def test_the_test_piece_of_a_strip_is_as_thick_as_the_strip() -> None:
    (setup,) = [s for s in example(CHEST)[1].setups if any("slot for screw B" in t for _, t in s.parts)]
    assert setup.proof[0] == "an offcut of the same stock, 6.5 mm thick and 16.5 mm wide"


def test_what_nothing_stops_is_told() -> None:
    of = piece(
        part("side", ((1, 15), (18, 300), (0, 100)), "deep"), part("bed", ((0, 400), (0, 320), (-18, 0)), number=2)
    )
    figures = (("box stands back", 18, "length"),)
    drawer = Drawer("d", ("side",), ((0, 400), (18, 320), (0, 120)), 1, 300, 2, figures, bed="bed")
    told = hung(of, drawer, ("side",)).what
    assert "What stops it is not drawn: it has to stop with the front of its box 18 mm behind" in told


def drawn(stop: float, gap: float) -> str:
    of = piece(
        part("side", ((1, 15), (0, 300), (0, 100)), "deep"),
        part("strip", ((0, 7), (0, 300), (40, 56)), "deep", number=2),
    )
    figures = ((STOP, stop, "length"),)
    drawer = Drawer("d", ("side",), ((0, 400), (0, 300), (0, 120)), 1, 300, gap, figures, runners=("strip",))
    return hung(of, drawer, ("side",)).what


def test_strips_are_pared_only_where_they_stop_an_inset_front() -> None:
    assert "Pare the strips' front ends" in drawn(0, 2)
    assert "Pare" not in drawn(3, 2) and "Pare" not in drawn(0, 0)


def test_a_groove_ties_the_drawer_neither_to_its_strip_nor_to_the_case() -> None:
    parts = (
        part("case", ((-20, 0), (0, 300), (0, 100))),
        part("top", ((-20, 400), (0, 300), (100, 120)), "across", number=2),
        part("strip", ((0, 7), (0, 300), (40, 56)), "deep", number=3),
        part("side", ((1, 15), (0, 300), (0, 90)), "deep", number=4),
        part("back", ((1, 300), (286, 300), (0, 90)), "across", number=5),
        part("ring one", ((500, 520), (0, 90), (0, 30)), "deep", number=6),
        part("ring two", ((520, 600), (0, 20), (0, 30)), "across", number=7),
    )
    joints = (
        Joint("housing", "", ("top", "case"), ()),
        Joint("runners", "", ("strip", "case"), ()),
        Joint("runner in groove", "", ("strip", "side"), ()),
        Joint("housing", "", ("back", "side"), ()),
        Joint("housing", "", ("ring two", "ring one"), ()),
    )
    drawer = Drawer("d", ("side", "back"), ((0, 400), (0, 300), (0, 100)), 1, 300, 2, runners=("strip",))
    of = piece(*parts, joints=joints, drawers=(drawer,))
    # The case is the piece: what nothing ties to it is the ring, not the case itself.
    assert untied(of) == (("ring one", "ring two"),)
    pulled = [c for c in clusters(of, partings(of)) if "side" in c.parts]
    assert [(set(c.parts), c.axis, c.sign) for c in pulled] == [({"side", "back"}, 1, -1)]
