"""A drawing for a machine as DXF in millimetres, y up: closed polylines whose arcs are true, on layers by what is done."""

from __future__ import annotations

import io
import math

from ezdxf._options import options
from ezdxf.document import Drawing
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from docgen.drawing.tiling.machine import CutSheet, words_at
from docgen.geometry.outlines import pieces, sweep
from docgen.geometry.shapes import Outline

VERSION = "R2010"
LAYERS = (("CUT", 1), ("HOLE", 5), ("CENTRE", 3), ("ENGRAVE", 7))  # with their colours: red, blue, green, white
WORDS = 5.0  # mm: height of engraved letters, where they fit
MILLIMETRES = 4  # $INSUNITS


def dxf(sheet: CutSheet) -> str:
    """Return the drawing as text: CUT closed outlines, HOLE circles, CENTRE crosses, ENGRAVE lines and words.

    The same sheet gives the same text: neither a time nor a number at random is written.
    """
    # The library's own switch for files that are compared: fixed times, fixed identifiers.
    kept, options.write_fixed_meta_data_for_testing = options.write_fixed_meta_data_for_testing, True
    try:
        document = new(VERSION, units=MILLIMETRES)
        document.header.custom_vars.append("Creator", "docgen")  # whose file it is: only such a one is overwritten
        _drawn(document, sheet)
        _in_order(document)
        out = io.StringIO()
        document.write(out)
    finally:
        options.write_fixed_meta_data_for_testing = kept
    return out.getvalue()


def _drawn(document: Drawing, sheet: CutSheet) -> None:
    for name, colour in LAYERS:
        document.layers.add(name, color=colour)
    space = document.modelspace()
    for cut in sheet.cuts:
        _outline(space, cut)
    for x, y, diameter in sheet.holes:
        space.add_circle((x, y), diameter / 2, dxfattribs={"layer": "HOLE"})
    for a, b in sheet.centres():
        space.add_line(a, b, dxfattribs={"layer": "CENTRE"})
    for a, b in sheet.lines:
        space.add_line(a, b, dxfattribs={"layer": "ENGRAVE"})
    for words, (at, size) in zip(sheet.words, words_at(sheet, WORDS), strict=True):
        space.add_text(words, height=size, dxfattribs={"layer": "ENGRAVE", "insert": at})
    x0, y0, x1, y1 = sheet.box
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (x0, y0, 0.0), (x1, y1, 0.0)


def _in_order(document: Drawing) -> None:
    """Put the classes that the library names in the order of a set into one that is the same each time."""
    document.classes.add_required_classes(document.dxfversion)
    known = document.classes.classes
    ordered = sorted(known.items())
    known.clear()
    known.update(ordered)


def _outline(space: Modelspace, outline: Outline) -> None:
    """Add an outline as one closed polyline; a full circle as a circle."""
    if len(outline.edges) == 1 and outline.edges[0].centre is not None:
        edge = outline.edges[0]
        assert edge.centre is not None
        space.add_circle(edge.centre, math.dist(edge.end, edge.centre), dxfattribs={"layer": "CUT"})
        return
    # A vertex carries the bulge of the side that begins there: the tangent of a quarter of the angle swept.
    points = []
    for start, edge in pieces(outline):
        bulge = 0.0 if edge.centre is None else math.tan(sweep(start, edge)[2] / 4)
        points.append((start[0], start[1], bulge))
    space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": "CUT"})
