"""What stands at a part's views besides lines and figures: the name of each, and the arrow along the grain."""

from __future__ import annotations

from docgen.drawing import symbols
from docgen.drawing.boxes import Box
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.lettering import width
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import Bounds
from docgen.drawing.records import Record, Text
from docgen.drawing.unfold import Station
from docgen.geometry.lines import View
from docgen.piece.model import Part
from docgen.piece.records import Face

GRAIN = 26.0  # mm, length of the grain arrow


def caption(part: Part, station: Station, bounds: Bounds, outline: Bounds, metrics: Metrics) -> Text:
    """Return the view's name under its field, with what is up on it and where it shows: ``right face, top up, show face``."""
    text = f"{part.plain_side(station.face)}, {_upward(part, station.view)} up"
    if station.face == part.show:
        text += ", show face"
    elif part.show is not None and station.face.axis == part.show.axis:
        text += ", show face behind"
    text += _crossed(part, station.view)
    height = 2.5
    half = width(text, height, metrics) / 2
    middle = (outline[0] + outline[2]) / 2
    middle = max(middle, bounds[0] + half) if bounds[2] - bounds[0] >= 2 * half else (bounds[0] + bounds[2]) / 2
    return Text((middle, bounds[1] - 2.0 - height), text, height, "middle")


def _crossed(part: Part, view: View) -> str:
    """Return that what is called the left side lies at the reader's right, as in a view from behind; "" where it does not."""
    axis = max(range(3), key=lambda i: abs(view.right[i]))
    at_right = Face(axis, int(view.right[axis] > 0))
    return f", {part.plain_side(at_right)} at the right" if part.word(at_right) == "left" else ""


def _upward(part: Part, view: View) -> str:
    """Return the word of the side that lies upward on paper: unfolded views may stand on their heads."""
    axis = max(range(3), key=lambda i: abs(view.up[i]))
    return part.word(Face(axis, int(view.up[axis] > 0)))


def grain(engine: Engine, outline: Bounds, upright: bool) -> list[Record]:
    """Return the grain arrow with its word where a view is clear; nothing where there is no room."""
    x0, y0, x1, y1 = outline
    long = (y1 - y0) if upright else (x1 - x0)
    size = min(GRAIN, 0.5 * long)
    if size < 10:
        return []
    angle = 90.0 if upright else 0.0
    for along in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.15, 0.85):
        for across in (0.5, 0.35, 0.65, 0.25, 0.75):
            u, v = (across, along) if upright else (along, across)
            spot = Box(x0 + u * (x1 - x0), y0 + v * (y1 - y0), size / 2 + 1, 3.0, angle)
            low_x, low_y, high_x, high_y = spot.bounds()
            inside = low_x > x0 + 1 and high_x < x1 - 1 and low_y > y0 + 1 and high_y < y1 - 1
            if inside and engine.occupied.free(spot, 0.3):
                engine.occupied.add_box(spot)
                word = Text(spot.point(0.0, -0.2), "grain", 2.5, "middle", angle=angle)
                return [*symbols.grain_arrow(spot.point(0.0, -1.9), angle, size), word]
    return []
