"""Drawings for machines as another program reads them: closed, true arcs, layers, millimetres, the same bytes."""

import io
import itertools
import math
import os
import subprocess
import sys
from pathlib import Path

import ezdxf
import pytest
from click.testing import CliRunner
from ezdxf import units as dxf_units
from ezdxf.path import make_path

from docgen.cli import main
from docgen.drawing.tiling.dxf import dxf
from docgen.drawing.tiling.machine import CutSheet, cut_sheets, gauge_sheet, words_at
from docgen.geometry.outlines import area, flatten, length
from docgen.geometry.shapes import Edge, Outline
from docgen.schedules.template_rows import Gauge
from docgen.units import Units

DESK = Path(__file__).resolve().parents[3] / "examples" / "sketching-desk.yaml"
# A half circle of 10 hollowed out of the upper edge of 40 × 40, clockwise about (20, 40).
HOLLOW = Outline(
    (
        Edge((40.0, 0.0)),
        Edge((40.0, 40.0)),
        Edge((30.0, 40.0)),
        Edge((10.0, 40.0), (20.0, 40.0), False),
        Edge((0.0, 40.0)),
        Edge((0.0, 0.0)),
    )
)


def read(sheet: CutSheet):
    document = ezdxf.read(io.StringIO(dxf(sheet)))
    assert not document.audit().has_errors
    return document


def test_outline_holes_and_openings_are_found_on_their_layers() -> None:
    sheet = CutSheet(
        "k",
        "",
        (HOLLOW, Outline.circle((20.0, 12.0), 4.0)),
        ((5.0, 6.0, 3.0),),
        (((0.0, 20.0), (40.0, 20.0)),),
        ("side",),
    )
    document = read(sheet)
    assert document.units == dxf_units.MM
    space = document.modelspace()
    (line,) = space.query('LWPOLYLINE[layer=="CUT"]')
    assert line.closed
    path = make_path(line)
    points = [(p.x, p.y) for p in path.flattening(0.001)]
    assert min(math.dist(p, (20.0, 30.0)) for p in points) < 0.05  # the bottom of the hollow
    shoelace = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True)) / 2
    assert shoelace == pytest.approx(area(HOLLOW), abs=0.05)
    (opening,) = space.query('CIRCLE[layer=="CUT"]')
    assert (opening.dxf.center.x, opening.dxf.center.y, opening.dxf.radius) == pytest.approx((20.0, 12.0, 4.0))
    (hole,) = space.query('CIRCLE[layer=="HOLE"]')
    assert (hole.dxf.center.x, hole.dxf.center.y, hole.dxf.radius) == pytest.approx((5.0, 6.0, 1.5))
    assert len(space.query('LINE[layer=="CENTRE"]')) == 2
    assert len(space.query('LINE[layer=="ENGRAVE"]')) == 1
    assert [t.dxf.text for t in space.query('TEXT[layer=="ENGRAVE"]')] == ["side"]


def test_a_gauge_is_a_triangle_with_the_angle() -> None:
    document = read(gauge_sheet("angle gauge 14°", Gauge(14.0, ("leg: foot",)), Units("mm")))
    (line,) = document.modelspace().query("LWPOLYLINE")
    assert [float(c) for p in line.get_points("xy") for c in p][:4] == [
        150.0,
        150.0 * math.tan(math.radians(14)),
        0.0,
        0.0,
    ]


def test_the_same_text_each_time_whatever_the_process(tmp_path: Path) -> None:
    sheet = CutSheet("k", "", (HOLLOW,), words=("side",))
    assert dxf(sheet) == dxf(sheet)
    code = (
        "import sys; from docgen.drawing.tiling.dxf import dxf; from docgen.drawing.tiling.machine import CutSheet; "
        "from docgen.geometry.shapes import Outline; "
        "sys.stdout.write(dxf(CutSheet('k', '', (Outline.rectangle(0.0, 0.0, 9.0, 9.0),), words=('side',))))"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": str(seed)},
            capture_output=True,
            check=True,
        ).stdout
        for seed in (1, 2, 3)
    }
    assert len(told) == 1 and b"$TDCREATE" in told.pop()


def test_words_stand_within_the_outline() -> None:
    for outline in (HOLLOW, Outline.rectangle(0.0, 0.0, 300.0, 12.0)):
        sheet = CutSheet("k", "", (outline,), words=("corner radius", "left side", "top face, this side up"))
        x0, y0, x1, y1 = sheet.box
        for (x, y), size in words_at(sheet, 5.0):
            assert x0 < x < x1 and y0 < y < y + size < y1


def test_every_drawing_of_the_desk_comes_back_as_it_went(tmp_path: Path) -> None:
    listed = CliRunner().invoke(main, ["outline", str(DESK)]).output.splitlines()
    assert {"left cheek: left face", "angle gauge 14°"} <= {line.split(maxsplit=1)[1] for line in listed}
    out = tmp_path / "cheek.dxf"
    result = CliRunner().invoke(main, ["outline", str(DESK), "--template", listed[1], "-o", str(out)])
    assert result.exit_code == 0, result.output
    space = ezdxf.readfile(out).modelspace()
    assert len(space.query('LWPOLYLINE[layer=="CUT"]')) == 1


def test_an_ending_that_is_neither_is_told(tmp_path: Path) -> None:
    result = CliRunner().invoke(
        main, ["outline", str(DESK), "--template", "angle gauge 14°", "-o", str(tmp_path / "a.png")]
    )
    assert result.exit_code == 2 and "[outline-form]" in result.output


def test_the_length_of_a_path_is_kept() -> None:
    sheets = cut_sheets([], [Gauge(30.0, ("a: b",))], Units("inch"))
    (sheet,) = sheets.values()
    (line,) = read(sheet).modelspace().query("LWPOLYLINE")
    points = [(p.x, p.y) for p in make_path(line).flattening(0.01)]
    assert sum(math.dist(a, b) for a, b in itertools.pairwise(points)) == pytest.approx(length(sheet.cuts[0]))
    assert len(flatten(sheet.cuts[0])) == 3
