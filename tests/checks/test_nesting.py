import math
from collections.abc import Callable
from dataclasses import replace

import pytest

from docgen.checks import nesting
from docgen.geometry.make import along_axis
from docgen.geometry.shapes import Edge, Outline
from docgen.piece.model import Drawer, Joint, Pane, Piece
from docgen.piece.placement import into
from docgen.piece.records import Cut, Made
from tests.support.checking import codes, found
from tests.support.pieces import feature, part, piece

GAP = 1.0
R2 = math.sqrt(2)


def bay(inner: float, front: float, gap: float = GAP) -> Piece:
    """A block with an opening whose top left corner has radius `inner`; a front with a corner of radius `front`."""
    outline = Outline(
        (
            Edge((100.0, 50.0)),
            Edge((300.0, 50.0)),
            Edge((300.0, 150.0)),
            Edge((100.0 + inner, 150.0)),
            *([Edge((100.0, 150.0 - inner), (100.0 + inner, 150.0 - inner), True)] if inner else []),
        )
    )
    frame = part("frame", ((50, 350), (0, 60), (0, 200)), "across")
    opening = feature("opening", Made(cuts=(Cut(into(frame, along_axis(outline, 1, -1.0, 61.0))),)))
    g = gap
    panel = part("drawer.front", ((100 + g, 300 - g), (0, 20), (50 + g, 150 - g)), "across", number=2)
    x, z = 100 + g, 150 - g
    corner = Outline(
        (
            Edge((x - 1, z + 1)),
            Edge((x - 1, z - front)),
            Edge((x, z - front)),
            Edge((x + front, z), (x + front, z - front), False),
            Edge((x + front, z + 1)),
        )
    )
    rounding = feature("corner", Made(cuts=(Cut(into(panel, along_axis(corner, 1, -1.0, 21.0))),) if front else ()))
    return piece(
        replace(frame, features=(opening,)),
        replace(panel, features=(rounding,)),
        drawers=(Drawer("drawer", ("drawer.front",), ((100, 300), (0, 60), (50, 150)), 0, 0, g),),
    )


def gap_at(inner: float, front: float) -> float:
    """The gap on the diagonal of two arcs in a corner: g·√2 − (r_c − r_f)·(√2 − 1)."""
    return GAP * R2 - (inner - front) * (R2 - 1)


def test_a_front_that_follows_the_rabbet_is_silent() -> None:
    assert gap_at(16, 15) == pytest.approx(GAP)
    assert codes(nesting, bay(16, 15)) == []
    assert codes(nesting, bay(0, 0)) == []  # square in square: 1.41 gaps


def front_for(share: float, inner: float = 16.0) -> float:
    """The front's radius at which the corner gap is `share` times the side gap."""
    return inner - (GAP * R2 - share * GAP) / (R2 - 1)


@pytest.mark.parametrize(("share", "tells"), [(1.52, True), (1.48, False), (0.52, False), (0.48, True)])
def test_the_corner_gap_at_the_edges_of_the_rule(share: float, tells: bool) -> None:
    findings = found(nesting, bay(16, front_for(share)))
    assert bool(findings) is tells
    if tells:
        (f,) = findings
        assert f.code == "front-corner-gap" and "top left" in f.message
        assert f.figures[0][1] == pytest.approx(share * GAP, abs=0.02)


def pane(front: float) -> Piece:
    """The same block and panel, as a pane in its frame instead of a drawer's front."""
    of = bay(16, front)
    lies = Pane("pane", ("frame",), "drawer.front", GAP, (8, 20))
    return replace(of, drawers=(), panes=(lies,))


def panel(front: float) -> Piece:
    """The same as a back in rabbets: its joint states the gap."""
    of = bay(16, front)
    told = (("gap", GAP, "length"), ("depth", 20, "length"))
    return replace(
        of,
        drawers=(),
        joints=(Joint("panel in rabbet", "", ("drawer.front", "frame"), (("frame", "opening 1"),), told),),
    )


@pytest.mark.parametrize("lies", [pane, panel])
def test_panes_and_backs_nest_by_the_same_rule(lies: Callable[[float], Piece]) -> None:
    assert codes(nesting, lies(15)) == []
    assert codes(nesting, lies(front_for(0.52))) == []
    assert codes(nesting, lies(front_for(0.48))) == ["front-corner-gap"]
    (f,) = found(nesting, lies(0))  # a square corner in a round rabbet
    assert "stands" in f.message and "in the wood" in f.message


def test_what_only_stands_beside_another_part_is_not_nested() -> None:
    """A door's hinges state a gap too, but nothing is cut for the door."""
    of = panel(0)
    assert codes(nesting, replace(of, joints=(replace(of.joints[0], features=()),))) == []


@pytest.mark.parametrize("off", [0.0, 0.002, 0.3])
def test_a_back_that_lies_close_against_a_lid_has_no_gap_to_judge_there(off: float) -> None:
    """A back between two sides, 1 mm from each, whose upper edge lies `off` under a lid: at 0 no gap runs round its corners."""
    of = piece(
        part("left", ((0, 18), (0, 100), (0, 500))),
        part("right", ((482, 500), (0, 100), (0, 500)), number=2),
        part("lid", ((0, 500), (0, 100), (500, 518)), "across", number=3),
        part("back", ((19, 481), (90, 100), (1, 500 - off)), "across", number=4),
        part("floor", ((0, 500), (0, 100), (-18, 0)), "across", number=5),
        drawers=(Drawer("drawer", ("back",), ((18, 482), (0, 100), (0, 500)), 0, 0, GAP),),
    )
    assert codes(nesting, of) == ([] if off < nesting.SAME else ["front-corner-gap", "front-corner-gap"])
