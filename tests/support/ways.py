"""The shortest way between two coordinates over dimensions that are drawn."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from typing import TypeVar

By = TypeVar("By")


def way(graph: Mapping[int, Sequence[tuple[int, By]]], a: int, b: int) -> list[By] | None:
    """Return what leads from one coordinate to another, as few steps as can be; None where there is no way.

    Coordinates that are one apart are the same.
    """
    came: dict[int, tuple[int, By]] = {}
    todo, seen = deque([a]), {a}
    while todo:
        here = todo.popleft()
        if abs(here - b) <= 1:
            out = []
            while here in came:
                here, by = came[here]
                out.append(by)
            return out
        for near in (here - 1, here, here + 1):
            for there, by in graph.get(near, ()):
                if there not in seen:
                    seen.add(there)
                    came[there] = (here, by)
                    todo.append(there)
    return None
