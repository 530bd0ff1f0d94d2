"""The packet's lettering: Source Sans Pro, embedded as subsets, with its widths in mm.

Heights are those of its figures, which stand a little lower than its capitals: what is read at the bench is never smaller than
it is said. With figures 0.638 of the em high, points = mm × 72 / 25.4 ÷ 0.638.
"""

from __future__ import annotations

import string
import struct
import unicodedata
from functools import cache
from pathlib import Path
from typing import Any

import font_source_sans_pro
from reportlab.pdfbase.ttfonts import TTFont

POINTS_PER_MM = 72 / 25.4  # 72 points per inch, 25.4 mm per inch
FALLBACK = "\u2610"  # an empty box, which the font has, stands for a character that it lacks
CONTROL = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}  # categories that leave no mark on paper
STYLES = {False: ("packet-regular", "SourceSansPro-Regular.ttf"), True: ("packet-bold", "SourceSansPro-Semibold.ttf")}


@cache
def font(bold: bool = False) -> Any:
    """Return reportlab's font object for one weight; one object serves any number of packets in turn."""
    name, file = STYLES[bold]
    path = Path(font_source_sans_pro.__file__).parent / "files" / file
    # Shaping would tie the page to whatever shaping library happens to be installed.
    return TTFont(name, str(path), shapable=False)


@cache
def characters() -> frozenset[int]:
    """Return the code points that both weights have."""
    return frozenset(font(False).face.charToGlyph) & frozenset(font(True).face.charToGlyph)


@cache
def figure_height(bold: bool = False) -> float:
    """Return the height of the lowest figure as a part of the em, read off the outlines in the font's file.

    The head of an outline in the table "glyf" is five signed shorts, the last of them its top (the OpenType specification).
    """
    face = font(bold).face
    outlines = face.get_table("glyf")
    tops = [int(struct.unpack_from(">5h", outlines, face.glyphPos[face.charToGlyph[ord(c)]])[4]) for c in string.digits]
    return min(tops) / int(face.unitsPerEm)


def points(height: float, bold: bool = False) -> float:
    """Return the font size in points whose figures are `height` mm high."""
    return height * POINTS_PER_MM / figure_height(bold)


@cache
def printable(text: str) -> str:
    """Return `text` as it can be set: composed, without control characters, unknown characters as an empty box."""
    out = []
    known = characters()
    for c in unicodedata.normalize("NFC", text):
        if ord(c) in known:
            out.append(" " if c == "\u00a0" else c)
        elif c.isspace():
            out.append(" ")
        elif unicodedata.category(c) not in CONTROL:
            out.append(FALLBACK)
    return "".join(out)


def unknown(text: str) -> str:
    """Return the characters of `text` that would be set as an empty box, each once, in their order."""
    known = characters()
    return "".join(
        dict.fromkeys(
            c
            for c in unicodedata.normalize("NFC", text)
            if ord(c) not in known and not c.isspace() and unicodedata.category(c) not in CONTROL
        )
    )


@cache
def _widths(bold: bool) -> dict[str, float]:
    """Return the width of each character as a part of the em."""
    face = font(bold).face
    return {chr(code): face.getCharWidth(code) / 1000 for code in sorted(characters())}


@cache
def _em_width(text: str, bold: bool) -> float:
    widths = _widths(bold)
    return sum(widths[c] for c in printable(text))


class PacketMetrics:
    """Widths of text in the packet's font; implements `docgen.drawing.metrics.Metrics`."""

    def width(self, text: str, height: float, bold: bool = False) -> float:
        """Return the width in mm of `text` set with figures `height` mm high."""
        return _em_width(text, bold) * height / figure_height(bold)


METRICS = PacketMetrics()
"""The one that all share: what was measured with it is kept for it."""
