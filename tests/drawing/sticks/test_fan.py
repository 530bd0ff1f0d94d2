from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing.sticks.fan import spread


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 200), st.floats(2, 30)), min_size=1, max_size=12))
def test_labels_keep_order_stay_within_and_do_not_touch(labels) -> None:
    wanted = sorted(w for w, _ in labels)
    widths = [b for _, b in labels]
    at = spread(wanted, widths, 0.0, 200.0)
    if sum(widths) > 200 + 1e-6:
        assert at is None
        return
    if at is None:
        assert sum(widths) > 200 - 1e-6
        return
    assert at[0] - widths[0] / 2 >= -1e-6
    assert at[-1] + widths[-1] / 2 <= 200 + 1e-6
    for i in range(len(at) - 1):
        assert at[i + 1] - at[i] >= (widths[i] + widths[i + 1]) / 2 - 1e-6


def test_a_label_with_room_stands_over_its_mark() -> None:
    assert spread([20.0, 80.0], [10, 10], 0, 100) == (20.0, 80.0)


def test_two_that_crowd_give_way_by_the_same_amount() -> None:
    assert spread([50.0, 52.0], [10, 10], 0, 100) == (46.0, 56.0)


def test_nothing_to_spread() -> None:
    assert spread([], [], 0, 10) == ()
