"""A set-up says the part sheet's own figure beside a place that it counts otherwise."""

import pytest

from docgen.schedules.as_drawn import CENTRE, ON_SHEET
from docgen.schedules.rows import SetupRun
from tests.support.steps import example


def run(name: str, what: str, part: str) -> SetupRun:
    found = [r for s in example(name)[1].setups for r in s.runs if r.what == what and part in r.parts]
    return next(r for r in found if "tenon" not in r.what.split(" ")[:1])


@pytest.mark.parametrize(
    ("name", "what", "part", "told"),
    [
        # the leg is drawn from its bottom end: 540 − (14 + 82) / 2 = 492; across it 14 from the front edge on both
        ("side-table", "mortise for front apron", "front left leg", "492 mm from the bottom end to the centre"),
        ("settle", "mortise for slat 9", "crest", "39 3/8 in from the left shoulder to the centre"),
    ],
)
def test_a_place_that_is_drawn_from_the_other_side_has_that_figure_beside_it(
    name: str, what: str, part: str, told: str
) -> None:
    assert (ON_SHEET, told, "text") in run(name, what, part).places


def test_a_place_by_its_two_ends_has_the_middle_that_is_drawn() -> None:
    places = {n: v for n, v, _ in run("settle", "mortise for slat 1", "crest").places}
    near, far, middle = (places[f"{n} from the left shoulder"] for n in ("near end", "far end", CENTRE))
    assert middle == (near + far) / 2 and ON_SHEET not in places  # type: ignore[operator]
    leaning = {
        n: v
        for n, v, _ in run("sketching-desk", "mortise for left rear leg, right rear leg", "stand.left front").places
    }
    assert leaning[f"{CENTRE} from the long point of the bottom end"] == pytest.approx(
        677.902, abs=1e-3
    )  # 26.689 in on the sheet


def test_nothing_is_said_twice_where_both_pages_count_alike() -> None:
    slot = {n: v for n, v, _ in run("side-table", "slot for a button", "front apron").places}
    assert slot["middle from the top edge"] == 15.5 and ON_SHEET not in slot  # drawn from there too
    places = [n for n, _, _ in run("settle", "dado (housing) for seat", "left end").places]
    assert ON_SHEET not in places and not any(n.startswith(CENTRE) for n in places)
