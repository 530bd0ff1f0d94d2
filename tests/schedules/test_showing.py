"""What is said of equal parts of which each shows another face."""

from docgen.schedules.showing import beside_show, shows_elsewhere
from tests.support.steps import example


def test_ends_that_show_to_the_left_and_to_the_right_tell_their_faces_apart() -> None:
    piece, lists = example("tool-tote")
    ends = ("left end", "right end")
    assert (
        shows_elsewhere(piece, ends) == "Faces are named as on left end; the show face of right end is the right face"
    )
    told = "the left face is the show face of left end, the face behind it on right end"
    assert beside_show(piece, ends, "left") == told
    assert beside_show(piece, ends, "front") == ""  # an edge of both
    assert next(row.note for row in lists.chart if row.name == "G").endswith(told)


def test_parts_that_show_alike_or_nothing_are_not_told_apart() -> None:
    piece, _ = example("settle")
    assert shows_elsewhere(piece, ("apron", "stretcher")).endswith("the show face of stretcher is the back face")
    assert shows_elsewhere(piece, ("slat.1", "slat.2")) == ""
    assert beside_show(piece, ("slat.1", "slat.2"), "front") == ""
    stool, _ = example("splayed-stool")
    assert shows_elsewhere(stool, tuple(p.path for p in stool.parts if "leg" in p.path)) == ""
