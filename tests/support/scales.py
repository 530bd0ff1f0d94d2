"""Whether each drawing of a part, and each joinery detail, has the largest scale of the ladder that its page has room for.

As a script: ``python -m tests.support.scales [EXAMPLE …] [--paper NAME …] [--all]`` tells each drawing that could be a step
larger where it stands, each that could be on a page of its own, and twins that are drawn at different scales; exit status 1
when a drawing could be larger where it stands.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from docgen.layout.model import Rect
from docgen.sheets.context import Context
from docgen.sheets.joinery import arranged, details
from docgen.sheets.joint_detail import LARGEST
from docgen.sheets.joint_laid import Layout, grown_once
from docgen.sheets.part_block import fitted
from docgen.sheets.part_broken import along
from docgen.sheets.part_pages import BETWEEN, Page
from docgen.sheets.part_share import Entry
from tests.support.printed import EXAMPLES, context, packed

PAPERS = ("letter", "a4", "letter-landscape", "a4-landscape", "a3", "tabloid")
ALIKE = 0.12  # of its own: how far each size of a part may be from that of its twin


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing of a part: its page, scale and figures' height, how much of the page is empty, and the larger scales it could have."""

    part: str
    page: int
    scale: tuple[int, int]
    height: float
    long: float  # mm on paper
    figures: int
    empty: float
    broken: bool
    here: tuple[int, int] | None  # on its page, beside what stands there
    alone: tuple[int, int] | None  # on a page of its own


def drawings(name: str, paper: str) -> list[Drawing]:
    """Return each drawing of the parts of an example."""
    c = context(name, paper)
    return [
        _drawing(c, n, page, entry)
        for n, page in enumerate(packed(name, paper), 1)
        for entry in (s.block for s in page.blocks)
    ]


def _drawing(c: Context, n: int, page: Page[Entry], entry: Entry) -> Drawing:
    s = entry.placed.setting
    return Drawing(
        part=entry.subject.part.path + entry.subject.block,
        page=n,
        scale=s.scale,
        height=s.height,
        long=entry.placed.long * s.factor,
        figures=sum(len(a.placed) for a in entry.placed.spread.arranged),
        empty=1 - sum(e.size[0] * e.size[1] for e in (x.block for x in page.blocks)) / (page.wide * page.high),
        broken=bool(entry.subject.gone),
        here=_here(c, page, entry),
        alone=_alone(c, entry),
    )


def larger(c: Context, entry: Entry) -> tuple[int, int] | None:
    """Return the next larger scale of the ladder, up to true size; None at the top."""
    every = [s for s in c.layout.scales[c.piece.units.system] if s[0] / s[1] <= 1 + 1e-9]
    more = [s for s in every if s[0] / s[1] > entry.placed.setting.factor + 1e-9]
    return min(more, key=lambda s: s[0] / s[1], default=None)


def _here(c: Context, page: Page[Entry], entry: Entry) -> tuple[int, int] | None:
    """Return the next larger scale where the page takes the drawing at it beside all else that stands on it."""
    scale = larger(c, entry)
    if scale is None:
        return None
    blocks = [s.block for s in page.blocks]
    rows = sum(b.size[1] + BETWEEN for b in blocks if b is not entry) if len(blocks) == 1 or not _beside(page) else 0.0
    for room in {(page.wide, page.high - rows), *((f.free.wide, f.free.high) for f in page.blocks if f.block is entry)}:
        made = _at(c, entry, room, scale)
        if made is not None and _held(page, [made if b is entry else b for b in blocks]):
            return scale
    return None


def _beside(page: Page[Entry]) -> bool:
    return any(s.beside for s in page.blocks)


def _alone(c: Context, entry: Entry) -> tuple[int, int] | None:
    scale = larger(c, entry)
    area = c.layout.area
    return scale if scale is not None and _at(c, entry, (area.width, area.height), scale) is not None else None


def _at(c: Context, entry: Entry, room: tuple[float, float], scale: tuple[int, int]) -> Entry | None:
    """Return the drawing at a scale in a room, with figures no smaller than they are; None if it does not fit.

    A broken one is tried as it is broken, and unbroken.
    """
    factor, subject = scale[0] / scale[1], entry.subject
    wholes = [subject]
    if subject.whole is not None and along(subject.stations(False)):
        wholes = [subject.whole.restricted(subject.only, subject.block, subject.told)]
    for s in wholes:
        placed = fitted(s, entry.kind, c, room, (factor, factor))
        if placed is not None and placed.setting.height >= entry.placed.setting.height:
            return replace(entry, placed=placed, subject=s)
    return None


