"""An order in which things can be worked out, and the circles that have none."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from graphlib import CycleError, TopologicalSorter
from typing import TypeVar

Key = TypeVar("Key", bound=Hashable)


def ordered(needs: Mapping[Key, tuple[Key, ...]]) -> tuple[list[Key], list[list[Key]]]:
    """Return the keys, each after those it needs, and the circles.

    A circle is a list in which each key needs the next, and the last the first; it begins with the key that stands
    first in `needs`. Keys of circles are left out of the order; what needs them stays in it. Needs that are no keys
    do not count.
    """
    place = {key: i for i, key in enumerate(needs)}
    left = {key: tuple(n for n in wanted if n in place) for key, wanted in needs.items()}
    circles: list[list[Key]] = []
    while True:
        try:
            return list(TopologicalSorter(left).static_order()), circles
        except CycleError as error:
            circle: list[Key] = error.args[1][:0:-1]  # each key needs the next one, the first is not repeated
            first = min(range(len(circle)), key=lambda i: place[circle[i]])
            circles.append(circle[first:] + circle[:first])
            gone = set(circle)
            left = {k: tuple(n for n in wanted if n not in gone) for k, wanted in left.items() if k not in gone}
