"""Which way a router goes, judged by geometry: with its face's outward normal n and its way d the left of the way is n × d.

A bit turns clockwise, seen from above the router: the wood of an open edge lies on the left, a straightedge too, a fence's edge
on the right. Common practice.
"""

import re
from collections.abc import Iterator
from fractions import Fraction

import numpy as np
import pytest

from docgen.geometry.inside import holds
from docgen.geometry.shapes import Extrusion, Frame, Outline, Vec
from docgen.piece.model import Part, Piece
from docgen.piece.operations.dado import Dado
from docgen.piece.operations.rabbet import Rabbet
from docgen.piece.records import Cut, Face, Feature, Made, Setting, Travel
from docgen.schedules.feeds import BACKED, CLAMPED, EITHER, faces, feed
from docgen.schedules.guides import FENCE, REACH
from docgen.schedules.led import led_places, led_values
from docgen.schedules.machining import SIDE_BY_SIDE, passes, values
from docgen.schedules.rows import SetupRow, Values
from docgen.trade.cutters import WOOD_LEFT
from tests.support.pieces import feature, part, piece
from tests.support.steps import example

EXAMPLES = [
    "bookcase",
    "door-cabinet",
    "dovetailed-box",
    "map-case",
    "seed-chest",
    "settle",
    "side-table",
    "sketching-desk",
    "splayed-stool",
    "step-stool",
    "tool-tote",
    "wall-shelf",
]
WAYS = (
    (re.compile(r"from the (.+?) to the ([^;,\n]+)"), (-1, 1)),
    (re.compile(r"in at the ([^;,\n]+)"), (-1,)),
    (re.compile(r"out at the ([^;,\n]+)"), (1,)),
    (re.compile(r"at the stop by the (.+?) and run"), (-1,)),
)
Use = tuple[Piece, Part, Feature, Setting, Travel]


def out(face: Face) -> np.ndarray:
    """Return the normal that points out of a face, part axes."""
    return np.eye(3)[face.axis] * (1 if face.side else -1)


def named(of: Part, word: str) -> Face:
    """Return the side of a part that is called so."""
    return next(f for f in (Face(a, s) for a in range(3) for s in (0, 1)) if of.plain_side(f) == word)


def way(of: Part, said: str) -> np.ndarray | None:
    """Return the way that is said, part axes; None where it is said otherwise, with the wood on the left."""
    for pattern, signs in WAYS:
        if found := pattern.search(said):
            ways = [out(named(of, word)) * sign for word, sign in zip(found.groups(), signs, strict=True)]
            assert all((w == ways[0]).all() for w in ways)
            return ways[0]
    return None


def uses(name: str) -> Iterator[Use]:
    """Yield every cut of an example that a router held by hand runs through or along."""
    of, _ = example(name)
    for one in of.parts:
        for cut in one.features:
            for setting in cut.made.settings:
                if setting.travel is not None and setting.machine == "router" and not setting.feed:
                    yield of, one, cut, setting, setting.travel


@pytest.mark.parametrize("name", EXAMPLES)
def test_on_an_open_edge_the_wood_lies_on_the_left_on_each_face(name: str) -> None:
    for of, one, cut, _, run in uses(name):
        if run.edge is None:
            continue
        said = feed(of, one, cut, run)
        d = None if run.also else way(one, said)
        if d is None:
            assert said.startswith((WOOD_LEFT, EITHER)) or said.endswith(WOOD_LEFT), (one.called, said)
            assert said.startswith(EITHER) is bool(run.also)
        else:
            assert np.array_equal(np.cross(out(run.face), d), -out(run.edge)), (one.called, cut.title, said)


def test_what_becomes_of_a_shoulders_exit_is_told_for_the_edge_at_which_each_face_has_it() -> None:
    found = 0
    for name in EXAMPLES:
        for of, one, cut, _, run in uses(name):
            if not run.also or run.edge is None:
                continue
            found += 1
            said = feed(of, one, cut, run)
            for at in faces(one, run):
                d = np.cross(-out(run.edge), out(at.face))  # the wood, −e, is n × d
                assert np.array_equal(np.cross(out(at.face), d), -out(run.edge))
                side = Face(run.along, int(d[run.along] > 0))
                fate = re.search(f"; at the {one.plain_side(side)} ([^;]+)", said)
                backed = BACKED in (fate[1] if fate else said)
                assert backed is not covered(of, one, at, side), (one.called, said)
    assert found > 20


