import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from docgen.drawing import lettering
from docgen.drawing.boxes import overlap
from docgen.drawing.cells import wrapped
from docgen.drawing.records import Line, Text
from tests.support.metrics import RoundMetrics

METRICS = RoundMetrics()


@pytest.mark.parametrize("height", [1.8, 2.5, 3.5, 5.0])
@pytest.mark.parametrize("angle", [0.0, 90.0, 30.0])
def test_numerals_of_a_fraction_clear_the_bar_and_each_other(height: float, angle: float) -> None:
    text = Text((40, 30), "11 31⁄32 deep", height, "middle", angle=angle)
    parts = lettering.set_text(text, METRICS)
    runs = [p for p in parts if isinstance(p, Text)]
    assert [r.text for r in runs] == ["11", "31", "32", " deep"]
    small = [r for r in runs if r.text in ("31", "32")]
    assert all(r.height >= 1.8 and r.height == pytest.approx(max(1.8, 0.62 * height)) for r in small)
    (bar,) = [p for p in parts if isinstance(p, Line)]
    boxes = [lettering.box(r, METRICS) for r in runs]
    for i, a in enumerate(boxes):
        assert not any(overlap(a, b) for b in boxes[i + 1 :])
        ends = (a.inside(bar.a), a.inside(bar.b))
        assert all(abs(e[1]) > a.half_h + 0.3 or abs(e[0]) > a.half_w - 1e-6 for e in ends)


def test_turned_text_is_the_level_text_turned() -> None:
    level = lettering.set_text(Text((0, 0), "7⁄8 ⌀", 3.5), METRICS)
    turned = lettering.set_text(Text((0, 0), "7⁄8 ⌀", 3.5, angle=90), METRICS)
    for a, b in zip(level, turned, strict=True):
        if isinstance(a, Text) and isinstance(b, Text):
            assert b.at == pytest.approx((-a.at[1], a.at[0]))
            assert b.angle == 90
        if isinstance(a, Line) and isinstance(b, Line):
            assert b.a == pytest.approx((-a.a[1], a.a[0]))


def test_plain_text_comes_back_as_it_is() -> None:
    text = Text((1, 2), "make 2", 2.5, "right")
    assert lettering.set_text(text, METRICS) == [text]


@pytest.mark.parametrize("anchor", ["left", "middle", "right"])
def test_the_box_holds_all_that_is_set(anchor: str) -> None:
    text = Text((10, 10), "stop 3⁄4 gap", 3.5, anchor, angle=90)
    box = lettering.box(text, METRICS).grown(1e-6)
    for part in lettering.set_text(text, METRICS):
        corners = lettering.box(part, METRICS).corners() if isinstance(part, Text) else (part.a, part.b)  # type: ignore[union-attr]
        for p in corners:
            u, v = box.inside(p)
            assert abs(u) <= box.half_w
            assert abs(v) <= box.half_h


def test_setting_what_is_set_changes_nothing() -> None:
    once = lettering.set_text(Text((0, 0), "1 1⁄2 ↧ 3⁄4", 2.5), METRICS)
    again = [r for part in once for r in (lettering.set_text(part, METRICS) if isinstance(part, Text) else [part])]
    assert again == once


@given(st.text(alphabet="ab 1⁄2 ⌀gh", max_size=60), st.floats(6, 60))
@settings(max_examples=60, deadline=None)
def test_wrapped_lines_keep_every_word_and_the_width(text: str, wide: float) -> None:
    lines = lettering.wrap(text, wide, 2.5, METRICS)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert all(lettering.width(line, 2.5, METRICS) <= wide or len(line) == 1 for line in lines)


def test_no_text_has_no_width_and_no_lines() -> None:
    assert lettering.width("", 3.5, METRICS) == 0
    assert lettering.wrap("", 50, 3.5, METRICS) == []


@given(
    st.lists(
        st.sampled_from(["1⁄2", "16", "boards,", "⌀17⁄64", "×", "(length", "11 7⁄8", "≈"]), min_size=1, max_size=30
    )
)
@settings(max_examples=60, deadline=None)
def test_no_wrapped_line_is_wider_than_its_room(words: list[str]) -> None:
    for line in wrapped(" ".join(words), 40.0, 2.5, METRICS):
        assert lettering.width(line, 2.5, METRICS) <= 40 + 1e-6
