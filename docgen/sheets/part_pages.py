"""Packing the blocks of parts on pages: each in the first free rectangle that takes it, and what is left parted in two."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Generic, Protocol, TypeVar

BETWEEN = 6.0  # mm between two blocks on a page
NARROW = 0.6  # of a rectangle's width: a broader block takes all of it
LEAST = 60.0  # mm, what is narrower is not used


class Sized(Protocol):
    """What is packed."""

    @property
    def size(self) -> tuple[float, float]:
        """Width and height, mm."""
        ...


B = TypeVar("B", bound=Sized)


@dataclass(frozen=True, slots=True)
class Free:
    """A free rectangle of a page: upper left corner, width, height; y grows downward from the page's top."""

    x: float
    y: float
    wide: float
    high: float


@dataclass(frozen=True, slots=True)
class Set(Generic[B]):
    """A block on its page, hanging from (x, y), and the rectangle that it was given; `beside` when it shares its width."""

    block: B
    free: Free
    beside: bool


@dataclass(slots=True)
class Page(Generic[B]):
    """A page with what stands on it."""

    wide: float
    high: float
    blocks: list[Set[B]] = field(default_factory=list)
    free: list[Free] = field(init=False)

    def __post_init__(self) -> None:
        self.free = [Free(0.0, 0.0, self.wide, self.high)]

    def take(self, refit: Callable[[tuple[float, float]], B | None]) -> bool:
        """Set a block in the first free rectangle for which `refit` makes one; False when there is none."""
        for n, free in enumerate(self.free):
            made = refit((free.wide, free.high))
            if made is not None:
                self._set(n, made)
                return True
        return False

    def _set(self, n: int, block: B) -> None:
        free = self.free.pop(n)
        wide, high = block.size
        beside = wide <= NARROW * free.wide and free.wide - wide - BETWEEN >= LEAST
        self.blocks.append(Set(block, free, beside))
        self.free[n:n] = list(_rest(free, wide if beside else free.wide, high))


def repacked(page: Page[B], blocks: Sequence[B]) -> Page[B] | None:
    """Return a page of the same size with blocks as they stand, in their order; None when they do not fit."""
    fresh: Page[B] = Page(page.wide, page.high)
    for b in blocks:
        wide, high = b.size
        if not fresh.take(lambda room, b=b, wide=wide, high=high: b if wide <= room[0] and high <= room[1] else None):  # type: ignore[misc]
            return None
    return fresh


def _rest(free: Free, wide: float, high: float) -> Iterator[Free]:
    """Yield what a block leaves of a rectangle: beside it, as high as itself, and under it, over the whole width."""
    right = Free(free.x + wide + BETWEEN, free.y, free.wide - wide - BETWEEN, high)
    if right.wide >= LEAST:
        yield right
    under = Free(free.x, free.y + high + BETWEEN, free.wide, free.high - high - BETWEEN)
    if under.high > 0:
        yield under
