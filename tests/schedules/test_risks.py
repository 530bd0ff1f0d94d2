"""What may go wrong belongs to the step: no stop where nothing stops, no grain where nothing is fed against it."""

import re
from pathlib import Path

import pytest

from docgen.schedules.risks import DRIVEN_GLUE, GLUE, STOPPED, THROUGH, risk
from docgen.schedules.rows import SetupRow, SetupRun
from tests.support.steps import example

EXAMPLES = sorted(path.stem for path in Path("examples").glob("*.yaml"))


def routed(*names: str, feed: str = "") -> SetupRow:
    values = tuple((name, 6, "length") for name in names)
    return SetupRow("router", "cut", values, (("a", "cut"),), "", runs=(SetupRun(("a",), "cut", feed=feed),))


def test_a_stop_is_spoken_of_only_where_one_is() -> None:
    assert risk(routed("straight bit", feed="plunge at the stop, out at the back edge")) == STOPPED
    assert risk(routed("straight bit", "travel")) == STOPPED
    through = risk(routed("straight bit", feed="through from the front edge to the back edge"))
    assert "stop" not in through and "wrong side of the line" in through


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_step_of_an_example_speaks_of_a_stop_that_its_set_up_has_not(name: str) -> None:
    _, lists = example(name)
    wrong = {step.key: step.wrong for step in lists.work}
    for row in lists.setups:
        told = repr((row.values, [(run.places, run.feed) for run in row.runs]))
        if row.machine == "router" and "past the stop" in wrong[f"set-up {row.number}"]:
            assert "stop" in told or "travel" in told, row.number


@pytest.mark.parametrize(
    ("value", "word"),
    [
        ("in from the edge", "knifed line"),
        ("strip that it clears", "within the strip"),
        ("tongue thickness", "the face that the cutter takes from"),
        ("tongue thickness, fat", "fitted later"),
    ],
)
def test_a_plunged_cut_is_not_warned_of_the_grain(value: str, word: str) -> None:
    told = risk(routed("cutter", "depth", value))
    assert word in told and "grain" not in told


def test_a_hole_right_through_has_no_stop_of_its_depth() -> None:
    through = SetupRow("drill press", "hole", (("drill", "5 mm", "text"), ("depth", "through", "text")), (), "")
    blind = SetupRow("drill press", "hole", (("drill", "5 mm", "text"), ("depth", 20, "length")), (), "")
    assert risk(through) == THROUGH and "stop slips" in risk(blind)


@pytest.mark.parametrize("name", EXAMPLES)
def test_ends_that_are_driven_wait_for_no_clamp(name: str) -> None:
    for step in example(name)[1].work:
        if step.key.startswith("glue "):
            driven = re.search(r"mallet, no clamp", step.what) and "clamps " not in step.what
            assert step.wrong == (DRIVEN_GLUE if driven else GLUE)


def test_a_front_is_held_while_its_drawer_is_drawn_out_to_reach_its_screws() -> None:
    for name in ("seed-chest", "sketching-desk"):
        fronts = [step.what for step in example(name)[1].work if step.key.startswith("front ")]
        assert fronts
        assert all(
            re.search("Shut the drawer.*tape.*Draw the drawer out.*only then drill and screw", f) for f in fronts
        )
    gap = next(step.what for step in example("seed-chest")[1].work if step.key.startswith("front "))
    assert "its gaps on strips of 2 mm" in gap
