import re

import pytest

from docgen.piece.operations.arris import Chamfer, RoundOver
from docgen.piece.operations.corner import CornerRadius
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.end_cut import Bevel, EndCut
from docgen.piece.operations.hole import Hole
from docgen.piece.operations.notch import Notch
from docgen.piece.operations.taper import Taper
from docgen.piece.records import Face, Purpose
from docgen.tables import data_text
from tests.piece.operations.test_glued import LEFT, RABBET
from tests.piece.operations.trial import board, made

TOP = Face(2, 1)


@pytest.mark.parametrize(
    ("operation", "keys"),
    [
        (Dado(TOP, 1, 100, 118, 6), ["router"]),
        (RoundOver(TOP, Face(1, 0), 6), ["router", "round over"]),
        (Chamfer(TOP, Face(1, 0), 5, 5), ["router"]),
        (Chamfer(TOP, Face(1, 0), 6, 4), ["plane"]),
        (EndCut(Face(0, 1), 370), ["table saw"]),
        (Bevel(Face(0, 1), TOP), ["table saw", "mitre on saw"]),
        (Hole(TOP, ((200, 60),), 5), ["drill press"]),
        (Hole(TOP, ((200, 60),), 5, purpose=Purpose.TAPPED, thread="M6 × 1"), ["drill press", "tap"]),
        (Notch((None, 30), (None, 40)), ["band saw", "chisel"]),
        (CornerRadius(TOP, Face(0, 0), Face(1, 0), 25), ["band saw"]),
        (Taper(Face(1, 0), Face(0, 1), 100, 8), ["table saw"]),
        (RABBET, ["router", "bearing-guided bit"]),
    ],
)
def test_each_operation_asks_for_its_cautions(operation: object, keys: list[str]) -> None:
    answer = made(operation, LEFT if operation is RABBET else board())
    assert [c.key for c in answer.cautions] == keys
    known = re.findall(r"^([a-z][a-z -]*):", data_text("shared", "cautions.yaml"), re.MULTILINE)
    assert set(keys) <= set(known)
    assert {s.machine for s in answer.settings} <= set(known)
