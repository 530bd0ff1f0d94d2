"""What the figures printed on a part's sheet leave loose of its numbers, and which of them say what others say already.

The figures are taken as functions of the numbers (the blank's and those of every operation), and each number is moved
a little: the rank of the matrix of differences tells which numbers are left loose and which figures are doubled.
"""

from __future__ import annotations

from collections import Counter
from itertools import combinations
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from docgen.drawing.choose import WORDS
from docgen.packet.fonts import PacketMetrics
from docgen.piece.faults import Fault
from docgen.piece.records import Size, SizeKind
from docgen.sheets.part_spread import spread
from docgen.sheets.part_view import Setting, Subject
from tests.support.benched import Benched, Made, Name, made

Key: TypeAlias = tuple[str, str, str]
Told: TypeAlias = tuple[str, str, str, int]  # feature, kind, number, and which of several
FAT = "fat"
Row: TypeAlias = NDArray[np.float64]

STEP = 1 / 1024  # mm or degrees: exact in binary
TOL = 1e-5


def printed(subject: Subject) -> list[tuple[Size, ...]]:
    """Return what each printed or told figure says: the sizes that it stands for."""
    sheet = spread(subject, Setting((1, 4), 2.5, False), PacketMetrics())
    assert sheet is not None
    wanted = [w for a in sheet.arranged for w in (*(p.wanted for p in a.placed), *a.left)]
    return [w.sizes for w in wanted if w.sizes]


def keys_of(feature: str, size: Size, seen: Counter[Key]) -> list[Key]:
    """Return what a size says of its feature: by the numbers that it fixes, since sizes part when those part.

    Fat that is left is told beside the size that it belongs to.
    """
    out = []
    kinds = [(size.kind.value, name) for name in size.parameters] + ([(FAT, "over")] if size.over else [])
    for kind, name in kinds:
        key = (feature, kind, name)
        seen[key] += 1
        out.append((*key, seen[key]))
    return out


def values(part: Made) -> dict[Told, float]:
    """Return what every size says by its keys; the blank's own under its axes."""
    out: dict[Told, float] = {}
    seen: Counter[Key] = Counter()
    for (feature, _), size in part.sizes().items():
        for key in keys_of(feature, size, seen):
            out[key] = float(size.over if key[1] == FAT else size.value)
    for i in range(3):
        low, high = part.part.span(i)
        out["", "length", WORDS[i], 1] = float(high) - float(low)
    return out


def measures(part: Made) -> list[Name]:
    """Return the numbers that the sheet has to fix: those that a size names.

    The rest is told by words (square, the long point at the end of the stated length) or left at a default;
    that every operation tells all its numbers in one of these ways is tested with the operations.
    """
    named = {(f, p) for (f, _), s in part.sizes().items() for p in (*s.parameters, *(("over",) if s.over else ()))}
    silent = {f.name for f in part.features() if not f.made.assumed and f.parameters}
    assert all((f, n) in named for f, n in part.names() if f in silent)
    alone = {(f, s.parameters[0]) for (f, _), s in part.sizes().items() if len(s.parameters) == 1}
    fat = {(f, "over") for (f, _), s in part.sizes().items() if s.over}
    out = [n for n in part.names() if not n[0] or n in named]
    return [n for n in out if not n[0] or n in alone or n in fat or part.value(n) != 0]  # a slope of nothing is square


def flush(part: Made, names: list[Name]) -> list[Row]:
    """Return what is read off lines that are drawn as one: planes of sizes that lie in one plane, or in a side of the blank."""
    start = planes(part)
    moved = []
    for name in names:
        other, step = nudged(part, name)
        now = planes(other)
        moved.append({key: (now[key][1] - start[key][1]) / step for key in start if key in now})
    rows = []
    keys = sorted(start)
    for one, two in combinations(keys, 2):
        if start[one][0] == start[two][0] and abs(start[one][1] - start[two][1]) < 1e-6:
            rows.append(np.array([m.get(one, 0.0) - m.get(two, 0.0) for m in moved]))
    return rows


