"""What the piece taken apart shows: every part away from its neighbours, none wholly hidden without a word about it."""

from __future__ import annotations

from itertools import islice

import numpy as np
import pytest

from docgen.drawing.behind import Behind
from docgen.drawing.records import Text
from docgen.geometry.sight import places
from docgen.layout.read import read_layout
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.project.read import read_project
from docgen.schedules.make import schedules
from docgen.schedules.meetings import blank_corners
from docgen.sheets import exploded
from docgen.sheets.context import Context
from tests.sheets.test_joinery import context
from tests.support.generated import METRICS, WORDS
from tests.support.generated_pieces import pieces
from tests.support.leaders import leaders

SEEDS = (41205, 41211, 41215, 41218, 41219, 41224)  # a box, a mitred frame, a sawhorse, two cabinets, a bench


def seeded(seed: int) -> Context:
    ((_, text),) = islice(pieces(seed), 1)
    piece = build(read_project("piece.yaml", text, WORDS, {}), WORDS)
    solids = Solids(piece)
    found = kinds(piece, solids)
    return Context(piece, solids, found, schedules(piece, solids, found), (), read_layout("a4"), METRICS, "f")


def off(of: Context, one: str, other: str) -> list[float]:
    moves = exploded._scattered(of).moves
    return (np.array(moves[one]) - np.array(moves[other])).tolist()


@pytest.mark.parametrize("seed", SEEDS)
def test_each_part_of_a_made_up_piece_is_seen_or_the_page_says_so(seed: int) -> None:
    of = seeded(seed)
    (sheet,) = exploded.make(of, {})
    said = next((r.text for r in sheet.records if isinstance(r, Text) and r.text.startswith("hidden")), "")
    shown = {one.told for one in leaders(sheet)}
    for mark, _ in exploded._marks(of):
        assert mark in shown or mark in said.partition(":")[2].replace(" ", "").split(",")
    free = places(exploded._scattered(of).items, exploded.VIEW)
    assert all(free[k] for k in range(len(of.piece.parts)))


def test_a_rail_is_lowered_from_under_its_shelf() -> None:
    x, y, z = off(context("wall-shelf", "a4"), "rail", "shelf")
    assert z < -70 and x == y == 0


def test_a_mitred_front_opens() -> None:
    of = context("map-case", "a4")
    assert off(of, "front.left", "front.top")[0] < -50 and off(of, "front.right", "front.bottom")[0] > 50


def test_drawers_come_apart_from_each_other() -> None:
    of = context("seed-chest", "a4")
    assert off(of, "drawer.1.front", "bottom drawer.front")[2] > 40
    assert off(of, "drawer.2.bottom", "drawer.1.bottom")[2] > 40
    assert off(of, "drawer.1.front", "drawer.1.box front")[1] < -40


def test_doors_stand_before_the_case_with_their_beads_off_their_panes() -> None:
    of = context("door-cabinet", "a4")
    for door, inner, outer in (("left door", "right", "left"), ("right door", "left", "right")):
        assert off(of, f"{door}.top rail", "case.shelf 1")[1] < -100
        assert off(of, f"{door}.left bead", f"{door}.pane")[1] > 40
        assert off(of, f"{door}.top bead", f"{door}.{inner} bead")[2] > 40
        assert abs(off(of, f"{door}.{inner} stile", f"{door}.{outer} stile")[0]) > 100
    assert off(of, "right door.left stile", "left door.right stile")[0] > 40


@pytest.mark.parametrize(
    ("name", "paper", "least"),
    [
        ("seed-chest", "letter", 0.25),
        ("door-cabinet", "a4", 0.4),
        ("map-case", "a4", 0.5),
        ("settle", "letter", 0.4),
        ("step-stool", "a4", 0.85),
    ],
)
def test_of_every_part_enough_is_seen(name: str, paper: str, least: float) -> None:
    """The cabinet's lower shelves stood behind a door, the map case's bottom behind the pane, the seed chest's behind a drawer, …"""
    of = context(name, paper)
    moves = exploded._scattered(of).moves
    corners = np.array([blank_corners(p) for p in of.piece.parts])
    hidden = Behind(corners, exploded.VIEW).shares(np.array([moves[p.path] for p in of.piece.parts]))
    assert hidden.max() <= 1 - least
