import math
from pathlib import Path

import pytest

from docgen.geometry.outlines import area
from docgen.geometry.svg_path import UPRIGHT
from docgen.piece.build import build
from docgen.piece.faults import Fault
from docgen.piece.model import Piece
from docgen.piece.operations.outline import DrawnOutline, Lines, _followed
from docgen.piece.records import Face
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.reading.problems import Problems
from tests.piece.operations.trial import board, made, proven, taken

TOP = Face(2, 1)
SHAPE = "M0 0 H100 V30 C100 60 60 40 50 60 S0 50 0 30 Z M20 20 H40 V30 H20 Z"


def lines(data: str = SHAPE, along: int = 0) -> Lines:
    outer, holes = _followed(data, UPRIGHT)
    high = max(e.end[1] for e in outer.edges)
    return Lines(outer, holes, along, high)


def test_an_outline_leaves_its_area() -> None:
    shape = DrawnOutline(TOP, (40, 10), 150, lines())
    left = area(lines().outline) * 150**2 - 30 * 15  # the opening is 20 by 10 in 100
    assert taken(shape, board()) == pytest.approx((400 * 120 - left) * 20, rel=1e-4)
    proven(shape, board(), derived=["outline, in all"])


def test_setups_and_template() -> None:
    answer = made(DrawnOutline(TOP, (0, 0), 150, lines()), board())
    assert [s.machine for s in answer.settings] == ["band saw", "router", "jigsaw"]
    assert [c.key for c in answer.cautions] == ["band saw", "router", "bearing-guided bit", "jigsaw"]
    (template,) = answer.templates
    assert template.whole and not template.radii and len(template.openings) == 1
    assert {tuple(sorted(line)) for line in template.datum} == {((0, 0), (150, 0)), ((0, 0), (0, 45))}


def test_an_outline_larger_than_its_part() -> None:
    with pytest.raises(Fault) as fault:
        DrawnOutline(TOP, (40, 10), 361, lines()).made(board())
    assert fault.value.code == "outside-part"


HEAD = """docgen: 1
piece: Trial
units: mm
materials:
  boards: {species: black cherry, thickness: 20}
parts:
  side: {of: boards, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
edges:
"""
DRAWING = '<svg xmlns="http://www.w3.org/2000/svg">\n<path d="M0 0 H100 V-150 L0 -60 Z"/>\n</svg>'


def built(folder: Path, text: str) -> Piece:
    words = vocabulary()
    return build(read_project(str(folder / "piece.yaml"), text, words, {}), words)


@pytest.mark.parametrize(
    ("face", "front_is_high"),
    [("left", True), ("right", False)],  # seen from the left the front lies at the right hand
)
def test_a_drawing_lies_as_the_face_is_seen(tmp_path: Path, face: str, front_is_high: bool) -> None:
    (tmp_path / "end.svg").write_text(DRAWING, encoding="utf-8")
    piece = built(tmp_path, f"{HEAD}  - outline: {{part: side, face: {face}, svg: end.svg, width: 200}}\n")
    part = piece.part("side")
    solid = Solids(piece).solid("side")
    assert solid.volume == pytest.approx((120 + 300) / 2 * 200 * 20)

    def up_at(deep: float) -> bool:
        return solid.contains(part.frame.inverse().point((10, deep, 250)))

    assert up_at(5) == front_is_high
    assert up_at(195) != front_is_high
    assert dict(piece.beside) == {"end.svg": DRAWING}


def test_where_the_lower_left_corner_lies(tmp_path: Path) -> None:
    said = 'outline: {part: side, face: right, path: "M0 0H100V-100H0Z", width: 50, at: {deep: 30, up: 40}}'
    piece = built(tmp_path, f"{HEAD}  - {said}\n")
    part = piece.part("side")
    low, high = Solids(piece).solid("side").bounds
    ends = [part.frame.point(p) for p in (low, high)]
    assert sorted((ends[0][1], ends[1][1])) == pytest.approx([30, 80])
    assert sorted((ends[0][2], ends[1][2])) == pytest.approx([40, 90])
    said = said.replace("face: right", "face: left")  # its lower left corner now lies at the back
    piece = built(tmp_path, f"{HEAD}  - {said.replace('deep: 30', 'deep: 100')}\n")
    low, high = Solids(piece).solid("side").bounds
    part = piece.part("side")
    assert sorted(part.frame.point(p)[1] for p in (low, high)) == pytest.approx([50, 100])


@pytest.mark.parametrize(
    ("drawing", "code", "line"),
    [
        ("<svg><path d='M0 0 L 10 10'/></svg>", "path-unreadable", 1),
        ("<svg>\n<path d='M0 0 L 10 10 L 0 10 L 10 0 Z'/></svg>", "path-unreadable", 2),
        ("<svg>\n<path d='M0 0H1V1H0ZM5 5h1v1h-1z'/></svg>", "path-unreadable", 2),
        ("<svg>\n<g transform='turn(3)'><path d='M0 0H1V1H0Z'/></g></svg>", "svg-unreadable", 2),
        ("<svg>\n<rect/></svg>", "svg-unreadable", 2),
    ],
)
def test_a_bad_drawing_is_told_at_its_place(tmp_path: Path, drawing: str, code: str, line: int) -> None:
    (tmp_path / "end.svg").write_text(drawing, encoding="utf-8")
    with pytest.raises(Problems) as caught:
        built(tmp_path, f"{HEAD}  - outline: {{part: side, face: left, svg: end.svg, width: 200}}\n")
    (problem,) = caught.value.items
    assert (problem.code, problem.where.line) == (code, line)
    assert problem.where.file.endswith("end.svg")


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("svg: ../end.svg", "beside-outside"),
        ("svg: none.svg", "beside-unreadable"),
        ('path: "M0 0 H1"', "path-unreadable"),
        ('path: "M0 0H1V1Z", svg: end.svg', "outline-words"),
        ("label: x", "outline-words"),
        ('path: "M0 0H1V3H0Z"', "outside-part"),
    ],
)
def test_a_bad_statement_is_told_in_the_project(tmp_path: Path, said: str, code: str) -> None:
    with pytest.raises(Problems) as caught:
        built(tmp_path, f"{HEAD}  - outline: {{part: side, face: left, {said}, width: 150}}\n")
    assert {p.code for p in caught.value.items} == {code}
    assert all(p.where.file.endswith("piece.yaml") and p.where.line == 9 for p in caught.value.items)


def test_arcs_of_a_drawing_stay_arcs() -> None:
    outer, _ = _followed("M -50 0 A 50 50 0 0 1 50 0 A 50 50 0 0 1 -50 0 Z", UPRIGHT)
    assert area(outer) == pytest.approx(math.pi / 4, rel=1e-9)
