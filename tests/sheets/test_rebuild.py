"""A part is made anew from nothing but the figures on its sheet, read out of the PDF, and compared with the model as a solid.

The start is five per cent off in every number. What words tell (the fat that is left, the long point at the end of the
stated length, what is square) and what is drawn flush is known from the start; all else comes from the figures.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

from docgen.drawing.choose import WORDS
from docgen.drawing.dimensions.wanted import Callout
from docgen.piece.records import Stage
from docgen.piece.solids import Solids
from tests.sheets.test_rank import bench
from tests.support.benched import Made, Name, made
from tests.support.printed import NUMBER, Figure, figures, value
from tests.support.rank import FAT, Key, Told, keys_of, measures, nudged, planes, values, where

OFF = 1.05
CASES = [
    ("bookcase", "a4", "left side"),  # dados, a rabbet
    ("bookcase", "a4", "shelf.1"),  # tongues, a round-over
    ("side-table", "a4", "front left leg"),  # tapers, mortises
    ("side-table", "a4", "left apron"),  # tenons, pilot holes
    ("side-table", "a4", "top"),  # round-overs on four sides, what holds it
    ("sketching-desk", "letter", "case.top"),  # mitres
    ("sketching-desk", "letter", "drawer.left"),  # a groove, slide holes
    ("sketching-desk", "letter", "drawer.front"),  # a corner radius
    ("sketching-desk", "letter", "stand.stretcher"),  # mortises in the ends
]


def read(figure: Figure) -> list[float]:
    """Return the numbers of a figure in mm and degrees, in the order in which they are read."""
    told = re.sub(r"\([a-z]\d*\)", " ", figure.text)
    told = re.sub(r"^\s*(?:[\w–, ]+:)?\s*\d+\s*×", " ", told)
    told = re.sub(r"^\s*[\w–, ]+:", " ", told)
    told = re.sub(rf"({NUMBER.pattern})\s*≈\s*(?:{NUMBER.pattern})(?:\s*[+−]\s*0\.\d+)?", r"\1", told)
    inch = figure.entry.subject.units.system == "inch"
    out = []
    for found in NUMBER.finditer(told):
        behind = told[found.end() :].lstrip()
        plain = behind.startswith(("°", "mm")) or not inch
        out.append(value(found[0]) * (1.0 if plain else 25.4))
    return out


def said(part: Made, name: str, paper: str) -> list[tuple[Told, float]]:
    """Return what the sheet says of the part, key by key."""
    at: dict[tuple[object, ...], list[Told]] = {}
    seen: Counter[Key] = Counter()
    for (feature, _), size in part.sizes().items():
        at.setdefault(where(size), []).extend(k for k in keys_of(feature, size, seen) if k[1] != FAT)
    out: list[tuple[Told, float]] = []
    for f in figures(name, paper):
        if f.entry.subject.part.path != part.part.path:
            continue
        sizes = f.wanted.sizes if isinstance(f.wanted, Callout) else f.wanted.sizes[:1]
        numbers = read(f)
        for n, size in enumerate(sizes):
            figure = numbers[min(n, len(numbers) - 1)] if f.wanted.sizes else 0.0
            out += [(key, figure) for key in at.get(where(size), [])]
            out += (
                [(("", "length", size.parameters[0], 1), figure)]
                if size.parameters[:1] and size.parameters[0] in WORDS
                else []
            )
        for size in f.wanted.sizes[len(sizes) :]:
            out += [(key, numbers[0]) for key in at.get(where(size), [])]
            out += (
                [(("", "length", size.parameters[0], 1), numbers[0])]
                if size.parameters[:1] and size.parameters[0] in WORDS
                else []
            )
    return out


def rebuilt(part: Made, told: list[tuple[Told, float]], names: list[Name]) -> Made:
    """Return the part with all its numbers found from the figures by least squares."""
    start = planes(part)
    flush = [
        (a, b)
        for n, a in enumerate(sorted(start))
        for b in sorted(start)[n + 1 :]
        if start[a][0] == start[b][0] and abs(start[a][1] - start[b][1]) < 1e-6
    ]

    def short(m: Made) -> np.ndarray:
        have, at = values(m), planes(m)
        apart = [at[b][1] - at[a][1] if a in at and b in at else 0.0 for a, b in flush]
        return np.array([figure - have[key] for key, figure in told] + apart)

    now = part.moved({n: part.value(n) * OFF for n in names})
    for _ in range(6):
        miss = short(now)
        columns = []
        for name in names:
            other, step = nudged(now, name)
            columns.append((miss - short(other)) / step)
        step, *_ = np.linalg.lstsq(np.array(columns).T, miss, rcond=1e-9)
        now = part.moved({n: now.value(n) + float(s) for n, s in zip(names, step, strict=True)})
        if np.abs(step).max() < 1e-4:
            return now
    raise AssertionError("the figures lead to no part")


@pytest.mark.parametrize(("name", "paper", "path"), CASES)
def test_the_part_made_from_its_printed_figures_is_the_part(name: str, paper: str, path: str) -> None:
    b = bench(name)
    part = made(b, path)
    fat = {(f, "over") for (f, _), s in part.sizes().items() if s.over}
    names = [n for n in measures(part) if n not in fat]
    told = said(part, name, paper)
    again = rebuilt(part, told, names)
    piece = replace(b.piece, parts=tuple(again.part if p.path == path else p for p in b.piece.parts))
    one, two = Solids(b.piece).solid(path, Stage.PART), Solids(piece).solid(path, Stage.PART)
    printed = 0.05 if b.piece.units.system == "mm" else 0.0005 * 25.4  # half the last digit of a figure
    thin = min(float(v) for v in part.part.size)
    assert two.volume == pytest.approx(one.volume, rel=1.5 * printed / thin)
    assert two.centroid == pytest.approx(one.centroid, abs=2 * printed)
    for side in (0, 1):
        assert two.bounds[side] == pytest.approx(one.bounds[side], abs=2 * printed)


def test_a_wrong_figure_gives_another_part() -> None:
    b = bench("bookcase")
    part = made(b, "left side")
    told = said(part, "bookcase", "a4")
    wrong = [(key, figure + (5 if key[2] == "depth" and key[0] == "dado 1" else 0)) for key, figure in told]
    again = rebuilt(part, wrong, measures(part))
    assert abs(again.value(("dado 1", "depth")) - part.value(("dado 1", "depth"))) > 0.5
