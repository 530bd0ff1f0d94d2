"""Every hole of a part can be placed from the view that tells its bore, or from the part's hole table."""

from collections.abc import Iterator
from itertools import pairwise

import pytest

from docgen.drawing.dimensions.wanted import Linear
from docgen.drawing.wishes import told_face
from docgen.piece.records import Face, HoleRow, Size, Stage
from docgen.sheets.part_holes import _in_turn, rows, tabled, worth_it
from docgen.sheets.part_view import Subject, wanted_in
from tests.sheets.test_part_sheets import subjects

NEAR = 1e-3  # mm


def unplaced(subject: Subject) -> Iterator[str]:
    """Yield each hole with an axis along which no figure of its view ends at its centre."""
    part = subject.part
    in_table = tabled(part) if worth_it(part) else ()
    subject = subject.with_table() if in_table else subject
    stations = {s.face: s for s in subject.stations(False)}
    for feature in part.features:
        if feature.stage is not Stage.PART or feature in in_table:
            continue
        for row in feature.made.holes:
            station = stations[told_face(feature, row, subject.first)]
            sizes = [z for w in wanted_in(subject, station) if isinstance(w, Linear) for z in w.sizes]
            yield from (f"{part.path}: {row.name or feature.name}, axis {i}" for i in missing(row, sizes))


def missing(row: HoleRow, sizes: list[Size]) -> Iterator[int]:
    """Yield the axes of the face along which a centre of the row is not told."""
    for point in row.points:
        for i in {0, 1, 2} - {row.face.axis}:
            at = float(point[i])
            ends = [float(p[i]) for z in sizes if abs(z.along[i]) > 0.999 for p in (z.start, z.end)]
            if not any(abs(end - at) < NEAR for end in ends):
                yield i


@pytest.mark.parametrize("name", ["sketching-desk", "map-case", "settle", "side-table", "wall-shelf", "splayed-stool"])
def test_every_hole_is_placed_in_the_view_that_tells_it(name: str) -> None:
    assert [said for subject in subjects(name, "letter") for said in unplaced(subject)] == []


def test_the_table_of_holes_runs_by_name_and_tells_a_bore_where_it_changes() -> None:
    (side,) = [s.with_table() for s in subjects("sketching-desk", "letter") if s.part.path == "case.left"]
    names = {Face(axis, end): side.part.word(Face(axis, end)) for axis in range(3) for end in (0, 1)}
    ((_, told),) = rows(side.part, side.plan.faces, side.notes, side.units, names)
    assert [row[0] for row in told] == ["hole", "A1", "A2", "B", "C1", "C2"]
    bores = [row[-1] for row in told[1:]]
    assert bores[1] == "same" and not any(a == b != "same" for a, b in pairwise(bores))
    assert [_in_turn(t) for t in ("A2", "A10", "B", "AA1")] == sorted(_in_turn(t) for t in ("B", "AA1", "A10", "A2"))
