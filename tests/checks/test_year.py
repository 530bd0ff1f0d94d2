from dataclasses import replace
from fractions import Fraction

import pytest

from docgen.checks import doors
from docgen.checks.year import Year, year
from docgen.piece.model import Group, Joint, Piece
from docgen.trade.moisture import equilibrium
from docgen.units import Kind, Quantity
from tests.checks.test_examples import found, text_of
from tests.support.checking import codes
from tests.support.checking import found as of_check
from tests.support.pieces import part, piece


def stated(**values: float) -> tuple[tuple[str, Quantity, str], ...]:
    return tuple(
        (name.replace("_", " "), Quantity(Fraction(v).limit_denominator(1000), Kind.NUMBER), "stated")
        for name, v in values.items()
    )


def test_moisture_as_stated_rules() -> None:
    both = stated(moisture_from=6, moisture_to=12, humidity_from=10, humidity_to=90)
    assert year(piece(conditions=both)) == Year(6, 12)
    assert year(piece(conditions=stated(moisture_from=6, moisture_to=12, moisture_on_the_day=8))) == Year(6, 12, 8)
    assert year(piece()) is None


def test_moisture_from_the_humidity_of_the_air() -> None:
    """Wood Handbook, Table 4-2: at 21.1 °C 30 % humidity gives 6.2 % moisture, 75 % gives 14.4 %."""
    told = year(piece(conditions=stated(humidity_from=30, humidity_to=75, humidity_temperature=21.1)))
    assert told == Year(6.2, 14.4)
    cool = year(piece(conditions=stated(humidity_from=30, humidity_to=75, humidity_on_the_day=50)))
    assert cool is not None and cool.day == round(equilibrium(20, 50), 1) and cool.start == cool.day


def test_the_file_says_humidity() -> None:
    text = text_of("wall-shelf") + "\nconditions: {humidity: {from: 35, to: 70}}\n"
    told = {f.code for f in found("wall-shelf", text)}
    assert "cross-grain" not in told


SWELL = 0.00248 * 4  # black cherry, flat-sawn, from 8 to 12 %


def hung(room: float, *, second: bool = False, width: float = 60.0) -> Piece:
    """A door of two stiles between posts, hinged on the left; `room` at its right, to a post or to a second door."""
    stiles = (
        part("door.left", ((0, width), (0, 20), (0, 600)), number=1),
        part("door.right", ((340, 340 + width), (0, 20), (0, 600)), number=2),
        part("door.rail", ((width, 340), (0, 20), (0, 80)), "across", number=3),
    )
    end = 340 + width + room
    post = part("post", ((-22, -2), (0, 300), (0, 620)), number=4)
    other = part("other", ((end, end + 20), (0, 20 if second else 300), (0, 600)), number=5)
    groups = [Group("door", ("door.left", "door.right", "door.rail"), (-2.0, -4.0, 0.0), 2, (-95, 0))]
    joints = [Joint("hung", "", ("door.left", "post"), (), (("clearance", 2, "length"),))]
    if second:
        groups.append(Group("second", ("other",), (end + 22, -4.0, 0.0), 2, (0, 95)))
        joints.append(Joint("hung", "", ("other", "post"), (), (("clearance", 2, "length"),)))
    year_ = stated(moisture_from=6, moisture_to=12, moisture_on_the_day=8)
    return piece(*stiles, post, other, groups=tuple(groups), joints=tuple(joints), conditions=year_)


GROWS = 2 * 60 * SWELL


@pytest.mark.parametrize(("more", "expected"), [(0.02, []), (-0.02, ["door-binds"])])
def test_a_door_that_grows_into_its_post(more: float, expected: list[str]) -> None:
    findings = of_check(doors, hung(GROWS + more))
    assert [f.code for f in findings] == expected
    for f in findings:
        assert f.figures[0][1] == pytest.approx(GROWS)
        assert f.figures[1][1] == pytest.approx(GROWS + more, abs=1e-3)


@pytest.mark.parametrize(("more", "expected"), [(0.04, []), (-0.04, ["door-binds"])])
def test_two_doors_share_the_gap_between_them(more: float, expected: list[str]) -> None:
    wide = hung(2 * GROWS + more, second=True)
    assert [c for c in codes(doors, wide) if c] == expected


def test_silent_without_a_year_or_with_nothing_beside_it() -> None:
    assert codes(doors, replace(hung(0.1), conditions=())) == []
    assert codes(doors, hung(20.1)) == []
