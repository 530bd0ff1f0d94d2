"""A part that is cut at a slant at both ends is told from cut to cut, as a rule finds it on the finished part."""

import math
from dataclasses import replace

import pytest

from docgen.piece.model import Part
from docgen.piece.operations.end_cut import Bevel, EndCut
from docgen.piece.records import OTHER_CUT, Face, Feature, Size, SizeKind, Stage
from tests.piece.operations.trial import board

LONG, THICK = 400, 20


def cut_twice(one: EndCut | Bevel, other: EndCut | Bevel) -> Part:
    """Return the board with two cuts, each worked out beside the other."""
    part = board()
    for _ in range(2):
        made = [Feature(f"{o.word} {n}", o.word, o.label, Stage.PART, o.made(part)) for n, o in enumerate((one, other))]
        part = replace(part, features=tuple(made))
    return part


def lengths(part: Part) -> list[tuple[str, float]]:
    return [(s.label, float(s.value)) for f in part.features for s in f.made.sizes if s.kind is SizeKind.LENGTH]


def spanned(size: Size) -> float:
    return abs(sum((b - a) * c for a, b, c in zip(size.start, size.end, size.along, strict=True)))


def test_mitres_at_both_ends_tell_the_short_side_from_short_point_to_short_point() -> None:
    part = cut_twice(Bevel(Face(0, 0), Face(2, 1)), Bevel(Face(0, 1), Face(2, 1)))
    assert lengths(part) == [("short side", LONG - 2 * THICK)]  # at 45°, each end takes the thickness


def test_bevels_set_back_tell_the_first_from_the_uncut_edge_and_the_second_finished() -> None:
    # 120 wide, each edge set back 5: 110 over both long points, to which it is ripped first, 20 less at each short one
    part = cut_twice(Bevel(Face(1, 0), Face(2, 0), 45, 5), Bevel(Face(1, 1), Face(2, 0), 45, 5))
    assert lengths(part) == [("first cut", 110), ("wide side", 110), ("narrow side", 70)]
    places = [p for f in part.features for p in f.made.settings[0].places if p[2] == "length"]
    assert [float(v) for _, v, _ in places if not isinstance(v, str)] == [110, 110, 70]
    assert "uncut" in places[0][0] and "uncut" not in places[1][0]


def test_cuts_that_lean_alike_tell_the_edge_once() -> None:
    fall = 120 * math.tan(math.radians(14))
    part = cut_twice(EndCut(Face(0, 0), 0, (14, 0)), EndCut(Face(0, 1), 400 - fall, (14, 0)))
    ((label, value),) = lengths(part)
    assert label == "edge" and value == pytest.approx(400 - fall)
    # One figure stands for both cuts: it is told from which end, and that it is the one cut first.
    told = [name for f in part.features for name, _, kind in f.made.settings[0].places if kind == "length"]
    assert any("from the uncut" in name for name in told) and told[-1].endswith(" end, cut first")


def test_an_end_beside_a_square_cut_is_measured_from_it() -> None:
    part = cut_twice(Bevel(Face(0, 0), Face(2, 1)), EndCut(Face(0, 1), 390))
    told = dict(lengths(part))
    assert told["long side"] == 390 and told["short side"] == 390 - THICK and told[""] == 390


@pytest.mark.parametrize("inset", [0, 5])
def test_what_is_told_is_what_its_points_span(inset: int) -> None:
    part = cut_twice(Bevel(Face(0, 0), Face(2, 1), 30, inset), Bevel(Face(0, 1), Face(2, 0), 40, inset))
    for f in part.features:
        for s in f.made.sizes:
            if s.kind is SizeKind.LENGTH:
                assert spanned(s) == pytest.approx(float(s.value))


def test_a_long_point_that_another_cut_takes_away_is_told_nowhere() -> None:
    """The level top of a leg takes the tip of its steep end: a stop set to that tip would stand in the air."""
    steep = EndCut(Face(0, 1), 400 - 120 * math.tan(math.radians(60)), (60, 0), label="steep end")
    level = EndCut(Face(0, 1), 350, (-16, 0), label="level top")
    foot = EndCut(Face(0, 0), 120 * math.tan(math.radians(16)), (-16, 0), label="foot")
    part = board()
    for _ in range(2):
        made = [Feature(o.label, o.word, o.label, Stage.PART, o.made(part)) for o in (steep, level, foot)]
        part = replace(part, features=tuple(made))
    for feature in part.features[:2]:
        said = [name for s in feature.made.settings for name, _, _ in s.places]
        assert said and not any(name.startswith("long") for name in said)
        assert [m.label for m in feature.made.marks] == [f"{feature.title}, short point"]
    # the two planes meet at the real tip: 400 − (120 − w) tan 60° = 350 − w tan 16°
    w = (350 - 400 + 120 * math.tan(math.radians(60))) / (math.tan(math.radians(60)) + math.tan(math.radians(16)))
    tip = 350 - w * math.tan(math.radians(16))
    (angle,) = [s for s in part.features[0].made.sizes if s.kind is SizeKind.ANGLE]
    assert (angle.start[0], angle.start[1]) == pytest.approx((tip, w))
    assert sum(bool(set(s.parameters) & {"at"}) for s in part.features[0].made.sizes) == 1


def test_a_template_shows_the_other_cut_of_its_end() -> None:
    steep = EndCut(Face(0, 1), 400 - 120 * math.tan(math.radians(60)), (60, 0), label="steep end")
    part = cut_twice(steep, EndCut(Face(0, 1), 350, (-16, 0), label="level top"))
    ((a, b, text),) = part.features[0].made.templates[0].lines
    assert text == OTHER_CUT
    assert (a, b) == (pytest.approx((350, 0)), pytest.approx((350 - 120 * math.tan(math.radians(16)), 120)))