def _held(page: Page[Entry], entries: Sequence[Entry]) -> bool:
    fresh: Page[Entry] = Page(page.wide, page.high)
    return all(
        fresh.take(lambda room, e=e: e if e.size[0] <= room[0] and e.size[1] <= room[1] else None)  # type: ignore[misc]
        for e in entries
    )


def twins(name: str, paper: str) -> Iterator[tuple[str, str]]:
    """Yield pairs of parts of about the same sizes whose first drawings have different scales."""
    first: dict[str, Entry] = {}
    for page in packed(name, paper):
        for s in page.blocks:
            first.setdefault(s.block.kind.first, s.block)
    entries = list(first.values())
    for n, one in enumerate(entries):
        for other in entries[n + 1 :]:
            if one.placed.setting.scale != other.placed.setting.scale and _alike(one, other):
                yield _said(one), _said(other)


def _alike(one: Entry, other: Entry) -> bool:
    sizes = zip(map(float, one.subject.part.size), map(float, other.subject.part.size), strict=True)
    return all(abs(a - b) <= ALIKE * max(a, b) for a, b in sizes)


def _said(e: Entry) -> str:
    broken = " broken" if e.subject.gone else ""
    return f"{e.subject.part.path} {e.placed.setting.scale[0]}:{e.placed.setting.scale[1]}{broken}"


@dataclass(frozen=True, slots=True)
class Section:
    """A joinery detail: its page, scale, and whether it could be a step larger there without taking a page."""

    joint: str
    page: int
    scale: tuple[int, int]
    here: tuple[int, int] | None


def joinery_laid(name: str, paper: str) -> tuple[Context, Layout, Rect]:
    """Return the joinery details of an example as they are laid out, and the room of their pages."""
    c = context(name, paper)
    return c, *arranged(c, list(details(c)))


def sections(name: str, paper: str) -> list[Section]:
    """Return each joinery detail of an example."""
    c, laid, room = joinery_laid(name, paper)
    out = []
    for g, group in enumerate(laid.drawn):
        for k, (of, _) in enumerate(group):
            tries = (
                grown_once(c, laid, (g, k), room, {}, across=across, most=most)
                for across, most in ((False, 1.0), (True, 1.0), (False, LARGEST))
            )
            more = next((t for t in tries if t is not None), None)
            here = more.drawn[g][k][0].scale if more is not None else None
            out.append(Section(of.detail.meeting.joint.title, laid.spots[g][k].page + 1, of.scale, here))
    return out


def main(arguments: Sequence[str]) -> int:
    """Print what could be larger."""
    papers = [a for a in arguments if a in PAPERS] or list(PAPERS)
    names = [a for a in arguments if a not in PAPERS and not a.startswith("-")]
    names = names or sorted(p.stem for p in EXAMPLES.glob("*.yaml"))
    here = alone = count = 0
    for name in names:
        for paper in papers:
            print(f"== {name} {paper}: {len(packed(name, paper))} pages")
            count += len(packed(name, paper))
            for d in drawings(name, paper):
                here, alone = here + (d.here is not None), alone + (d.alone is not None)
                if d.here or d.alone or "--all" in arguments:
                    print(
                        f"  p{d.page:<2} {d.part:34.34} {d.scale[0]}:{d.scale[1]:<3}{'broken' if d.broken else '':7}"
                        f" h{d.height:g} {d.long:4.0f} mm {d.figures:3} figures, {d.empty:4.0%} empty"
                        f"{'  HERE ' + str(d.here) if d.here else ''}{'  alone ' + str(d.alone) if d.alone else ''}"
                    )
            for s in sections(name, paper):
                here += s.here is not None
                if s.here or "--all" in arguments:
                    print(
                        f"  joinery {s.page:<2} {s.joint:48.48} {s.scale[0]}:{s.scale[1]}{'  HERE ' + str(s.here) if s.here else ''}"
                    )
            for one, other in twins(name, paper):
                print(f"  twins {one} / {other}")
    print(f"{count} pages; larger where they stand: {here}; on a page of their own: {alone}")
    return here > 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
