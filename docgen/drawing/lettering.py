"""Text as it is set: stacked fractions, drawn signs, widths, wrapping, and the box that a text fills.

Figures of a fraction joined by U+2044 become two small numerals with a bar; characters of `symbols.CHARACTERS`
become drawn signs. Heights are those of figures, in mm.
"""

from __future__ import annotations

import re
import string
from dataclasses import dataclass, replace
from functools import lru_cache

from docgen.drawing import symbols
from docgen.drawing.boxes import Box
from docgen.drawing.metrics import Metrics
from docgen.drawing.placing import turned
from docgen.drawing.records import Line, Pen, Point, Record, Text

SMALLEST = 1.8  # mm: no numeral is set lower (ISO 3098's lowest)
NUMERAL = 0.62  # of the text height: the numerals of a stacked fraction
AFTER = 0.1  # air between a fraction and what follows, in text heights
BESIDE = 0.22  # air between a whole number and its fraction, in text heights
CAPITAL = 1.04  # capitals stand a little higher than figures, which have the text's height
ASCENT = 1.14  # b, d, l and accents reach above the capitals
DESCENT = 0.33  # g, p, y and brackets reach below the baseline
DEEP = frozenset("gjpqyQ,;()[]{}_/|ß§")
CAPITALS = frozenset(string.ascii_uppercase + "&%#@$t")
HIGH = frozenset("bdfhklißäöüéèêáàâíìîóòôúùûÄÖÜÉÈÊ()[]{}/|‘’“”'\"")

_TOKEN = re.compile(r"(\d+)⁄(\d+)|([" + "".join(symbols.CHARACTERS) + "])")


@dataclass(frozen=True, slots=True)
class Run:
    """One piece of a line: plain text, a fraction or a sign, `x` mm from the line's start."""

    kind: str  # "plain", "fraction", "sign"
    text: str
    x: float
    width: float
    rise: float
    fall: float
    below: str = ""  # the denominator


def numeral_height(height: float) -> float:
    """Return the height of a stacked fraction's numerals in text `height` mm high."""
    return max(SMALLEST, NUMERAL * height)


def bar_gap(height: float) -> float:
    """Return the air between bar and numerals: digits and bar must not touch in print."""
    return max(0.5, 0.14 * height)


KEPT = 1 << 15
"""So many measured texts are kept: those of one packet. Most are asked for many times, on every page and at every trial."""


@lru_cache(maxsize=KEPT)
def runs(text: str, height: float, metrics: Metrics, bold: bool = False) -> tuple[Run, ...]:
    """Return the pieces of a line in order, each with its place from the line's start."""
    out: list[Run] = []
    x, last = 0.0, 0
    for found in _TOKEN.finditer(text):
        before = text[last : found.start()]
        if found[1] and re.search(r"\d $", before):
            before = before[:-1]  # the space between whole and fraction is narrower than a word space
        x = _plain(out, before, x, height, metrics, bold)
        x = (
            _fraction(out, found[1], found[2], x, height, metrics, bold)
            if found[1]
            else _sign(out, found[3], x, height)
        )
        last = found.end()
    _plain(out, text[last:], x, height, metrics, bold)
    return tuple(out)


def _plain(out: list[Run], text: str, x: float, height: float, metrics: Metrics, bold: bool) -> float:
    if not text:
        return x
    wide = metrics.width(text, height, bold)
    rise = (ASCENT if HIGH & set(text) else CAPITAL if CAPITALS & set(text) else 1.0) * height
    fall = DESCENT * height if DEEP & set(text) else 0.0
    out.append(Run("plain", text, x, wide, rise, fall))
    return x + wide


def _fraction(out: list[Run], above: str, below: str, x: float, height: float, metrics: Metrics, bold: bool) -> float:
    small = numeral_height(height)
    wide = max(metrics.width(above, small, bold), metrics.width(below, small, bold)) + 0.2 * small
    if out and out[-1].kind == "plain" and out[-1].text[-1].isalnum():
        x += BESIDE * height
    reach = small + bar_gap(height)
    out.append(Run("fraction", above, x, wide, height / 2 + reach, reach - height / 2, below))
    return x + wide + AFTER * height


