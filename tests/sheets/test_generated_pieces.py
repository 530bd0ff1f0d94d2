"""Whole made-up pieces: their packets are clean, say what they draw, and leave out no part; the same file, the same bytes."""

from itertools import islice

import pytest

from docgen.packet.write import write
from docgen.sheets.order import sheets
from tests.support.generated import PAPERS
from tests.support.generated_pieces import MAKERS, faults, packet, pieces

SEEDS = (4, 12, 17)
"""A mitred case, a box and a frame, small ones; the script in tests/support looks at as many as it is asked for."""

FEW = [
    pytest.param(text, PAPERS[n % len(PAPERS)], id=f"{seed}-{PAPERS[n % len(PAPERS)]}")
    for n, (seed, text) in enumerate(next(pieces(seed)) for seed in SEEDS)
]


@pytest.mark.parametrize(("text", "paper"), FEW)
def test_the_packet_of_a_made_up_piece_is_clean(text: str, paper: str) -> None:
    assert faults(text, paper, careful=paper == "letter") == []


def test_the_same_made_up_piece_gives_the_same_bytes() -> None:
    text, paper = FEW[0].values
    one = packet(text, paper)
    pages = sheets(one.context)
    stopped = any(f.grade.name == "STOP" for f in one.context.findings)
    again = write(
        pages, layout=one.context.layout, piece=one.context.piece, fingerprint=one.context.fingerprint, stopped=stopped
    )
    assert again == one.data


def test_most_of_what_is_made_up_can_be_made_and_every_maker_is_used() -> None:
    seeds = [seed for seed, _ in islice(pieces(), len(MAKERS))]
    assert len(seeds) / seeds[-1] >= 0.8
    assert {seed % len(MAKERS) for seed in seeds} >= {0, 1, len(MAKERS) - 1}
