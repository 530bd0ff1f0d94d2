from dataclasses import replace

import pytest

from docgen.geometry.make import box
from docgen.piece.records import Cut, Feature, Made, Stage
from docgen.piece.solids import Solids, snapped
from docgen.reading.problems import Problems
from tests.piece.desk import HEAD, PARTS, built

CUBIC_INCH = 25.4**3


def test_a_bare_part_is_its_box() -> None:
    assert Solids(built(HEAD + PARTS)).solid("rail").volume == pytest.approx(30 * 3 * 0.75 * CUBIC_INCH)


def test_corners_between_two_tongues_are_empty() -> None:
    text = HEAD + PARTS + (
        "operations:\n"
        "  - tongue: {part: shelf, face: left, length: 1/2, thickness: 1/4}\n"
        "  - tongue: {part: shelf, face: back, length: 1/4, thickness: 1/4}\n"
    )  # fmt: skip
    solid = Solids(built(text)).solid("shelf")
    volume = 34.5 * 14 * 0.75 + 0.5 * 14 * 0.25 + 0.25 * 34.5 * 0.25
    assert solid.volume == pytest.approx(volume * CUBIC_INCH)


def test_the_fat_of_a_tongue_goes_at_the_fitting() -> None:
    text = HEAD + PARTS + (
        "operations:\n  - tongue: {part: shelf, face: left, length: 1/2, thickness: 1/4, flush: bottom, over: 1/64}\n"
    )  # fmt: skip
    solids = Solids(built(text))
    fat = solids.solid("shelf", Stage.PART).volume - solids.solid("shelf", Stage.FITTED).volume
    assert fat == pytest.approx(14 * 0.5 / 64 * CUBIC_INCH)


def test_equal_parts_share_their_solid_and_topology() -> None:
    holes = "holes:\n" + "".join(
        f"  - hole: {{part: {part}, face: top, at: {{across: 4, deep: {deep}}}, from: left, diameter: 1/4}}\n"
        for part, deep in (("rail", 1), ("twin", 31))
    )
    twin = (
        "  twin:\n    of: boards\n    grain: across\n    box: {across: [0, 30], deep: [30, 33], up: [9, 9 + board]}\n"
    )
    solids = Solids(built(HEAD + PARTS + twin + holes))
    assert solids.solid("rail") is solids.solid("twin")
    assert solids.topology("rail") is solids.topology("twin")
    assert solids.solid("rail") is solids.solid("rail", Stage.PART)


def test_a_cut_that_takes_all_is_told_with_part_and_feature() -> None:
    piece = built(HEAD + PARTS)
    everything = Made(cuts=(Cut(box((-10.0, -10.0, -10.0), (9999.0, 999.0, 99.0))),))
    gone = tuple(
        replace(p, features=(Feature("all 1", "all", "the great cut", Stage.PART, everything),))
        if p.path == "rail"
        else p
        for p in piece.parts
    )
    with pytest.raises(Problems) as found:
        Solids(replace(piece, parts=gone)).solid("rail")
    (problem,) = found.value.items
    assert problem.code == "cut-fails" and "rail" in problem.message and "the great cut" in problem.message
    assert problem.where == piece.part("rail").origin.span


def test_noise_of_turns_does_not_part_equal_shapes() -> None:
    one = box((0.0, 0.0, 0.0), (30.0, 20.0, 10.0))
    two = box((1e-13, 0.0, -1e-12), (30.0 + 1e-10, 20.0, 10.0))
    assert snapped(one) == snapped(two)
