"""What is set into joints, as solids: it fills the cuts that are made for it, is counted as the lists count it, is mirrored."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path

import pytest

from docgen.geometry.solids import blank, common, overlap
from docgen.piece.loose import box, extent, grain, solid
from docgen.piece.model import Loose, Piece
from tests.piece.joints.making import Trial, trial
from tests.sheets.test_joinery import context

EXAMPLES = sorted(p.stem for p in (Path(__file__).resolve().parents[3] / "examples").glob("*.yaml"))

CORNER = """
parts:
  side: {of: board, grain: up, box: {across: [0, 20], deep: [0, 200], up: [0, 300]}}
  top: {of: board, grain: across, box: {across: [0, 400], deep: [0, 200], up: [280, 300]}}
joints:
  - mitre: {parts: [side, top], %s}
"""
EDGES = """
parts:
  one: {of: board, grain: across, box: {across: [0, 500], deep: [0, 100], up: [0, 20]}}
  two: {of: board, grain: across, box: {across: [0, 500], deep: [%s, 202], up: [0, 20]}}
joints:
  - spline: {boards: [one, two], thickness: 6, depth: 10%s}
"""


def things(piece: Piece) -> list[Loose]:
    return [x for j in piece.joints for x in j.loose]


@cache
def example(name: str) -> Piece:
    return context(name).piece


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_is_in_the_wood_of_a_part(name: str) -> None:
    of = context(name)
    for thing in things(of.piece):
        here = solid(thing.shape).moved(thing.frame)
        for part in of.piece.parts:
            if thing.driven and part.path == thing.parts[0]:
                continue  # a wedge pushes the wood of its tenon aside
            assert overlap(here, of.solids.solid(part.path).moved(part.frame)) is None, (thing.what, part.path)


@pytest.mark.parametrize("name", EXAMPLES)
def test_as_many_stand_in_the_piece_as_the_lists_tell(name: str) -> None:
    """Counted from the figures of the joints and from the items, by what each list calls them."""
    piece, lists = example(name), context(name).lists
    counts: dict[str, int] = {}
    for thing in things(piece):
        counts[thing.what] = counts.get(thing.what, 0) + 1
    told = {what: sum(r.count for r in lists.hardware if r.what.startswith(what)) for what in counts}
    assert counts == told
    made = ("loose tenon", "spline", "key", "dowel", "wedge", "plug", "button")
    assert {r.what for r in lists.hardware if r.what.startswith(made)} == {
        r.what for r in lists.hardware if any(r.what.startswith(what) for what in counts)
    }


def sunk(of: Trial, thing: Loose) -> dict[str, float]:
    """Return how much of a thing lies in the blank of each part, mm³."""
    here = solid(thing.shape).moved(thing.frame)
    return {p.path: common(here, blank((0, 0, 0), p.size).moved(p.frame)) for p in of.piece.parts}


def test_a_key_fills_its_slot_and_ends_flush() -> None:
    case = trial(CORNER % "keys: {count: 2, thickness: 3, depth: 12}")
    keys = things(case.piece)
    assert [x.what for x in keys] == ["key", "key"] and all(x.shows for x in keys)
    for x in keys:
        assert solid(x.shape).volume == pytest.approx(3 * 12 * 12)
        low, high = solid(x.shape).moved(x.frame).bounds
        assert low[0] == pytest.approx(0) and high[2] == pytest.approx(300)
    # a slot takes half of the triangle out of each board: with the keys nothing is missing but the mitre
    assert case.volume("side") + case.volume("top") == pytest.approx(
        300 * 200 * 20 + 400 * 200 * 20 - 20 * 20 * 200 - sum(solid(x.shape).volume for x in keys), rel=1e-6
    )
    assert abs(grain(keys[0])[0]) == pytest.approx(math.sqrt(0.5))  # across the corner


def test_a_spline_in_a_mitre_leaves_its_clearance() -> None:
    case = trial(CORNER % "spline: {thickness: 4, depth: 6, clearance: 1}")
    (x,) = things(case.piece)
    assert (x.clear, extent(x), x.shows, x.sheet) == (0.5, 11, True, True)
    assert solid(x.shape).volume == pytest.approx(4 * 11 * 200)
    free = case.volume("side") + case.volume("top") + solid(x.shape).volume
    whole = trial(CORNER.replace(", %s", "")).volume("side") * 1 + trial(CORNER.replace(", %s", "")).volume("top")
    assert whole - free == pytest.approx(4 * 1 * 200, rel=1e-4)  # half a millimetre under either edge


@pytest.mark.parametrize(("start", "more", "volume"), [(100, "", 6 * 19 * 500), (102, ", stopped: 30", 6 * 21 * 434)])
def test_a_spline_between_boards_bridges_their_gap(start: int, more: str, volume: float) -> None:
    boards = trial(EDGES % (start, more))
    (x,) = things(boards.piece)
    assert solid(x.shape).volume == pytest.approx(volume)
    here = solid(x.shape).moved(x.frame)
    for path in ("one", "two"):
        part = boards.part(path)
        assert overlap(here, boards.solids.solid(path).moved(part.frame)) is None
        assert sunk(boards, x)[path] == pytest.approx(6 * 9.5 * (500 if not more else 434))
    assert abs(grain(x)[1]) == 1  # across the joint


def test_the_other_hand_has_its_tenon_where_its_mortises_are() -> None:
    body = """
parts:
  post: {of: board, grain: up, box: {across: [0, 30], deep: [0, 60], up: [0, 400]}}
  rail: {of: board, grain: across, box: {across: [30, 200], deep: [15, 45], up: [200, 260]}}
mirrors:
  other post: {of: post, about: {across: 250}}
  other rail: {of: rail, about: {across: 250}, pairs: [[post, other post]]}
joints:
  - loose tenon: {end: rail, into: post, thickness: 10, width: 40, depth: 18, wall: 5}
"""
    of = trial(body, thick="30")
    one, image = things(of.piece)
    assert image.parts == ("other rail", "other post")
    assert box(image) == pytest.approx(box(one)) if not image.clear else image.clear == one.clear
    here = solid(image.shape).moved(image.frame)
    low, high = here.bounds
    assert (low[0], high[0]) == pytest.approx((500 - 30 - 17, 500 - 30 + 17))
    for path in ("other rail", "other post"):
        part = of.part(path)
        assert overlap(here, of.solids.solid(path).moved(part.frame)) is None
        assert {f.name for f in part.features} & {name for owner, name in image.sits if owner == path}
