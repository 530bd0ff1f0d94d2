"""What a strip of a story stick says once it is cut out: what it is laid on, and one thing at each place."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from docgen.drawing.records import Text
from docgen.drawing.sticks.pieces import Side
from docgen.drawing.sticks.strip import strip
from docgen.sheets import sticks
from docgen.sheets.stick_faces import LENGTHWISE, face_words, on_face, shared_name
from docgen.sheets.stick_strips import laid
from tests.sheets.test_joinery import context
from tests.support.steps import listed

NAMES = sorted(p.stem for p in (Path(__file__).resolve().parents[2] / "examples").glob("*.yaml"))
GROOVED = """
docgen: 1
piece: Trial
units: mm
materials: {boards: {species: white oak, thickness: 20}}
parts:
  side: {of: boards, grain: up, box: {across: [0, 20], deep: [0, 300], up: [0, 900]}}
operations:
  - dado: {part: side, face: right, run: up, span: [250, 270], depth: 6, stop: {bottom: 100, top: 400}}
"""


def contrary(side: Side) -> list[float]:
    """Return the places at which one line of a strip says that wood stays and goes on the same side of it."""
    woods: dict[float, set[int]] = {}
    for p in side.points:
        woods.setdefault(round(float(p.position), 3), set()).add(p.wood)
    return [at for at, some in woods.items() if {-1, 1} <= some]


@pytest.mark.parametrize("name", NAMES)
def test_no_line_says_two_things_of_the_wood(name: str) -> None:
    c = context(name, "a4")
    for stick in c.lists.sticks:
        assert [(stick.name, s.word, contrary(s)) for part in laid(c, stick) for s in part.sides if contrary(s)] == []


def test_a_run_along_the_part_has_a_line_of_its_own_where_something_across_ends_with_it() -> None:
    """The shelf's dado ends at 180 and so does the rail's rabbet: each would cross out the wood that stays of the other."""
    c = context("wall-shelf", "a4")
    stick = c.lists.sticks[0]
    told = [(float(m.position), m.label, w) for m, w in zip(stick.marks, face_words(c, stick), strict=True)]
    assert (180.0, "rabbet stops", f"face A{LENGTHWISE}") in told and (
        110.0,
        "rabbet stops",
        f"face A{LENGTHWISE}",
    ) in told
    assert (180.0, "dado for shelf", "face A") in told
    assert {note for notes in stick.notes for note, _ in notes} >= {"along the back edge"}
    (part,) = laid(c, stick)
    assert [s.word for s in part.sides] == ["face A", f"face B and face A{LENGTHWISE}"]
    shown = " ".join(r.text for s in sticks.make(c, {}) for r in s.records if isinstance(r, Text))
    assert "Lengthwise: a run along the part" in shown and on_face(f"face A{LENGTHWISE}") == "face A"
    plain = " ".join(
        r.text for s in sticks.make(context("bookcase", "a4"), {}) for r in s.records if isinstance(r, Text)
    )
    assert "engthwise" not in plain


def test_a_run_in_the_middle_of_a_face_is_told_by_its_distance() -> None:
    _, lists = listed(GROOVED)
    (stick,) = lists.sticks
    notes = {note for notes in stick.notes for note, _ in notes}
    assert len(notes) == 1 and re.fullmatch(r"along the part \d+ to \d+ mm from the (front|back) edge", notes.pop())


@pytest.mark.parametrize("name", NAMES)
def test_every_strip_carries_the_name_of_its_part(name: str) -> None:
    """A strip is cut out and glued on: without a name nothing tells what to lay it on."""
    c = context(name, "a4")
    for sheet in (s for s in sticks.make(c, {}) if not s.framed):
        for text in (r.text for r in sheet.records if isinstance(r, Text)):
            found = re.match(r"Stick (\d+)[,:] (.*)", text)
            if found:
                stick = c.lists.sticks[int(found[1]) - 1]
                names = [c.piece.part(p).called for p in (*stick.parts, *stick.mirrored)]
                assert any(n in found[2] for n in (names[0], *shared_name(c, stick))), text


def test_a_name_is_cut_short_before_it_is_left_off() -> None:
    c = context("door-cabinet", "a4")
    stick = next(s for s in c.lists.sticks if "closing stile" in s.name)
    part = laid(c, stick)[0]

    def called(piece: int, name: str) -> list[str]:
        sides = (replace(part.sides[0], told=""),)
        drawn = strip(part.pieces[piece], sides, part.style, ("Stick 3", name), len(part.pieces))
        return [r.text for r in drawn if isinstance(r, Text) and r.text.startswith("Stick 3")]

    assert "stile" in called(-1, stick.name)[0]
    (cut,) = called(-1, "long " * 40 + "stile and another")
    assert cut.startswith("Stick 3: long ") and "…" in cut and "and" not in cut.partition("…")[0]


def test_parts_that_share_their_words_are_called_by_them() -> None:
    found = {
        name: shared_name(c, s) for c in (context("seed-chest", "a4"),) for s in c.lists.sticks for name in (s.name,)
    }
    assert found["drawer 1 left runner and 3 more"] == ("4 × drawer runner", "drawer runner")
    assert found["bottom drawer left side and bottom drawer right side"] == (
        "2 × bottom drawer side",
        "bottom drawer side",
    )
    assert found["bottom drawer box front and 5 more"] == ()  # fronts and backs
