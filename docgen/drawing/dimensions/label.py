"""A block of one or more lines of lettering, measured once and set at any place and angle."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from docgen.drawing import lettering
from docgen.drawing.boxes import Box
from docgen.drawing.metrics import Metrics
from docgen.drawing.records import Text

LEAD = 0.9  # mm of air between lines


@dataclass(frozen=True, slots=True)
class Label:
    """Lines with their baselines, measured from the block's lower side; `width` and `tall` in mm."""

    lines: tuple[str, ...]
    height: float
    width: float
    tall: float
    baselines: tuple[float, ...]

    def box(self, centre: tuple[float, float], angle: float = 0.0) -> Box:
        """Return the block's rectangle about `centre`."""
        return Box(centre[0], centre[1], self.width / 2, self.tall / 2, angle)

    def texts(self, box: Box, anchor: str = "left") -> list[Text]:
        """Return the lettering inside `box`, the lines flush left or right."""
        x = -self.width / 2 if anchor == "left" else self.width / 2
        return [
            Text(box.point(x, base - self.tall / 2), line, self.height, anchor, angle=box.angle)
            for line, base in zip(self.lines, self.baselines, strict=True)
        ]


@lru_cache(maxsize=4096)
def label(lines: tuple[str, ...], height: float, metrics: Metrics) -> Label:
    """Return the measured block of at least one line."""
    reaches = [lettering.reach(line, height, metrics) for line in lines]
    tall = sum(up + down for up, down in reaches) + LEAD * (len(lines) - 1)
    bases: list[float] = []
    y = tall
    for up, down in reaches:
        bases.append(y - up)
        y -= up + down + LEAD
    wide = max(lettering.width(line, height, metrics) for line in lines)
    return Label(lines, height, wide, tall, tuple(bases))
