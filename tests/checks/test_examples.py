"""The examples are sound: nothing stops them, and what is told of them is true and meant."""

from pathlib import Path

import pytest

import docgen
from docgen.checks.finding import Finding, Grade
from docgen.checks.run import findings
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules

EXAMPLES = Path(docgen.__file__).resolve().parents[1] / "examples"


def text_of(name: str) -> str:
    """Return the text of an example."""
    return (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")


def found(name: str, text: str, **sizes: str) -> tuple[Finding, ...]:
    """Return the findings of an example's text, some of its sizes given other values."""
    piece = build(read_project(str(EXAMPLES / f"{name}.yaml"), text, vocabulary(), sizes), vocabulary())
    solids = Solids(piece)
    same = kinds(piece, solids)
    return findings(piece, solids, same, schedules(piece, solids, same))


TRUE = {
    "piece-heavy": "the desk and the bookcase weigh over 23 kg",
    "tips-easily": "a tall bookcase is fixed to the wall",
    "strapped": "a light chest falls with all its drawers out and full: it is strapped to the wall",
    "stability": "how firmly a piece stands is told of every piece that stands",
    "grain-breaks": "the desk's case has running grain round sawn and rounded corners",
    "cutter-large": "its corners and rabbets take large bits",
    "swing-behind": "lids and easels swing out behind the piece, and a wall may stand there",
    "part-unjoined": "the ledges of the box are glued on as their note says, without a joint of their own",
    "group-unjoined": "the tray of the box lies on its ledges and comes out",
    "wall-place": "where a piece that hangs goes on its wall is told of each",
    "nothing-to-open-by": "knobs, pulls and catches of these fronts and doors are chosen at the bench: the files name none",
    "stay-holds": "its easel is heavier than two pivots hold: it has stays, and the packet says what they have to hold",
}
"""What may be told of a good example, and why it is true."""


@pytest.mark.parametrize("name", sorted(p.stem for p in EXAMPLES.glob("*.yaml")))
def test_nothing_stops_a_good_example_and_all_that_is_told_is_true(name: str) -> None:
    told = found(name, text_of(name))
    assert [f.code for f in told if f.grade is Grade.STOP] == []
    assert {f.code for f in told} - set(TRUE) == set()
    assert all(f.rule and f.source for f in told)
