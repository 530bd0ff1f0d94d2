"""Where figures crowd one place of a long part, an enlarged detail has them, and the view has a ring and a letter."""

import math
from functools import cache

import pytest

from docgen.drawing.crowds import FINE
from docgen.drawing.records import Arc, Pen, Text
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.schedules.make import schedules
from docgen.sheets.context import Context
from docgen.sheets.part_block import LARGER
from docgen.sheets.part_detail import LETTERS, Letters
from docgen.sheets.part_share import Entry
from docgen.sheets.part_view import every_in, wanted_in
from docgen.sheets.parts import packed
from tests.support.benched import benched

LEG = """
docgen: 1
piece: Leg and rail
number: T-1
revision: A
date: 2026-01-01
units: mm
materials:
  boards: {species: white oak, thickness: 40, bought: 45}
  thin: {species: white oak, thickness: 20, bought: 25}
parts:
  leg: {of: boards, grain: up, box: {across: [0, 40], deep: [0, 40], up: [0, LONG]}}
  rail: {of: thin, grain: across, box: {across: [40, 240], deep: [8, 28], up: [LONG - 70, LONG - 10]}}
joints:
  - mortise and tenon: {end: rail, into: leg, thickness: 8, length: 20, shoulder: {top: 7}}
operations:
  - taper: {part: leg, face: front, end: bottom, run: LONG * 0.8, amount: 12}
"""
HOLE = "holes:\n  - hole: {part: rail, face: front, at: {across: 80, up: LONG - 40}, diameter: 6, name: Z}\n"


@cache
def made(long: int, paper: str = "a4", more: str = "") -> tuple[Context, tuple[Entry, ...]]:
    b = benched((LEG + more).replace("LONG", str(long)))
    c = Context(
        b.piece, b.solids, b.kinds, schedules(b.piece, b.solids, b.kinds), (), read_layout(paper), PacketMetrics(), ""
    )
    return c, tuple(s.block for page in packed(c) for s in page.blocks if s.block.kind.first == "leg")


def shown(entry: Entry) -> list[str]:
    return [r.text for r in entry.placed.records if isinstance(r, Text)]


@pytest.mark.parametrize("paper", ["a4", "letter", "a3"])
def test_the_mortise_of_a_long_leg_is_drawn_once_more_and_larger(paper: str) -> None:
    _, entries = made(700, paper)
    (entry,) = [e for e in entries if e.subject.details]
    (detail,) = entry.subject.details
    setting = entry.placed.setting
    assert setting.large is not None
    factor = setting.large[0] / setting.large[1]
    assert LARGER * setting.factor - 1e-9 <= factor <= 1
    assert factor == 1 or detail.least * factor >= FINE
    assert f"Detail {detail.letter}   {setting.large[0]} : {setting.large[1]}" in shown(entry)
    assert detail.letter in shown(entry)
    radii = [r.radius for r in entry.placed.records if isinstance(r, Arc) and r.pen is Pen.THIN]
    assert pytest.approx(detail.radius * setting.factor) in radii
    assert pytest.approx(detail.radius * factor) in radii


def test_a_figure_of_the_detail_stands_there_alone_and_all_that_is_wanted_is_told() -> None:
    _, entries = made(700)
    (entry,) = [e for e in entries if e.subject.details]
    subject, spread = entry.subject, entry.placed.spread
    inside = {p.wanted.key for arranged, _ in spread.large for p in arranged.placed}
    outside = {p.wanted.key for arranged in spread.arranged for p in arranged.placed}
    assert inside == {key for d in subject.details for key in d.keys}
    assert not inside & outside
    stations = subject.stations(entry.placed.setting.upright)
    assert {w.key for s in stations for w in every_in(subject, s)} <= inside | outside
    assert spread.left == ()


def test_all_of_a_detail_lies_in_its_ring_but_for_the_figures() -> None:
    _, entries = made(700)
    (entry,) = [e for e in entries if e.subject.details]
    (detail,), setting = entry.subject.details, entry.placed.setting
    assert setting.large is not None
    r = detail.radius * setting.large[0] / setting.large[1]
    (ring,) = [a for a in entry.placed.records if isinstance(a, Arc) and a.radius == pytest.approx(r)]
    edges = [a for a in entry.placed.records if isinstance(a, Arc) and a.pen is Pen.VISIBLE]
    assert all(math.dist(a.centre, ring.centre) <= ring.radius for a in edges)


def test_a_short_leg_is_large_enough_without() -> None:
    _, entries = made(140)
    assert [e.subject.details for e in entries] == [() for _ in entries]
    assert all(wanted_in(e.subject, s) is every_in(e.subject, s) for e in entries for s in e.subject.stations(False))


def test_letters_run_from_the_end_and_leave_out_what_names_something_else() -> None:
    c, _ = made(140)
    letters = Letters(c.piece)
    assert letters.next(3) == [*LETTERS[:3]]
    assert letters.next(1) == [LETTERS[0]]  # until it is given
    letters.given += 2
    assert letters.next(1) == [LETTERS[2]]
    assert letters.next(len(LETTERS))[-1] == f"{LETTERS[1]}2"


def test_a_letter_is_no_hole_of_the_piece() -> None:
    c, _ = made(140, more=HOLE)
    named = {row.name for p in c.piece.parts for f in p.features for row in f.made.holes}
    assert named == {"Z"}
    assert "Z" not in Letters(c.piece).next(len(LETTERS) - 1)
