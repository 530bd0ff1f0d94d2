"""Leaders of balloons cross nothing but outlines, and are short: found from what is drawn alone."""

from __future__ import annotations

from itertools import islice

import pytest

from docgen.drawing import symbols
from docgen.drawing.records import Line, Pen, Record, Sheet, Text
from docgen.layout.read import read_layout
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.project.read import read_project
from docgen.schedules.make import schedules
from docgen.sheets import exploded, views
from docgen.sheets.context import Context
from docgen.sheets.views_draft import Drafts
from docgen.sheets.whole import Whole
from tests.sheets.test_joinery import EXAMPLES, context, pages
from tests.support.generated import METRICS, WORDS
from tests.support.generated_pieces import pieces
from tests.support.leaders import faults, leaders, outlines

LONG, OVER = 45.0, 4  # mm, outlines: further away one has to look where a leader comes from
NAMES = sorted(p.stem for p in EXAMPLES.glob("*.yaml"))
Leader = tuple[tuple[float, float], tuple[float, float], str]


def sheet(*told: Leader, more: tuple[Record, ...] = ()) -> Sheet:
    """Return a sheet with balloons, each (foot, middle, number) with its leader to the right or up."""
    out: list[Record] = [*more]
    for foot, (x, y), number in told:
        end = (x - 4.375, y) if foot[1] == y else (x, y - 4.375)
        out += [Line(foot, end, Pen.THIN), *symbols.dot(foot), *symbols.balloon((x, y), number, 3.5)]
    return Sheet("views", "views", "General views", (200.0, 200.0), tuple(out))


def test_the_detector_sees_what_a_leader_crosses() -> None:
    one, two = ((10.0, 10.0), (40.0, 10.0), "1"), ((20.0, 2.0), (20.0, 30.0), "2")
    assert [x.long for x in leaders(sheet(one))] == [25.625]
    assert faults(sheet(one)) == []
    assert faults(sheet(one, two)) == ["1 crosses the leader of 2"]
    assert faults(sheet(one, ((5.0, 10.0), (80.0, 10.0), "3"))) == ["3 runs through balloon 1", "3 runs through '1'"]
    for pen, told in ((Pen.THIN, 1), (Pen.CENTRE, 1), (Pen.VISIBLE, 0)):
        across = sheet(one, more=(Line((15.0, 0.0), (15.0, 20.0), pen),))
        assert len(faults(across)) == told
        assert outlines(across, leaders(across)[0]) == 1 - told
    assert faults(sheet(one, more=(Text((20.0, 9.0), "450", 3.5),))) == ["1 runs through '450'"]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", NAMES)
def test_leaders_of_general_views_cross_outlines_alone(name: str, paper: str) -> None:
    of = context(name, paper)
    for page in views.make(of, {}):
        assert leaders(page) and faults(page) == []
        assert [x.told for x in leaders(page) if x.long > LONG or outlines(page, x) > OVER] == []


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", NAMES)
def test_leaders_of_the_piece_taken_apart_cross_no_way_and_no_other(name: str, paper: str) -> None:
    (page,) = pages("exploded", name, paper)
    assert leaders(page) and faults(page, thin_edges=True) == []


@pytest.mark.parametrize("seed", [40303, 40340, 40371])
def test_leaders_of_made_up_pieces_cross_outlines_alone(seed: int) -> None:
    ((_, text),) = islice(pieces(seed), 1)
    piece = build(read_project("piece.yaml", text, WORDS, {}), WORDS)
    solids = Solids(piece)
    found = kinds(piece, solids)
    lists = schedules(piece, solids, found)
    for paper in ("letter", "a4-landscape"):
        of = Context(piece, solids, found, lists, (), read_layout(paper), METRICS, "f")
        for page in views.make(of, {}):
            assert faults(page) == []
        for page in exploded.make(of, {}):
            assert faults(page, thin_edges=True) == []


def test_what_is_bare_is_told_from_what_is_a_part() -> None:
    """Between the legs of a settle the paper is bare; on its seat and its ends it is not."""
    of = context("settle")
    whole = Whole(of.piece, of.solids)
    front = next(d for d in Drafts(whole, of).take(1 / 12, 3.5) if d.name == "front")
    bare, (x0, y0, x1, y1) = views._bare(whole, front), front.engine.outline
    middle = (x0 + x1) / 2
    assert bare((middle, y0 + 6.0)) and bare((x0 - 5.0, y0)) and bare((x0 + 1.0, y1 - 1.0))
    assert not bare((middle, y0 + 16.0)) and not bare((x0 + 1.0, y0 + 6.0))
