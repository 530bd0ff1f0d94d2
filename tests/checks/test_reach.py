from dataclasses import replace

import pytest

from docgen.checks import reach
from docgen.piece.model import Drawer, Fastener, Group, Part, Piece
from tests.support.checking import codes
from tests.support.pieces import part, piece

HEAD = 5.0  # mm high


def bolted(*more: Part, **options: object) -> Piece:
    """A board that lies level, with a bolt from above through its middle into a block under it."""
    bolt = Fastener(
        "A", "machine screw, button head", "1/4-20 UNC", 38, 1, head=(12, HEAD), tapped_depth=17, points=((200.0, 200.0, 20.0),),
        direction=(0.0, 0.0, -1.0), parts=("board", "block"),
    )  # fmt: skip
    return piece(
        part("board", ((0, 400), (0, 400), (0, 20)), "across"),
        part("block", ((150, 250), (150, 250), (-40, 0)), "across", number=2),
        *more,
        fasteners=(bolt,),
        **options,
    )


def cover(height: float, half: float = 200.0, path: str = "cover") -> Part:
    """A board `height` over the bolted one, reaching `half` to all sides of the bolt."""
    low, high = 200 - half, 200 + half
    return part(path, ((low, high), (low, high), (20 + height, 40 + height)), "across", number=3)


def test_a_bolt_in_the_open() -> None:
    assert codes(reach, bolted()) == []


@pytest.mark.parametrize(("height", "expected"), [(HEAD + 30.2, []), (HEAD + 30.0, ["tool-no-room"])])
def test_room_in_line(height: float, expected: list[str]) -> None:
    """Under a cover the short arm must stand up: 30 mm over the head."""
    assert codes(reach, bolted(cover(height))) == expected


def walls(away: float, height: float = 300.0) -> tuple[Part, ...]:
    """Four walls `away` from the bolt, open above."""
    a, b = 200 - away, 200 + away
    return (
        part("left", ((a - 10, a), (a, b), (20, 20 + height)), number=3),
        part("right", ((b, b + 10), (a, b), (20, 20 + height)), number=4),
        part("front", ((a - 10, b + 10), (a - 10, a), (20, 20 + height)), number=5),
        part("back", ((a - 10, b + 10), (b, b + 10), (20, 20 + height)), number=6),
    )


@pytest.mark.parametrize(("away", "expected"), [(30.1, []), (24.0, ["tool-no-room"])])
def test_room_to_swing_between_walls(away: float, expected: list[str]) -> None:
    """With the long arm in line the short one needs its 30 mm over 60°."""
    assert codes(reach, bolted(*walls(away))) == expected


@pytest.mark.parametrize(("opening", "expected"), [(0.0, ["fastener-closed-in"]), (1.0, [])])
def test_a_way_out(opening: float, expected: list[str]) -> None:
    """In a box of 90 mm to each side and 100 high the key turns; with its lid on no hand gets there."""
    lid = () if opening else (part("lid", ((100, 300), (100, 300), (120, 140)), "across", number=7),)
    assert codes(reach, bolted(*walls(90.0, 100.0), *lid)) == expected


def test_wood_screws_are_driven_once() -> None:
    of = bolted(cover(HEAD + 10.0))
    screw = replace(of.fasteners[0], thread="No. 8", what="wood screw, flat head")
    assert codes(reach, replace(of, fasteners=(screw,))) == []


def test_drawers_and_what_turns_are_taken_away() -> None:
    near = cover(HEAD + 10.0, path="lid")
    assert codes(reach, bolted(near)) == ["tool-no-room"]
    drawer = Drawer("d", ("lid",), ((0, 1), (0, 1), (0, 1)), 0, 0, 0)
    assert codes(reach, bolted(near, drawers=(drawer,))) == []
    group = Group("lid", ("lid",), (0.0, 400.0, 40.0), 0, (0, 90))
    assert codes(reach, bolted(near, groups=(group,))) == []


def test_a_slide_is_in_the_way_of_the_key() -> None:
    told = tuple((name, value, "length") for name, value in
                 (("slide front", 0.0), ("slide back", 400.0), ("slide low", 26.0), ("slide high", 60.0)))  # fmt: skip
    box = part("d.box", ((300, 380), (0, 400), (26, 60)), "across", number=4)
    drawer = Drawer("d", ("d.front", "d.box"), ((100, 400), (0, 400), (20, 100)), 100, 300, 1.0, told)
    front = part("d.front", ((100, 400), (-20, 0), (20, 100)), "across", number=5)
    assert codes(reach, bolted(front, box, drawers=(drawer,))) == ["tool-no-room"]
    assert codes(reach, bolted(front, box)) == []