def _sign(out: list[Run], character: str, x: float, height: float) -> float:
    name = symbols.CHARACTERS[character]
    wide = symbols.advance(name, height)
    out.append(Run("sign", name, x, wide, symbols.rise(name, height), symbols.fall(name, height)))
    return x + wide


@lru_cache(maxsize=KEPT)
def width(text: str, height: float, metrics: Metrics, bold: bool = False) -> float:
    """Return the width in mm of one line of text as it is set; nothing is 0 wide."""
    line = runs(text, height, metrics, bold)
    return line[-1].x + line[-1].width if line else 0.0


def advance(text: str, height: float, metrics: Metrics, bold: bool = False) -> float:
    """Return where the next word's space begins behind a text: past the air that a fraction keeps."""
    line = runs(text, height, metrics, bold)
    if not line:
        return 0.0
    return line[-1].x + line[-1].width + (AFTER * height if line[-1].kind == "fraction" else 0.0)


@lru_cache(maxsize=KEPT)
def reach(text: str, height: float, metrics: Metrics, bold: bool = False) -> tuple[float, float]:
    """Return how far a line reaches above and below its baseline, mm."""
    line = runs(text, height, metrics, bold)
    return (max((r.rise for r in line), default=height), max((r.fall for r in line), default=0.0))


def _start(text: Text, wide: float) -> float:
    return {"left": 0.0, "middle": -wide / 2, "right": -wide}[text.anchor]


def set_text(text: Text, metrics: Metrics) -> list[Record]:
    """Return `text` as plain runs, bars and signs; a text with neither fraction nor sign comes back as it is."""
    line = runs(text.text, text.height, metrics, text.bold)
    if all(r.kind == "plain" for r in line):
        return [text]
    x, y = text.at[0] + _start(text, line[-1].x + line[-1].width), text.at[1]
    out: list[Record] = []
    for run in line:
        if run.kind == "plain":
            out.append(replace(text, at=(x + run.x, y), text=run.text, anchor="left", angle=0.0))
        elif run.kind == "fraction":
            out += _set_fraction(run, (x, y), text)
        else:
            out += symbols.symbol(run.text, (x + run.x + symbols.SIDE * text.height, y), text.height)
    return [turned(r, text.at, text.angle) for r in out] if text.angle else out


def _set_fraction(run: Run, at: Point, text: Text) -> list[Record]:
    small, gap = numeral_height(text.height), bar_gap(text.height)
    left, bar = at[0] + run.x, at[1] + text.height / 2
    mid = left + run.width / 2
    plain = replace(text, height=small, anchor="middle", angle=0.0)
    return [
        replace(plain, at=(mid, bar + gap), text=run.text),
        Line((left, bar), (left + run.width, bar), Pen.THIN),
        replace(plain, at=(mid, bar - gap - small), text=run.below),
    ]


def box(text: Text, metrics: Metrics) -> Box:
    """Return the rectangle that a text fills, ascenders, descenders and fractions included."""
    wide = width(text.text, text.height, metrics, text.bold)
    up, down = reach(text.text, text.height, metrics, text.bold)
    start = _start(text, wide)
    flat = Box(text.at[0], text.at[1], 0.0, 0.0, text.angle)
    x, y = flat.point(start + wide / 2, (up - down) / 2)
    return Box(x, y, wide / 2, (up + down) / 2, text.angle)


def wrap(text: str, wide: float, height: float, metrics: Metrics, bold: bool = False) -> list[str]:
    """Return the lines, none wider than `wide` mm; a word that is wider is broken. No text gives no line."""
    lines: list[str] = []
    line = ""
    for word in text.replace("\n", " \n ").split(" "):
        if word == "\n":
            lines.append(line)
            line = ""
            continue
        trial = f"{line} {word}" if line else word
        if not word or width(trial, height, metrics, bold) <= wide:
            line = trial if word else line
            continue
        if line:
            lines.append(line)
        line = word
        while width(line, height, metrics, bold) > wide and len(line) > 1:
            count = _fits(line, wide, height, metrics, bold)
            lines.append(line[:count])
            line = line[count:]
    if line:
        lines.append(line)
    return lines


def _fits(word: str, wide: float, height: float, metrics: Metrics, bold: bool) -> int:
    count = 1
    while count < len(word) and width(word[: count + 1], height, metrics, bold) <= wide:
        count += 1
    return count
