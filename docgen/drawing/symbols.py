"""Signs that no font carries reliably, drawn as records: hole symbols, projection, datum, authority marks.

`height` is the height of the text that a sign stands in, `at` the lower left of the sign on the baseline.
Proportions of the hole symbols: circle 1.0 h with a 60° stroke 1.5 h long (drafting symbol set for GD&T), counterbore,
countersink and depth about h tall and up to 2 h wide (from memory). Arrowheads are filled, 15°, as long as the text is high (ISO 129 as taught).
"""

from __future__ import annotations

import math
from collections.abc import Callable

from docgen.drawing.records import Arc, Area, Line, Path, Pen, Point, Record, Text
from docgen.piece.records import Authority

ARROW_ANGLE = 15.0  # degrees between the sides of an arrowhead
ARROW_MOST = 3.0  # mm: heads grow no longer than this, however high the text
SIDE = 0.12  # air left and right of a sign, in text heights

CHARACTERS = {
    "⌀": "diameter",
    "⌴": "counterbore",
    "⌵": "countersink",
    "↧": "depth",
    "□": "square",
    "⊕": "fit",
    "↤": "mate",
    "↹": "measure",
    "⬡": "hardware",
}
"""Characters that `drawing.lettering` sets as signs wherever they stand in a text."""

AUTHORITY = {
    Authority.CUT: "",
    Authority.FIT: "⊕",
    Authority.MATE: "↤",
    Authority.MEASURE: "↹",
    Authority.HARDWARE: "⬡",
}
"""The sign behind a figure that says which figure rules; a figure to be cut to has none."""

AUTHORITY_WORDS = {
    Authority.CUT: "no sign: cut to this figure",
    Authority.FIT: "leave wood on, then fit to its mate",
    Authority.MATE: "mark or drill through the mate",
    Authority.MEASURE: "measure the opening first",
    Authority.HARDWARE: "the hardware's own sheet rules",
}

WIDTHS = {  # of the sign itself, in text heights
    "diameter": 1.0,
    "counterbore": 1.8,
    "countersink": 2.0,
    "depth": 0.7,
    "square": 1.0,
    "fit": 1.0,
    "mate": 1.3,
    "measure": 1.7,
    "hardware": 1.1,
    "third angle": 2.5,
    "first angle": 2.5,
    "projection third": 2.5,
    "projection first": 2.5,
    "datum": 0.9,
    "show face": 1.2,
}


def advance(name: str, height: float) -> float:
    """Return the width in mm that a sign takes in a line of text, air included."""
    return (WIDTHS[name] + 2 * SIDE) * height


def rise(name: str, height: float) -> float:
    """Return how far a sign reaches above the baseline, mm."""
    return 1.15 * height if name == "diameter" else height


def fall(name: str, height: float) -> float:
    """Return how far a sign reaches below the baseline, mm."""
    return 0.15 * height if name == "diameter" else 0.0


def symbol(name: str, at: Point, height: float) -> list[Record]:
    """Return the records of the sign `name` (see `WIDTHS`) with its lower left on the baseline at `at`; KeyError if unknown."""
    x, y = at
    return _DRAWN[name](x, y, height)


def _diameter(x: float, y: float, h: float) -> list[Record]:
    cx, cy = x + h / 2, y + h / 2
    dx, dy = 0.75 * h * math.cos(math.radians(60)), 0.75 * h * math.sin(math.radians(60))
    return [Arc((cx, cy), h / 2, 0, 360, Pen.THIN), Line((cx - dx, cy - dy), (cx + dx, cy + dy), Pen.THIN)]


def _counterbore(x: float, y: float, h: float) -> list[Record]:
    w = 1.8 * h
    return [Path(((x, y + 0.9 * h), (x, y + 0.1 * h), (x + w, y + 0.1 * h), (x + w, y + 0.9 * h)), Pen.THIN)]


def _countersink(x: float, y: float, h: float) -> list[Record]:
    return [Path(((x, y + h), (x + h, y), (x + 2 * h, y + h)), Pen.THIN)]


