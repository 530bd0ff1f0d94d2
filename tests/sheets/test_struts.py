"""A strut that is cut at slants and mortised at both ends is drawn at a scale at which it can be read."""

from itertools import combinations

import pytest

from docgen.drawing import lettering
from docgen.drawing.boxes import inside_length, overlap
from docgen.drawing.records import Text
from docgen.drawing.views import chords
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.piece.kinds import kinds
from docgen.schedules.make import schedules
from docgen.sheets import parts
from docgen.sheets.context import Context
from tests.piece.joints.making import trial

METRICS = PacketMetrics()

BRACKET = """
parts:
  post: {of: board, grain: up, box: {across: [0, 45], deep: [255, 300], up: [0, 600]}}
  arm: {of: board, grain: deep, box: {across: [0, 45], deep: [0, 255], up: [555, 600]}}
  strut: {of: board, grain: up, box: {across: [0, 45], deep: [232.5, 277.5], up: [290, 720]},
    turn: {about: across, at: {deep: 255, up: 355}, by: %d deg}}
joints:
  - loose tenon: {end: strut, into: post, thickness: 8, width: 22, depth: 18}
  - loose tenon: {end: strut, into: arm, thickness: 8, width: 22, depth: 14}
"""


@pytest.mark.parametrize("slope", [35, 43, 45])
@pytest.mark.parametrize("paper", ["a4", "a3"])
def test_a_strut_is_drawn_at_one_to_five_or_larger_with_all_its_figures(slope: int, paper: str) -> None:
    frame = trial(BRACKET % slope, thick="45")
    same = kinds(frame.piece, frame.solids)
    lists = schedules(frame.piece, frame.solids, same)
    context = Context(frame.piece, frame.solids, same, lists, (), read_layout(paper), METRICS, "")
    made = [s.block for page in parts.packed(context) for s in page.blocks if s.block.kind.first == "strut"]
    assert made
    for entry in made:  # its ends may stand in a block of their own
        a, b = entry.placed.setting.scale
        assert a / b >= 0.2, (a, b)
        assert not entry.placed.spread.left
        texts = [lettering.box(r, METRICS).grown(-0.15) for r in entry.placed.records if isinstance(r, Text)]
        assert not any(overlap(one, two) for one, two in combinations(texts, 2))
        lines = [c for r in entry.placed.records for c in chords(r)]
        assert all(sum(inside_length(box, *line) for line in lines) < 0.3 for box in texts)
