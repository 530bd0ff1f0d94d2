import pytest

from docgen.checks import slides
from docgen.checks.finding import Grade
from docgen.piece.model import Drawer, Piece
from tests.support.checking import codes, found
from tests.support.pieces import PLY, part, piece

CLEAR = 13.0


def drawer(left: float = 13.0, right: float = 13.0, length: float = 300.0, deep: float = 320.0, **more: float) -> Piece:
    """An opening 400 wide; a box behind a front 20 thick."""
    figures: dict[str, float] = {
        "slide front": 22.0,
        "slide back": 22.0 + length,
        "slide low": 60.0,
        "slide high": 100.0,
        **more,
    }
    return piece(
        part("d.front", ((2, 398), (0, 20), (2, 148)), "across"),
        part("d.left", ((left, left + 12), (20, 320), (20, 120)), "deep", number=2, material=PLY),
        part("d.right", ((400 - right - 12, 400 - right), (20, 320), (20, 120)), "deep", number=3, material=PLY),
        drawers=(
            Drawer(
                "d",
                ("d.front", "d.left", "d.right"),
                ((0, 400), (0, deep + 2), (0, 150)),
                CLEAR,
                length,
                2,
                tuple((k.replace("_", " "), v, "length") for k, v in figures.items()),
            ),
        ),
    )


def test_a_drawer_as_its_slides_ask() -> None:
    assert codes(slides, drawer()) == []


@pytest.mark.parametrize(("room", "grade"), [(12.61, None), (12.59, Grade.STOP), (13.39, None), (13.41, Grade.CARE)])
def test_room_for_a_slide(room: float, grade: Grade | None) -> None:
    findings = found(slides, drawer(left=room))
    assert [f.grade for f in findings] == ([grade] if grade else [])
    for f in findings:
        assert f.code == "slide-clearance" and f.message.startswith("Left of d")


def test_the_right_side_counts_too() -> None:
    (f,) = found(slides, drawer(right=14))
    assert f.message.startswith("Right of d")


def test_slides_against_the_depth() -> None:
    assert codes(slides, drawer(length=300, deep=320)) == []
    assert codes(slides, drawer(length=300.1, deep=320)) == ["slide-too-long"]


@pytest.mark.parametrize(
    ("side", "expected"), [(12.0, []), (16.0, []), (11.9, ["slide-side-thickness"]), (16.1, ["slide-side-thickness"])]
)
def test_thickness_of_the_sides(side: float, expected: list[str]) -> None:
    assert codes(slides, drawer(side_thickness=side, least_side=12.0, most_side=16.0)) == expected


def on_wood(free: float, gap: float = 2, **more: float) -> Piece:
    """A drawer that slides on the case, with a back `free` behind its box."""
    figures = tuple((k.replace("_", " "), v, "length") for k, v in {"side thickness": 12.0, **more}.items())
    return piece(
        part("d.front", ((2, 398), (0, 20), (2, 148)), "across"),
        part("d.left", ((1, 13), (20, 320), (0, 120)), "deep", number=2, material=PLY),
        part("d.right", ((387, 399), (20, 320), (0, 120)), "deep", number=3, material=PLY),
        part("back", ((0, 400), (320 + free, 326 + free), (0, 150)), "across", number=4, material=PLY),
        drawers=(
            Drawer(
                "d",
                ("d.front", "d.left", "d.right"),
                ((0, 400), (20, 320 + free), (0, 150)),
                1,
                300,
                gap,
                figures,
                bed="shelf",
            ),
        ),
    )


@pytest.mark.parametrize(("free", "told"), [(1.0, []), (1.1, ["drawer-unstopped"])])
def test_an_inset_drawer_on_wood_is_stopped_by_what_stands_close_behind_it(free: float, told: list[str]) -> None:
    assert codes(slides, on_wood(free)) == told


def test_blocks_strips_or_the_front_itself_stop_a_drawer_on_wood() -> None:
    (f,) = found(slides, on_wood(10))
    assert f.message.endswith("it goes in 10 mm too far.")
    assert codes(slides, on_wood(10, stop_blocks=10.0)) == []
    assert codes(slides, on_wood(10, room_before_the_runner=0.0)) == []
    assert codes(slides, on_wood(10, room_before_the_runner=3.0)) == ["drawer-unstopped"]
    assert codes(slides, on_wood(10, gap=0)) == []
