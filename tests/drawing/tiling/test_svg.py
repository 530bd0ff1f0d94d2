"""The outline for machines, as another reader of SVG finds it."""

import io
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner
from svglib.svglib import svg2rlg

from docgen.cli import main
from docgen.drawing.tiling.machine import CutSheet, cut_sheets, template_sheet
from docgen.drawing.tiling.svg import svg
from docgen.geometry.shapes import Edge, Outline
from docgen.piece.records import Face, Template
from docgen.schedules.template_rows import TemplateRow
from docgen.units import Units

ROOT = Path(__file__).resolve().parents[3]
SHELF = ROOT / "examples" / "wall-shelf.yaml"
SPACE = "{http://www.w3.org/2000/svg}"


def row(outline: Outline, holes: tuple[tuple[float, float, float], ...] = (), part: str = "side") -> TemplateRow:
    seen = Template("cut", Face(2, 1), outline, holes=holes)
    return TemplateRow("cut", seen, "top", "", "", "", "", (part,), (1,), 1)


def drawn(made: TemplateRow) -> str:
    return svg(template_sheet("side: cut", made))


def path_of(text: str) -> str:
    found = ElementTree.fromstring(text.encode()).find(f".//{SPACE}path")
    assert found is not None
    return found.attrib["d"]


def test_a_rounded_corner_by_hand() -> None:
    # 100 × 60, the corner at the upper right rounded by 20 about (80, 40); y runs down in SVG.
    outline = Outline(
        (Edge((100.0, 0.0)), Edge((100.0, 40.0)), Edge((80.0, 60.0), (80.0, 40.0)), Edge((0.0, 60.0)), Edge((0.0, 0.0)))
    )
    text = drawn(row(outline, ((30.0, 10.0, 8.0),)))
    assert path_of(text) == "M0,60 L100,60 L100,20 A20,20 0 0 0 80,0 L0,0 L0,60 Z"
    assert '<circle cx="30" cy="50" r="4"/>' in text
    assert 'width="100mm" height="60mm" viewBox="0 0 100 60"' in text


def test_arcs_the_other_way_and_full_circles() -> None:
    # A half circle of 10 about (20, 40), clockwise from (30, 40) through (20, 30): a hollow in the upper edge.
    hollow = Edge((10.0, 40.0), (20.0, 40.0), False)
    sides = [Edge(p) for p in ((40.0, 0.0), (40.0, 40.0), (30.0, 40.0))]
    outline = Outline((*sides, hollow, Edge((0.0, 40.0)), Edge((0.0, 0.0))))
    assert path_of(drawn(row(outline))) == "M0,40 L40,40 L40,0 L30,0 A10,10 0 0 1 10,0 L0,0 L0,40 Z"
    full = path_of(drawn(row(Outline.circle((5.0, -5.0), 5.0))))
    assert full == "M10,5 A5,5 0 0 0 0,5 A5,5 0 0 0 10,5 Z"


def test_keys_are_told_apart() -> None:
    square = Outline.rectangle(0.0, 0.0, 1.0, 1.0)
    found = cut_sheets([row(square), row(square), row(square, part="leg")], [], Units("mm"))
    assert {number: sheet.key for number, sheet in found.items()} == {
        "T1": "side: cut",
        "T2": "side: cut 2",
        "T3": "leg: cut",
    }


def test_names_with_signs_of_xml() -> None:
    text = svg(CutSheet("a < b & c: cut", "", (Outline.rectangle(0.0, 0.0, 1.0, 1.0),)))
    assert ElementTree.fromstring(text.encode()).findtext(f"{SPACE}title") == "a < b & c: cut"


def test_the_command_lists_and_writes(tmp_path: Path) -> None:
    listed = CliRunner().invoke(main, ["outline", str(SHELF)])
    key = "left side: corner radius"
    assert listed.exit_code == 0 and key in [line.split("  ", 1)[1].strip() for line in listed.output.splitlines()]
    out = tmp_path / "corner.svg"
    for _ in range(2):
        assert CliRunner().invoke(main, ["outline", str(SHELF), "--template", key, "-o", str(out)]).exit_code == 0
    text = out.read_text(encoding="utf-8")
    assert CliRunner().invoke(main, ["outline", str(SHELF), "--template", key]).output == text
    assert "A40,40" in text
    size = re.search(r'width="([\d.]+)mm" height="([\d.]+)mm"', text)
    drawing = svg2rlg(io.BytesIO(out.read_bytes()))
    assert size is not None
    assert (drawing.width * 25.4 / 72, drawing.height * 25.4 / 72) == pytest.approx(
        (float(size[1]), float(size[2])), abs=0.01
    )


def test_an_unknown_key_is_told() -> None:
    result = CliRunner().invoke(main, ["outline", str(SHELF), "--template", "left side: corner radios"])
    assert result.exit_code == 2 and "[unknown-template]" in result.output and "corner radius" in result.output
