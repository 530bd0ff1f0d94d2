"""Pages made in a process of their own are the pages made here."""

import os

import pytest

from docgen.drawing.records import Line, Sheet
from docgen.sheets.aside import aside

PAGES = (Sheet("a", "parts", "A", (210.0, 297.0), (Line((0.0, 0.0), (1.0, 2.0)),)),)


def test_the_pages_come_back_equal() -> None:
    assert aside(lambda: PAGES)() == PAGES


def test_a_fault_is_raised_where_the_pages_are_waited_for() -> None:
    def fail() -> tuple[Sheet, ...]:
        raise ValueError("no room")

    wait = aside(fail)
    with pytest.raises(ValueError, match="no room"):
        wait()


def test_pages_are_made_here_when_the_copy_dies() -> None:
    here = os.getpid()

    def dies_elsewhere() -> tuple[Sheet, ...]:
        if os.getpid() != here:
            os._exit(3)
        return PAGES

    assert aside(dies_elsewhere)() == PAGES
