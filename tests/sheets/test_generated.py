"""Made-up boards on six papers: nothing overlaps, no text is struck, nothing leaves the drawing area."""

from itertools import islice

import pytest

from tests.support.generated import PAPERS, boards, faults

COUNT = 12
"""Two boards a paper; the script in tests/support/generated.py looks at as many as it is asked for."""

BOARDS = [
    pytest.param(text, PAPERS[n % len(PAPERS)], id=f"{seed}-{PAPERS[n % len(PAPERS)]}")
    for n, (seed, text) in enumerate(islice(boards(), COUNT))
]


@pytest.mark.parametrize(("text", "paper"), BOARDS)
def test_the_sheets_of_a_made_up_board_are_clean(text: str, paper: str) -> None:
    assert faults(text, paper) == []
