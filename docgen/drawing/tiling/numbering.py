"""The numbers that templates and gauges carry on every paper: T1 and on, the large ones first, then G1 and on."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from docgen.drawing.tiling.ink import bounds_of, outline_ink
from docgen.schedules.template_rows import TemplateRow

PAGEFUL = (170.0, 110.0)  # mm: what is larger comes first, so that the small ones stand together
_NUMBER = re.compile(r"([TG]\d+)[A-Z]*", re.IGNORECASE)


def numbered(rows: Sequence[TemplateRow]) -> list[tuple[str, TemplateRow]]:
    """Return the templates with their numbers, in the order in which they are printed."""
    order = sorted(rows, key=_is_large, reverse=True)
    return [(f"T{n}", row) for n, row in enumerate(order, 1)]


def _is_large(row: TemplateRow) -> bool:
    x0, y0, x1, y1 = bounds_of(outline_ink(row.seen.outline))
    return x1 - x0 > PAGEFUL[0] or y1 - y0 > PAGEFUL[1]


def listed(titles: Mapping[str, str]) -> list[str]:
    """Return a line for each drawing, its number and its title; `titles` are those by numbers."""
    wide = max((len(number) for number in titles), default=0)
    return [f"{number:<{wide}}  {title}" for number, title in titles.items()]


def asked(text: str, titles: Mapping[str, str]) -> str | None:
    """Return the number of the drawing that `text` means, None for none.

    It is the number as printed, the letter of a piece of a long template with it or without, the title, or both.
    """
    for number, title in titles.items():
        if text == title or text.split(maxsplit=1) == [number, title]:
            return number
    found = _NUMBER.fullmatch(text.strip())
    number = found[1].upper() if found else ""
    return number if number in titles else None
