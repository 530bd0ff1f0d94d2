import pytest

from docgen.drawing.choose import overall
from docgen.piece.faults import Fault
from docgen.piece.operations.left_on import LeftOn
from docgen.piece.records import Authority, Face
from tests.support.pieces import feature, part


def test_wood_left_on_changes_no_size_but_is_told_with_it() -> None:
    blank = part("strip", ((0, 7), (50, 350), (40, 56)), "deep", number=2)
    left = feature("left", LeftOn(blank.face("front"), 3, "by paring").made(blank))
    strip = part("strip", ((0, 7), (50, 350), (40, 56)), "deep", number=2, features=(left,))
    long, *others = (f.size for f in overall(strip))
    assert (long.value, long.authority, long.over, long.note) == (300, Authority.FIT, 3, "by paring")
    assert all(s.authority is Authority.CUT and not s.over for s in others)
    assert strip.side(strip.face("front")) == "front line" and strip.side(strip.face("back")) == "back end"


def test_nothing_cannot_be_left_on() -> None:
    with pytest.raises(Fault) as caught:
        LeftOn(Face(0, 0), 0).made(part("strip", ((0, 7), (50, 350), (40, 56)), "deep"))
    assert caught.value.code == "over-range"
