"""One size changed on the command line changes every sheet alike: lines, figures, marks, chart and cutting list."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from docgen.drawing.records import Arc, Line, Text
from docgen.drawing.records import Path as Stroke
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules
from docgen.sheets import parts
from docgen.sheets.context import Context

DESK = Path(__file__).resolve().parents[2] / "examples" / "sketching-desk.yaml"

# size, new value, a part that it shapes
SIZES = [
    ("board", "7/8", "bottom"),
    ("case_low", "21 1/2", "case.left"),
    ("case_top", "28 3/4", "case.left"),
    ("bottom_up", "case_low + 1/2", "divider"),
    ("front_lean", "13 deg", "stand.left front"),
    ("rear_lean", "17 deg", "stand.left rear"),
    ("leg_width", "2 5/8", "stand.left front"),
    ("apex", "26 1/4", "stand.left rear"),
    ("frame_thick", "1 3/8", "easel.left"),
    ("washer", "1/8", "easel.front"),
]


class Told(NamedTuple):
    lines: Any
    figures: Any
    marks: Any
    chart: Any
    cutting: Any


@cache
def context(name: str = "", value: str = "") -> Context:
    words = vocabulary()
    sets = {name: value} if name else {}
    piece = build(read_project(str(DESK), DESK.read_text(encoding="utf-8"), words, sets), words)
    solids = Solids(piece)
    same = kinds(piece, solids)
    lists = schedules(piece, solids, same)
    return Context(piece, solids, same, lists, (), read_layout("letter"), PacketMetrics(), "")


def told(of: Context, path: str) -> Told:
    """Return what the part's own sheet draws and says, and the lists of the whole piece."""
    (kind,) = (k for k in of.kinds if path in k.parts)
    alone = Context(of.piece, of.solids, (kind,), of.lists, (), of.layout, of.metrics, "")
    records = [r for page in parts.make(alone, {}) for r in page.records]
    return Told(
        [r for r in records if isinstance(r, (Line, Arc, Stroke))],
        [r.text for r in records if isinstance(r, Text)],
        [(s.name, m.label, float(m.position)) for s in of.lists.sticks for m in s.marks],
        [(r.name, [tuple(map(float, p)) for p in r.at], r.hole.depth, r.fastener) for r in of.lists.chart],
        [(r.title, tuple(map(float, r.finished))) for r in of.lists.cutting],
    )


@pytest.mark.parametrize(("name", "value", "path"), SIZES, ids=[s[0] for s in SIZES])
def test_a_size_set_for_one_run_changes_every_sheet(name: str, value: str, path: str) -> None:
    before, after = told(context(), path), told(context(name, value), path)
    assert [what for what in Told._fields if getattr(before, what) == getattr(after, what)] == []
