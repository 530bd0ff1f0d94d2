"""Waste is hatched, what stays is not: beside it, and where the waste goes all round it."""

from __future__ import annotations

import pytest

from docgen.drawing.records import Line, Pen
from docgen.drawing.tiling.crop import Crop
from docgen.drawing.tiling.ink import bounds_of, inside, outline_ink, segments
from docgen.drawing.tiling.template import TemplateArt
from docgen.geometry.curves import ellipse_outline
from docgen.geometry.shapes import Outline
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.piece.records import Face, Template
from docgen.schedules.template_rows import TemplateRow
from docgen.units import Units

BOARD = Outline.rectangle(0, 0, 200, 100)


def hatching(outline: Outline, waste: Outline) -> list[Line]:
    seen = Template("shape", Face(2, 1), outline, waste=(waste,))
    row = TemplateRow(
        "shape",
        seen,
        "top face",
        "left end",
        "right end",
        "front edge",
        "back edge",
        ("board",),
        (1,),
        1,
        size=(200, 100),
    )
    layout = read_layout("a4")
    art = TemplateArt(row, Crop((-20, -20, 220, 120)), units=Units("mm"), layout=layout, metrics=PacketMetrics())
    return [i for i in art.ink() if isinstance(i, Line) and i.pen is Pen.HATCH]


@pytest.mark.parametrize(
    "stays",
    [
        ellipse_outline((100, 50), (80, 40)),
        ellipse_outline((100, 50), (100, 40)),  # it touches the blank's ends
        Outline.rectangle(20, 20, 180, 80),
    ],
)
def test_waste_all_round_leaves_what_stays_free(stays: Outline) -> None:
    lines = [i for i in hatching(stays, BOARD) if i.a[0] != i.b[0] and i.a[1] != i.b[1]]  # without the waste's rim
    chords = [s for side in outline_ink(stays) for s in segments(side)]
    middles = [((a.a[0] + a.b[0]) / 2, (a.a[1] + a.b[1]) / 2) for a in lines]
    assert len(lines) > 40
    assert not any(inside(m, chords) for m in middles)


def test_waste_beside_what_stays_is_hatched_alone() -> None:
    lines = hatching(Outline.rectangle(0, 0, 120, 100), Outline.rectangle(120, 0, 200, 100))
    assert lines
    x0, _, x1, _ = bounds_of(lines)
    assert (x0, x1) == pytest.approx((120, 200), abs=2)
