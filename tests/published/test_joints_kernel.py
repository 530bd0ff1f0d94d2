"""What joints cut, against an independent CAD kernel: volume to 0.1 %, the centre of gravity, angles to 0.01°."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from docgen.geometry.solids import blank, cut
from docgen.piece.bench import Operation
from docgen.piece.model import Part
from docgen.piece.operations.cheeks import Cheeks
from docgen.piece.operations.comb import Comb
from docgen.piece.operations.leaf_recess import LeafRecess
from docgen.piece.operations.leaning_dado import LeaningDado
from docgen.piece.operations.leaning_rabbet import LeaningRabbet
from docgen.piece.operations.mitre_slots import KeySlots
from docgen.piece.operations.mortise import Mortise
from docgen.piece.operations.mortise_steps import Flare, Haunch
from docgen.piece.operations.pins import Pins
from docgen.piece.operations.slanted_tongue import SlantedTongue
from docgen.piece.operations.tongue import Tongue
from docgen.piece.operations.wedging import Kerfs
from docgen.piece.records import Face, Feature, SizeKind, Stage
from tests.piece.operations.trial import board, measured
from tests.support.kernel import centre, kernel_blank, kernel_cut, volume

TOP, LEFT, RIGHT = Face(2, 1), Face(0, 0), Face(0, 1)
SLOPE = math.degrees(math.atan(1 / 6))
THICK = board(400, 120, 40)

CUT: dict[str, tuple[Part, tuple[Operation, ...]]] = {
    "tails": (board(), (Comb(LEFT, 20, 28.5, 6, 28.5, 6, 6, SLOPE, count=3, label="tail", told="1:6"),)),
    "fingers": (board(), (Comb(RIGHT, 20, 24, 24, 48, count=2), Comb(LEFT, 20, 48, 24, low=24, high=24, count=1))),
    "pins": (board(), (Pins(LEFT, TOP, 15, 6, 22.5, SLOPE, 28.5, None, 4), Pins(RIGHT, TOP, 15, 6, 22, SLOPE, 28, 14, 4))),
    "keys": (board(), (KeySlots(RIGHT, TOP, 30, 3, 12, 20, 4),)),
    "haunched mortise": (THICK, (Mortise(TOP, (340, 60), 0, 70, 10, 25, squared=True, steps=(Haunch(True, 25, 8),)),)),
    "flared mortise": (THICK, (Mortise(TOP, (200, 60), 0, 60, 10, None, squared=True, steps=(Flare(10, 3),)),)),
    "haunched tenon": (THICK, (Tongue(RIGHT, 13, 25, 30, 1, 25, 10, haunch_low=8),)),
    "rounded tenon": (THICK, (Tongue(LEFT, 14, 26, 30, 0, 20, 10, rounded=True),)),
    "wedged tenon": (THICK, (Tongue(RIGHT, 14, 26, 30, 0, 20, 10), Kerfs(RIGHT, 30, 20, 110, 14, 2, 20))),
    "cheeks": (THICK, (Cheeks(None, 60, 14, 26, 1), Cheeks(200, 260, 10, 26))),
    "dado with leaning walls": (board(), (LeaningDado(TOP, 1, 100, 120, 6, 12.5, 30), LeaningDado(Face(2, 0), 0, 40, 55, 5, -8))),
    "rabbet with a leaning wall": (board(), (LeaningRabbet(TOP, RIGHT, 6, 20, 10), LeaningRabbet(TOP, LEFT, 6, 20, 10, 20, 100))),
    "tongue on a leaning end": (board(), (SlantedTongue(RIGHT, 5, 10, 2, 0, 12, 6, 0.5, 15), SlantedTongue(LEFT, 5, 10, 2, 4, 16, 6))),
    "tongue on an end across": (board(), (SlantedTongue(RIGHT, 5, -10, 1, 5, 14, 6, 0, 15, 20), SlantedTongue(LEFT, -4, 10, 1, 0, 12, 6))),
    "leaf recess": (THICK, (LeafRecess(TOP, Face(1, 0), 60, 50, 12, 2),)),
}  # fmt: skip


def grown(part: Part, operations: tuple[Operation, ...]) -> Part:
    """The part with its features: the blank grows by what tongues add."""
    for n, operation in enumerate(operations):
        made = operation.made(part)
        part = replace(part, features=(*part.features, Feature(f"it {n}", operation.word, "it", Stage.PART, made)))
    return part


@pytest.mark.parametrize("name", CUT)
def test_volume_and_centre(name: str) -> None:
    part = grown(*CUT[name])
    spans = [part.span(i) for i in range(3)]
    low = (float(spans[0][0]), float(spans[1][0]), float(spans[2][0]))
    high = (float(spans[0][1]), float(spans[1][1]), float(spans[2][1]))
    shapes = [c.shape for f in part.features for c in f.made.cuts]
    ours, theirs = cut(blank(low, high), shapes), kernel_cut(kernel_blank(low, high), shapes)
    assert ours.volume == pytest.approx(volume(theirs), rel=1e-3)
    assert ours.centroid == pytest.approx(centre(theirs), abs=0.02)


@pytest.mark.parametrize("name", ["tails", "pins"])
def test_the_angle_that_is_printed_is_the_slope_of_the_cut(name: str) -> None:
    """1 : 6 from the length is 90° − atan(1/6) = 80.54° from the end (geometry)."""
    part, operations = CUT[name]
    angles = [s for o in operations for s in o.made(part).sizes if s.kind is SizeKind.ANGLE]
    assert angles and all(float(s.value) == pytest.approx(80.5377, abs=0.01) for s in angles)
    assert all(measured(s) == pytest.approx(80.5377, abs=0.01) for s in angles)
