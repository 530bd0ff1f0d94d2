import math

import pytest

from docgen.piece.faults import Fault
from docgen.piece.operations.cove import Cove
from docgen.piece.records import Face
from tests.piece.desk import HEAD, PARTS, built, codes
from tests.piece.operations.trial import CHORDS, board, made, proven, taken

PAIRS = [(Face(2, s), Face(a, t)) for s in (0, 1) for a in (0, 1) for t in (0, 1)]


@pytest.mark.parametrize(("face", "edge"), [*PAIRS, (Face(0, 1), Face(1, 0))])
def test_cove_on_every_arris(face: Face, edge: Face) -> None:
    cove = Cove(face, edge, 8)
    run = {0: 400, 1: 120, 2: 20}[3 - face.axis - edge.axis]
    assert taken(cove, board()) == pytest.approx(math.pi * 64 / 4 * run, rel=CHORDS)
    proven(cove, board())


def test_stopped_cove() -> None:
    cove = Cove(Face(2, 1), Face(1, 0), 6, 50, 300)
    assert taken(cove, board()) == pytest.approx(math.pi * 9 * 250, rel=CHORDS)
    proven(cove, board())
    answer = made(cove, board())
    assert [(m.position, m.wood) for m in answer.marks] == [(50, -1), (300, 1)]
    left, right = (board().side(Face(0, side)) for side in (0, 1))
    assert answer.settings[0].places == (
        ("arris", f"{board().side(Face(2, 1))} / {board().side(Face(1, 0))}", "text"),
        (f"cove stops from the {left}", 50, "length"),
        (f"cove stops from the {right}", 100, "length"),
    )
    assert [s.label for s in answer.sizes if "stop" in s.label] == ["cove stops"] * 2


def test_set_up_and_cautions() -> None:
    answer = made(Cove(Face(2, 1), Face(1, 0), 6), board())
    assert answer.settings[0].values == (("cove bit, radius", 6, "length"),)
    assert [c.key for c in answer.cautions] == ["router", "bearing-guided bit"]


def test_no_room() -> None:
    with pytest.raises(Fault):
        Cove(Face(2, 1), Face(1, 0), 21).made(board())
    with pytest.raises(Fault):
        Cove(Face(2, 1), Face(1, 0), 5, 300, 200).made(board())


@pytest.mark.parametrize("word", ["cove: {radius: 1/4", "round over: {radius: 1/4", "chamfer: {width: 1/4"])
@pytest.mark.parametrize(
    ("run", "stops"),
    [
        ("across: [6, 30]", (6 * 25.4, 30 * 25.4)),
        ("across: [2, 10], from: [left]", (2 * 25.4, 10 * 25.4)),
        ("across: [2, 10], from: [right]", (26 * 25.4, 34 * 25.4)),
        ("stop: {left: 2}", (2 * 25.4, None)),
        ("across: [0, 10]", (None, 10 * 25.4)),
    ],
)
def test_runs_are_said_by_stops_or_from_to(word: str, run: str, stops: tuple[float | None, float | None]) -> None:
    piece = built(f"{HEAD}{PARTS}edges:\n  - {word}, part: top, along: [top front], {run}}}\n")
    (feature,) = piece.part("top").features
    said = dict(feature.parameters)
    assert (said.get("start"), said.get("stop")) == pytest.approx(stops)


def test_runs_that_do_not_lie_along_the_arris() -> None:
    said = "cove: {part: top, along: [top front], radius: 1/4"
    assert codes(f"{HEAD}{PARTS}edges:\n  - {said}, deep: [1, 2]}}\n") == ["run-words"]
    assert codes(f"{HEAD}{PARTS}edges:\n  - {said}, across: [1, 2], stop: {{left: 1}}}}\n") == ["run-words"]
