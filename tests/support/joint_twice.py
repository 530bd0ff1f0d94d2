"""What a section through a joint says twice, found from its figures as they are drawn: a text between two lines.

Each figure is an edge between two levels; so are half of a width and what is told of the middle of one. A ring of edges says
something twice, unless one of them stands in brackets; so do two figures between the same lines, and one text at two places.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from docgen.drawing.dimensions.wanted import Linear
from docgen.drawing.wording import Notes
from docgen.sheets.joint_cut import CutView
from docgen.sheets.joint_sizes import wanted
from docgen.units import Units
from tests.support.twice import BRACKETS, COUNT, FAT
from tests.support.ways import way

NEAR = 0.03  # mm in the wood
MIDDLE = re.compile(r"\b(?:centre|middle)\b")


@dataclass(frozen=True)
class Figure:
    """A figure of a section: its ends along its line, and whether one lies in a middle or stands in brackets."""

    text: str
    way: tuple[float, float]
    low: float
    high: float
    middle: bool

    @property
    def reference(self) -> bool:
        return BRACKETS.search(self.text) is not None


def figures(cut: CutView, units: Units) -> list[Figure]:
    """Return the lengths of a section, each along its line."""
    notes = Notes(units)
    every = [w for w in wanted(cut, notes) if isinstance(w, Linear)]
    remarks = dict(line.split(" ", 1) for line in notes.lines())
    out = []
    for w in every:
        x, y = w.along
        sign = 1.0 if (round(x, 6), round(y, 6)) > (0.0, 0.0) else -1.0
        way = (round(sign * x, 3) + 0.0, round(sign * y, 3) + 0.0)
        ends = sorted(sign * (p[0] * x + p[1] * y) for p in (w.a, w.b))
        told = " ".join([w.text, *(text for letter, text in remarks.items() if letter in w.text)])
        out.append(Figure(w.text, way, ends[0], ends[1], MIDDLE.search(told) is not None))
    return out


def told_twice(cut: CutView, units: Units) -> list[str]:
    """Return what a section says twice, in words."""
    ways: dict[tuple[float, float], list[Figure]] = {}
    for figure in figures(cut, units):
        ways.setdefault(figure.way, []).append(figure)
    return sorted({text for own in ways.values() for text in (*_rings(own), *_doubles(own))})


def _doubles(own: list[Figure]) -> Iterator[str]:
    for n, a in enumerate(own):
        for b in own[n + 1 :]:
            named = re.search(r"[a-z]{3}", a.text) is not None
            if named and COUNT.sub("", a.text) == COUNT.sub("", b.text):
                yield f"{a.text!r} stands twice"
            elif a.middle and b.middle and a.text == b.text and _touch(a, b):
                yield f"{a.text!r} from both sides"


def _touch(a: Figure, b: Figure) -> bool:
    return any(abs(p - q) < NEAR for p in (a.low, a.high) for q in (b.low, b.high))


def _rings(own: list[Figure]) -> Iterator[str]:
    plain = [f for f in own if not f.reference]
    graph: dict[int, list[tuple[int, str]]] = {}

    def note(a: float, b: float, text: str) -> None:
        for p, q in ((a, b), (b, a)):
            graph.setdefault(round(p / NEAR), []).append((round(q / NEAR), text))

    for f in sorted(plain, key=lambda f: (FAT not in f.text, f.middle, f.high - f.low, f.text)):
        ring = way(graph, round(f.low / NEAR), round(f.high / NEAR)) or []
        if ring:
            yield f"{f.text!r} closes a ring with {', '.join(map(repr, dict.fromkeys(ring)))}"
        note(f.low, f.high, f.text)
        middle = (f.low + f.high) / 2
        if any(m.middle and min(abs(m.low - middle), abs(m.high - middle)) < NEAR for m in own):
            note(f.low, middle, f.text)
            note(middle, f.high, f.text)
