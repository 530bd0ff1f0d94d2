"""One detail of a joint and the picture of it, at the scale that suits its place on the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from docgen.drawing.placing import Bounds
from docgen.drawing.wording import Notes
from docgen.geometry.outlines import Box2
from docgen.schedules.meetings import Meeting
from docgen.schedules.terms import kind_numbers
from docgen.sheets.context import Context
from docgen.sheets.joint_cut import CutView
from docgen.sheets.joint_sizes import shortest
from docgen.sheets.joint_view import Picture, enlarged_picture, enlarged_window, section_picture

TALLEST = 0.34  # of the page that one picture may take
ALONE = 0.6  # and where the details stand in one row
GROWN = 0.75  # and where it grows into what its page leaves free
LOW = 75.0  # mm: a picture in a narrow column may be this tall
LOFTY = 120.0  # mm: and this tall where it would be small otherwise
ROOM = 16.0  # mm that figures take beside a picture at least
LEAST = 40.0  # mm: a picture is not made smaller than this to give all its figures a place
FAIR = 25.0  # mm: nor smaller than this to give all details a place
TINY = 7.0  # mm: a length that is drawn shorter has hardly a line between its arrows
LARGEST = 2.0  # of true size: no picture grows beyond that
ROUGHLY = 1.3  # times what a picture has room for it may be guessed to take: figures move closer in a larger one
SMALL = 0.5  # of true size: drawn smaller than this it goes right across the page, if it becomes larger there

Scale = tuple[int, int]
Drawings = dict[tuple[int, int], tuple[Picture, Notes]]
"""What was drawn at each scale."""


@dataclass(frozen=True, slots=True)
class Detail:
    """One picture of a meeting: a section through it, or None for an enlarged view."""

    meeting: Meeting
    cut: CutView | None
    letter: str
    first: str = ""  # for a second section: the letter of the first


@dataclass(frozen=True, slots=True)
class Pictured:
    """A detail with its picture; `across` tells that it goes right across the page."""

    detail: Detail
    picture: Picture
    scale: Scale
    notes: Notes
    wide: float
    across: bool = False

    @property
    def factor(self) -> float:
        """Paper mm for each mm of the joint."""
        return self.scale[0] / self.scale[1]


def pictured(
    context: Context, detail: Detail, wide: float, page: float, share: float = TALLEST, memo: Drawings | None = None
) -> Pictured:
    """Return the picture at the largest scale at which it fits a column with all its figures.

    A picture takes at most a `share` of the page's height. A section that would be small there may be taller, or goes right
    across a page `page` mm wide. What was drawn stands in `memo`.
    """
    usual = tallest(wide, context.layout.area.height, share)
    memo = {} if memo is None else memo
    if detail.cut is not None:
        for room, most, across in ((wide, usual, False), (wide, LOFTY, False), (page, LOFTY, True)):
            found = _largest(context, detail, (room, most), memo, SMALL) if room > wide or not across else None
            if found is not None:
                return Pictured(detail, *found, room, across)
    return Pictured(
        detail, *(_largest(context, detail, (wide, usual), memo) or _bare(context, detail, (wide, usual))), wide
    )


def lower(context: Context, of: Pictured, by: float) -> Pictured | None:
    """Return the detail with a picture lower by so much, a step or two smaller; None where it is too small or hides a figure."""
    tall = of.picture.bounds[3] - of.picture.bounds[1]
    scales = context.layout.scales[context.piece.units.system]
    least = max(SMALL, FAIR / max(_window_size(of.detail)))
    smaller = [s for s in scales if least <= s[0] / s[1] < of.scale[0] / of.scale[1]]
    scale = next((s for s in smaller if _guessed(of, s)[1] <= tall - by), None)
    if scale is None:
        return None
    notes = Notes(context.piece.units)
    picture = _drawn(context, of.detail, scale[0] / scale[1], window_of(of.detail), notes)
    if _missing(picture) > _missing(of.picture) or not _fits(picture.bounds, of.wide, tall - by):
        return None
    return replace(of, picture=picture, scale=scale, notes=notes)


def higher(context: Context, of: Pictured, memo: Drawings, most: float, wide: float) -> Pictured | None:
    """Return the detail at the next scale up to `most`; None where it is wider than `wide`, too tall, or hides a figure.

    Larger than life it is drawn only while a length in it is so short on paper that its arrows hide it.
    """
    tall = GROWN * context.layout.area.height
    ladder = context.layout.scales[context.piece.units.system]
    if most > 1.0 and (of.detail.cut is None or shortest(of.detail.cut) * of.factor >= TINY):
        return None
    scale = min((s for s in ladder if of.factor < s[0] / s[1] <= most), key=lambda s: s[0] / s[1], default=None)
    guess = _guessed(of, scale) if scale is not None else (0.0, 0.0)
    if scale is None or guess[0] > ROUGHLY * wide or guess[1] > ROUGHLY * tall:
        return None
    if scale not in memo:
        notes = Notes(context.piece.units)
        memo[scale] = _drawn(context, of.detail, scale[0] / scale[1], window_of(of.detail), notes), notes
    picture, notes = memo[scale]
    if _missing(picture) > _missing(of.picture) or not _fits(picture.bounds, wide, tall):
        return None
    return replace(of, picture=picture, scale=scale, notes=notes, wide=wide, across=of.across or wide > of.wide)


def _guessed(of: Pictured, scale: Scale) -> tuple[float, float]:
    """Return how wide and tall the picture would about be at another scale: its figures stay as large as they are."""
    (x0, y0), (x1, y1) = window_of(of.detail)
    by = scale[0] / scale[1] - of.scale[0] / of.scale[1]
    b = of.picture.bounds
    return b[2] - b[0] + (x1 - x0) * by, b[3] - b[1] + (y1 - y0) * by


def tallest(wide: float, high: float, share: float = TALLEST) -> float:
    """Return how tall a picture may be in a column on a page, mm: a share of it, and not much taller than wide."""
    return min(share * high, max(0.75 * wide, LOW))


def _largest(
    context: Context, detail: Detail, within: tuple[float, float], memo: Drawings, least: float = 0.0
) -> tuple[Picture, Scale, Notes] | None:
    """Return the picture at the largest scale from `least` at which it is at most so wide and tall; None for none.

    A smaller one is taken where it finds places for more figures, and is not too small.
    """
    (across, up), best = _window_size(detail), None
    for scale in _fitting(context, detail, within):
        factor = scale[0] / scale[1]
        if factor < least or (best is not None and max(across, up) * factor < LEAST):
            break
        if scale not in memo:
            notes = Notes(context.piece.units)
            memo[scale] = _drawn(context, detail, factor, window_of(detail), notes), notes
        picture, notes = memo[scale]
        if _fits(picture.bounds, *within) and (best is None or _missing(picture) < _missing(best[0])):
            best = picture, scale, notes
            if not _missing(picture):
                break
    return best


def _bare(context: Context, detail: Detail, within: tuple[float, float]) -> tuple[Picture, Scale, Notes]:
    """Return the picture without figures where none fits with them: they are told in words."""
    scales = _fitting(context, detail, within) or context.layout.scales[context.piece.units.system][-1:]
    notes = Notes(context.piece.units)
    factor = scales[0][0] / scales[0][1]
    return _drawn(context, detail, factor, window_of(detail), notes, bare=True), scales[0], notes


def _fitting(context: Context, detail: Detail, within: tuple[float, float]) -> Sequence[Scale]:
    """Return the scales at which the picture may fit with some room for figures, the largest first."""
    across, up = _window_size(detail)
    scales = context.layout.scales[context.piece.units.system]
    return [s for s in scales if across * s[0] / s[1] + ROOM <= within[0] and up * s[0] / s[1] + ROOM <= within[1]]


def _window_size(detail: Detail) -> tuple[float, float]:
    (x0, y0), (x1, y1) = window_of(detail)
    return x1 - x0, y1 - y0


def window_of(detail: Detail) -> Box2:
    """Return what of the view is shown."""
    return detail.cut.window if detail.cut else enlarged_window(detail.meeting.spot, detail.meeting.size)


def _missing(picture: Picture) -> int:
    return len(picture.left) + len(picture.missed)


def _fits(bounds: Bounds, wide: float, tall: float) -> bool:
    return bounds[2] - bounds[0] <= wide and bounds[3] - bounds[1] <= tall


def _drawn(
    context: Context,
    detail: Detail,
    factor: float,
    window: Box2,
    notes: Notes,
    *,
    bare: bool = False,
) -> Picture:
    called = kind_numbers(context.piece, context.kinds)
    if detail.cut is not None:
        numbers = [called[face.part.path] for face in detail.cut.faces]
        return section_picture(detail.cut, numbers, factor, context, notes, bare=bare)
    numbers = [called[path] for path in detail.meeting.parts]
    parts = [context.piece.part(path) for path in detail.meeting.parts]
    return enlarged_picture(parts, numbers, window, factor, context.solids, context)
