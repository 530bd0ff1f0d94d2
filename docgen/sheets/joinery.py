"""Joinery details: one for each kind of joint in the piece, cut where it tells most, with its figures and its own scale."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import islice

from docgen.drawing.hatching import Cut
from docgen.drawing.placing import moved
from docgen.drawing.records import Record, Sheet, Text
from docgen.layout.model import Rect
from docgen.piece import loose
from docgen.schedules.meetings import Meeting, meetings
from docgen.schedules.planes import Plane
from docgen.sheets.context import Context
from docgen.sheets.joint_cell import Cell
from docgen.sheets.joint_cut import Blanks, CutView, cut_view, slopes
from docgen.sheets.joint_detail import LARGEST, Detail
from docgen.sheets.joint_key import Key, Signs, key
from docgen.sheets.joint_laid import BETWEEN, Layout, laid_out
from docgen.sheets.joint_pages import Spot, in_order
from docgen.sheets.joint_sizes import brackets
from docgen.sheets.joint_view import beside

LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"  # without those that look like figures
OWN, FIRST = "QQ", "QM"  # stand for a detail's letter, and that of its first section, until they are in their places


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the pages of joinery details; none for a piece without joints."""
    area, groups = context.layout.area, list(details(context))
    laid, room = arranged(context, groups)
    pages = _pages([[cell for _, cell in group] for group in laid.drawn], laid.spots, laid.wide, room)
    return tuple(
        Sheet(
            key="joinery" if i == 0 else f"joinery/{i + 1}",
            kind="joinery",
            title="Joinery details",
            size=context.layout.size,
            records=(*records, *(moved(r, area.x, area.y) for r in _foot(context, _on(groups, laid, i)).records)),
            scale="as noted",
        )
        for i, records in enumerate(pages)
    )


def arranged(context: Context, groups: Sequence[Sequence[Detail]]) -> tuple[Layout, Rect]:
    """Return the details laid out, and the room on each page above the key."""
    area, foot = context.layout.area, _foot(context, groups)
    room = Rect(area.x, area.y + foot.tall, area.width, area.height - foot.tall)
    return laid_out(context, groups, room), room


def _on(groups: Sequence[Sequence[Detail]], laid: Layout, page: int) -> list[list[Detail]]:
    """Return the details of one page: its key tells no sign that stands on others alone."""
    return [
        [of for of, spot in zip(group, spots, strict=True) if spot.page == page]
        for group, spots in zip(groups, laid.spots, strict=True)
    ]


def _foot(context: Context, groups: Sequence[Sequence[Detail]]) -> Key:
    """Return the key of what the details show."""
    cuts = [of.cut for group in groups for of in group if of.cut]
    shown = {face.cut for cut in cuts for face in cut.faces}
    shown |= {Cut.METAL for cut in cuts if any(not m.thing.room for m in cut.metal)}
    signs = Signs(
        others=any(beside(cut, LARGEST, context) for cut in cuts),
        brackets=any(map(brackets, cuts)),
        turned=any(cut.plane.turned for cut in cuts),
    )
    return key(context, shown, signs)


def details(context: Context) -> Iterator[list[Detail]]:
    """Yield the details of each meeting in the order of the joints: one or two sections, or one enlarged view."""
    blanks = Blanks.of(context.piece.parts, slopes(context.kinds, context.piece.joints))
    for meeting in meetings(context.piece):
        cuts = list(_cuts(context, blanks, meeting, meeting.planes))
        cuts = cuts or list(islice(_cuts(context, blanks, meeting, meeting.spare), 1))
        shown = replace(meeting, planes=tuple(cut.plane for cut in cuts))
        yield [Detail(shown, cut, OWN, FIRST if i else "") for i, cut in enumerate(cuts or [None])]


def _cuts(context: Context, blanks: Blanks, meeting: Meeting, planes: Iterable[Plane]) -> Iterator[CutView]:
    """Yield the sections by planes that meet both parts of a meeting."""
    piece = context.piece
    parts = [piece.part(path) for path in meeting.parts]
    things = loose.every(piece)
    for plane in planes:
        joint = meeting.joint
        cut = cut_view(
            parts,
            blanks,
            plane,
            context.solids,
            things,
            meeting.loose,
            piece.fasteners,
            joint.fittings,
            joint.features,
        )
        if cut is not None:
            yield cut


def _letter(number: int) -> str:
    """Return A, B … Z, AA, BB …, without letters that look like figures."""
    return LETTERS[number % len(LETTERS)] * (1 + number // len(LETTERS))


def _pages(
    laid: Sequence[Sequence[Cell]], spots: Sequence[Sequence[Spot]], wide: float, area: Rect
) -> list[list[Record]]:
    """Return the records of each page; the details get their letters in the order in which they are read.

    Nothing is laid out anew: with a narrower letter the words might take more lines than were left for them.
    """
    letters = {of: _letter(n) for n, of in enumerate(in_order(spots))}
    out: list[list[Record]] = [[] for _ in range(1 + max((s.page for group in spots for s in group), default=-1))]
    for g, k in letters:
        spot = spots[g][k]
        called = {OWN: letters[g, k], FIRST: letters[g, 0]}
        x, y = area.x + spot.column * (wide + BETWEEN), area.top - spot.down
        out[spot.page] += [
            moved(_lettered(r, called), x + dx, y + dy) for records, dx, dy in laid[g][k].groups for r in records
        ]
    return out


def _lettered(record: Record, called: Mapping[str, str]) -> Record:
    """Return the record with the letters of its sections in it."""
    if not isinstance(record, Text) or "Q" not in record.text:
        return record
    return replace(record, text=re.sub(rf"\b(?:{OWN}|{FIRST})\b", lambda found: called[found[0]], record.text))
