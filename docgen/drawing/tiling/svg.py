"""A drawing for a machine as SVG of its true size in millimetres."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape

from docgen.drawing.tiling.machine import CutSheet, Segment
from docgen.geometry.outlines import on_circle, pieces, sweep
from docgen.geometry.shapes import Outline, Vec2

STROKE = 0.1  # mm; the middle of the line is the size


def svg(sheet: CutSheet) -> str:
    """Return the drawing in groups by what is done: cut, hole, centre, engrave. No words: machines have their own."""
    x0, y0, x1, y1 = sheet.box
    wide, high = _number(x1 - x0), _number(y1 - y0)

    def down(p: Vec2) -> Vec2:
        return (p[0] - x0, y1 - p[1])

    cuts = [f'<path d="{" ".join(_path(cut, down((0.0, 0.0))))}"/>' for cut in sheet.cuts]
    middles = [(down((x, y)), d / 2) for x, y, d in sheet.holes]
    holes = [f'<circle cx="{_number(c[0])}" cy="{_number(c[1])}" r="{_number(r)}"/>' for c, r in middles]
    marks = [(down(a), down(b)) for a, b in sheet.centres()]
    lines = [(down(a), down(b)) for a, b in sheet.lines]
    return "\n".join(
        [
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}">',
            f"<title>{escape(sheet.key)}</title>",
            f"<desc>{escape(sheet.told)}</desc>",
            "<metadata>docgen</metadata>",  # whose file it is: only such a one is overwritten
            f'<g fill="none" stroke="#000" stroke-width="{STROKE}" overflow="visible">',
            *_group("cut", cuts),
            *_group("hole", holes),
            *_group("centre", _lines(marks)),
            *_group("engrave", _lines(lines)),
            "</g>",
            "</svg>",
            "",
        ]
    )


def _group(name: str, drawn: Iterable[str]) -> Iterator[str]:
    inside = list(drawn)
    if inside:
        yield f'<g id="{name}">'
        yield from inside
        yield "</g>"


def _lines(segments: Iterable[Segment]) -> Iterator[str]:
    for a, b in segments:
        yield f'<path d="M{_number(a[0])},{_number(a[1])} L{_number(b[0])},{_number(b[1])}"/>'


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
