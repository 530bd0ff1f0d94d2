"""Hand-made pieces whose templates and sticks take several pages, and what another reader finds in their pages."""

import io
import math
from fractions import Fraction

import pdfplumber

from docgen.geometry.shapes import Edge, Frame, Outline
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from docgen.piece.model import Kind, Material, Part, Piece
from docgen.piece.records import Face, Feature, HoleRow, Made, Mark, Purpose, Stage, Template
from docgen.piece.solids import Solids
from docgen.schedules.rows import Schedules
from docgen.schedules.sticks import sticks
from docgen.sheets.context import Context
from docgen.units import Units

MM = 72 / 25.4
INCH = Units("inch", Fraction(1, 32))
WORDS = (
    ("bottom", Face(0, 0)),
    ("top", Face(0, 1)),
    ("front", Face(1, 0)),
    ("back", Face(1, 1)),
    ("left", Face(2, 0)),
    ("right", Face(2, 1)),
)
BOARDS = Material("boards", Fraction(20), species="black cherry")

CENTRE = (450.0 + 280 / math.hypot(900, 280) * 1200, 240.0 + 900 / math.hypot(900, 280) * 1200)
RADIUS = math.hypot(900.0 - CENTRE[0], 100.0 - CENTRE[1])
HOLES = tuple((60.0 + 130 * k, 40.0, 8.0) for k in range(7))
CURVE = Outline((Edge((900.0, 0.0)), Edge((900.0, 100.0)), Edge((0.0, 380.0), CENTRE, False), Edge((0.0, 0.0))))


def part(path: str, number: int, size: tuple[int, int, int], made: Made, name: str = "cut 1") -> Part:
    feature = Feature(name, "cut", "cut", Stage.PART, made)
    length, width, thick = (Fraction(s) for s in size)
    return Part(path, number, BOARDS, (length, width, thick), Frame(), WORDS, "up", (feature,))


def apron() -> Part:
    template = Template(
        "curve",
        Face(2, 1),
        CURVE,
        holes=HOLES,
        datum=(((0.0, 0.0), (900.0, 0.0)),),
        grain=0.0,
        notes=("test piece first",),
    )
    return part("apron", 1, (900, 400, 20), Made(templates=(template,)))


def side(path: str, number: int, face: Face) -> Part:
    """A bookcase side, 900 long: dadoes 18 wide from 80, 420 and 760, holes on the other face every 32 from 100."""
    marks = [Mark(Fraction(80 + 340 * k + d), w, "dado", face) for k in range(3) for d, w in ((0, -1), (18, 1))]
    other = Face(2, 1 - face.side)
    points = tuple((Fraction(100 + 32 * k), Fraction(37), Fraction(0)) for k in range(5))
    hole = HoleRow("A", Purpose.PLAIN, other, points, (0.0, 0.0, 1.0), Fraction(5), "5 mm", Fraction(12))
    return part(path, number, (900, 280, 18), Made(marks=tuple(marks), holes=(hole,)))


def context(parts: tuple[Part, ...], kinds: tuple[Kind, ...], layout: str, units: Units | None = None) -> Context:
    piece = Piece("Bench", "B-1", "A", "2026-03-02", "", units or Units(), "third angle", "", (), (), parts)
    lists = Schedules((), (), (), (), sticks(piece, kinds), (), (), ())
    return Context(piece, Solids(piece), kinds, lists, (), read_layout(layout), PacketMetrics(), "0123456789")


def pdf(sheets, made: Context) -> bytes:
    return write(sheets, layout=made.layout, piece=made.piece, fingerprint="0123456789")


def strokes(data: bytes):
    """Return for each page its straight pieces and its curves' points and boxes, in mm from the lower left.

    One path of the file may hold several curves.
    """
    out = []
    with pdfplumber.open(io.BytesIO(data)) as book:
        for page in book.pages:
            tall = float(page.height)
            lines = [
                tuple((x / MM, (tall - y) / MM) for x, y in line["pts"]) for line in page.lines if len(line["pts"]) == 2
            ]
            curves = []
            for curve in page.curves:
                for step in curve["path"]:
                    if step[0] == "m":
                        curves.append([])
                    if len(step) > 1:
                        x, y = step[-1]
                        curves[-1].append((x / MM, (tall - y) / MM))
            out.append((lines, curves))
    return out


def mark_centres(lines) -> list[tuple[float, float]]:
    """Return the middles of match marks: two diagonals of one length that halve each other."""
    diagonals = {}
    wide, flat = 8.0, 8.0 * math.tan(math.radians(30))
    for (ax, ay), (bx, by) in lines:
        spans = sorted((abs(bx - ax), abs(by - ay)))
        if abs(spans[0] - flat) < 0.01 and abs(spans[1] - wide) < 0.01:
            key = (round((ax + bx) / 2, 2), round((ay + by) / 2, 2))
            diagonals.setdefault(key, []).append(((ax + bx) / 2, (ay + by) / 2))
    return sorted(v[0] for v in diagonals.values() if len(v) == 2)
