"""The papers that come along, against the rules by which the standards make them."""

import itertools

import pytest

from docgen.layout.read import names, read_layout

ISO = ("a0", "a1", "a2", "a3", "a4-landscape")
ARCH = ("arch-e", "arch-d", "arch-c", "arch-b", "arch-a")


def test_iso_sheets_halve_and_keep_their_shape() -> None:
    """ISO 216: A0 has one square metre, sides as 1 : √2, each size half the one before, rounded down to whole mm."""
    sizes = [read_layout(n).size for n in ISO]
    assert sizes[0][0] * sizes[0][1] == pytest.approx(1e6, rel=1e-3)
    for (long, short), (next_long, next_short) in itertools.pairwise(sizes):
        assert long / short == pytest.approx(2**0.5, rel=3e-3)
        assert next_long == short and next_short == long // 2


def test_architectural_sheets_double() -> None:
    """ASME Y14.1, architectural sizes: A is 9 × 12 in, each further size twice the one before (from memory)."""
    sizes = [tuple(round(v / 25.4, 6) for v in read_layout(n).size) for n in ARCH]
    assert sizes[-1] == (12, 9)
    for (long, short), (next_long, next_short) in itertools.pairwise(sizes):
        assert next_long == short and next_short == long / 2


def test_no_paper_has_figures_lower_than_the_bench_needs() -> None:
    for name in names():
        heights = read_layout(name).heights
        assert heights.least >= 2.5 and heights.small >= 1.8 and heights.figure >= heights.least
