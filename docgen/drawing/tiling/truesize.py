"""A true-size drawing before it is cut into pages."""

from __future__ import annotations

from dataclasses import dataclass

from docgen.drawing.tiling.ink import Ink
from docgen.drawing.tiling.labels import Label


@dataclass(frozen=True, slots=True)
class TrueSize:
    """A drawing on endless paper in millimetres; `boundary` is the outline in which captions like to stand."""

    title: str
    lines: tuple[str, ...]  # what it is and how to lay it on the wood, one sentence each
    inks: tuple[Ink, ...]
    labels: tuple[Label, ...] = ()
    boundary: tuple[Ink, ...] = ()
