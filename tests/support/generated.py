"""Boards with dados, grooves, rabbets, holes, slots, bevels and rounded corners, of many sizes, for laws that hold for any part.

As a script: ``python -m tests.support.generated 200`` looks at so many boards on all papers in turn and tells what is
wrong with their part sheets; exit status 1 when something is.
"""

from __future__ import annotations

import io
import random
import sys
import time
from collections.abc import Callable, Iterator
from fractions import Fraction

import pdfplumber

from docgen.drawing import lettering
from docgen.drawing.records import Line, Sheet, Text
from docgen.drawing.views import chords
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.reading.problems import Problems
from docgen.schedules.make import schedules
from docgen.sheets.context import Context
from docgen.sheets.order import sheets
from tests.support.audit import audit_page

PAPERS = ("letter", "a4", "letter-landscape", "a4-landscape", "a3", "tabloid")
METRICS = PacketMetrics()
WORDS = vocabulary()


class Maker:
    """Makes up one board; what it says is text of a project file."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.inch = self.dice.random() < 0.5
        long = self.dice.choice([(40, 150), (150, 400), (400, 900), (900, 2400)])
        self.length = self.some(*long)
        self.width = self.some(20, min(450, float(self.length)))
        self.thick = self.some(6, min(45, float(self.width) * 0.8))
        self.names = iter("ABCDEFGHJK")

    def some(self, low: float, high: float) -> Fraction:
        """Return a length in mm that prints well, or now and then one that does not."""
        value = self.dice.uniform(low, max(low, high))
        if self.inch:
            steps = max(1, round(value / 25.4 * self.dice.choice([8, 16, 32])))
            return Fraction(max(1, round(value / 25.4 * 32)), 32) * Fraction(254, 10) if steps else Fraction(0)
        return Fraction(round(value * 2), 2) if self.dice.random() < 0.3 else Fraction(max(1, round(value)))

    def say(self, value: Fraction) -> str:
        """Return a length as it is written in the file."""
        if not self.inch:
            return f"{float(value):g}"
        inches = value / Fraction(254, 10)
        whole, rest = divmod(inches, 1)
        return f"{whole} {rest}".strip() if rest and whole else str(rest or whole)

    def text(self) -> str:
        """Return the project file."""
        units = "inch" if self.inch else "mm"
        box = f"{{across: [0, {self.say(self.length)}], deep: [0, {self.say(self.width)}], up: [0, {self.say(self.thick)}]}}"
        lines = [
            "docgen: 1",
            "piece: Board",
            f"units: {units}",
            "materials:",
            f"  stock: {{species: black cherry, thickness: {self.say(self.thick)}}}",
            "parts:",
            f"  board: {{of: stock, grain: across, show: top, box: {box}}}",
        ]
        rooms: dict[str, list[str]] = {"operations": [], "holes": [], "edges": []}
        ways: list[tuple[str, Callable[[], str]]] = [
            ("operations", self.dado),
            ("operations", self.dado),
            ("operations", self.groove),
            ("operations", self.rabbet),
            ("holes", self.holes),
            ("holes", self.holes),
            ("holes", self.row),
            ("holes", self.slot),
            ("operations", self.bevel),
            ("operations", self.notch),
            ("edges", self.corner),
            ("edges", self.round_over),
        ]
        for _ in range(self.dice.randint(1, 7)):
            room, way = self.dice.choice(ways)
            rooms[room].append(way())
        for room, said in rooms.items():
            lines += [f"{room}:", *(f"  - {s}" for s in said)] if said else []
        return "\n".join(lines) + "\n"

    def face(self) -> str:
        return self.dice.choice(["top", "bottom"])

    def along(self, margin: float = 0.0) -> Fraction:
        return self.some(margin, float(self.length) - margin)

    def across(self, margin: float = 0.0) -> Fraction:
        return self.some(margin, float(self.width) - margin)

    def dado(self) -> str:
        wide = self.some(3, min(30, float(self.length) / 4))
        start = self.some(0, float(self.length - wide))
        deep = self.some(2, float(self.thick) / 2)
        stop = f", stop: {{front: {self.say(self.some(3, float(self.width) / 3))}}}" if self.dice.random() < 0.4 else ""
        span = f"[{self.say(start)}, {self.say(start + wide)}]"
        return f"dado: {{part: board, face: {self.face()}, run: deep, span: {span}, depth: {self.say(deep)}{stop}}}"

    def groove(self) -> str:
        wide = self.some(3, min(15, float(self.width) / 4))
        start = self.some(0, float(self.width - wide))
        deep = self.some(2, float(self.thick) / 2)
        span = f"[{self.say(start)}, {self.say(start + wide)}]"
        return f"dado: {{part: board, face: {self.face()}, run: across, span: {span}, depth: {self.say(deep)}}}"

    def rabbet(self) -> str:
        side = self.dice.choice(["front", "back", "left", "right"])
        into, on = self.some(2, float(self.thick) / 2), self.some(3, min(25, float(self.width) / 4))
        return f"rabbet: {{part: board, along: [{self.face()} {side}], into: {self.say(into)}, on: {self.say(on)}}}"

    def _mouth(self, wide: Fraction) -> str:
        edge = float(wide) * 0.8 + 1
        return f"{{across: {self.say(self.along(edge))}, deep: {self.say(self.across(edge))}}}"

    def holes(self) -> str:
        wide = self.some(2, min(12, float(self.width) / 4))
        at = ", ".join(self._mouth(wide) for _ in range(self.dice.randint(1, 6)))
        name = next(self.names)
        depth = "" if self.dice.random() < 0.5 else f", depth: {self.say(self.some(2, float(self.thick) * 0.7))}"
        return (
            f"hole: {{part: board, face: {self.face()}, at: [{at}], diameter: {self.say(wide)}{depth}, name: {name}}}"
        )

    def row(self) -> str:
        count = self.dice.randint(3, 12)
        wide = self.some(2, min(8, float(self.width) / 4))
        first = self.some(float(wide) + 1, float(self.length) / 4)
        spacing = self.some(float(wide) + 1, max(float(wide) + 2, (float(self.length) * 0.95 - float(first)) / count))
        at = f"{{across: {self.say(first)}, deep: {self.say(self.across(float(wide) + 1))}}}"
        return (
            f"hole: {{part: board, face: {self.face()}, at: {at}, diameter: {self.say(wide)}, "
            f"depth: {self.say(self.some(2, float(self.thick) * 0.7))}, run: across, "
            f"spacing: {self.say(spacing)}, count: {count}}}"
        )

    def slot(self) -> str:
        wide = self.some(3, min(8, float(self.width) / 5))
        long = wide + self.some(3, min(20, float(self.length) / 5))
        at = f"{{across: {self.say(self.along(float(long)))}, deep: {self.say(self.across(float(wide) + 1))}}}"
        return (
            f"slotted hole: {{part: board, face: {self.face()}, at: {at}, run: across, "
            f"length: {self.say(long)}, width: {self.say(wide)}}}"
        )

    def bevel(self) -> str:
        end, point = self.dice.choice(["left", "right"]), self.dice.choice(["top", "bottom", "front", "back"])
        return f"bevel: {{part: board, end: {end}, long point: {point}, angle: {self.dice.randint(5, 45)} deg}}"

    def notch(self) -> str:
        one, two = self.dice.choice(["left", "right"]), self.dice.choice(["front", "back"])
        a, b = self.some(3, float(self.length) / 5), self.some(3, float(self.width) / 4)
        return f"notch: {{part: board, off: {{{one}: {self.say(a)}, {two}: {self.say(b)}}}}}"

    def corner(self) -> str:
        at = self.dice.choice(["left front", "right front", "left back", "right back"])
        radius = self.some(3, min(float(self.width), float(self.length)) / 4)
        return f"corner radius: {{part: board, face: top, along: [{at}], radius: {self.say(radius)}}}"

    def round_over(self) -> str:
        side = self.dice.choice(["front", "back", "left", "right"])
        return (
            f"round over: {{part: board, along: [top {side}], radius: {self.say(self.some(1, float(self.thick) / 3))}}}"
        )


def boards() -> Iterator[tuple[int, str]]:
    """Yield made-up boards that can be made, each with its seed; what does not go together is passed over."""
    seed = 0
    while True:
        seed += 1
        text = Maker(seed).text()
        try:
            build(read_project("board.yaml", text, WORDS, {}), WORDS)
        except Problems:
            continue
        yield seed, text


def context(text: str, paper: str) -> Context:
    """Return a board ready for its sheets."""
    piece = build(read_project("board.yaml", text, WORDS, {}), WORDS)
    solids = Solids(piece)
    found = kinds(piece, solids)
    return Context(piece, solids, found, schedules(piece, solids, found), (), read_layout(paper), METRICS, "")


def faults(text: str, paper: str) -> list[str]:
    """Return what is wrong with the part sheets of a board: as paper, and against the drawing area."""
    c = context(text, paper)
    pages = sheets(c, ["parts"])
    data = write(pages, layout=c.layout, piece=c.piece, fingerprint="0" * 10)
    out = [fault for sheet in pages for fault in outside(sheet, c)]
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        out += [str(fault) for n, page in enumerate(pdf.pages, 1) for fault in audit_page(n, page)]
    return out


def outside(sheet: Sheet, c: Context) -> Iterator[str]:
    """Yield what leaves the drawing area of its page."""
    area = c.layout.for_size(sheet.size).area
    for r in sheet.records:
        if isinstance(r, Text):
            x0, y0, x1, y1 = lettering.box(r, METRICS).bounds()
            what = r.text
        elif isinstance(r, Line) or chords(r):
            points = [p for chord in chords(r) for p in chord]
            x0, y0 = min(p[0] for p in points), min(p[1] for p in points)
            x1, y1 = max(p[0] for p in points), max(p[1] for p in points)
            what = "a line"
        else:
            continue
        if x0 < area.x - 0.01 or y0 < area.y - 0.01 or x1 > area.right + 0.01 or y1 > area.top + 0.01:
            yield f"{sheet.key}: {what} leaves the drawing area"


def main(count: int) -> int:
    """Look at `count` boards, tell what is wrong, and how long they took."""
    bad = 0
    started = time.perf_counter()
    for n, (seed, text) in enumerate(boards()):
        if n >= count:
            break
        found = faults(text, PAPERS[n % len(PAPERS)])
        if found:
            bad += 1
            print(f"board {seed} on {PAPERS[n % len(PAPERS)]}: {len(found)} faults")
            for fault in found[:4]:
                print(f"  {fault}")
    print(f"{count} boards, {bad} with faults, {time.perf_counter() - started:.0f} s")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 200))
