"""No figure stands twice in a section of a joint, no chain is closed, and a number before a figure is that of what is seen."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from docgen.drawing.wording import Notes
from docgen.sheets import joinery, joint_once, joint_sizes
from docgen.sheets.joint_cut import CutView
from docgen.sheets.joint_once import once
from docgen.sheets.joint_sizes import wanted
from tests.sheets.test_joinery import EXAMPLES, context
from tests.support.joint_twice import figures, told_twice

NAMES = tuple(sorted(p.stem for p in Path(EXAMPLES).glob("*.yaml")))


@cache
def cuts(name: str) -> tuple[CutView, ...]:
    return tuple(d.cut for group in joinery.details(context(name)) for d in group if d.cut is not None)


def texts(name: str, word: str) -> list[list[str]]:
    """Return the figures of each section of a kind of joint."""
    of = context(name)
    details = [d for group in joinery.details(of) for d in group if d.cut and d.meeting.joint.word == word]
    return [[getattr(w, "text", "") for w in wanted(d.cut, Notes(of.piece.units))] for d in details if d.cut]


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_of_a_section_stands_once(name: str) -> None:
    units = context(name).piece.units
    assert [(c.faces[0].part.path, found) for c in cuts(name) if (found := told_twice(c, units))] == []


def test_a_screw_tells_the_depth_of_its_own_hole() -> None:
    """The pilot hole of a runner is as deep as its screw is engaged, the tapped hole of a bolt is deeper."""
    (runner,) = texts("seed-chest", "runners")
    assert "engaged 12.5" in runner and not [t for t in runner if "deep" in t]
    bolted = texts("sketching-desk", "bolted")[0]
    assert any(t.startswith("7⁄8 deep") for t in bolted) and any(t.startswith("engaged 5⁄8") for t in bolted)


def test_what_is_cut_alike_in_both_parts_is_told_once_with_its_number() -> None:
    hinge = texts("door-cabinet", "hinge")[0]
    assert sum("1.5 deep" in t for t in hinge) == 1 and any(t.startswith("2× 1.5 deep") for t in hinge)
    tenon = texts("sketching-desk", "loose tenon")
    assert any("2× 3⁄4 deep" in t for t in tenon[1]) and any("4× 3⁄4 deep" in t for t in tenon[0])


def test_a_number_counts_what_is_seen_in_the_section() -> None:
    """A tenon is as thick as its cheek lies deep, a seat is notched at front and back, a box has two arcs in each groove."""
    for found in texts("settle", "mortise and tenon"):
        assert not [t for t in found if t.startswith("2× 3⁄8") and "shoulder" not in t]
    assert [t for found in texts("settle", "housing") for t in found if "notch" in t] == ["notch 3⁄4"]
    assert not [t for found in texts("dovetailed-box", "panel in groove") for t in found if re.match(r"\d+×", t)]
    slots, keys = texts("map-case", "mitre")[:2]
    assert any(t.startswith("2× slot") for t in slots) and not [t for t in keys if t.startswith("2×")]


def test_what_follows_from_others_stands_in_brackets() -> None:
    rail = texts("door-cabinet", "mortise and tenon")
    assert "(6.5)" in rail[0] and "7 ⊕ (a)" in rail[0]  # a tenon is set from the mortise's middle
    assert any(t.startswith("(40)") for t in rail[1]) and "mortise 52" in rail[1]
    box = texts("dovetailed-box", "dovetail")[0]
    assert "4× tail (7⁄8)" in box and "3× pin 1⁄4" in box and "2× spacing 1 1⁄8" in box
    fingers = texts("dovetailed-box", "finger")[0]
    assert sum("(0.383" in t or "(0.381" in t for t in fingers) == 2


def test_a_double_and_a_closed_ring_are_found(monkeypatch: pytest.MonkeyPatch) -> None:
    units = context("seed-chest").piece.units
    monkeypatch.setattr(joint_once, "held_spans", lambda plane: iter(()))
    monkeypatch.setattr(joint_once, "_bracketed", lambda found, screwed, view: list(found))
    told = [t for c in cuts("seed-chest") for t in told_twice(c, units)]
    assert any("engaged 12.5" in t and "closes a ring" in t for t in told)
    told = [t for c in cuts("door-cabinet") for t in told_twice(c, units)]
    assert any("40 (a)" in t and "closes a ring" in t for t in told)
    monkeypatch.setattr(joint_once, "_both", lambda groups, view: list(groups))
    assert any("stands twice" in t for c in cuts("door-cabinet") for t in told_twice(c, units))
    assert all(f.high > f.low for c in cuts("door-cabinet") for f in figures(c, units))


def test_a_second_section_counts_what_it_shows_itself() -> None:
    for cut in cuts("door-cabinet"):
        for one in once(cut.plane, cut.window):
            assert one.count >= 1 and one.told in cut.plane.sizes
    assert joint_sizes.brackets(cuts("door-cabinet")[0]) in (True, False)
