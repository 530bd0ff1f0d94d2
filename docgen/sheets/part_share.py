"""A part's views shared out over as few blocks as a good scale allows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from docgen.drawing.choose import opposite
from docgen.drawing.placing import PaperFault
from docgen.piece.model import Kind
from docgen.piece.records import Face
from docgen.sheets.context import Context
from docgen.sheets.part_block import Placed, fitted, told
from docgen.sheets.part_broken import slender
from docgen.sheets.part_holes import mixed, worth_it
from docgen.sheets.part_view import Subject

GOOD = 0.1  # 1 : 10: a part drawn no smaller is not shared out over several blocks
LITTLE_END = 9.0  # mm on paper: an end that comes out no larger has no room for what is cut into it
LITTLE = 80.0  # mm on paper: a part that comes out no longer is, where that doubles it
RATHER = 105.0  # mm on paper: one that comes out no longer is, where that takes hardly more paper
PAPER = 1.5  # times a page's height: so much paper at most


@dataclass(frozen=True, slots=True)
class Entry:
    """A part ready for its page."""

    kind: Kind
    placed: Placed
    subject: Subject
    kept: bool = False  # at its scale, which was hard to come by
    whole: Entry | None = None  # as it stood before it was drawn smaller to share its page
    joined: Entry | None = None  # of ends in a block of their own: the part with all its views in one

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of its block, mm."""
        return (self.placed.width, self.placed.height)


def blocks(context: Context, kind: Kind, subject: Subject, room: tuple[float, float]) -> list[Entry]:
    """Return the views in as few blocks as a good scale allows; PaperFault if the paper is too small for any."""
    several = subject.with_table() if worth_it(subject.part) else None
    for between in ((GOOD, 1.0), (0.0, GOOD)):
        for n, shares in enumerate(groups(subject)):
            made = [] if n == 0 and mixed(subject.part) else shared(context, kind, subject, shares, room, between)
            if n == 0 and several is not None:
                least = made[0].placed.setting.factor if made else between[0]
                made = _better(made, shared(context, kind, several, shares, room, (least, between[1])))
                made = made or shared(context, kind, subject, shares, room, between)
            if made:
                return (
                    made if n else _doubled(context, kind, subject, made, room) or _ends_apart(context, made[0], room)
                )
    bare = told(subject, kind, context, room)
    if bare is None:
        raise PaperFault(f"the sheet of {subject.part.path}")
    return [Entry(kind, bare, subject)]


def _ends_apart(context: Context, whole: Entry, room: tuple[float, float]) -> list[Entry]:
    """Return a slender part with ends that come out little in a block of their own, at twice the scale at least.

    The part as it stands, where its ends are large enough, or nothing is gained.
    """
    subject, part, factor = whole.subject, whole.subject.part, whole.placed.setting.factor
    ends = tuple(f for f in subject.plan.faces if f.axis == 0)
    sides = tuple(f for f in subject.plan.faces if f.axis != 0)
    least = min(float(part.span(i)[1] - part.span(i)[0]) for i in (1, 2)) * factor
    if not ends or not slender(part) or least > LITTLE_END or 2 * factor > 1:
        return [whole]
    first = shared(context, kind := whole.kind, subject, (sides,), room, (factor, 1.0))
    apart = shared(context, kind, subject, (ends,), (room[0], room[1] / 2), (2 * factor, 1.0)) if first else []
    if not apart:
        return [whole]
    labelled = [subject.restricted(only, f", {n} of 2") for n, only in enumerate((sides, ends), 1)]
    limits = [(e.placed.setting.factor, e.placed.setting.factor) for e in (*first, *apart)]
    made = [fitted(s, kind, context, room, at) for s, at in zip(labelled, limits, strict=True)]
    if made[0] is None or made[1] is None:
        return [whole]
    return [Entry(kind, made[0], labelled[0]), Entry(kind, made[1], labelled[1], joined=whole)]


def _doubled(
    context: Context, kind: Kind, subject: Subject, whole: list[Entry], room: tuple[float, float]
) -> list[Entry]:
    """Return a part that comes out little on a page of its own at twice the scale at least; none where that does not fit.

    It takes several blocks then, or smaller figures.
    """
    placed = whole[0].placed
    long = placed.long * placed.setting.factor
    if long > RATHER or placed.height <= room[1] / 2:
        return []
    between = (2 * placed.setting.factor, 1.0)
    together, *others = groups(subject)
    said = whole[0].subject  # with a table or without
    tries = [*((subject, s) for s in others), (said, together), *((said, s) for s in others if said.table)]
    made = next((m for s, shares in tries if (m := shared(context, kind, s, shares, room, between))), [])
    if len(made) > 1 and _paper(made) > room[1]:  # figures of the least height, on one page
        made = shared(context, kind, said, together, room, between) or made
    if long > LITTLE and _paper(made) > PAPER * room[1]:
        return []
    return [replace(entry, kept=True) for entry in made]


def _paper(entries: list[Entry]) -> float:
    """Return how high drawings stand under one another, mm."""
    return sum(e.placed.height for e in entries)


def _better(plain: list[Entry], tabled: list[Entry]) -> list[Entry]:
    """Return the part with a hole table where that gives a larger scale or higher figures, or where nothing else fits."""
    if not plain or not tabled:
        return plain or tabled
    one, other = plain[0].placed.setting, tabled[0].placed.setting
    return tabled if (other.factor, other.height) > (one.factor, one.height) else plain


def shared(
    context: Context,
    kind: Kind,
    subject: Subject,
    shares: tuple[tuple[Face, ...], ...],
    room: tuple[float, float],
    between: tuple[float, float],
) -> list[Entry]:
    """Return the part with its views shared out over blocks; none when one of them does not fit."""
    many = len(shares)
    blocks = [subject.restricted(only, f", {n} of {many}" if many > 1 else "") for n, only in enumerate(shares, 1)]
    return _all_fitted(context, kind, blocks, room, between)


def _all_fitted(
    context: Context, kind: Kind, subjects: list[Subject], room: tuple[float, float], between: tuple[float, float]
) -> list[Entry]:
    """Return a block for each share of the views; none when one of them does not fit."""
    made: list[Entry] = []
    for subject in subjects:
        placed = fitted(subject, kind, context, room, between)
        if placed is None:
            return []
        made.append(Entry(kind, placed, subject))
    return made


def groups(subject: Subject) -> Iterator[tuple[tuple[Face, ...], ...]]:
    """Yield ways to share out the views over blocks: all in one, the face behind apart, the principal one apart, each apart.

    Ends of a slender part stand apart from its long sides, at a scale of their own: at that of the length they are too small.
    """
    faces = subject.plan.faces
    behind = opposite(subject.first)
    yield ((),)
    if behind in faces:
        yield (tuple(f for f in faces if f != behind), (behind,))
    if len(faces) > 1:
        sides, ends = (tuple(f for f in faces[1:] if (f.axis == 0) is end) for end in (False, True))
        yield (
            ((subject.first,), sides, ends)
            if sides and ends and slender(subject.part)
            else ((subject.first,), faces[1:])
        )
    if len(faces) > 3:
        yield tuple((f,) for f in faces)
