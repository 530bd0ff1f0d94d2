"""How far the parts of an exploded view are moved: apart at their joints, together where nothing parts them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from docgen.drawing.behind import Behind
from docgen.geometry.lines import View

Floats = NDArray[np.float64]

TOGETHER = 0.25  # weight of staying level with a part that leaves along another axis
STAY = 0.02  # weight of staying where it stands
ENOUGH = 0.3  # gaps: what is moved apart so far by other links is apart
WHOLE = 1.6  # gaps by which a whole is moved
STEPS = (0.7, 1.3, 2.2, 3.4)  # of the gap and of the way of wholes, tried along each axis
FURTHER, WORTH = 5.0, 0.015  # and this one by itself, where it lessens the cost by so much
SMALLER = 0.08  # what a picture pays for each time that it is drawn smaller by its own size, in shares of overlap
HALF, TOO_SMALL = 1.8, 0.5  # what it pays besides where it comes to be drawn so many times smaller, and more
UNSEEN = 6.0  # times what an item pays besides, for the share by which less than half of it is seen
SMALL = 0.2  # what all small things that are hidden cost, where all items cost 1
GAP = 0.14  # of the piece's greatest extent


@dataclass(frozen=True, slots=True)
class Apart:
    """Item `a` is moved away from item `b` along an axis, to the low (−1) or the high (1) side."""

    a: int
    b: int
    axis: int
    sign: int


@dataclass(frozen=True, slots=True)
class Whole:
    """Items that are moved together along an axis, beyond what their links ask."""

    items: tuple[int, ...]
    axis: int
    sign: int
    steps: int = 1  # how many times as far as others


@dataclass(frozen=True, slots=True, eq=False)
class Between:
    """Small things between items: the corners (m, 8, 3) of their boxes, and what share of each item's move each takes (m, n)."""

    corners: Floats
    shares: Floats


def spread(
    corners: Floats,
    links: Sequence[Apart],
    wholes: Sequence[Whole],
    view: View,
    room: tuple[float, float],
    between: Between | None = None,
    weak: Sequence[Apart] = (),
) -> Floats:
    """Return how far each item is moved (n, 3), mm; `corners` (n, 8, 3) are those of their boxes.

    Along each axis the moves meet the links as well as they can at once (least squares), and wholes go further. `weak`
    links hold where all others leave two items together, or move them into each other. Then the gaps are widened along
    each axis, and the ways of wholes, by the steps at which the boxes hide least of each other, against how much smaller
    the picture is drawn in a `room` of this width and height. Things `between` them are to be seen as well.
    """
    count = len(corners)
    gone = _gone(count, wholes)
    unit = _unit(count, links)
    unit = _unit(count, [*links, *(link for link in weak if _together(unit + gone, link))])
    extent = float((corners.reshape(-1, 3).max(axis=0) - corners.reshape(-1, 3).min(axis=0)).max())
    unit, gone = unit * GAP * extent, gone * GAP * extent
    every, shares = corners, np.eye(count)
    if between is not None and len(between.corners):
        every, shares = np.concatenate([corners, between.corners]), np.concatenate([shares, between.shares])
    worth = np.repeat([1.0 / count, SMALL / max(len(every) - count, 1)], [count, len(every) - count])
    own, far = shares @ unit, shares @ gone

    paper = np.array([view.right, view.up]).T
    behind, before = Behind(every, view, count), every @ paper

    def cost(steps: Floats) -> tuple[float, tuple[float, ...]]:
        told = tuple(steps.tolist())
        moves = own * steps[:3] + far * steps[3:]
        flat = before + (moves @ paper)[:, None, :]
        further = WORTH * told.count(FURTHER)
        return round(_cost(behind.shares(moves), before, flat, worth, room) + further, 4), told

    best = _best(cost, [True] * 3 + [bool(gone[:, k].any()) for k in range(3)])
    return np.asarray(np.round(unit * best[:3] + gone * best[3:], 2), dtype=np.float64)


def _best(cost: Callable[[Floats], tuple[float, tuple[float, ...]]], used: Sequence[bool]) -> Floats:
    """Return the steps (6) of least cost, for links and for wholes along each axis, of those that are `used`.

    For each step of all wholes together all those of the links are tried, then each step by itself until none is better.
    Wholes never go a shorter step than the links of their axis: parts of what they leave would overtake them.
    """

    def least(tried: Iterable[Sequence[float]]) -> tuple[float, tuple[float, ...]]:
        kept = (f for f in tried if all(f[k + 3] >= f[k] for k in range(3) if used[k + 3]))
        return min(cost(np.array(f)) for f in kept)

    together = STEPS if any(used[3:]) else STEPS[:1]
    best, found = None, least((*f, w, w, w) for w in together for f in product(STEPS, repeat=3))
    while best != found:
        best = found
        for k in (k for k in range(6) if used[k]):
            found = least((*found[1][:k], step, *found[1][k + 1 :]) for step in (*STEPS, FURTHER))
    return np.array(found[1])


def _gone(count: int, wholes: Sequence[Whole]) -> Floats:
    """Return how far each item (n, 3) goes with its whole, in gaps."""
    gone = np.zeros((count, 3))
    for whole in wholes:
        gone[list(whole.items), whole.axis] += whole.sign * whole.steps * WHOLE
    return gone


def _unit(count: int, links: Sequence[Apart]) -> Floats:
    """Return how far each item is moved (n, 3) by links, in gaps."""
    return np.stack([_solved(count, links, axis) for axis in range(3)], axis=1)


def _together(unit: Floats, link: Apart) -> bool:
    """Return whether two items stay together or go into each other, so that a weak link has to part them."""
    off = unit[link.a] - unit[link.b]
    aside = np.abs(np.delete(off, link.axis)).max()
    return bool(aside < ENOUGH and link.sign * float(off[link.axis]) < ENOUGH)


def _solved(count: int, links: Sequence[Apart], axis: int) -> Floats:
    rows: list[Floats] = []
    wanted: list[float] = []
    for link in links:
        row = np.zeros(count)
        weight = 1.0 if link.axis == axis else TOGETHER
        row[link.a] += weight
        row[link.b] -= weight
        rows.append(row)
        wanted.append(float(link.sign) if link.axis == axis else 0.0)
    rows += list(STAY * np.eye(count))
    wanted += [0.0] * count
    return np.asarray(np.linalg.lstsq(np.array(rows), np.array(wanted), rcond=None)[0], dtype=np.float64)


def _cost(hidden: Floats, before: Floats, flat: Floats, worth: Floats, room: tuple[float, float]) -> float:
    """Return what is lost by what is `hidden` of each item (n), with what it costs that the picture is drawn smaller.

    `worth` (n) is what it costs that an item is hidden wholly, but for what one pays of which less than half is seen;
    `before` and `flat` are the corners on paper, together and taken apart.
    """
    lost = float(((hidden + UNSEEN * np.maximum(hidden - 0.5, 0.0)) * worth).sum())
    scales = []
    for p in (before, flat):
        size = p.reshape(-1, 2).max(axis=0) - p.reshape(-1, 2).min(axis=0)
        scales.append(float(np.min(np.array(room) / size)))
    smaller = scales[0] / scales[1]
    return lost + SMALLER * (smaller - 1.0) + TOO_SMALL * max(smaller - HALF, 0.0)
