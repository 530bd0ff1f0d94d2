import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.end_cut import EndCut
from docgen.piece.operations.slanted_tongue import SlantedTongue
from docgen.piece.records import BOTH, Authority, Face
from tests.piece.operations.trial import (
    board,
    every_parameter_moves_the_solid,
    figures_measure_what_they_say,
    made,
    proven,
    taken,
)

END = math.cos(math.radians(10))
LEAN, SKEW = (0, 10), (10, 0)


def tip(side: int, slopes: tuple[float, float]) -> EndCut:
    return EndCut(Face(0, side), 375 if side else 25, slopes, "tip")


def tongue(cut: EndCut, low: float, high: float, long: float, **more: float) -> SlantedTongue:
    return SlantedTongue.at_tip(board(), cut, low, high, long, **more)


@pytest.mark.parametrize("side", [0, 1])
@pytest.mark.parametrize("slopes", [LEAN, (0, -10), SKEW, (-10, 0)])
def test_every_number_counts_and_is_told_once(side: int, slopes: tuple[float, float]) -> None:
    it = tongue(tip(side, slopes), 5, 14, 6, notch_low=12, notch_high=20)
    proven(it, board(), derived=["short point"])
    fat = tongue(tip(side, slopes), 5, 14, 6, over=0.5, notch_low=12, notch_high=20)  # told beside the thickness
    every_parameter_moves_the_solid(fat, board())
    figures_measure_what_they_say(fat, board())


@pytest.mark.parametrize("slopes", [LEAN, SKEW])
def test_a_whole_end_is_one_slanting_cut(slopes: tuple[float, float]) -> None:
    whole = tongue(tip(1, slopes), 0, 20, 6)
    found = made(whole, board())
    assert len(found.cuts) == 1 and [s.machine for s in found.settings] == ["table saw"]
    assert {s.label for s in found.sizes} == {"long point", "short point", "from square"}


def test_what_goes_beside_a_tongue_between_leaning_shoulders() -> None:
    """The tongue is 6 / cos 10° long along the board, on both sides of it that much of the 120 wide end goes."""
    slant = math.tan(math.radians(10))
    end = 120 * 20 * (400 - 375) - 120 * slant * 20**2 / 2  # what the slanting end takes, less where it stands out
    bare = taken(tongue(tip(1, LEAN), 0, 20, 6), board())
    assert bare == pytest.approx(end)
    thin = taken(tongue(tip(1, LEAN), 5, 14, 6), board())
    assert thin - bare == pytest.approx(120 * (20 - 9) * 6 / END)
    notched = taken(tongue(tip(1, LEAN), 5, 14, 6, over=0, notch_low=12, notch_high=20), board())
    assert notched - thin == pytest.approx(32 * 9 * 6 / END)


def test_what_goes_beside_a_tongue_on_an_end_that_slants_across_the_width() -> None:
    """The end is 120 / cos 10° long; the tongue 6, square to it. What is left of it at the edges leans out by 6 · tan 10°."""
    bare = taken(tongue(tip(1, SKEW), 0, 20, 6), board())
    thin = taken(tongue(tip(1, SKEW), 5, 14, 6), board())
    assert thin - bare == pytest.approx((20 - 9) * 6 * 120 / END, rel=1e-6)


def test_fat_goes_when_it_is_fitted() -> None:
    it = tongue(tip(1, LEAN), 0, 12, 6, over=0.5)
    later = [c for c in made(it, board()).cuts if c.stage is not None]
    assert len(later) == 1
    (thick,) = [s for s in made(it, board()).sizes if s.authority is Authority.FIT]
    assert (thick.value, thick.over) == (12, 0.5)


def test_the_blank_grows_to_the_long_point_of_the_tip() -> None:
    out = EndCut(Face(0, 1), 405, LEAN, "tip")
    found = made(tongue(out, 0, 20, 6), board())
    (allowance,) = found.allowances
    assert float(allowance.amount) == pytest.approx(5 + 20 * math.tan(math.radians(10)))
    # The part's own length tells it then; the short point stays for reference.
    assert {s.label for s in found.sizes} == {"short point", "from square"}
    assert "long point at the end of the stated length" in [a.text for a in found.assumed]


def test_shoulders_are_marked_where_they_are_cut() -> None:
    marks = [m for m in made(tongue(tip(1, LEAN), 5, 20, 6), board()).marks if m.wood == BOTH]
    assert [m.face for m in marks] == [Face(2, 0)]
    assert float(marks[0].position) == pytest.approx(375 - 6 / END)


def test_set_ups_of_shoulders_and_notches() -> None:
    lean = made(tongue(tip(1, LEAN), 5, 14, 6, over=0, notch_low=12), board()).settings
    assert [s.machine for s in lean] == ["table saw", "hand saw", "hand saw"]
    assert ("shoulders, from square through the thickness", 10, "angle") in lean[1].values
    skew = made(tongue(tip(1, SKEW), 5, 14, 6), board()).settings
    assert [s.machine for s in skew] == ["table saw", "router"] and "slanted end" in skew[1].note


@pytest.mark.parametrize(
    ("it", "code"),
    [
        (tongue(tip(1, LEAN), 5, 25, 6), "tongue-range"),
        (tongue(tip(1, LEAN), 5, 14, 0), "length-range"),
        (tongue(tip(1, LEAN), 5, 14, 6, over=12), "over-range"),
        (tongue(tip(1, LEAN), 5, 14, 6, over=0, notch_low=60, notch_high=60), "notch-range"),
    ],
)
def test_impossible_tongues(it: SlantedTongue, code: str) -> None:
    with pytest.raises(Fault) as fault:
        it.made(board())
    assert fault.value.code == code
