"""Two boards of cherry that lie on each other and are held at two points, or by tenons."""

from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.checks import cross_grain
from docgen.checks.finding import Finding, Grade
from docgen.geometry.make import box
from docgen.piece.model import Fastener, Joint, Material, Piece
from docgen.piece.records import Cut, Face, HoleRow, Made, Purpose
from docgen.trade.movement import species
from docgen.trade.names import INCH
from docgen.units import Kind, Quantity
from tests.support.checking import codes, found
from tests.support.pieces import CHERRY, PLY, feature, part, piece

C = species("black cherry").tangential
EDGE = float(INCH) / 16 / (C * 4)
"""mm that cherry needs to move 1/16 in from 6 to 10 % moisture."""


def held(
    apart: float,
    *,
    grain: str = "across",
    way: int = 1,
    thread: str = "No. 8",
    play: Fraction | None = None,
    material: Material = CHERRY,
    moisture: tuple[int, int] | None = None,
) -> Piece:
    """A top, grain across, on a bearer whose grain is `grain`, with two screws `apart` along axis `way`."""
    points = [[400.0, 300.0, 40.0], [400.0, 300.0, 40.0]]
    points[1][way] += apart
    holes: tuple[HoleRow, ...] = ()
    if play is not None:
        holes = (
            HoleRow("A", Purpose.CLEARANCE, Face(2, 0), ((0, 0, 0),), (0, 0, 1), Fraction(635, 100) + play, "a drill"),
        )
    screw = Fastener(
        "A", "screw", thread, Fraction(40), 2, points=tuple(map(tuple, points)), parts=("bearer", "top")  # type: ignore[arg-type]
    )  # fmt: skip
    said = () if moisture is None else tuple(
        (f"moisture {n}", Quantity(Fraction(m), Kind.NUMBER), "stated") for n, m in zip(("from", "to"), moisture, strict=True)
    )  # fmt: skip
    return piece(
        part("bearer", ((0, 900), (0, 900), (40, 60)), grain, number=1, features=(feature("hole", Made(holes=holes)),)),
        part("top", ((0, 900), (0, 900), (60, 80)), "across", number=2, material=material),
        fasteners=(screw,), conditions=said,
    )  # fmt: skip


def only(of: Piece) -> Finding:
    (f,) = found(cross_grain, of)
    return f


@pytest.mark.parametrize(
    ("slot", "told"),
    [
        ((0.0, 0.0, 0.0), ["cross-grain"]),
        # The top moves from front to back; 20 mm more than the edge want 20 · 4 · C, under 0.3 mm.
        ((0.0, 0.5, 0.0), []),
        ((0.5, 0.0, 0.0), ["cross-grain"]),
    ],
)
def test_slots_take_what_runs_along_them(slot: tuple[float, float, float], told: list[str]) -> None:
    fixed = held(EDGE + 20, grain="deep")
    (screw,) = fixed.fasteners
    assert codes(cross_grain, replace(fixed, fasteners=(replace(screw, slot=slot),))) == told


def test_screws_across_the_grain_up_to_the_edge() -> None:
    assert codes(cross_grain, held(EDGE - 0.1, grain="deep")) == []
    f = only(held(EDGE + 0.1, grain="deep"))
    assert (f.grade, f.code, f.parts) == (Grade.CARE, "cross-grain", ("bearer", "top"))
    assert f.figures[0][1] == pytest.approx((EDGE + 0.1) * C * 4)
    assert f.figures[1][1] == 0.0


def test_like_grain_moves_alike() -> None:
    assert codes(cross_grain, held(800)) == []
    assert codes(cross_grain, held(800, way=0)) == []


def test_along_one_part_and_across_the_other_it_does_not_matter_which() -> None:
    assert codes(cross_grain, held(EDGE + 0.1, grain="deep", way=0)) == ["cross-grain"]


def test_the_play_of_a_bolt_counts_and_that_of_a_wood_screw_does_not() -> None:
    wide = float(Fraction(1, 2)) / (C * 4)  # what half a millimetre of play makes up for
    bolt = {"grain": "deep", "thread": "1/4-20 UNC", "play": Fraction(1, 2)}
    assert codes(cross_grain, held(EDGE + wide - 0.1, **bolt)) == []  # type: ignore[arg-type]
    assert codes(cross_grain, held(EDGE + wide + 0.1, **bolt)) == ["cross-grain"]  # type: ignore[arg-type]
    assert codes(cross_grain, held(EDGE + wide - 0.1, grain="deep", play=Fraction(1, 2))) == ["cross-grain"]


def test_the_stated_moisture_rules() -> None:
    assert codes(cross_grain, held(EDGE * 2 - 0.1, grain="deep", moisture=(7, 9))) == []
    assert codes(cross_grain, held(EDGE / 2 + 0.1, grain="deep", moisture=(6, 14))) == ["cross-grain"]


def test_plywood_is_passed_over() -> None:
    assert codes(cross_grain, held(800, grain="deep", material=PLY)) == []


def tenoned(tall: float, grain: str = "across", holds: bool = True) -> Piece:
    """A rail `tall` high whose end is held over its whole height in a post with upright grain."""
    cut = box((100.0, 40.0, -1.0), (100.0 + tall, 50.0, 20.0))
    return piece(
        part("rail", ((60, 700), (30, 60), (100, 100 + tall)), grain, number=1),
        part(
            "post", ((0, 60), (0, 90), (0, 900)), "up", number=2, features=(feature("mortise", Made(cuts=(Cut(cut),))),)
        ),
        joints=(Joint("joint", "rail to post", ("rail", "post"), (("post", "mortise 1"),), holds=holds),),
    )


def test_wide_rails_in_posts() -> None:
    assert codes(cross_grain, tenoned(EDGE - 0.5)) == []
    assert codes(cross_grain, tenoned(EDGE + 0.5)) == ["cross-grain"]


def test_a_panel_with_upright_grain_in_a_post_moves_with_it() -> None:
    assert codes(cross_grain, tenoned(EDGE + 300, "up")) == []


def test_joints_that_leave_room_are_silent() -> None:
    assert codes(cross_grain, tenoned(EDGE + 300, holds=False)) == []


def test_what_holds_is_told_along_the_board_s_width_not_over_a_diagonal() -> None:
    of = held(EDGE + 40, grain="deep")
    screw = of.fasteners[0]
    a, b = screw.points
    level = replace(of, fasteners=(replace(screw, points=(a, (b[0], b[1], b[2] + 30))),))
    straight, slanted = ({n: v for n, v, _ in only(p).figures} for p in (of, level))
    assert slanted["held over"] == pytest.approx(straight["held over"]) == pytest.approx(EDGE + 40)
    assert slanted["movement"] == pytest.approx(straight["movement"])
