"""The sheets of a packet in the layout's order. The cover is made last, since it lists the others."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial

from docgen.drawing.placing import PaperFault
from docgen.drawing.records import Record, Sheet, Text
from docgen.layout.model import Layout
from docgen.layout.read import names, read_layout
from docgen.piece.records import Stage
from docgen.places import Span
from docgen.reading.problems import Problem, Problems
from docgen.reading.words import did_you_mean
from docgen.sheets import (
    chain,
    cover,
    cutting,
    drilling,
    exploded,
    findings,
    hardware,
    joinery,
    parts,
    safety,
    setups,
    sticks,
    templates,
    views,
    work,
)
from docgen.sheets.aside import aside
from docgen.sheets.context import Context, Maker
from docgen.sheets.cover import GROUPS

MAKERS: dict[str, Maker] = {
    "cover": cover.make,
    "views": views.make,
    "exploded": exploded.make,
    "parts": parts.make,
    "joinery": joinery.make,
    "templates": templates.make,
    "sticks": sticks.make,
    "drilling": drilling.make,
    "cutting": cutting.make,
    "setups": setups.make,
    "chain": chain.make,
    "work": work.make,
    "hardware": hardware.make,
    "safety": safety.make,
    "findings": findings.make,
}


SLOWEST = ("parts",)
"""Made beside the others: they take about as long as all of those, and show no findings."""


Begun = Callable[[], Mapping[str, tuple[Sheet, ...]]]


def begin(context: Context, only: Sequence[str] | None = None) -> Begun:
    """Start the slowest kinds of sheet beside this process, before the findings are known.

    Raises Problems for words in `only` that are no kind of sheet of the layout.
    """
    wanted = _wanted(context, only)
    slow = [word for word in SLOWEST if word in wanted]
    if len(slow) == len(wanted):
        return dict
    for kind in context.kinds:  # both processes draw these: worked out after the copy they would be so twice
        context.solids.topology(kind.first, Stage.PART)
    return aside(partial(_made, context, slow))


def _made(context: Context, words: Sequence[str]) -> dict[str, tuple[Sheet, ...]]:
    return {word: MAKERS[word](context, {}) for word in words}


def sheets(context: Context, only: Sequence[str] | None = None, begun: Begun | None = None) -> tuple[Sheet, ...]:
    """Return all pages, or those of the kinds in `only`, in the layout's order; `begun` holds what was started.

    Raises Problems for words in `only` that are no kind of sheet of the layout, when no page is left, or when the
    paper has no room for something.
    """
    try:
        return _all(context, only, begun)
    except PaperFault as fault:
        raise Problems([_too_small(context.layout, fault)]) from None


def _all(context: Context, only: Sequence[str] | None, begun: Begun | None) -> tuple[Sheet, ...]:
    order, wanted = context.layout.sheets, _wanted(context, only)
    wait = begin(context, only) if begun is None else begun
    made: dict[str, tuple[Sheet, ...]] = {}
    for word in wanted:
        if word != "cover" and word not in SLOWEST:
            made[word] = _grouped(word, MAKERS[word](context, made))
    if "cover" in wanted and len(wanted) > 1:
        _trial_cover(context, made)
    beside = wait()
    for word in sorted(set(wanted) - set(made), key=lambda w: (w == "cover", w)):
        made[word] = _grouped(word, beside[word] if word in beside else MAKERS[word](context, made))
    pages = _numbered(page for word in wanted for page in made[word])
    if not pages:
        message = "the piece has nothing to print on these sheets"
        raise Problems([Problem("no-sheets", Span("--only", 1, 1), message, f"sheets are {', '.join(order)}")])
    return _referred(pages)


def _too_small(layout: Layout, fault: PaperFault) -> Problem:
    """Return the problem of something that no page has room for, with the larger papers, the least first."""
    own = sorted(layout.size)
    larger = [
        (known.size[0] * known.size[1], known.name)
        for known in map(read_layout, names())
        if all(theirs > ours for theirs, ours in zip(sorted(known.size), own, strict=True))
    ]
    told = ", ".join(name for _, name in sorted(larger))
    hint = (
        f"take larger paper: --paper and one of {told}"
        if told
        else "write a layout with larger paper or smaller scales"
    )
    message = f"{layout.name} has room at no scale for {fault}"
    return Problem("paper-too-small", Span("--paper", 1, 1), message, hint)


def _trial_cover(context: Context, made: Mapping[str, tuple[Sheet, ...]]) -> None:
    """Make the cover with one page in place of those waited for: its picture, most of the work, is kept."""
    MAKERS["cover"](context, {**made, **{w: (Sheet(w, w, w, context.layout.size, ()),) for w in SLOWEST}})


def _wanted(context: Context, only: Sequence[str] | None) -> tuple[str, ...]:
    order = context.layout.sheets
    return order if only is None else tuple(word for word in order if word in _known(only, order))


def _numbered(pages: Iterable[Sheet]) -> tuple[Sheet, ...]:
    """Return the pages with keys of their own: a sheet that goes on under its key gets numbers behind it."""
    counts: dict[str, int] = {}
    out: list[Sheet] = []
    for page in pages:
        counts[page.key] = counts.get(page.key, 0) + 1
        count = counts[page.key]
        out.append(page if count == 1 else replace(page, key=f"{page.key}/{count}"))
    return tuple(out)


def _referred(pages: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    """Return the pages with the numbers of other sheets behind the texts that want them."""
    numbers = {page.key: n for n, page in enumerate(pages, 1)}

    def told(record: Record) -> Record:
        if not isinstance(record, Text) or not record.sheets:
            return record
        return replace(record, text=f"{record.text} {', '.join(str(numbers[key]) for key in record.sheets)}", sheets=())

    able = (any(isinstance(r, Text) and r.sheets for r in page.records) for page in pages)
    return tuple(
        replace(page, records=tuple(map(told, page.records))) if refers else page
        for page, refers in zip(pages, able, strict=True)
    )


def _grouped(word: str, pages: tuple[Sheet, ...]) -> tuple[Sheet, ...]:
    """Return the pages with one bookmark above them all, where they are several sheets that have none of their own."""
    if word not in GROUPS or len({page.title for page in pages}) < 2:
        return pages
    return tuple(page if page.outline else replace(page, outline=(GROUPS[word],)) for page in pages)


def _known(only: Sequence[str], order: Sequence[str]) -> frozenset[str]:
    problems = [
        Problem(
            "unknown-sheet",
            Span("--only", 1, 1),
            f"there is no kind of sheet '{word}'",
            did_you_mean(word, order, otherwise=f"sheets are {', '.join(order)}"),
        )
        for word in only
        if word not in order
    ]
    if problems:
        raise Problems(problems)
    return frozenset(only)
