"""Candidates in the order of what they cost, drawn up no earlier than one of them may be due."""

from collections.abc import Iterator
from itertools import islice

from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.angles import RADII, angle_trials
from docgen.drawing.dimensions.inside import OFFSETS, inside_trials
from docgen.drawing.dimensions.label import label
from docgen.drawing.dimensions.occupied import Occupied
from docgen.drawing.dimensions.trial import Batch, Trial, in_order
from docgen.drawing.dimensions.wanted import Linear, Rules
from tests.support.printed import METRICS

TEXT = label(("12",), 3.5, METRICS)


def told(cost: float, name: str) -> Trial:
    return Trial(label((name,), 3.5, METRICS), Box(0, 0, 1, 1), (), cost=cost)


def test_candidates_come_cheapest_first_and_of_equal_ones_the_earlier_numbered() -> None:
    batches = [
        Batch(1.0, 1, lambda: [told(3.0, "b"), told(1.0, "a")]),
        Batch(2.0, 0, lambda: [told(2.0, "c"), told(3.0, "d")]),
        Batch(3.0, 2, lambda: [told(3.0, "e")]),
    ]
    assert [t.label.lines[0] for t in in_order(batches)] == ["a", "c", "d", "b", "e"]


def test_a_batch_is_made_only_when_one_of_its_candidates_may_be_due() -> None:
    made: list[float] = []

    def batches() -> Iterator[Batch]:
        for n, least in enumerate((1.0, 2.0, 5.0)):

            def make(least: float = least) -> list[Trial]:
                made.append(least)
                return [told(least, ""), told(least + 2.5, "")]

            yield Batch(least, n, make)

    assert [t.cost for t in islice(in_order(batches()), 3)] == [1.0, 2.0, 3.5]
    assert made == [1.0, 2.0]
    assert [t.cost for t in in_order(batches())] == [1.0, 2.0, 3.5, 4.5, 5.0, 7.5]


def test_no_candidate_for_an_angle_comes_after_a_dearer_one_and_every_radius_has_its_turn() -> None:
    costs, radii = [], set()
    for trial in angle_trials((0.0, 0.0), (60.0, 0.0), (40.0, 40.0), TEXT, Occupied(), Rules()):
        costs.append(trial.cost)
        radii.add(trial.extra[0].radius)  # type: ignore[union-attr]
    assert costs == sorted(costs) and radii == set(RADII)


def test_no_candidate_within_a_view_comes_after_a_dearer_one_and_every_distance_has_its_turn() -> None:
    wanted = Linear("w", (0.0, 0.0), (30.0, 20.0), (1.0, 0.0), "12")
    trials = list(inside_trials(wanted, (0.0, 0.0), (30.0, 20.0), TEXT, Occupied(), Rules()))
    assert [t.cost for t in trials] == sorted(t.cost for t in trials)
    levels = {t.lines[0][0][1] for t in trials}
    assert levels == {20.0 + off for off in OFFSETS} | {-off for off in OFFSETS}
