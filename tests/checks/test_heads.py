import pytest

from docgen.checks import heads
from docgen.piece.model import Drawer, Fastener, Piece
from tests.support.checking import codes, found
from tests.support.pieces import PLY, part, piece


def drawer_with_bolt(
    up: float, height: float = 3.0, deep: float = 100.0, clearance: float = 13.0, **figures: float
) -> Piece:
    """A bolt through the left side (0 to 20), its head inside; a drawer box beside it with a slide from 60 to 100 up."""
    told = {"slide front": 22.0, "slide back": 322.0, "slide low": 60.0, "slide high": 100.0}
    bolt = Fastener(
        "A", "machine screw", "M6 × 1", 40, 1, head=(12, height), points=((20, deep, up),), direction=(-1.0, 0.0, 0.0),
        parts=("side", "leg"),
    )  # fmt: skip
    return piece(
        part("side", ((0, 20), (0, 400), (0, 300))),
        part("d.front", ((22, 398), (0, 20), (12, 148)), "across", number=2),
        part("d.left", ((20 + clearance, 32 + clearance), (20, 320), (30, 130)), "deep", number=3, material=PLY),
        part("shelf", ((20, 400), (0, 400), (200, 220)), "across", number=4),
        fasteners=(bolt,),
        drawers=(
            Drawer("d", ("d.front", "d.left"), ((20, 420), (0, 400), (10, 150)), clearance, 300, 2,
                   tuple((k, v, "length") for k, v in (told | figures).items())),
        ),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("up", "expected"), [(53.9, []), (54.1, ["head-hits-slide"]), (105.9, ["head-hits-slide"]), (106.1, [])]
)
def test_a_head_in_the_slides_room(up: float, expected: list[str]) -> None:
    assert codes(heads, drawer_with_bolt(up)) == expected


def test_the_figure_is_how_far_it_runs_in() -> None:
    (f,) = found(heads, drawer_with_bolt(55.0, height=2.0))
    assert f.figures[0][1] == pytest.approx(1.0)  # the head reaches from 49 to 61, the slide begins at 60


@pytest.mark.parametrize(("height", "expected"), [(12.9, []), (13.1, ["head-hits-drawer"])])
def test_a_head_in_the_drawers_way(height: float, expected: list[str]) -> None:
    assert codes(heads, drawer_with_bolt(120.0, height=height)) == expected  # beside the box, above the slide


def test_the_whole_way_of_the_box_counts() -> None:
    # 250 mm in front of the box: on its way out
    assert codes(heads, drawer_with_bolt(120.0, height=14.0, deep=-200.0)) == ["head-hits-drawer"]
    assert codes(heads, drawer_with_bolt(120.0, height=14.0, deep=-290.0)) == []


@pytest.mark.parametrize(("up", "expected"), [(193.9, []), (194.4, ["head-hits-part"]), (226.1, [])])
def test_a_head_in_another_part(up: float, expected: list[str]) -> None:
    assert codes(heads, drawer_with_bolt(up)) == expected


def test_screws_without_a_known_head_are_passed_over() -> None:
    of = drawer_with_bolt(80.0)
    from dataclasses import replace

    bare = replace(of, fasteners=(replace(of.fasteners[0], head=(0, 0)),))
    assert codes(heads, bare) == []
