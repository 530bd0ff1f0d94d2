"""Print how long views with hidden lines take here and in an independent CAD kernel, in one run.

Run as ``python -m tests.benchmarks.hidden_lines [PARTS …]``. The figure to watch is the ratio: machines differ. Times are of
the processor, so that other work on the machine counts little; the best of three up to 100 parts. What a part costs (ms)
tells whether time grows in step with parts. Memory is how far the process's highest mark rose, MB: ours is measured first,
so that the kernel's own is a lower bound.
"""

from __future__ import annotations

import gc
import math
import resource
import sys
from collections.abc import Callable
from functools import partial
from time import process_time

from docgen.cli.group import ALIVE
from docgen.geometry import hidden
from docgen.geometry.hidden import VIEWS, draw
from docgen.geometry.make import box, cylinder
from docgen.geometry.shapes import Frame, HalfSpace
from docgen.geometry.topology import topology
from tests.support.kernel import compound, hidden_lines, kernel_blank, kernel_cut, placed
from tests.support.recipes import Recipe, round_over

SIDE = Recipe(
    (400.0, 200.0, 18.0),
    (
        *(box((60.0 + 120 * k, -1.0, 12.0), (76.0 + 120 * k, 190.0, 19.0)) for k in range(3)),
        round_over(0, (200.0, 0.0), (1, -1), 5.0, 400.0),
        *(cylinder((30.0 + 32 * k, 40.0, 18.0), (0, 0, -1), 2.5, 10.0) for k in range(8)),
    ),
)
SHELF = Recipe((300.0, 190.0, 16.0), (box((-1.0, 170.0, -1.0), (6.0, 191.0, 17.0)),))
LEG = Recipe(
    (420.0, 60.0, 30.0),
    (
        HalfSpace((400.0, 0.0, 0.0), (math.cos(0.2), math.sin(0.2), 0.0)),
        round_over(0, (60.0, 30.0), (1, 1), 6.0, 420.0),
        cylinder((60.0, 30.0, 30.0), (0, 0, -1), 4.0, 40.0),
        cylinder((300.0, 30.0, 30.0), (0, 0, -1), 4.0, 40.0),
    ),
)


def parts(count: int) -> list[tuple[Recipe, Frame]]:
    """Return `count` parts: rows of cases made of two sides, two shelves and a leg."""
    c, s = math.cos(0.3), math.sin(0.3)
    frames = (
        (SIDE, ((0.0, 0.0, -1.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)), (18.0, 0.0, 0.0)),
        (SIDE, ((0.0, 0.0, -1.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0)), (330.0, 0.0, 0.0)),
        (SHELF, ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), (12.0, 0.0, 60.0)),
        (SHELF, ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), (12.0, 0.0, 180.0)),
        (LEG, ((s, 0.0, -c), (0.0, 1.0, 0.0), (c, 0.0, s)), (100.0, 210.0, 0.0)),
    )
    made = []
    for k in range(count):
        recipe, rotation, at = frames[k % 5]
        case = k // 5
        i, j, up = case % 5, case // 5 % 4, case // 20
        made.append((recipe, Frame(rotation, (at[0] + 350.0 * i, at[1] + 320.0 * j, at[2] + 450.0 * up))))
    return made


def timed(work: Callable[[], object], again: int) -> tuple[float, float]:
    """Return the least processor time of several runs, s, and the rise of the highest memory mark, MB."""
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    best = math.inf
    for _ in range(again):
        hidden._told.cache_clear()
        start = process_time()
        work()
        best = min(best, process_time() - start)
    return best, (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024


def main() -> None:
    counts = [int(a) for a in sys.argv[1:]] or [25, 100, 400, 1600]
    gc.set_threshold(ALIVE, 50, 50)  # as the program runs
    print(
        f"{'parts':>5} {'view':<12} {'ours s':>8} {'a part ms':>10} {'kernel s':>9} {'ratio':>6} {'ours MB':>8} {'kernel MB':>10}"
    )
    for count in counts:
        whole = parts(count)
        again = 15 if count <= 25 else 3 if count <= 100 else 1  # the least of many: a few hundredths of a second swing
        start = process_time()
        items = [(topology(r.solid()), f) for r, f in whole]
        print(f"{count:>5} {'topology':<12} {process_time() - start:8.3f}")
        kernel = {r: kernel_cut(kernel_blank((0.0, 0.0, 0.0), r.size), r.cuts) for r in (SIDE, SHELF, LEG)}
        shape = compound([placed(kernel[r], f) for r, f in whole])
        for name in ("front", "right", "top", "axonometric"):
            seen = name == "axonometric"  # as the sheets ask for it: without hidden lines
            ours, mine = timed(partial(draw, items, VIEWS[name], hidden=not seen), again)
            theirs, its = timed(partial(hidden_lines, shape, VIEWS[name]), again)
            ratio = ours / theirs
            print(
                f"{count:>5} {name:<12} {ours:8.3f} {1000 * ours / count:10.2f} {theirs:9.3f} {ratio:6.2f} {mine:8.0f} {its:10.0f}",
                flush=True,
            )


if __name__ == "__main__":
    main()