def _depth(x: float, y: float, h: float) -> list[Record]:
    cx = x + 0.35 * h
    return [
        Line((cx - 0.3 * h, y + h), (cx + 0.3 * h, y + h), Pen.THIN),
        Line((cx, y + h), (cx, y + 0.4 * h), Pen.THIN),
        Area((((cx, y), (cx - 0.22 * h, y + 0.45 * h), (cx + 0.22 * h, y + 0.45 * h)),)),
    ]


def _square(x: float, y: float, h: float) -> list[Record]:
    return [Path(((x, y), (x + h, y), (x + h, y + h), (x, y + h)), Pen.THIN, closed=True)]


def _fit(x: float, y: float, h: float) -> list[Record]:
    cx, cy, r = x + h / 2, y + h / 2, h / 2
    return [
        Arc((cx, cy), r, 0, 360, Pen.THIN),
        Line((cx - r, cy), (cx + r, cy), Pen.THIN),
        Line((cx, cy - r), (cx, cy + r), Pen.THIN),
    ]


def _mate(x: float, y: float, h: float) -> list[Record]:
    cy = y + h / 2
    return [
        Line((x, y), (x, y + h), Pen.VISIBLE),
        Line((x + 0.4 * h, cy), (x + 1.3 * h, cy), Pen.THIN),
        *arrowhead((x, cy), 180, 0.55 * h, 30),
    ]


def _measure(x: float, y: float, h: float) -> list[Record]:
    cy, w = y + h / 2, 1.7 * h
    return [
        Line((x, y), (x, y + h), Pen.THIN),
        Line((x + w, y), (x + w, y + h), Pen.THIN),
        Line((x + 0.4 * h, cy), (x + w - 0.4 * h, cy), Pen.THIN),
        *arrowhead((x, cy), 180, 0.5 * h, 30),
        *arrowhead((x + w, cy), 0, 0.5 * h, 30),
    ]


def _hardware(x: float, y: float, h: float) -> list[Record]:
    cx, cy, r = x + 0.55 * h, y + h / 2, 0.55 * h
    ring = tuple((cx + r * math.cos(math.radians(a)), cy + r * math.sin(math.radians(a))) for a in range(0, 360, 60))
    return [Path(ring, Pen.THIN, closed=True), Arc((cx, cy), 0.22 * h, 0, 360, Pen.THIN)]


def _projection(third: bool) -> Callable[[float, float, float], list[Record]]:
    """Return the drawer of a cut-off cone, small end left, beside its end view (ISO 5456-2, proportions from memory).

    The large end is as high as the text and as the cone is long, the small end half of it. The end view shows the small end: third angle puts it left of the cone, first angle right.
    """

    def draw(x: float, y: float, h: float) -> list[Record]:
        big, small, long = h / 2, h / 4, h
        cy = y + h / 2
        circles, cone = (x + big, x + h + 0.5 * h) if third else (x + long + 0.5 * h + big, x)
        right = max(circles + big, cone + long)
        return [
            Path(
                ((cone, cy - small), (cone, cy + small), (cone + long, cy + big), (cone + long, cy - big)),
                Pen.VISIBLE,
                closed=True,
            ),
            Arc((circles, cy), big, 0, 360, Pen.VISIBLE),
            Arc((circles, cy), small, 0, 360, Pen.VISIBLE),
            Line((x - 0.3 * h, cy), (right + 0.3 * h, cy), Pen.CENTRE),
            Line((circles, cy - big - 0.3 * h), (circles, cy + big + 0.3 * h), Pen.CENTRE),
        ]

    return draw


def _datum(x: float, y: float, h: float) -> list[Record]:
    return [Arc((x + 0.45 * h, y + h / 2), 0.45 * h, 0, 360, Pen.THIN)]


def _show_face(x: float, y: float, h: float) -> list[Record]:
    """Draw the loop of the face mark: a stroke that swings round into a tail, as a pencil makes it."""
    cx, cy, r = x + 0.55 * h, y + 0.68 * h, 0.32 * h
    return [
        Arc((cx, cy), r, -60, 210, Pen.VISIBLE),
        Line(
            (cx + r * math.cos(math.radians(210)), cy + r * math.sin(math.radians(210))), (x + 1.2 * h, y), Pen.VISIBLE
        ),
        Line((cx + r * math.cos(math.radians(-60)), cy + r * math.sin(math.radians(-60))), (x, y), Pen.VISIBLE),
    ]


