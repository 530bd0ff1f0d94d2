"""A stick cut into pieces that fit on the page: joins at round distances, away from marks, labels with room."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from docgen.piece.records import Mark
from docgen.units import Number

BOLD_STEPS = {"inch": 6, "mm": 10}  # of the scale's steps: every 6 in, every 100 mm
STEPS = {"inch": 25.4, "mm": 10.0}  # mm: the scale's ticks, and what joins stand on
ROUND = "all round"  # in place of a face: of a mark on a turned part
END = 2  # in place of a wood side: the datum or an end
CLEAR = 7.0  # mm between a join and the nearest mark, where it can be had
WHOLE = 60.0  # mm: a cut no longer than this is not parted by a join
LEAST = 50.8  # mm: a piece is not made shorter for the sake of its labels
SAME = 1e-6  # mm
END_AIR = 4.0  # mm of paper beyond the ends of the stick


@dataclass(frozen=True, slots=True)
class Point:
    """Something on the stick: a mark of the part, the datum, or an end. Wood as in `Mark`, or END."""

    position: Number
    wood: int
    label: str


@dataclass(frozen=True, slots=True)
class Side:
    """One edge of the strip and what is marked on it."""

    word: str  # "right face", "front edge", "face A"
    points: tuple[Point, ...]
    told: str = ""  # which faces of the parts that are, where it is not the same on all
    short: str = ""  # the same without the words that the parts' names share


@dataclass(frozen=True, slots=True)
class Piece:
    """From join to join, in mm from the datum end; the outer pieces reach a little beyond the stick's ends."""

    number: int
    start: float
    end: float
    first: bool
    last: bool


Span: TypeAlias = tuple[float, float]
Fits: TypeAlias = Callable[[float, float], bool]


def sides(
    marks: Sequence[Mark],
    ends: tuple[Number, Number],
    datum: str,
    words: Sequence[str],
    told: Mapping[str, tuple[str, str]] | None = None,
) -> tuple[Side, ...]:
    """Return one side for each different one of `words`, which name the face of each mark; each carries datum and ends.

    The one with the most marks comes first. `told` says more of a word, in full and in short.
    """
    by_word: dict[str, list[Point]] = {}
    for mark, word in zip(marks, words, strict=True):
        by_word.setdefault(word, []).append(Point(mark.position, mark.wood, mark.label))
    fixed = [Point(0, END, f"datum: {datum}")]
    if ends[0] < 0:
        fixed.append(Point(ends[0], END, "end of the blank"))
    fixed.append(Point(ends[1], END, "end of the blank"))
    out = []
    for word, points in sorted(by_word.items(), key=lambda item: -len(item[1])):
        every = sorted([*_told(fixed, points), *points], key=lambda p: (p.position, p.wood, p.label))
        out.append(Side(word, tuple(every), *(told or {}).get(word, ("", ""))))
    return tuple(out)


def _told(fixed: Sequence[Point], points: list[Point]) -> list[Point]:
    """Return datum and ends with the words of the marks that stand at the same place, taken out of `points`."""
    out = []
    for end in fixed:
        here = [p for p in points if abs(float(p.position) - float(end.position)) < SAME]
        for p in here:
            points.remove(p)
        out.append(replace(end, label="; ".join(dict.fromkeys([end.label, *(p.label for p in here)]))))
    return out


def taken(every: Sequence[Side]) -> tuple[Span, ...]:
    """Return what joins keep away from: each point, and what lies between the two edges of a short cut."""
    out: set[Span] = set()
    for side in every:
        for point, after in zip(side.points, (*side.points[1:], None), strict=True):
            low = float(point.position)
            high = float(after.position) if after is not None and point.wood == -1 and after.wood == 1 else low
            out.add((low, high if high - low <= WHOLE else low))
    return tuple(sorted(out))


def pieces(
    low: float, high: float, *, longest: float, step: float, taken: Sequence[Span], fits: Fits
) -> tuple[Piece, ...]:
    """Return the pieces of a stick from `low` to `high`, none longer than `longest`.

    Joins stand on multiples of `step`. Each is put as far on as it can, stepping back out of the spans that are `taken`, and
    further while the labels of the piece do not fit.
    """
    out: list[Piece] = []
    start = low - END_AIR
    total = high + END_AIR - start
    # Pieces of about one length: a short last one would have no room for its words.
    most, longest = longest, min(longest, total / math.ceil(total / longest) + step)
    while high + END_AIR - start > longest or not fits(start, high + END_AIR):
        end = _join(start, longest, step, taken, fits)
        if end >= high or end <= start:
            break
        out.append(Piece(len(out) + 1, start, end, not out, False))
        start = end
    out.append(Piece(len(out) + 1, start, high + END_AIR, not out, True))
    return _last_with_room(out, most, step, taken, fits)


def _last_with_room(out: list[Piece], most: float, step: float, taken: Sequence[Span], fits: Fits) -> tuple[Piece, ...]:
    """Return the pieces with the last join moved back where the last piece is too short for its words.

    Where no place clear of the marks gives them room, the join that keeps farthest from marks does.
    """
    if len(out) < 2 or fits(out[-1].start, out[-1].end):
        return tuple(out)
    before, last = out[-2:]
    low, high = math.ceil(before.start / step) + 1, math.floor(last.start / step) - 1
    able = [
        place
        for place in (k * step for k in range(high, low - 1, -1))
        if last.end - place <= most and fits(before.start, place) and fits(place, last.end)
    ]
    if not able:
        return tuple(out)
    place = next((p for p in able if _clear(p, taken) >= CLEAR), max(able, key=lambda p: _clear(p, taken)))
    return (*out[:-2], replace(before, end=place), replace(last, start=place))


def _clear(place: float, taken: Sequence[Span]) -> float:
    """Return how far a join stands from the marks, mm; negative within one."""
    return min((max(low - place, place - high) for low, high in taken), default=math.inf)


def _join(start: float, longest: float, step: float, taken: Sequence[Span], fits: Fits) -> float:
    furthest = math.floor((start + longest) / step + 1e-9)
    least = math.floor(start / step + 1e-9) + 1
    places = [k * step for k in range(furthest, least - 1, -1) if k * step - start >= min(LEAST, longest / 2)]
    fitting = [p for p in places if fits(start, p)] or places[-1:]
    if not fitting:
        return furthest * step
    near = [p for p in fitting if fitting[0] - p <= max(0.25 * longest, step)]
    return next((p for p in near if _clear(p, taken) >= CLEAR), max(near, key=lambda p: _clear(p, taken)))