def covered(of: Piece, one: Part, run: Travel, side: Face) -> bool:
    """Return whether a part that does not move lies against the exit of a run through the middle of its shoulder."""
    assert run.edge is not None
    at = [float(v) for v in run.at]
    at[side.axis] = float(one.span(side.axis)[1]) + 0.5 if side.side else float(one.span(side.axis)[0]) - 0.5
    at[run.face.axis] += float(run.deep) / 2 * (-1 if run.face.side else 1)
    at[run.edge.axis] += -0.5 if run.edge.side else 0.5
    world = one.frame.point((at[0], at[1], at[2]))
    drawers = [d for d in of.drawers if one.path in d.parts]
    for other in of.parts:
        near = other.frame.inverse().point(world)
        fills = all(float(other.span(i)[0]) <= near[i] <= float(other.span(i)[1]) for i in range(3))
        same = [d for d in of.drawers if other.path in d.parts] == drawers and other.group == one.group
        if fills and same and other.path != one.path:
            return True
    return False


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_fence_rides_on_an_edge_on_the_right_that_is_there_and_in_reach(name: str) -> None:
    for of, one, cut, setting, run in uses(name):
        said = feed(of, one, cut, run)
        edge = re.search("fence on the ([^;\n]+)", said)
        if edge is None:
            assert run.edge is not None or run.along != 0 or not run.wide, (one.called, said)
            continue
        e = named(one, edge[1])
        d = way(one, said)
        assert d is not None, (one.called, said)
        assert np.array_equal(np.cross(out(run.face), d), -out(e)), (one.called, cut.title, said)
        (told,) = (v for n, v, _ in led_values(one, cut, setting) if n == FENCE)
        low = run.at[e.axis] - run.wide / 2
        assert told == (one.size[e.axis] - low - run.wide if e.side else low) and told <= REACH
        assert not any(holds(c.shape, at) for c in sawn(one, cut) for at in beside(one, run, e)), (one.called, said)


def sawn(one: Part, cut: Feature) -> list[Cut]:
    """Return what the saws take of a part before anything is routed."""
    saws = {"table saw", "band saw", "jigsaw"}
    sawn_ = (f for f in one.features if f is not cut and saws & {s.machine for s in f.made.settings if not s.late})
    return [c for f in sawn_ for c in f.made.cuts]


def beside(one: Part, run: Travel, edge: Face) -> Iterator[Vec]:
    """Yield points in the wood of an edge, level with the middle of a run and short of its ends."""
    low, high = (float(v) for v in one.span(run.along))
    start, stop = float(low if run.start is None else run.start), float(high if run.stop is None else run.stop)
    for share in (0.3, 0.5, 0.7):
        at = [float(v) / 2 for v in one.size]
        at[run.along] = start + (stop - start) * share
        at[edge.axis] = float(one.size[edge.axis]) - 1 if edge.side else 1.0
        yield (at[0], at[1], at[2])


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_wall_that_is_told_across_a_part_is_the_one_at_the_straightedge_on_the_left(name: str) -> None:
    for of, one, cut, setting, run in uses(name):
        if run.edge is not None or run.along == 0 or not run.wide:
            continue
        said = feed(of, one, cut, run)
        check_wall(one, run, way(one, said), led_places(of, one, cut, setting))


def check_wall(one: Part, run: Travel, d: np.ndarray | None, places: Values) -> None:
    assert d is not None
    beside_ = 3 - run.face.axis - run.along
    left = np.cross(out(run.face), d)[beside_]
    assert abs(left) == 1
    (name, value) = next((n, v) for n, v, _ in places if n.startswith(("near wall", "near side", "far wall")))
    assert not isinstance(value, str)
    high = name.endswith(one.side(Face(beside_, 1)))
    assert high or name.endswith(one.side(Face(beside_, 0)))
    told = one.size[beside_] - value if high else value
    assert float(told) == pytest.approx(float(run.at[beside_] + Fraction(run.wide) / 2 * int(left)), abs=1e-6), (
        name,
        d,
    )


def board(*cuts: Feature, wide: int = 300) -> Part:
    """Return an upright side, 20 thick and 700 long; its right face is the high one."""
    return part("a", ((0, 20), (0, wide), (0, 700)), features=cuts)


def routed(of: Part, cut: Dado | Rabbet, title: str = "dado") -> tuple[Feature, Setting, Travel]:
    made = cut.made(of)
    assert made.settings[0].travel is not None
    return feature(title, made, title=title), made.settings[0], made.settings[0].travel


@pytest.mark.parametrize("covered", ["front", "back", "neither"])
def test_a_dado_right_through_comes_out_where_it_is_covered_and_the_wall_follows(covered: str) -> None:
    cuts = []
    for face in (Face(2, 0), Face(2, 1)):
        bare = board()
        dado, setting, run = routed(bare, Dado(face, 1, 200, 220, 6))
        edges = {"front": [Face(1, 0)], "back": [Face(1, 1)], "neither": []}[covered]
        rabbets = [routed(bare, Rabbet(face, e, 8, 6), "rabbet")[0] for e in edges]
        of = board(dado, *rabbets)
        said = feed(piece(of), of, dado, run)
        assert (f"to the {covered} edge" in said and BACKED not in said) if edges else BACKED in said
        places = led_places(piece(of), of, dado, setting)
        check_wall(of, run, way(of, said), places)
        cuts.append(next(v for n, v, _ in places if "wall" in n))
    # The same wall on both faces where nothing asks for one exit; else the two hands have one each.
    assert cuts == [200, 200] if covered == "neither" else sorted(cuts) == [200, 220]


