"""Print the time of a whole build over its floor: the same pages written from their stored records, nothing worked out.

Run as ``python -m tests.benchmarks.build_floor [EXAMPLE …]``. Processor time of one process each, the best of three: the
program itself makes the part sheets beside the others, so that what one waits for is less.
"""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from time import process_time
from typing import TypeVar

from docgen.checks.run import findings
from docgen.cli.group import ALIVE
from docgen.layout.read import read_layout
from docgen.packet.fonts import PacketMetrics
from docgen.packet.write import write
from docgen.piece.build import build
from docgen.piece.kinds import kinds
from docgen.piece.solids import Solids
from docgen.piece.vocabulary import vocabulary
from docgen.project.read import read_project
from docgen.schedules.make import schedules
from docgen.sheets.context import Context
from docgen.sheets.order import MAKERS, sheets

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
Made = TypeVar("Made")


def timed(work: Callable[[], Made], again: int = 3) -> tuple[float, Made]:
    """Return the least processor time of several runs, s, and what the last one made."""
    best, made = float("inf"), None
    for _ in range(again):
        start = process_time()
        made = work()
        best = min(best, process_time() - start)
    assert made is not None
    return best, made


def prepared(name: str) -> Context:
    """Return everything up to the paper."""
    path = EXAMPLES / f"{name}.yaml"
    words = vocabulary()
    piece = build(read_project(str(path), path.read_text(encoding="utf-8"), words, {}), words)
    solids = Solids(piece)
    same = kinds(piece, solids)
    lists = schedules(piece, solids, same)
    found = findings(piece, solids, same, lists)
    layout = read_layout("letter" if piece.units.system == "inch" else "a4")
    return Context(piece, solids, same, lists, found, layout, PacketMetrics(), "00000-00000")


def main() -> None:
    gc.set_threshold(ALIVE, 50, 50)  # as the program runs
    print(
        f"{'example':<16} {'pages':>5} {'up to paper s':>14} {'sheets s':>9} {'writing s':>10} {'build over floor':>17}"
    )
    for name in sys.argv[1:] or ["sketching-desk", "bookcase", "side-table", "wall-shelf"]:
        before, context = timed(partial(prepared, name))
        alone = {word: partial(maker, context, {}) for word, maker in MAKERS.items() if word != "cover"}
        drawn, pages = timed(partial(sheets, context, begun=dict), again=1)
        floor, _ = timed(
            partial(write, pages, layout=context.layout, piece=context.piece, fingerprint=context.fingerprint)
        )
        ratio = (before + drawn + floor) / floor
        print(f"{name:<16} {len(pages):>5} {before:14.2f} {drawn:9.2f} {floor:10.2f} {ratio:17.1f}", flush=True)
        told = {word: timed(make, again=1)[0] for word, make in alone.items() if word in context.layout.sheets}
        print("   " + ", ".join(f"{word} {s:.2f}" for word, s in sorted(told.items(), key=lambda t: -t[1])))


if __name__ == "__main__":
    main()
