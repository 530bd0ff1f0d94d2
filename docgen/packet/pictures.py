"""SVG pictures as operators of a PDF page, drawn in ink only: greys, no text, no fonts, no bitmaps.

svglib reads the SVG; its shapes are written here rather than by reportlab's own renderer, which would bring a
font that is not embedded into the file.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from reportlab.graphics import shapes
from svglib.svglib import svg2rlg

from docgen.packet.fonts import POINTS_PER_MM
from docgen.packet.strokes import number
from docgen.tables import data_path

ROUND = 0.5522847498  # reach of a cubic piece that stands for a quarter circle: 4/3·(√2 − 1)


class PictureFault(Exception):
    """A picture in shared/ that cannot be drawn as ink."""


@cache
def _drawing(name: str) -> Any:
    """Return svglib's drawing of shared/`name`.svg."""
    drawing = svg2rlg(str(data_path("shared", f"{name}.svg")))
    if drawing is None:
        raise PictureFault(f"shared/{name}.svg cannot be read as SVG")
    return drawing


def picture(name: str, box: tuple[float, float, float, float]) -> str:
    """Return operators that draw shared/`name`.svg as large as `box` (x, y, width, height in mm) takes it, centred."""
    drawing = _drawing(name)
    x, y, width, height = (v * POINTS_PER_MM for v in box)
    scale = min(width / drawing.width, height / drawing.height)
    dx, dy = x + (width - drawing.width * scale) / 2, y + (height - drawing.height * scale) / 2
    place = f"q {number(scale)} 0 0 {number(scale)} {number(dx)} {number(dy)} cm "
    return place + " ".join(_shape(drawing)) + " Q"


def _shape(node: Any) -> Iterator[str]:
    if isinstance(node, (shapes.Group, shapes.Drawing)):
        yield "q " + " ".join(number(v) for v in node.transform) + " cm"
        for child in node.getContents():
            yield from _shape(child)
        yield "Q"
        return
    outline = _outline(node)
    if getattr(node, "isClipPath", False):
        return
    fill, stroke = _ink(getattr(node, "fillColor", None)), _ink(getattr(node, "strokeColor", None))
    if fill is None and stroke is None:
        return
    if stroke is not None:
        dash = " ".join(number(d) for d in node.strokeDashArray or ())
        yield f"{number(node.strokeWidth)} w {stroke} G {node.strokeLineCap} J {node.strokeLineJoin} j [{dash}] 0 d"
    if fill is not None:
        yield f"{fill} g"
    odd = "*" if getattr(node, "fillMode", 1) == shapes.FILL_EVEN_ODD else ""
    paint = "S" if fill is None else f"f{odd}" if stroke is None else f"B{odd}"
    yield f"{outline} {paint}"


def _ink(colour: Any) -> str | None:
    """Return a colour as a grey from 0 black to 1 white, by the usual weights of red, green and blue for the eye."""
    if colour is None or getattr(colour, "alpha", 1) == 0:
        return None
    return number(0.299 * colour.red + 0.587 * colour.green + 0.114 * colour.blue)


def _outline(node: Any) -> str:
    if isinstance(node, shapes.Path):
        return _path(node)
    if isinstance(node, shapes.Rect):
        return _rectangle(node)
    if isinstance(node, shapes.Circle):
        return _ellipse(node.cx, node.cy, node.r, node.r)
    if isinstance(node, shapes.Ellipse):
        return _ellipse(node.cx, node.cy, node.rx, node.ry)
    if isinstance(node, shapes.Line):
        return _pieces([(node.x1, node.y1), (node.x2, node.y2)], closed=False)
    if isinstance(node, (shapes.PolyLine, shapes.Polygon)):
        pairs = list(zip(node.points[::2], node.points[1::2], strict=True))
        return _pieces(pairs, closed=isinstance(node, shapes.Polygon))
    raise PictureFault(f"a picture may hold lines and areas only, not {type(node).__name__}")


def _pieces(points: list[tuple[float, float]], *, closed: bool) -> str:
    text = " ".join(f"{number(x)} {number(y)} {'l' if i else 'm'}" for i, (x, y) in enumerate(points))
    return text + (" h" if closed else "")


def _path(node: Any) -> str:
    takes = ((2, "m"), (2, "l"), (6, "c"), (0, "h"))  # by reportlab's numbers for the operators of a path
    out, at = [], 0
    for operator in node.operators:
        count, sign = takes[operator]
        out.append(" ".join([number(v) for v in node.points[at : at + count]] + [sign]))
        at += count
    return " ".join(out)


def _curve(*values: float) -> str:
    return " ".join(number(v) for v in values) + " c"


def _ellipse(cx: float, cy: float, rx: float, ry: float) -> str:
    kx, ky = rx * ROUND, ry * ROUND
    return " ".join(
        (
            f"{number(cx + rx)} {number(cy)} m",
            _curve(cx + rx, cy + ky, cx + kx, cy + ry, cx, cy + ry),
            _curve(cx - kx, cy + ry, cx - rx, cy + ky, cx - rx, cy),
            _curve(cx - rx, cy - ky, cx - kx, cy - ry, cx, cy - ry),
            _curve(cx + kx, cy - ry, cx + rx, cy - ky, cx + rx, cy),
            "h",
        )
    )


def _rectangle(node: Any) -> str:
    x, y, w, h = node.x, node.y, node.width, node.height
    rx, ry = min(node.rx or 0, w / 2), min(node.ry or 0, h / 2)
    if not rx or not ry:
        return _pieces([(x, y), (x + w, y), (x + w, y + h), (x, y + h)], closed=True)
    kx, ky = rx * (1 - ROUND), ry * (1 - ROUND)
    return " ".join(
        (
            f"{number(x + rx)} {number(y)} m {number(x + w - rx)} {number(y)} l",
            _curve(x + w - kx, y, x + w, y + ky, x + w, y + ry),
            f"{number(x + w)} {number(y + h - ry)} l",
            _curve(x + w, y + h - ky, x + w - kx, y + h, x + w - rx, y + h),
            f"{number(x + rx)} {number(y + h)} l",
            _curve(x + kx, y + h, x, y + h - ky, x, y + h - ry),
            f"{number(x)} {number(y + ry)} l",
            _curve(x, y + ky, x + kx, y, x + rx, y),
            "h",
        )
    )
