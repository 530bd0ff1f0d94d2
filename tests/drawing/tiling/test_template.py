"""What is written on a template: holes by their names, radii as they were meant; what a guide is cropped to."""

from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.drawing.records import Line, Pen
from docgen.drawing.tiling.crop import Crop
from docgen.drawing.tiling.rounds import place
from docgen.drawing.tiling.template import TemplateArt, features_of
from docgen.geometry.shapes import Edge, Outline
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.piece.records import OTHER_CUT, Face, Template
from docgen.schedules.template_rows import TemplateRow
from docgen.units import Units

INCH = Units("inch", Fraction(1, 32))
HOLES = ((60.0, 20.0, 6.0), (100.0, 45.0, 6.0), (140.0, 20.0, 5.0))
BOARD = Outline.rectangle(0.0, 0.0, 300.0, 60.0)


def row(template: Template) -> TemplateRow:
    sides = ("left end", "right end", "front edge", "back edge")
    return TemplateRow("drill guide", template, "top face", *sides, ("shelf",), (1,), 1, size=(300.0, 60.0))


def written(template: Template, tags: dict[tuple[float, float], str] | None = None) -> list[str]:
    crop = Crop((-10.0, -10.0, 310.0, 70.0))
    art = TemplateArt(row(template), crop, units=INCH, layout=read_layout("letter"), metrics=PacketMetrics(), tags=tags)
    return [label.rows[0].text for label in art.labels()]


def test_each_hole_is_called_by_its_name_and_its_bore() -> None:
    guide = Template("drill guide", Face(2, 1), BOARD, holes=HOLES, guide=True)
    said = written(guide, {place((x, y)): f"A{n}" for n, (x, y, _) in enumerate(HOLES, 1)})
    assert [text.split("  ")[0] for text in said if "⌀" in text] == ["A3", "A1", "A2"]  # the small bore first
    plain = [text for text in written(guide) if "⌀" in text]
    assert len(plain) == 3 and all(text.startswith("⌀") for text in plain)


def test_another_cut_of_the_same_end_is_a_phantom_line() -> None:
    lines = (((200.0, 0.0), (180.0, 60.0), OTHER_CUT), ((60.0, 0.0), (60.0, 60.0), "screw"))
    art = TemplateArt(
        row(Template("end", Face(2, 1), BOARD, lines=lines)),
        Crop((-10.0, -10.0, 310.0, 70.0)), units=INCH, layout=read_layout("letter"), metrics=PacketMetrics(),
    )  # fmt: skip
    assert [r.a[0] for r in art.ink() if isinstance(r, Line) and r.pen is Pen.PHANTOM] == [200.0]


def test_a_guide_is_cropped_to_its_holes_alone() -> None:
    bitten = Outline.polygon([(0.0, 0.0), (300.0, 0.0), (300.0, 50.0), (280.0, 60.0), (0.0, 60.0)])
    guide = Template("drill guide", Face(2, 1), bitten, holes=HOLES, guide=True)
    assert max(box[2] for box in features_of(row(guide))) == 142.5
    assert max(box[2] for box in features_of(row(replace(guide, guide=False)))) == 300.0


@pytest.mark.parametrize(("miss", "said"), [(0.0, "R 1 1⁄4"), (0.002, "R 1 1⁄4"), (0.2, "≈")])
def test_a_radius_found_in_a_solid_is_told_as_it_was_meant(miss: float, said: str) -> None:
    r = 31.75 + miss
    round_corner = Outline(
        (
            Edge((300.0, 0.0)),
            Edge((300.0, 60.0 - r)),
            Edge((300.0 - r, 60.0), (300.0 - r, 60.0 - r)),
            Edge((0.0, 60.0)),
            Edge((0.0, 0.0)),
        )
    )
    (text,) = (t for t in written(Template("end", Face(2, 1), round_corner)) if t.startswith("R "))
    assert said in text and (said == "≈") == ("≈" in text)
