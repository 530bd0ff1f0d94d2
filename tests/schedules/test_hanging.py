"""How drawers on wood are hung, and what ties them to the case."""

from docgen.piece.model import Drawer, Joint
from docgen.schedules.hanging import STOP, hung
from docgen.schedules.partings import clusters, partings
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


def test_a_front_is_measured_beside_the_one_that_comes_before_it() -> None:
    holds = {h.parts[0]: h for h in example(CHEST)[1].chain.holds if h.parts and h.parts[0].endswith(".front")}
    one, two = holds["drawer.1.front"], holds["drawer.2.front"]
    assert one.what == "the place of drawer 1 front: 2× case side, bottom drawer front"
    assert one.moves == "its length less 2 mm a side, its width less 2 mm at the bottom"
    assert two.moves == "its length less 2 mm a side, its width less 2 mm a side"


def test_the_stick_of_the_case_has_the_places_of_its_runners() -> None:
    _, lists = example(CHEST)
    (stick,) = [s for s in lists.sticks if "case.left" in s.parts]
    # low 19, rows of 118, boxes 8 up and 100 high, strips 16: 19 + 118 + 8 + 42 and 118 more.
    assert [float(m.position) for m in stick.marks if m.label.startswith("runner")] == [187, 305]


def test_the_places_of_both_pairs_of_runners_are_told_where_their_screws_are_marked() -> None:
    told = steps(CHEST)[at_set_up(CHEST, "pilot holes A")]
    assert (
        "Drawer 1 left runner on case left side, drawer 1 right runner on case right side: its front end 48 mm" in told
    )
    assert (
        "its bottom face 187 mm from the bottom end." in told and "its bottom face 305 mm from the bottom end." in told
    )


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
