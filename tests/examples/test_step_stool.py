"""The step stool's figures as a helper reads them off the finished packet, against those worked out by hand.

The sides lean 8° and stand 480 apart at the floor; treads of 22 lie 440 and 220 up, housed 7 deep square to the sides.
"""

from __future__ import annotations

import io
import re
from functools import cache
from math import cos, radians
from pathlib import Path

import pdfplumber
import pytest

from docgen.cli.loaded import Loaded, context_of, load
from docgen.layout.read import read_layout
from docgen.packet.write import write
from docgen.sheets.order import sheets
from tests.support.by_hand import between_leaning, floor_further_on, housed_side, mouth_of_dado

FILE = Path(__file__).parents[2] / "examples" / "step-stool.yaml"
LEAN, FOOT, THICK, DEEP = 8, 480, 22, 7
PAST = floor_further_on(THICK, LEAN)  # the outer face of a side reaches so much further down than the inner one
RAIL = 90


@cache
def stool() -> Loaded:
    return load(str(FILE), ())


@cache
def figures(kind: str) -> frozenset[str]:
    """The figures on the sheets of one kind, as they stand in the PDF; ≈ is left out."""
    context = context_of(stool(), read_layout("a4"), [])
    pages = sheets(context, [kind])
    data = write(pages, layout=context.layout, piece=stool().piece, fingerprint="0")
    with pdfplumber.open(io.BytesIO(data)) as book:
        words = " ".join(page.extract_text() for page in book.pages)
        turned = " ".join("".join(c["text"] for c in page.chars if not c["upright"]) for page in book.pages)
    return frozenset(re.findall(r"\d+(?:\.\d+)?", f"{words} {turned}"))


def told(mm: float) -> str:
    """A length as the packet prints it: to 0.1 mm."""
    return f"{mm:.1f}".removesuffix(".0")


def up_the_side(height: float) -> float:
    """How far a height lies from the lower long point, along the inner face of a side."""
    return height / cos(radians(LEAN)) + PAST


@pytest.mark.parametrize("top", [440, 220])
def test_a_treads_dado_stands_there_on_part_sheet_set_up_and_stick(top: int) -> None:
    low = up_the_side(top - THICK)
    high = low + mouth_of_dado(THICK, LEAN)
    assert {told(low), told(mouth_of_dado(THICK, LEAN))} <= figures("parts")
    assert {told(low), told(high)} <= figures("setups") & figures("sticks")
    # An upright bit clears the mouth, but for what the walls lean over 7 of depth: toward the foot, as they go in.
    assert told(high - floor_further_on(DEEP, LEAN)) in figures("setups")


@pytest.mark.parametrize("low", [440 - THICK, 220 - THICK])
def test_a_treads_length_is_that_of_its_lower_face_from_floor_to_floor_of_the_dados(low: int) -> None:
    lower, upper = (housed_side(between_leaning(FOOT, up, LEAN), DEEP, LEAN) for up in (low, low + THICK))
    assert {told(lower), told(upper)} <= figures("parts") & figures("setups")


def test_the_rail_is_as_long_at_its_upper_edge_as_the_tread_above_it() -> None:
    under = 440 - THICK
    upper, lower = (housed_side(between_leaning(FOOT, up, LEAN), DEEP, LEAN) for up in (under, under - RAIL))
    assert {told(lower), told(upper)} <= figures("parts") & figures("setups")
    # Its dado ends at the tread's above; below it ends where the rail's lower corner meets the floor of the dado.
    assert told(up_the_side(under - RAIL) - floor_further_on(DEEP, LEAN)) in figures("parts")


def test_the_section_of_the_joint_shows_lean_depth_and_width() -> None:
    assert {"8", "82", "7", told(mouth_of_dado(THICK, LEAN)), str(THICK)} <= figures("joinery")