_DRAWN: dict[str, Callable[[float, float, float], list[Record]]] = {
    "diameter": _diameter,
    "counterbore": _counterbore,
    "countersink": _countersink,
    "depth": _depth,
    "square": _square,
    "fit": _fit,
    "mate": _mate,
    "measure": _measure,
    "hardware": _hardware,
    "third angle": _projection(True),
    "first angle": _projection(False),
    "projection third": _projection(True),
    "projection first": _projection(False),
    "datum": _datum,
    "show face": _show_face,
}


def arrow_length(height: float) -> float:
    """Return the length of the arrowhead that goes with text `height` mm high."""
    return min(ARROW_MOST, height)


def arrowhead(tip: Point, degrees: float, length: float, angle: float = ARROW_ANGLE) -> list[Record]:
    """Return a filled arrowhead with its point at `tip`, pointing in the direction `degrees`."""
    half = length * math.tan(math.radians(angle / 2))
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    back = (tip[0] - length * c, tip[1] - length * s)
    return [Area(((tip, (back[0] - half * s, back[1] + half * c), (back[0] + half * s, back[1] - half * c)),))]


def arrow(start: Point, tip: Point, length: float, pen: Pen = Pen.THIN) -> list[Record]:
    """Return a line from `start` with an arrowhead at `tip`; the line stops inside the head so that the point stays sharp."""
    degrees = math.degrees(math.atan2(tip[1] - start[1], tip[0] - start[0]))
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return [Line(start, (tip[0] - 0.5 * length * c, tip[1] - 0.5 * length * s), pen), *arrowhead(tip, degrees, length)]


def centre_mark(at: Point, radius: float, over: float = 3.0) -> list[Record]:
    """Return the two centre lines of a circle, `over` past it; thin continuous when too short for a chain line."""
    if radius < 1.5:
        over = min(over, 1.2 + radius)
    reach = radius + over
    pen = Pen.CENTRE if 2 * reach >= 14 else Pen.THIN
    x, y = at
    return [Line((x - reach, y), (x + reach, y), pen), Line((x, y - reach), (x, y + reach), pen)]


def balloon_radius(height: float) -> float:
    """Return the radius of the balloon around a number `height` mm high, up to three digits."""
    return 1.25 * height


def balloon(at: Point, number: int | str, height: float) -> list[Record]:
    """Return a part's number, or a letter, in a circle about `at`."""
    small = height if len(str(number)) < 3 else 0.8 * height
    return [
        Arc(at, balloon_radius(height), 0, 360, Pen.THIN),
        Text((at[0], at[1] - small / 2), str(number), small, "middle", bold=True),
    ]


def grain_arrow(at: Point, degrees: float, length: float) -> list[Record]:
    """Return the double-headed arrow along the fibres, about `at` (custom), with open half heads unlike a dimension's."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    half, head = length / 2, min(3.0, length / 5)

    def p(along: float, square: float) -> Point:
        return (at[0] + along * c - square * s, at[1] + along * s + square * c)

    return [
        Line(p(-half, 0), p(half, 0), Pen.THIN),
        Line(p(half, 0), p(half - head, 0.45 * head), Pen.THIN),
        Line(p(-half, 0), p(-half + head, -0.45 * head), Pen.THIN),
    ]


def origin_radius(height: float) -> float:
    """Return the radius of the small circle at the origin of running dimensions, mm."""
    return 0.3 * arrow_length(height) + 0.3


def origin_circle(at: Point, height: float) -> list[Record]:
    """Return the small circle that marks the origin of running dimensions."""
    return [Arc(at, origin_radius(height), 0, 360, Pen.THIN)]


def dot(at: Point, radius: float = 0.55) -> list[Record]:
    """Return a filled dot: the end of a leader inside a face, or a terminator where arrows have no room."""
    ring = tuple(
        (at[0] + radius * math.cos(math.radians(a)), at[1] + radius * math.sin(math.radians(a)))
        for a in range(0, 360, 20)
    )
    return [Area((ring,))]
