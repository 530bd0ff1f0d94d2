"""Pieces made by hand for the tests of lists and checks: parts from boxes in the piece's axes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from docgen.geometry.shapes import Frame, Vec
from docgen.piece.model import FACE_WORDS, Material, Part, Piece
from docgen.piece.records import Face, Feature, Made, Stage
from docgen.trade.density import sheet, wood
from docgen.units import Units

AXES = ("across", "deep", "up")
CHERRY = Material("cherry", Fraction(20), species="black cherry", bought="4/4", density=wood("black cherry").density)
PLY = Material("ply", Fraction(12), sheet="plywood, birch", bought="12 mm", density=sheet("plywood, birch"))
GLASS = Material("pane", Fraction(4), sheet="float glass", density=sheet("float glass"))
MM = Units("mm", Fraction(1, 10))
INCH = Units("inch", Fraction(1, 32))
STAGES = (Stage.PART, Stage.GLUED, Stage.FITTED)


def part(
    path: str,
    box: Sequence[tuple[float, float]],
    grain: str = "up",
    *,
    number: int = 1,
    material: Material = CHERRY,
    features: tuple[Feature, ...] = (),
    frame: Frame | None = None,
    **more: object,
) -> Part:
    """Return a part that fills `box` (across, deep, up), grain along one axis, thin along the smaller of the others.

    `frame` turns the part further, in the piece's axes.
    """
    along = AXES.index(grain)
    wide, thin = sorted((a for a in range(3) if a != along), key=lambda a: box[a][0] - box[a][1])
    columns = [[0.0] * 3 for _ in range(3)]
    columns[0][along], columns[1][wide] = 1.0, 1.0
    columns[2] = _cross(columns[0], columns[1])
    flipped = columns[2][thin] < 0
    origin = [float(box[a][0]) for a in range(3)]
    if flipped:
        origin[thin] = float(box[thin][1])
    axes = {along: 0, wide: 1, thin: 2}
    words = []
    for word, (axis, side) in FACE_WORDS.items():
        own = axes[axis]
        words.append((word, Face(own, 1 - side if own == 2 and flipped else side)))
    rest = Frame(tuple(tuple(columns[c][r] for c in range(3)) for r in range(3)), tuple(origin))  # type: ignore[arg-type]
    size = tuple(Fraction(box[a][1]) - Fraction(box[a][0]) for a in (along, wide, thin))
    return Part(
        path,
        number,
        material,
        size,  # type: ignore[arg-type]
        frame.after(rest) if frame else rest,
        tuple(words),
        grain,
        features,
        turned=frame is not None,
        **more,  # type: ignore[arg-type]
    )


def _cross(a: list[float], b: list[float]) -> list[float]:
    return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]


def feature(
    word: str = "dado", made: Made | None = None, *, stage: Stage = Stage.PART, title: str = "", **more: object
) -> Feature:
    """Return a feature with these records."""
    return Feature(f"{word} 1", word, title or word, stage, made or Made(), **more)  # type: ignore[arg-type]


def piece(*parts: Part, units: Units = MM, **more: object) -> Piece:
    """Return a piece of these parts."""
    said = {
        "title": "Trial", "number": "T-1", "revision": "A", "date": "", "author": "", "units": units,
        "projection": "first angle", "paper": "", "notes": (), "sizes": (), "parts": parts,
    }  # fmt: skip
    return Piece(**(said | more))  # type: ignore[arg-type]


def seen(of: Piece, path: str, point: Vec) -> Vec:
    """Return a point of a part in the piece's axes."""
    return of.part(path).frame.point(point)
