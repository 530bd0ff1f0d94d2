"""Weight, centre of gravity and tipping of whole examples against an independent CAD kernel with true curves."""

from pathlib import Path

import pytest

import docgen
from docgen.checks.subject import Subject
from docgen.checks.tipping import check
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules
from docgen.trade.stability import centre_of_gravity, tipping_over
from tests.support.kernel import centre, kernel_blank, kernel_cut, placed, volume

EXAMPLES = Path(docgen.__file__).resolve().parents[1] / "examples"


def subject(name: str) -> Subject:
    text = (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")
    piece = build(read_project(name, text, vocabulary(), {}), vocabulary())
    solids = Solids(piece)
    same = kinds(piece, solids)
    return Subject(piece, solids, tuple(same), schedules(piece, solids, same))


@pytest.mark.parametrize("name", ["side-table", "bookcase", "wall-shelf"])
def test_weight_centre_and_tipping(name: str) -> None:
    of = subject(name)
    masses, ours = [], []
    for part in of.piece.parts:
        (low, high), shapes = of.solids.key(part.path)
        shape = placed(kernel_cut(kernel_blank(low, high), shapes), part.frame)
        per = part.material.density
        assert per is not None
        masses.append((volume(shape) * 1e-9 * per, centre(shape)))
        ours.append((of.weight(part), of.placed(part.path).centroid))
    mass, middle = centre_of_gravity(masses)
    mine, own = centre_of_gravity(ours)  # type: ignore[arg-type]
    assert mine == pytest.approx(mass, rel=1e-4)
    assert own == pytest.approx(middle, abs=0.05)
    if of.piece.stands == "wall":
        assert list(check(of)) == []
        return
    (told,) = check(of)
    figures = {n: v for n, v, _ in told.figures}
    points = [p for part in of.piece.parts for p in of.mesh(part.path).triangles.reshape(-1, 3).tolist() if p[2] <= 1.0]
    tip = tipping_over(middle, [(x, y) for x, y, _ in points])
    assert figures["weight"] == pytest.approx(mass, rel=1e-4)
    assert figures["centre of gravity, up"] == pytest.approx(middle[2], abs=0.05)
    assert figures["tips at"] == pytest.approx(tip.angle, abs=0.01)
