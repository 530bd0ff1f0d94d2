"""Leaders on true-size pages cross no other leader, line or letter that tells something: found from what is drawn alone."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from docgen.drawing.records import Line, Pen, Record, Sheet, Text
from docgen.layout.read import read_layout
from docgen.sheets import templates
from tests.sheets.test_joinery import context
from tests.support.template_leaders import faults, leaders

NAMES = sorted(p.stem for p in (Path(__file__).resolve().parents[2] / "examples").glob("*.yaml"))
LONG = 45.0  # mm: further away one has to look what a label tells


def sheet(*records: Record) -> Sheet:
    return Sheet("template/1", "templates", "T1", (200.0, 200.0), records, framed=False)


def told(foot: tuple[float, float], end: tuple[float, float], text: str) -> tuple[Record, ...]:
    return Line(foot, end, Pen.THIN), Text((end[0] + 0.9, end[1] - 1.2), text)


def test_the_detector_sees_what_a_leader_crosses() -> None:
    one, two = told((10, 10), (30, 10), "front edge"), told((20, 2), (24, 30), "left face")
    assert [(x.told, x.long) for x in leaders(sheet(*one))] == [("front edge", 20.0)]
    assert faults(sheet(*one)) == []
    assert faults(sheet(*one, *two)) == ["'front edge' crosses the leader of 'left face'"]
    for pen, count in ((Pen.THIN, 1), (Pen.DATUM, 1), (Pen.VISIBLE, 0), (Pen.HATCH, 0)):
        assert len(faults(sheet(Line((15, 0), (15, 20), pen), *one))) == count
        assert faults(sheet(Line((10.5, 0), (10.5, 20), pen), *one)) == []  # what it tells
    assert faults(sheet(*one, Text((18, 9), "450", 3.5))) == ["'front edge' runs through '450'"]
    assert leaders(sheet(Line((0, 0), (20, 0), Pen.THIN), Text((60, 60), "caption"))) == []


@pytest.mark.parametrize("name", NAMES)
def test_leaders_of_templates_cross_nothing_that_tells(name: str) -> None:
    for paper in ("letter", "a4", "letter-landscape", "a3"):
        of = replace(context(name, "a4"), layout=read_layout(paper))
        for page in (p for p in templates.make(of, {}) if not p.framed):
            assert (page.title, faults(page)) == (page.title, [])
            assert [x.told for x in leaders(page) if x.long > LONG] == []


def test_the_detector_finds_the_labels_of_a_page() -> None:
    pages = [p for p in templates.make(context("side-table", "a4"), {}) if not p.framed]
    found = {x.told for p in pages for x in leaders(p)}
    assert {"datum: front edge", "datum: left face", "edge of the wood", "150 mm"} <= found
