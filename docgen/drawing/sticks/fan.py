"""Labels in a row that must not touch: each as near to its mark as the others allow."""

from __future__ import annotations

import itertools
from collections.abc import Sequence


def spread(wanted: Sequence[float], widths: Sequence[float], low: float, high: float) -> tuple[float, ...] | None:
    """Return the middles of labels that would like to stand at `wanted` (rising), None if they do not fit.

    The labels keep their order, do not overlap, and stay between `low` and `high`; the sum of squared shifts is
    the least possible (pooling of adjacent violators).
    """
    if not wanted:
        return ()
    offsets = [0.0]
    for a, b in itertools.pairwise(widths):
        offsets.append(offsets[-1] + (a + b) / 2)
    least, most = low + widths[0] / 2, high - widths[-1] / 2 - offsets[-1]
    if least > most + 1e-9:
        return None
    pools: list[tuple[float, int]] = []  # sum, count
    for w, o in zip(wanted, offsets, strict=True):
        pools.append((w - o, 1))
        while len(pools) > 1 and pools[-2][0] / pools[-2][1] > pools[-1][0] / pools[-1][1]:
            total, count = pools.pop()
            pools[-1] = (pools[-1][0] + total, pools[-1][1] + count)
    means = [total / count for total, count in pools for _ in range(count)]
    return tuple(min(max(m, least), most) + o for m, o in zip(means, offsets, strict=True))