def planes(part: Made) -> dict[tuple[str, str, int, int], tuple[int, float]]:
    """Return the planes at the ends of the sizes, at the rims of discs and at the sides of the blank: axis and coordinate."""
    out: dict[tuple[str, str, int, int], tuple[int, float]] = {}
    for i in range(3):
        for side, at in enumerate(part.part.span(i)):
            out["", "", i, side] = (i, float(at))
    for (feature, n), size in part.sizes().items():
        for i in range(3):
            if size.kind is SizeKind.LENGTH and abs(size.along[i]) > 1 - 1e-9:
                out[feature, ",".join(size.parameters), n, 0] = (i, size.start[i])
                out[feature, ",".join(size.parameters), n, 1] = (i, size.end[i])
            if size.kind is SizeKind.DIAMETER and size.other is None and abs(size.along[i]) < 1e-9:
                for side in (-1, 1):
                    at = size.start[i] + side * float(size.value) / 2
                    out[feature, ",".join(size.parameters), n, 10 + 3 * i + side] = (i, at)
    return out


def nudged(part: Made, name: Name) -> tuple[Made, float]:
    """Return the part with one number a little larger, or smaller where it stands at the end of its range."""
    for step in (STEP, -STEP):
        try:
            return part.moved({name: part.value(name) + step}), step
        except Fault:
            continue
    raise Bound(name)


class Bound(Exception):
    """A number that cannot be moved alone: a disc fills its box, what is turned has a square blank."""


def free(part: Made, name: Name) -> bool:
    """Return True for a number that can be moved without another one."""
    try:
        nudged(part, name)
    except Bound:
        return False
    return True


def where(size: Size) -> tuple[object, ...]:
    """Return what a size keeps when it is given another face or label."""
    points = tuple(round(c, 6) for c in (*size.start, *size.end))
    return (size.kind, points, round(float(size.value), 6))


def figures(part: Made, subject: Subject) -> list[list[Told]]:
    """Return what each printed figure says; nothing for a figure that is marked as a reference."""
    at: dict[tuple[object, ...], list[Told]] = {}
    seen: Counter[Key] = Counter()
    for (feature, _), size in part.sizes().items():
        at.setdefault(where(size), []).extend(keys_of(feature, size, seen))
    out = []
    for sizes in printed(subject):
        told = [key for s in sizes for key in at.get(where(s), [])]
        told += [("", "length", s.parameters[0], 1) for s in sizes if s.parameters and s.parameters[0] in WORDS]
        out.append(list(dict.fromkeys(told)))
    return out


def jacobian(part: Made, names: list[Name]) -> dict[Told, Row]:
    """Return how what is said changes with each number."""
    start = values(part)
    columns = []
    for name in names:
        moved, step = nudged(part, name)
        other = values(moved)
        columns.append({key: (other[key] - start[key]) / step for key in start})
    return {key: np.array([c[key] for c in columns]) for key in start}


def wrong(b: Benched, path: str) -> tuple[list[Name], list[list[Told]]]:
    """Return the numbers of a part that its sheet leaves loose, and the figures that others say already."""
    part = made(b, path)
    names = [n for n in measures(part) if free(part, n)]
    rows = jacobian(part, names)
    told = figures(part, Subject(part.part, b.solids, b.piece.units, True))
    return loose([*(rows[key] for keys in told for key in keys), *flush(part, names)], names), doubled(told, rows)


def loose(rows: list[Row], names: list[Name]) -> list[Name]:
    """Return the numbers that the rows leave undetermined: those with a part in the matrix's null space."""
    _, s, vt = np.linalg.svd(np.array(rows), full_matrices=True)
    rank = int((s > TOL).sum())
    free = np.abs(vt[rank:]).max(axis=0) if rank < len(names) else np.zeros(len(names))
    return [n for n, f in zip(names, free, strict=True) if f > TOL]


def doubled(told: list[list[Told]], rows: dict[Told, Row]) -> list[list[Told]]:
    """Return the figures without which the rest fixes as much; those of numbers that cannot be moved alone say no more."""
    full = np.linalg.matrix_rank(np.array([rows[k] for keys in told for k in keys]), tol=TOL)
    out = []
    for n, keys in enumerate(told):
        rest = [rows[k] for m, other in enumerate(told) if m != n for k in other]
        moves = any(np.abs(rows[k]).max() > TOL for k in keys)
        if moves and rest and np.linalg.matrix_rank(np.array(rest), tol=TOL) == full:
            out.append(keys)
    return out
