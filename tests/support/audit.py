"""Look at a packet as paper: what lies on what, what is too small, what is cut off.

Works on what pdfplumber reads out of the finished file, so it shares no code with the writer.
Run as a script: ``python tests/support/audit.py PACKET.pdf``; exit status 1 when something is found.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

import pdfplumber

CAP = 0.66  # capital height of the packet's font over its size
MM = 72 / 25.4
FIGURE = 0.636  # height of its lowest figure
LEAST_POINTS = 1.8 * MM / FIGURE - 0.05
LEAST_EDGE = 4 * MM
CHORDS = 12  # of one piece of a curve

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Fault:
    page: int
    kind: str
    text: str
    at: tuple[float, float]  # mm from the page's lower left corner

    def __str__(self) -> str:
        return f"page {self.page}: {self.kind} at {self.at[0]:.0f},{self.at[1]:.0f} mm: {self.text}"


def points(char: dict[str, Any]) -> float:
    """Return the type size; for turned text the reader's box lies on its side."""
    a, b, *_ = char["matrix"]
    return float(char["x1"] - char["x0"]) if abs(b) > abs(a) else float(char["size"])


def char_box(char: dict[str, Any]) -> Box:
    """Return the box of a capital standing where the character stands, in points."""
    a, b, c, d, e, f = char["matrix"]
    along, rise = float(char["adv"]), CAP * points(char)
    scale = (a * a + b * b) ** 0.5
    ux, uy, vx, vy = a / scale, b / scale, c / scale, d / scale
    xs = [e, e + ux * along, e + vx * rise, e + ux * along + vx * rise]
    ys = [f, f + uy * along, f + vy * rise, f + uy * along + vy * rise]
    return min(xs), min(ys), max(xs), max(ys)


def runs(page: Any) -> list[tuple[str, Box, float, list[Box]]]:
    """Return the page's words with their capital boxes and sizes, and the boxes of their characters.

    A stacked fraction comes out as one word: a line may run between its characters, not through one.
    """
    out = []
    for word in page.extract_words(
        return_chars=True, keep_blank_chars=False, x_tolerance=1, y_tolerance=1, use_text_flow=True
    ):
        boxes = [char_box(c) for c in word["chars"]]
        size = min(points(c) for c in word["chars"])
        out.append(
            (
                word["text"],
                (
                    min(b[0] for b in boxes),
                    min(b[1] for b in boxes),
                    max(b[2] for b in boxes),
                    max(b[3] for b in boxes),
                ),
                size,
                boxes,
            )
        )
    return out


def segments(page: Any) -> Iterator[tuple[float, float, float, float]]:
    """Yield the straight pieces of all dark strokes in points, y up."""
    height = float(page.height)
    for line in [*page.lines, *page.curves, *page.rects]:
        if not line.get("stroke") or light(line.get("stroking_color")):
            continue
        points = [(x, height - y) for x, y in followed(line)]
        for (x0, y0), (x1, y1) in pairwise(points):
            yield x0, y0, x1, y1


def followed(line: dict[str, Any]) -> list[tuple[float, float]]:
    """Return points along a stroke: curves in short chords, since what joins their ends lies elsewhere."""
    out: list[tuple[float, float]] = []
    for command, *points in line.get("path") or ():
        if command == "c":
            (x0, y0), (x1, y1), (x2, y2), (x3, y3) = out[-1], *points
            for k in range(1, CHORDS + 1):
                t, u = k / CHORDS, 1 - k / CHORDS
                out.append(
                    (
                        u**3 * x0 + 3 * u * u * t * x1 + 3 * u * t * t * x2 + t**3 * x3,
                        u**3 * y0 + 3 * u * u * t * y1 + 3 * u * t * t * y2 + t**3 * y3,
                    )
                )
        else:
            out += points or out[:1]
    return out or list(line["pts"])


def light(colour: Any) -> bool:
    """Return True for a grey lighter than three quarters."""
    if colour is None:
        return False
    values = colour if isinstance(colour, (tuple, list)) else (colour,)
    return len(values) in (1, 3) and min(float(v) for v in values) > 0.75


def inside(segment: tuple[float, float, float, float], box: Box) -> float:
    """Return the length of a segment within a box."""
    x0, y0, x1, y1 = segment
    dx, dy = x1 - x0, y1 - y0
    low, high = 0.0, 1.0
    for p, q in ((-dx, x0 - box[0]), (dx, box[2] - x0), (-dy, y0 - box[1]), (dy, box[3] - y0)):
        if p == 0:
            if q < 0:
                return 0.0
        elif p < 0:
            low = max(low, q / p)
        else:
            high = min(high, q / p)
    return max(0.0, high - low) * float((dx * dx + dy * dy) ** 0.5)


Segment = tuple[float, float, float, float]
BAND = 12.0  # points


class Strokes:
    """Segments by bands of the page, so that those near a box are found without a look at all of them."""

    def __init__(self, lines: list[Segment]) -> None:
        self.bands: dict[int, list[Segment]] = {}
        for s in lines:
            for n in range(int(min(s[1], s[3]) // BAND), int(max(s[1], s[3]) // BAND) + 1):
                self.bands.setdefault(n, []).append(s)

    def near(self, box: Box) -> list[Segment]:
        """Return the segments whose bounds meet the box."""
        found = [s for n in range(int(box[1] // BAND), int(box[3] // BAND) + 1) for s in self.bands.get(n, ())]
        return [
            s
            for s in dict.fromkeys(found)
            if min(s[0], s[2]) < box[2]
            and max(s[0], s[2]) > box[0]
            and min(s[1], s[3]) < box[3]
            and max(s[1], s[3]) > box[1]
        ]


def shrunk(box: Box, by: float) -> Box:
    return box[0] + by, box[1] + by, box[2] - by, box[3] - by


def audit(path: str | Path) -> list[Fault]:
    """Return everything wrong that can be told from the paper alone."""
    faults: list[Fault] = []
    with pdfplumber.open(path) as pdf:
        for number, page in enumerate(pdf.pages, 1):
            faults += audit_page(number, page)
    return faults


def audit_page(number: int, page: Any) -> Iterator[Fault]:
    words = runs(page)
    lines = list(segments(page))
    strokes = Strokes(lines)
    if not words and not lines:
        yield Fault(number, "blank", "nothing on the page", (0, 0))
    for text, box, size, characters in words:
        at = (box[0] / MM, box[1] / MM)
        if size < LEAST_POINTS:
            yield Fault(number, "small", f"{text!r} is {size:.1f} pt", at)
        if min(box[0], box[1], float(page.width) - box[2], float(page.height) - box[3]) < LEAST_EDGE:
            yield Fault(number, "margin", f"{text!r} is too close to the paper's edge", at)
        close = strokes.near(box)
        if any(inside(segment, shrunk(c, 0.5)) > 1.5 for c in characters for segment in close):
            yield Fault(number, "struck", f"a line runs through {text!r}", at)
    words.sort(key=lambda w: w[1])
    for i, (text, box, _, _) in enumerate(words):
        a = shrunk(box, 0.4)
        for other, box2, _, _ in words[i + 1 :]:
            b = shrunk(box2, 0.4)
            if b[0] >= a[2]:
                break
            if min(a[3], b[3]) > max(a[1], b[1]):
                yield Fault(number, "overlap", f"{text!r} and {other!r}", (box[0] / MM, box[1] / MM))


def main() -> int:
    found = [fault for path in sys.argv[1:] for fault in audit(path)]
    for fault in found[:60]:
        print(fault)
    print(f"{len(found)} faults")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
