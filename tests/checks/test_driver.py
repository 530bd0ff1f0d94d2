from dataclasses import replace

import pytest

from docgen.checks import driver
from docgen.piece.model import Drawer, Fastener, Group, Joint, Part, Piece
from tests.checks.test_wall_fixing import hung, row
from tests.support.checking import codes, found
from tests.support.pieces import part, piece


def screwed(*more: Part, joints: tuple[Joint, ...] = (), **options: object) -> Piece:
    """A board that lies level, with a wood screw from above through its middle into a block under it."""
    screw = Fastener(
        "A",
        "wood screw",
        "No. 8",
        38,
        1,
        points=((200.0, 200.0, 20.0),),
        direction=(0.0, 0.0, -1.0),
        parts=("board", "block"),
    )
    return piece(
        part("board", ((0, 400), (0, 400), (0, 20)), "across"),
        part("block", ((150, 250), (150, 250), (-40, 0)), "across", number=2),
        *more,
        fasteners=(screw,),
        joints=joints,
        **options,
    )


def cover(height: float) -> Part:
    return part("cover", ((100, 300), (100, 300), (20 + height, 40 + height)), "across", number=3)


GLUED = (Joint("dowel", "", ("cover", "board"), (("cover", "x"), ("board", "y")), holds=True),)


@pytest.mark.parametrize(("height", "expected"), [(100.3, []), (99.7, ["driver-no-room"])])
def test_room_in_line_with_a_screw(height: float, expected: list[str]) -> None:
    assert codes(driver, screwed(cover(height), joints=GLUED)) == expected


def test_what_may_be_put_on_later_is_no_hindrance() -> None:
    assert codes(driver, screwed(cover(50))) == []  # nothing glues it to the board


def test_drawers_and_what_turns_are_out_of_the_way() -> None:
    of = screwed(cover(50), joints=GLUED)
    assert codes(driver, of) == ["driver-no-room"]
    drawer = Drawer("d", ("cover",), ((0, 1), (0, 1), (0, 1)), 0, 0, 0)
    assert codes(driver, replace(of, drawers=(drawer,))) == []
    assert codes(driver, replace(of, groups=(Group("lid", ("cover",), (0.0, 0.0, 0.0), 0, (0, 90)),))) == []


@pytest.mark.parametrize(("before", "told"), [(200.3, ""), (199.7, "Only a short driver"), (60.0, "No driver")])
def test_a_screw_into_the_wall_wants_room_before_the_piece_as_it_stands(before: float, told: str) -> None:
    strut = part("strut", ((100, 300), (130 - before, 160 - before), (0, 300)), number=2)
    messages = [f.message for f in found(driver, hung(row(), strut))]
    assert [m.startswith(told) for m in messages] == ([True] if told else [])
    assert codes(driver, hung(row(), strut, stands="floor")) == []
