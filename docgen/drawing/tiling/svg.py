"""A template's outline as an SVG drawing of its true size in millimetres, for those who cut by machine."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from xml.sax.saxutils import escape

from docgen.drawing.tiling.ink import bounds_of, outline_ink
from docgen.geometry.outlines import on_circle, pieces, sweep
from docgen.geometry.shapes import Outline, Vec2
from docgen.schedules.template_rows import TemplateRow

TOLD = (
    "True size in millimetres, seen on the {face} from outside. Where the template ends within the wood, its last "
    "side is where it ends, not a cut."
)
STROKE = 0.1  # mm; the middle of the line is the size


def template_keys(rows: Sequence[TemplateRow]) -> dict[str, TemplateRow]:
    """Return the templates by keys in their order: "left side: corner radius"; equal ones are numbered from 2."""
    out: dict[str, TemplateRow] = {}
    for row in rows:
        name = f"{row.parts[0]}: {row.title}"
        count = 1
        key = name
        while key in out:
            count += 1
            key = f"{name} {count}"
        out[key] = row
    return out


def svg(key: str, row: TemplateRow) -> str:
    """Return the drawing: the outline that stays, openings and holes, seen on the face from outside; no waste, no words."""
    x0, y0, x1, y1 = bounds_of(outline_ink(row.seen.outline))
    wide, high = _number(x1 - x0), _number(y1 - y0)

    def down(p: Vec2) -> Vec2:
        return (p[0] - x0, y1 - p[1])

    holes = [(down((x, y)), d / 2) for x, y, d in row.seen.holes]
    return "\n".join(
        [
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}">',
            f"<title>{escape(key)}</title>",
            f"<desc>{escape(TOLD.format(face=row.face))}</desc>",
            f'<g fill="none" stroke="#000" stroke-width="{STROKE}" overflow="visible">',
            f'<path d="{" ".join(_path(row.seen.outline, down((0.0, 0.0))))}"/>',
            *(f'<path d="{" ".join(_path(o, down((0.0, 0.0))))}"/>' for o in row.seen.openings),
            *(f'<circle cx="{_number(c[0])}" cy="{_number(c[1])}" r="{_number(r)}"/>' for c, r in holes),
            "</g>",
            "</svg>",
            "",
        ]
    )


def _path(outline: Outline, origin: Vec2) -> Iterator[str]:
    """Yield the commands of the outline, y downward, with the model's 0 at `origin`; arcs stay arcs."""

    def at(p: Vec2) -> str:
        return f"{_number(origin[0] + p[0])},{_number(origin[1] - p[1])}"

    yield f"M{at(outline.edges[-1].end)}"
    for start, edge in pieces(outline):
        if edge.centre is None:
            yield f"L{at(edge.end)}"
            continue
        radius, begin, turn = sweep(start, edge)
        halves = 2 if abs(turn) > math.pi else 1  # an arc command says no full circle
        r, way = _number(radius), 0 if turn > 0 else 1
        if halves == 2:
            yield f"A{r},{r} 0 0 {way} {at(on_circle(edge.centre, radius, begin + turn / 2))}"
        yield f"A{r},{r} 0 0 {way} {at(edge.end)}"
    yield "Z"


def _number(value: float) -> str:
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