@pytest.mark.parametrize(
    "wide, low, edge, figure",
    [(390, 350, "back edge", 20), (420, 199, "front edge", 199), (420, 201, "back edge", 199), (600, 290, "", 290)],
)
def test_no_fence_is_told_farther_from_its_edge_than_one_reaches(wide: int, low: int, edge: str, figure: int) -> None:
    # 20 wide; a fence reaches 200 mm: common practice
    bare = board(wide=wide)
    groove, setting, run = routed(bare, Dado(Face(2, 1), 0, low, low + 20, 6))
    of = board(groove, wide=wide)
    said, told = feed(piece(of), of, groove, run), led_values(of, groove, setting)
    d = way(of, said)
    assert d is not None
    if edge:
        assert said.endswith(f"fence on the {edge}") and (FENCE, figure, "length") in told
        return
    assert said.endswith(CLAMPED) and not any(n == FENCE for n, _, _ in told)
    places = led_places(piece(of), of, groove, setting)
    check_wall(of, run, d, places)
    assert ("near wall from the front edge", figure, "length") in places


def test_no_fence_rides_and_nothing_is_measured_where_a_notch_took_the_edge() -> None:
    # the front edge is gone from 240 up, 200 deep: a groove above rides on the back edge, a stop is told from there
    notch = feature("notch", Made(cuts=(Cut(Extrusion(Outline.rectangle(240, -1, 701, 200), Frame(), -1, 21)),)))
    bare = part("a", ((0, 20), (0, 400), (0, 700)))
    groove, setting, run = routed(bare, Dado(Face(2, 1), 0, 353, 375, 7, start=333, stop=660))
    dado, across, over = routed(bare, Dado(Face(2, 1), 1, 425, 447, 7, start=215))
    of = part("a", ((0, 20), (0, 400), (0, 700)), features=(notch, groove, dado))
    assert feed(piece(of), of, groove, run).endswith("fence on the back edge")
    assert (FENCE, 25, "length") in led_values(of, groove, setting)
    assert ("rim of the cutter stops from the back edge", 185, "length") in led_places(piece(of), of, dado, across)
    whole = part("a", ((0, 20), (0, 400), (0, 700)), features=(groove, dado))
    assert ("rim of the cutter stops from the front edge", 215, "length") in led_places(
        piece(whole), whole, dado, across
    )
    assert over.near == Face(0, 0)


def routers(name: str) -> list[SetupRow]:
    return [row for row in example(name)[1].setups if row.machine.startswith("router")]


@pytest.mark.parametrize("name", EXAMPLES)
def test_passes_are_spoken_of_only_where_there_are_several(name: str) -> None:
    for row in routers(name):
        count = next((v for n, v, _ in row.values if n == "passes"), 0)
        spoken = any("in passes" in run.feed for run in row.runs)
        assert not spoken or (not isinstance(count, str) and count > 1), row.what


def beside_each_other(of: Piece, one: Part, setting: Setting) -> int:
    """Return how many runs lie beside each other, as the set-up says it."""
    told = next((v for n, v, _ in values(of, one, setting) if n.startswith(SIDE_BY_SIDE)), 1)
    assert isinstance(told, int)
    return told


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_pass_takes_more_than_three_eighths_by_three_eighths_of_an_inch(name: str) -> None:
    # a rabbet 3/4 deep and 3/8 wide in two passes, and nothing else takes more; a bit is 1 in wide at most: common practice
    most = 25.4 * 3 / 8
    for of, one, _, setting, run in uses(name):
        count, deep = passes(setting, one), max(float(d) for d in (run.deep, *(d for _, d in run.also)))
        if "radius" in str(setting.values) or not deep or not run.wide:
            continue
        wide = min(float(run.wide) / beside_each_other(of, one, setting), 25.4)
        assert count and deep / count <= most + 1e-6, (one.called, setting.what)
        assert deep / count * wide <= most**2 + 1e-6, (one.called, setting.what)


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_is_wider_than_a_half_inch_bit_is_cut_side_by_side(name: str) -> None:
    for of, one, _, setting, run in uses(name):
        bit = 12 if of.units.system == "mm" else Fraction(254, 20)
        if ("cutter", "straight bit and fence", "text") in setting.values:
            assert beside_each_other(of, one, setting) == -(-run.wide // bit), (one.called, setting.what)
