"""Whole made-up pieces, cases, tables, boxes, stools, frames and racks, for laws that hold for any packet.

As a script: ``python -m tests.support.generated_pieces 200`` makes the packets of so many pieces on all papers in turn and
tells what is wrong with them; exit status 1 when something is. A second number is the seed to begin with.
"""

from __future__ import annotations

import io
import sys
import time
import traceback
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any
from unittest.mock import patch

import pdfplumber

from docgen.checks.finding import Grade
from docgen.checks.run import findings
from docgen.drawing.records import Sheet, Text
from docgen.layout.read import read_layout
from docgen.packet.write import write
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.project.read import read_project
from docgen.reading.problems import Problems
from docgen.schedules.make import schedules
from docgen.sheets import parts
from docgen.sheets.context import Context
from docgen.sheets.order import sheets
from docgen.sheets.part_pages import Page
from docgen.sheets.part_words import title
from docgen.sheets.parts import Entry
from tests.support.arrows import wrong_angles, wrong_lengths
from tests.support.audit import audit_page, runs
from tests.support.generated import METRICS, PAPERS, WORDS, outside
from tests.support.made_up.boxes import BOXES
from tests.support.made_up.cases import CASES
from tests.support.made_up.frames import FRAMES
from tests.support.made_up.sketch import Sketch
from tests.support.made_up.tables import TABLES
from tests.support.printed import Figure, figures_on
from tests.support.quick_audit import quick_audit

MAKERS = (*CASES, *TABLES, *BOXES, *FRAMES)
READ = ("parts", "cutting")  # sheets whose words are read
LEAST_FIGURE = 2.5  # mm, of what is read at the bench


@dataclass(frozen=True)
class Packet:
    """A printed packet with the blocks of its part sheets."""

    context: Context
    packed: Sequence[Page[Entry]]
    pages: Sequence[Sheet]
    data: bytes


def text_of(seed: int) -> str:
    """Return the project file of a seed; it may say what cannot be made."""
    sketch = Sketch(seed)
    MAKERS[seed % len(MAKERS)](sketch)
    sketch.spice()
    return sketch.text()


def pieces(first: int = 1, refused: Counter[str] | None = None) -> Iterator[tuple[int, str]]:
    """Yield made-up pieces that can be made, each with its seed; those that are refused are counted by their problem's code."""
    seed = first - 1
    while True:
        seed += 1
        text = text_of(seed)
        try:
            build(read_project("piece.yaml", text, WORDS, {}), WORDS)
        except Problems as problems:
            if refused is not None:
                refused[problems.items[0].code] += 1
            continue
        yield seed, text


def packet(text: str, paper: str) -> Packet:
    """Return the whole packet of a piece on a paper."""
    piece = build(read_project("piece.yaml", text, WORDS, {}), WORDS)
    solids = Solids(piece)
    found = kinds(piece, solids)
    c = Context(piece, solids, found, schedules(piece, solids, found), (), read_layout(paper), METRICS, "0" * 10)
    c = replace(c, findings=findings(piece, solids, found, c.lists))
    packed = parts.packed(c)
    with patch.object(parts, "packed", lambda *_: packed):  # what was placed is what is printed, and is placed once
        pages = sheets(c)
    stopped = any(f.grade is Grade.STOP for f in c.findings)
    return Packet(
        c, packed, pages, write(pages, layout=c.layout, piece=piece, fingerprint=c.fingerprint, stopped=stopped)
    )


def faults(text: str, paper: str, *, careful: bool = False) -> list[str]:
    """Return what is wrong with the packet of a piece: as paper, against the drawing area, its figures, and what it lacks.

    A `careful` look at the paper goes word by word and takes five times as long.
    """
    try:
        p = packet(text, paper)
    except Exception:
        return ["".join(traceback.format_exc(limit=-4))]
    out = [fault for sheet in p.pages if sheet.framed for fault in outside(sheet, p.context)]
    out += [f"{p.pages[fault.page - 1].key}: {fault}" for fault in quick_audit(p.data)]
    read = [n for n, sheet in enumerate(p.pages, 1) if sheet.kind in READ or careful]
    with pdfplumber.open(io.BytesIO(p.data), pages=read) as pdf:
        pages = dict(zip(read, pdf.pages, strict=True))
        out += _figures(p, pages)
        out += _missing(p, pages)
        if careful:
            out += [f"{p.pages[n - 1].key}: {fault}" for n, page in pages.items() for fault in audit_page(n, page)]
    return out


def _figures(p: Packet, pages: Mapping[int, Any]) -> Iterator[str]:
    """Yield dimensions of part sheets that are drawn too small, or of another length than they say."""
    on = [pages[n] for n, sheet in enumerate(p.pages, 1) if sheet.kind == "parts"]
    try:
        found: list[Figure] = list(figures_on(p.context, p.packed, on))
        yield from wrong_lengths(found)
        yield from wrong_angles(found)
    except AssertionError as error:
        yield f"a figure cannot be read: {error}"
    for sheet in p.packed:
        for block in sheet.blocks:
            entry = block.block
            low = min((r.height for r in entry.placed.records if isinstance(r, Text)), default=LEAST_FIGURE)
            if low < LEAST_FIGURE - 1e-6:
                yield f"{entry.subject.part.path}: lettering of {low:.2f} mm on its sheet"


def _missing(p: Packet, pages: Mapping[int, Any]) -> Iterator[str]:
    """Yield the parts that stand on no cutting list, or that have no part sheet."""
    said: dict[str, str] = {}
    for n, sheet in enumerate(p.pages, 1):
        if sheet.kind in READ:
            said[sheet.kind] = said.get(sheet.kind, "") + "".join(text for text, *_ in runs(pages[n]))
    listed = [path for row in p.context.lists.cutting for path in row.parts]
    made = [part.path for part in p.context.piece.parts if not part.hardware]
    if sorted(listed) != sorted(made):
        yield f"the cutting list has {sorted(set(listed) ^ set(made))} too much or too little"
    for kind in p.context.kinds:
        if p.context.piece.part(kind.first).hardware:
            continue
        name = "".join(title(kind, p.context.lists).split())
        for where in READ:
            if name not in said[where]:
                yield f"{kind.first} is not named on the sheets for {where}"


def main(count: int, first: int) -> int:
    """Look at `count` pieces, tell what is wrong, how many were refused and why, and how long it took."""
    bad, seen, refused = 0, 0, Counter[str]()
    started = time.perf_counter()
    for seed, text in pieces(first, refused):
        if seen == count:
            break
        paper = PAPERS[seen % len(PAPERS)]
        seen += 1
        found = faults(text, paper)
        if found:
            bad += 1
            print(f"piece {seed} ({MAKERS[seed % len(MAKERS)].__name__}) on {paper}: {len(found)} faults", flush=True)
            for fault in found[:6]:
                print(f"  {fault}", flush=True)
    took = time.perf_counter() - started
    print(f"{seen} pieces, {bad} with faults, {sum(refused.values())} refused {dict(refused)}, {took:.0f} s")
    return 1 if bad or 5 * sum(refused.values()) > seen + sum(refused.values()) else 0


if __name__ == "__main__":
    numbers = [int(word) for word in sys.argv[1:3]]
    sys.exit(main(numbers[0] if numbers else 200, numbers[1] if numbers[1:] else 1))
