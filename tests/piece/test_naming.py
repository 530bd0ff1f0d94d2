from hypothesis import given
from hypothesis import strategies as st

from docgen.piece.naming import MOST, called, glazed, in_words, spoken
from tests.examples.test_desk import desk
from tests.examples.test_pieces import example
from tests.piece.joints.making import trial


def test_a_path_is_said_without_its_dots_and_without_commas():
    assert spoken("left side") == "left side"
    assert spoken("case.left") == "case left"
    assert spoken("drawer.box front") == "drawer box front"
    assert spoken("shelf.2") == "shelf 2"
    assert spoken("door.left.rail") == "door left rail"


def test_equal_wishes_are_told_apart_by_the_assembly():
    names = called([("stand.left", "left leg"), ("rack.left", "left leg"), ("shelf", "")])
    assert names == {"stand.left": "stand left leg", "rack.left": "rack left leg", "shelf": "shelf"}


def test_a_part_of_the_file_keeps_its_name():
    assert called([("stretcher", ""), ("stand.stretcher", "stretcher")]) == {
        "stretcher": "stretcher",
        "stand.stretcher": "stand stretcher",
    }


def test_glass_in_a_frame_is_a_pane_and_no_panel():
    assert glazed("front.panel", "float glass") == "front pane"
    assert glazed("left door.panel 2", "acrylic sheet") == "left door pane 2"
    assert glazed("front.panel", "plywood, birch") == glazed("front.panel", "") == ""
    # What the file calls a panel itself keeps its name.
    assert glazed("panel", "float glass") == glazed("front.backer", "float glass") == ""


def test_the_map_case_calls_its_glass_a_pane():
    case = example("map-case")
    assert case.part("front.panel").called == "front pane"
    assert not [p.called for p in case.piece.parts if p.material.sheet == "float glass" and "panel" in p.called]


def test_what_is_too_long_loses_its_middle():
    (name,) = called([("a very long name that nobody reads to its end", "")]).values()
    assert name == "a very long n…ds to its end" and len(name) == MOST


NAMES = st.text("ab .", min_size=1, max_size=40).filter(lambda s: s.strip(" .") == s)


@given(st.lists(st.tuples(NAMES, st.sampled_from(("", "leg", "LEG", "a", "x" * 30))), unique_by=lambda p: p[0]))
def test_names_are_unique_short_and_the_same_each_time(parts):
    names = called(parts)
    assert list(names) == [path for path, _ in parts]
    assert len({n.casefold() for n in names.values()}) == len(parts)
    assert all(len(n) <= MOST for n in names.values()) and called(parts) == names


def test_paths_in_a_text_become_words():
    names = {"case.left": "case left side", "case.left front": "left front leg", "shelf": "shelf"}
    assert in_words("tenon into case.left front, 3.5 from case.left", names) == (
        "tenon into left front leg, 3.5 from case left side"
    )
    assert in_words("case.leftover of the shelf", names) == "case.leftover of the shelf"


def test_parts_of_assemblies_have_a_makers_names():
    names = {p.path: p.called for p in desk().piece.parts}
    assert names["case.left"] == "case left side" and names["case.top"] == "case top"
    assert names["stand.left front"] == "left front leg" and names["stand.stretcher"] == "stretcher"
    assert names["drawer.front"] == "drawer front" and names["drawer.box front"] == "drawer box front"
    assert names["drawer.left"] == "drawer left side" and names["easel.left"] == "easel left rail"
    assert names["left cheek"] == "left cheek"
    assert len(set(names.values())) == len(names)


def test_the_file_may_say_what_a_part_is_called():
    body = "parts: {a: {of: board, grain: up, called: post, box: {across: [0, 20], deep: [0, 90], up: [0, 300]}}}"
    assert trial(body).part("a").called == "post"
