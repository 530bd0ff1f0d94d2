import pytest

from docgen.checks import pane_beds
from docgen.geometry.make import box
from docgen.geometry.shapes import turned
from docgen.piece.model import Pane, Piece
from docgen.piece.placement import into
from docgen.piece.records import Cut, Made
from tests.support.checking import codes, found
from tests.support.pieces import GLASS, feature, part, piece


def glazed(deep: float, *layers: tuple[str, float], lean: float = 0.0) -> Piece:
    """A pane 4 thick between two stiles, in rabbets `deep` from the rear; the frame leans forward by `lean` from plumb."""
    turn = turned(0, lean, (0.0, 0.0, 0.0))
    floor = 20.0 - deep  # the rabbet's floor, from the front
    stiles = []
    for number, path, across in ((2, "left", (-34.0, 6.0)), (3, "right", (294.0, 334.0))):
        bare = part(path, (across, (0, 20), (0, 200)), number=number)
        wall = (-2.0, 50.0) if path == "left" else (250.0, 302.0)
        cut = Cut(into(bare, box((wall[0], floor, -1.0), (wall[1], 21.0, 201.0))))
        stile = part(
            path,
            (across, (0, 20), (0, 200)),
            number=number,
            features=(feature("rabbet", Made(cuts=(cut,))),),
            frame=turn,
        )
        stiles.append(stile)
    pane = part("pane", ((0, 300), (floor, floor + 4), (0, 200)), "across", material=GLASS, frame=turn)
    told = tuple((name, value, "length") for name, value in layers)
    return piece(pane, *stiles, panes=(Pane("pane", ("left", "right"), "pane", 2, (8, deep), told),))


@pytest.mark.parametrize(("deep", "expected"), [(7.0, []), (6.9, ["pane-unheld"])])
def test_depth_left_for_stops(deep: float, expected: list[str]) -> None:
    findings = found(pane_beds, glazed(deep))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[0][1] == pytest.approx(deep - 4)


@pytest.mark.parametrize(("deep", "expected"), [(10.0, []), (9.9, ["pane-bed-shallow"])])
def test_what_is_stated_to_lie_in_the_rabbet(deep: float, expected: list[str]) -> None:
    lying = glazed(deep, ("backer", 5.0), ("bed", 1.0), lean=90.0)
    assert codes(pane_beds, lying) == expected


@pytest.mark.parametrize(("lean", "expected"), [(29.0, ["pane-unheld"]), (31.0, [])])
def test_a_pane_that_lies_by_its_own_weight(lean: float, expected: list[str]) -> None:
    """The way out of the rabbet points up by sin(lean): from 30° the pane lies more than it stands."""
    assert codes(pane_beds, glazed(5.0, lean=lean)) == expected


def test_a_pane_laid_in_from_below_is_not_held() -> None:
    assert codes(pane_beds, glazed(5.0, lean=-90.0)) == ["pane-unheld"]
