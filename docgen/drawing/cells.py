"""Text in a given width: lines that keep figures with their fractions and units, and what they fill in height."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from docgen.drawing import lettering
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Point, Record, Text

PITCH = 1.5  # between baselines, in heights (ISO 3098, with lower case letters)
AIR = 0.25  # least air between what two lines fill, in heights
TIE = "\u00a0"  # a space at which no line ends
UNITS = ("mm", "cm", "m", "in", "ft", "kg", "lb", "lbf", "N", "m²", "%", "°")

KEPT = 1 << 13
"""So many texts are kept as they were laid out: a page is tried in many ways, mostly with the same texts."""

_BEFORE_FRACTION = re.compile(r"(?<=\d) (?=\d+⁄)")
_BESIDE_SIGN = re.compile(r" (?=×)|(?<=×) |(?<=≈) | (?=≈)|(?<= [+−]) (?=0\.)")
_BEFORE_UNIT = re.compile(rf"(?<=\d) (?=(?:{'|'.join(map(re.escape, UNITS))})(?:[\s,.;:)]|$))")
_WITHIN_NUMBER = re.compile(r"(?<=\bNo\.) (?=\d)|(?<=\d) (?=\d{3}\b(?![.⁄]))")
_ATOM = re.compile(r"\d+⁄\d+|.")
_FIGURE = re.compile(r"[≈~±+−-]?[ \u00a0]?\d")
_WHOLE = re.compile(r"[≈~±+−-]?[ \u00a0]?\d+(?![\d⁄])")


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of text under one another, with what each reaches above and below its baseline, mm."""

    lines: tuple[str, ...]
    height: float
    bold: bool = False
    reach: tuple[tuple[float, float], ...] = ()

    @property
    def tall(self) -> float:
        """The height that the lines fill, from the top of the first to the bottom of the last; 0 without lines."""
        return _tall(self.height, self.reach)

    def steps(self) -> list[float]:
        """Return the way from the block's top to the first baseline, and from each baseline to the next."""
        return _steps(self.height, self.reach)

    def parted(self, room: float) -> tuple[Block, Block]:
        """Return as many lines as `room` mm take, and the rest."""
        count = len(self.lines)
        while count and self._first(count).tall > room + 1e-6:
            count -= 1
        return self._first(count), Block(self.lines[count:], self.height, self.bold, self.reach[count:])

    def _first(self, count: int) -> Block:
        return Block(self.lines[:count], self.height, self.bold, self.reach[:count])

    def records(self, at: Point, anchor: str = "left") -> list[Record]:
        """Return the lines as texts, the block's top at ``at[1]``."""
        out: list[Record] = []
        y = at[1]
        for line, step in zip(self.lines, self.steps(), strict=True):
            y -= step
            if line:
                out.append(Text((at[0], y), line, self.height, anchor, self.bold))
        return out


def _steps(height: float, reach: tuple[tuple[float, float], ...]) -> list[float]:
    out: list[float] = []
    for i, (up, _) in enumerate(reach):
        below = reach[i - 1][1] + AIR * height
        out.append(max(PITCH * height, below + up) if i else up)
    return out


@lru_cache(maxsize=KEPT)
def _tall(height: float, reach: tuple[tuple[float, float], ...]) -> float:
    return sum(_steps(height, reach)) + (reach[-1][1] if reach else 0.0)


@lru_cache(maxsize=KEPT)
def block(text: str, room: float, height: float, metrics: Metrics, *, bold: bool = False) -> Block:
    """Return `text` in lines no wider than `room` mm; a line break in it begins a new line. No text, no lines."""
    lines = wrapped(text, room, height, metrics, bold=bold) if text else ()
    return Block(lines, height, bold, tuple(reach(line, height, metrics, bold=bold) for line in lines))


def reach(line: str, height: float, metrics: Metrics, *, bold: bool = False) -> tuple[float, float]:
    """Return what a line fills above and below its baseline, ascenders and descenders always counted."""
    up, down = lettering.reach(line, height, metrics, bold)
    return max(up, lettering.ASCENT * height), max(down, lettering.DESCENT * height)


def measure(text: str, height: float, metrics: Metrics, *, bold: bool = False) -> float:
    """Return the width of a line as it is set; tied spaces count as spaces."""
    return lettering.width(text.replace(TIE, " "), height, metrics, bold)


@lru_cache(maxsize=KEPT)
def tied(text: str) -> str:
    """Return `text` with the spaces closed at which no line may end: before a fraction or a unit, around ×, in 18 000."""
    for pattern in (_BEFORE_FRACTION, _BESIDE_SIGN, _BEFORE_UNIT, _WITHIN_NUMBER):
        text = pattern.sub(TIE, text)
    return text


@lru_cache(maxsize=KEPT)
def wrapped(text: str, room: float, height: float, metrics: Metrics, *, bold: bool = False) -> tuple[str, ...]:
    """Return the lines: whole words, and a word in pieces only where it is wider than `room` on its own."""
    out: list[str] = []
    gap = measure(" ", height, metrics, bold=bold)
    for paragraph in tied(text).split("\n"):
        line, long = "", 0.0
        for word in paragraph.split(" "):
            wide = measure(word, height, metrics, bold=bold)
            if (long + gap + wide if line else wide) <= room + 1e-6:
                line, long = (f"{line} {word}", long + gap) if line else (word, 0.0)
                long += lettering.advance(word.replace(TIE, " "), height, metrics, bold)
                continue
            if line:
                out.append(line)
            *done, line = _broken(word, room, height, metrics, bold)
            long = lettering.advance(line.replace(TIE, " "), height, metrics, bold)
            out += done
        out.append(line)
    return tuple(line.replace(TIE, " ") for line in out)


def _broken(word: str, room: float, height: float, metrics: Metrics, bold: bool) -> list[str]:
    """Return a word in pieces that fit, parted at tied spaces first, then anywhere but inside a fraction."""
    pieces = [word]
    for joint in (TIE, ""):
        if all(measure(p, height, metrics, bold=bold) <= room + 1e-6 for p in pieces):
            break
        pieces = [q for p in pieces for q in _pieces(p, joint, room, height, metrics, bold)]
    return pieces


def _pieces(word: str, joint: str, room: float, height: float, metrics: Metrics, bold: bool) -> list[str]:
    out: list[str] = []
    for atom in word.split(joint) if joint else _ATOM.findall(word):
        longer = f"{out[-1]}{joint}{atom}" if out else atom
        if out and measure(longer, height, metrics, bold=bold) <= room + 1e-6:
            out[-1] = longer
        else:
            out.append(atom)
    return out or [word]


def is_figure(text: str) -> bool:
    """Return True for a text that begins with a number, signed or "≈" before it."""
    return bool(_FIGURE.match(text))


def whole_part(text: str) -> str:
    """Return a figure up to its units digit: "11" of "11 7⁄8", "302" of "302.4", nothing of "7⁄8"."""
    found = _WHOLE.match(text)
    return found[0] if found else ""
