"""The details of joints in columns, each drawn as large as the pages have room for that they take anyway."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from docgen.layout.model import Rect
from docgen.sheets.context import Context
from docgen.sheets.joint_cell import Cell, Content, cell
from docgen.sheets.joint_detail import (
    ALONE,
    LARGEST,
    TALLEST,
    Detail,
    Drawings,
    Pictured,
    higher,
    lower,
    pictured,
    tallest,
)
from docgen.sheets.joint_pages import Piece, Spot, packed, packed_on
from docgen.sheets.joint_words import words
from docgen.sheets.key_view import key_view

COLUMN = 84.0  # mm: the least width of a detail
BROADEST = 150.0  # mm: the greatest
WORDS = 50.0  # mm: about what the key view and the words below a picture take
BETWEEN = 6.0  # mm between details
LITTLE = 40.0  # mm: a detail that is so much taller than half the page is drawn smaller
WORTH = 0.4  # of what a page holds: so many details that come to their true size are worth one more, two at least
Laid = tuple[Pictured, Cell]


@dataclass(frozen=True, slots=True)
class Layout:
    """The details of each meeting, laid out in columns `wide` mm wide, and where each stands."""

    drawn: list[list[Laid]]
    spots: list[list[Spot]]
    wide: float
    count: int  # columns

    @property
    def pages(self) -> int:
        """How many pages they take."""
        return 1 + max((s.page for group in self.spots for s in group), default=-1)

    @property
    def reduced(self) -> int:
        """How many details are drawn smaller than they are."""
        return sum(of.factor < 1.0 for group in self.drawn for of, _ in group)

    @property
    def large(self) -> float:
        """How large all pictures are: the more doublings of scale the larger."""
        return sum(math.log2(of.factor) for group in self.drawn for of, _ in group)


def laid_out(context: Context, groups: Sequence[Sequence[Detail]], room: Rect) -> Layout:
    """Return the details on as few pages as they take in narrow columns, in wider ones and larger where those have room."""
    memos: list[list[Drawings]] = [[{} for _ in group] for group in groups]
    best = _in_columns(context, groups, room, _columns(sum(map(len, groups)), room), memos)
    while best.count > 1:
        other = _in_columns(context, groups, room, best.count - 1, memos)
        if other.pages > best.pages or other.large <= best.large:
            break
        best = other
    return _grown(context, best, room, memos)


def _in_columns(
    context: Context, groups: Sequence[Sequence[Detail]], room: Rect, count: int, memos: Sequence[Sequence[Drawings]]
) -> Layout:
    wide = min((room.width - (count - 1) * BETWEEN) / count, BROADEST)
    share = ALONE if sum(map(len, groups)) <= count else TALLEST
    drawn = [
        [_suited(context, detail, wide, room, share, memo) for detail, memo in zip(*pair, strict=True)]
        for pair in zip(groups, memos, strict=True)
    ]
    spots = packed(_pieces(drawn), columns=count, room=room.height, gap=BETWEEN)
    return Layout(drawn, spots, wide, count)


def _pieces(drawn: Sequence[Sequence[Laid]]) -> list[list[Piece]]:
    return [[Piece(laid.tall, of.across) for of, laid in group] for group in drawn]


def _grown(context: Context, laid: Layout, room: Rect, memos: Sequence[Sequence[Drawings]]) -> Layout:
    """Return the details with each a step larger, the smallest first, as long as that takes no further page.

    All grow in their columns first, then those still small right across a page, then beyond true size what is tiny there.
    One page more is taken where it brings several from less than true size to it.
    """
    for across in (False, True):
        laid = _larger(context, laid, room, memos, across=across)
    worth = max(2.0, WORTH * sum(map(len, laid.drawn)) / max(laid.pages, 1))
    if laid.reduced >= worth:
        more = laid
        for across in (False, True):
            more = _larger(context, more, room, memos, across=across, pages=laid.pages + 1)
        if laid.reduced - more.reduced >= worth:
            laid = more
    return _larger(context, laid, room, memos, most=LARGEST)


def _larger(
    context: Context,
    laid: Layout,
    room: Rect,
    memos: Sequence[Sequence[Drawings]],
    *,
    across: bool = False,
    most: float = 1.0,
    pages: int = 0,
) -> Layout:
    """Return the details with each as much larger as `pages` have room for, those it takes anyway if no more are given."""
    every = [(g, k) for g, group in enumerate(laid.drawn) for k in range(len(group))]
    todo = sorted(every, key=lambda at: laid.drawn[at[0]][at[1]][0].factor)
    while todo:
        g, k = todo.pop(0)
        larger = grown_once(context, laid, (g, k), room, memos[g][k], across=across, most=most, pages=pages)
        if larger is not None:
            laid = larger
            todo.append((g, k))
    return laid


def grown_once(
    context: Context,
    laid: Layout,
    at: tuple[int, int],
    room: Rect,
    memo: Drawings,
    *,
    across: bool = False,
    most: float = 1.0,
    pages: int = 0,
) -> Layout | None:
    """Return the layout with one detail a step larger, in its column or right `across` the page.

    None where that takes more than so many `pages`, or than it takes anyway.
    """
    g, k = at
    of = laid.drawn[g][k][0]
    if across and (room.width <= of.wide or of.detail.cut is None):
        return None
    more = higher(context, of, memo, most, room.width if across else of.wide)
    if more is None:
        return None
    drawn = [list(group) for group in laid.drawn]
    drawn[g][k] = more, celled(context, more)
    if drawn[g][k][1].tall > room.height:
        return None
    able = max(laid.pages, pages)
    spots = packed_on(_pieces(drawn), able, columns=laid.count, room=room.height, gap=BETWEEN)
    return replace(laid, drawn=drawn, spots=spots) if spots is not None else None


def _columns(details: int, room: Rect) -> int:
    """Return how many columns: as few and wide ones as take all details on one page, else as many as have room."""
    most = max(1, int((room.width + BETWEEN) // (COLUMN + BETWEEN)))
    for count in range(1, most):
        wide = (room.width - (count - 1) * BETWEEN) / count
        rows = int(room.height // (tallest(wide, room.height) + WORDS))
        if count * rows >= details:
            return count
    return most


def _suited(context: Context, detail: Detail, wide: float, room: Rect, share: float, memo: Drawings) -> Laid:
    """Return a detail, laid out; one that is a little taller than half the page, or than all of it, is drawn smaller."""
    found = pictured(context, detail, wide, room.width, share, memo)
    laid = celled(context, found)
    half = (room.height - BETWEEN) / 2
    for most, over in ((half, LITTLE if share == TALLEST else 0.0), (room.height, laid.tall)):
        if most < laid.tall <= most + over and (less := lower(context, found, laid.tall - most)) is not None:
            shorter = celled(context, less)
            if shorter.tall <= most:
                return less, shorter
    if laid.tall > room.height and room.width > wide:  # right across the page its words stand beside the picture
        broad = replace(found, wide=room.width, across=True)
        return min(((found, laid), (broad, celled(context, broad))), key=lambda of: of[1].tall)
    return found, laid


def celled(context: Context, of: Pictured) -> Cell:
    """Return a detail laid out in its column with what is said of it."""
    detail, picture, scale = of.detail, of.picture, of.scale
    name = f"{detail.letter} – {detail.letter}" if detail.cut else f"Detail {detail.letter}"
    plane = detail.cut.plane if detail.cut else None
    content = Content(
        title=detail.meeting.title.capitalize(),
        name=f"{name}   {scale[0]} : {scale[1]}",
        picture=(picture.records, picture.bounds),
        key=key_view(context, plane, detail.meeting.spot, detail.letter),
        paragraphs=tuple(words(context, detail, picture, of.notes)),
        turned=plane.turned if plane else 0.0,
    )
    return cell(context, content, of.wide)
