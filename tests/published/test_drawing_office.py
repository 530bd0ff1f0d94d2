"""Papers, line widths, lettering and scales of the layouts against the figures of the standards."""

from itertools import pairwise

import pytest

from docgen.layout.read import read_layout

# ISO 216 (A3, A4) and ANSI/ASME Y14.1 (A 8.5 × 11 in, B 11 × 17 in); millimetres, upright.
PAPERS = {
    "a4": (210, 297),
    "a3": (297, 420),
    "letter": (8.5 * 25.4, 11 * 25.4),
    "tabloid": (11 * 25.4, 17 * 25.4),
}
WIDTHS = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)  # ISO 128-2, mm
HEIGHTS = (1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0)  # ISO 3098, mm
ISO_SCALES = {(2, 1), (5, 1), (10, 1), (1, 1), (1, 2), (1, 5), (1, 10), (1, 20), (1, 50), (1, 100)}  # ISO 5455


@pytest.mark.parametrize("name", PAPERS)
def test_papers(name: str) -> None:
    assert sorted(read_layout(name).size) == pytest.approx(sorted(PAPERS[name]), abs=1e-9)


def test_each_a_size_is_half_the_one_before() -> None:
    assert tuple(int(v) for v in read_layout("a4").size) == (420 // 2, 297)


def test_drawing_space_of_a4() -> None:
    # ISO 5457:1999: 180 × 277 mm within 20 mm on the filing side and 10 mm elsewhere.
    frame = read_layout("a4").frame
    assert (frame.x, frame.width, frame.height) == (20.0, 180.0, 277.0)


def test_pens_are_of_one_line_group() -> None:
    pens = read_layout("letter").pens
    assert {p.width for p in pens.values()} <= set(WIDTHS)
    # ISO 128-2: extra wide to wide to narrow as 4 : 2 : 1 (the first from memory).
    assert (pens["datum"].width, pens["visible"].width, pens["thin"].width) == (1.0, 0.5, 0.25)


def test_dashes() -> None:
    pens = read_layout("letter").pens
    # ISO 128-2: dashed 12d with gaps of 3d, chain lines 24d, 3d, dot, 3d.
    assert pens["hidden"].dash == (12, 3)
    for name in ("centre", "phantom", "cutting"):
        pen = pens[name]
        assert pen.dash[0] == 24 and set(pen.dash[1::2]) == {3}
        assert all(dot * pen.width >= 0.5 for dot in pen.dash[2::2])
    assert len(pens["phantom"].dash) == len(pens["centre"].dash) + 2


def test_lettering() -> None:
    h = read_layout("letter").heights
    assert {h.title, h.heading, h.figure, h.least, h.note, h.small} <= set(HEIGHTS)
    assert (h.figure, h.least, h.small) == (3.5, 2.5, 1.8)


def test_scales() -> None:
    scales = read_layout("a4").scales
    assert set(scales["mm"]) <= ISO_SCALES
    assert {(1, 1), (1, 2), (1, 5), (1, 10), (1, 20)} <= set(scales["mm"])
    # The architect's scales: 3 in, 1 1/2, 1, 3/4, 1/2, 3/8, 1/4, 1/8 in = 1 ft (custom, from memory).
    assert {(1, 4), (1, 8), (1, 12), (1, 16), (1, 24), (1, 32), (1, 48), (1, 96)} <= set(scales["inch"])
    for ladder in scales.values():
        assert all(a * d > c * b for (a, b), (c, d) in pairwise(ladder))
