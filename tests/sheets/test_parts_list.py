"""The table of the parts below or beside the views."""

import pytest

from docgen.sheets import parts_list
from tests.support.printed import context


@pytest.mark.parametrize("room", [-5.0, 0.0, 3.0, 9.0, 14.0])
def test_where_there_is_no_room_for_the_parts_there_is_no_table(room: float) -> None:
    assert parts_list.full(context("bookcase", "a4"), 180.0, room) is None


def test_the_table_is_as_tall_as_it_says() -> None:
    listed = parts_list.full(context("bookcase", "a4"), 180.0, 120.0)
    assert listed is not None
    assert 20 < listed[1] <= 120
