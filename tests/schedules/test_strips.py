"""Strips come off a wide board once, and after what is cut in them; what is fitted is fitted before it is sanded."""

import pytest

from docgen.schedules.from_stock import TO_SIZE
from docgen.schedules.strips import ripped_late, strips
from tests.support.steps import at_key, example, steps

EXAMPLES = ("seed-chest", "dovetailed-box", "door-cabinet", "settle", "bookcase", "side-table")


def test_a_strip_with_slots_and_holes_is_ripped_when_they_are_in_it() -> None:
    piece, lists = example("seed-chest")
    late = ripped_late(piece)
    assert late and set(late) <= set(strips(piece))
    told = steps("seed-chest")[at_key("seed-chest", TO_SIZE)]
    assert "4× drawer runner wait" in told and "Rip 4×" not in told
    rip = at_key("seed-chest", "rip strips")
    cuts = [n for n, row in enumerate(lists.work) if row.key.startswith("set-up") and set(row.parts) <= set(late)]
    assert cuts and max(cuts) < rip < at_key("seed-chest", "sand inside")


def test_a_strip_in_which_nothing_is_cut_is_ripped_at_the_end_of_its_step() -> None:
    piece, _ = example("dovetailed-box")
    assert strips(piece) and not ripped_late(piece)
    told = steps("dovetailed-box")
    assert "Rip ledge (left, right) off the board last" in told[at_key("dovetailed-box", TO_SIZE)]
    assert not any("they are ripped off it last" in step for step in told)


def test_a_strip_that_waits_for_its_place_is_ripped_then_and_clamped_down_at_the_saw() -> None:
    _, lists = example("door-cabinet")
    assert "Rip" not in steps("door-cabinet")[at_key("door-cabinet", TO_SIZE)]
    (mitres,) = [row for row in lists.work if row.what.startswith("Set-up") and "mitre across the face" in row.what]
    assert "clamp it down on a board of waste" in mitres.wrong
    for other in ("map-case", "sketching-desk"):  # rails of a frame are no strips
        assert not any("drawn into the gap" in row.wrong for row in example(other)[1].work)


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_is_fitted_by_hand_is_fitted_before_the_inside_is_sanded(name: str) -> None:
    told = steps(name)
    sanded = [n for n, text in enumerate(told) if text.startswith("Sand now")]
    fits = [n for n, text in enumerate(told) if text.startswith("Plane the t") and "by hand" in text]
    assert not sanded or not fits or max(fits) < min(sanded)
