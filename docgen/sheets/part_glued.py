"""What is cut after the glue-up: one view or more of the glued parts together, with the sizes of those cuts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from docgen.drawing import views
from docgen.drawing.cells import block
from docgen.drawing.dimensions.engine import Engine
from docgen.drawing.dimensions.wanted import Angular, Linear, Rules, Wanted
from docgen.drawing.lettering import box, width
from docgen.drawing.once import Figure
from docgen.drawing.placing import Bounds, PaperFault, around, moved
from docgen.drawing.records import Line, Pen, Record, Sheet, Text
from docgen.drawing.wishes import wish
from docgen.drawing.wording import Notes, authority_key
from docgen.geometry.hidden import VIEWS, draw
from docgen.geometry.lines import Drawn
from docgen.geometry.shapes import Vec
from docgen.piece.model import Part, Piece
from docgen.piece.naming import in_words
from docgen.piece.records import Feature, Size, SizeKind, Stage
from docgen.schedules.glueups import features_of
from docgen.sheets.context import Context
from docgen.sheets.part_pages import BETWEEN
from docgen.sheets.part_room import Extent, Said, laid, spot

PLACES = {"front": (0, 0), "right": (1, 0), "left": (-1, 0), "top": (0, 1), "bottom": (0, -1), "back": (2, 0)}
"""Columns to the right and rows upward in third angle; the front view is always drawn."""
AFTER_HEADING = 3.0  # mm


@dataclass(slots=True)
class Glued:
    """Parts that are cut together after the glue-up, in the piece's axes."""

    context: Context
    parts: tuple[Part, ...]
    notes: Notes
    told: dict[str, list[Figure]] = field(init=False)  # by view
    _drawn: dict[str, Drawn] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self.told = {"front": []}
        for figure in _counted(self.context.piece, self.parts):
            name, size = self._best(figure)
            self.told.setdefault(name, []).append(replace(figure, size=size))

    @property
    def title(self) -> str:
        """What the parts are called together: by what stands before all their names, or one by one."""
        heads = {p.path.rpartition(".")[0] for p in self.parts}
        return heads.pop() if len(heads) == 1 and "" not in heads else ", ".join(p.called for p in self.parts)

    def drawn(self, name: str) -> Drawn:
        """Return the lines of one view of the glued parts after these cuts."""
        if name not in self._drawn:
            solids = self.context.solids
            items = [(solids.topology(p.path, Stage.GLUED), p.frame) for p in self.parts]
            self._drawn[name] = draw(items, VIEWS[name])
        return self._drawn[name]

    def _best(self, figure: Figure) -> tuple[str, Size]:
        """Return the view that shows a figure on visible lines, and which of the equal sizes is dimensioned there."""
        able = [(name, s) for name in PLACES for s in figure.sizes if _shown(name, s)]
        for name, s in able:
            if all(views.covered(VIEWS[name].flat(p), self.drawn(name).visible) for p in _points(s)):
                return name, s
        return able[0] if able else ("front", figure.size)


def _points(size: Size) -> tuple[Vec, ...]:
    return (size.start, size.end) if size.kind is SizeKind.LENGTH else (size.end,)


def _shown(name: str, size: Size) -> bool:
    toward = VIEWS[name].toward
    along = abs(sum(a * b for a, b in zip(toward, size.along, strict=True)))
    return along < 1e-6 if size.kind is SizeKind.LENGTH else along > 1 - 1e-6


def groups(context: Context) -> Iterator[tuple[Part, ...]]:
    """Yield the parts that are cut together after the glue-up: those whose late cuts come from the same line of the file."""
    found: list[tuple[set[object], list[Part]]] = []
    for part in context.piece.parts:
        why: set[object] = {(f.origin.because or (f.origin.span,)) for f in _late(part)}
        if not why:
            continue
        same = [g for g in found if g[0] & why]
        for g in same:
            found.remove(g)
        found.append((why.union(*(g[0] for g in same)), [*(p for g in same for p in g[1]), part]))
    for _, parts in found:
        yield tuple(parts)


def _late(part: Part) -> list[Feature]:
    return [f for f in part.features if f.stage is Stage.GLUED]


def _counted(piece: Piece, parts: Sequence[Part]) -> list[Figure]:
    """Return the sizes of the late cuts in the piece's axes, those that are alike once with their number.

    A cut that a joint makes through both its parts is told by the first of them.
    """
    alike: dict[tuple[object, ...], list[tuple[str, Size]]] = {}
    again = _halves(piece)
    for part in parts:
        for f in _late(part):
            for s in f.made.sizes if (part.path, f.name) not in again else ():
                key = (f.word, s.kind, s.label, round(float(s.value), 6), s.note, s.authority, s.times)
                placed = _placed(s, part)
                if all(_where(placed) != _where(other) for _, other in alike.setdefault(key, [])):
                    alike[key].append((f.word, placed))
    return [
        Figure(every[0][1], tuple(s for _, s in every[1:]), word=every[0][0], count=len(every))
        for every in alike.values()
    ]


def _halves(piece: Piece) -> set[tuple[str, str]]:
    """Return the features, by part and name, that make the same late cut as one before them in their joint."""
    again: set[tuple[str, str]] = set()
    for joint in piece.joints:
        told: set[str] = set()
        for part, feature in features_of(piece, joint):
            if feature.stage is not Stage.GLUED:
                continue
            if feature.word in told:
                again.add((part.path, feature.name))
            told.add(feature.word)
    return again


def _where(size: Size) -> tuple[float, ...]:
    """Return what tells a size from one like it elsewhere: an arc that two parts share is one."""
    points = size.start if size.kind is SizeKind.RADIUS else (*size.start, *size.end)
    return tuple(round(c, 2) for c in points)


def _placed(size: Size, part: Part) -> Size:
    frame = part.frame
    other = frame.point(size.other) if size.other is not None else None
    along = frame.direction(size.along)
    return replace(size, start=frame.point(size.start), end=frame.point(size.end), along=along, other=other, face=None)


@dataclass(frozen=True, slots=True)
class Block:
    """A block that hangs from its upper left corner."""

    records: tuple[Record, ...]
    size: tuple[float, float]
    scale: tuple[int, int]


def make(context: Context) -> tuple[Sheet, ...]:
    """Return a block for each set of parts that are cut together after the glue-up, as many on a page as it takes."""
    area = context.layout.area
    pages: list[list[tuple[Glued, Block]]] = []
    left = 0.0
    for parts in groups(context):
        glued = Glued(context, parts, Notes(context.piece.units))
        made = _fitted(context, glued, (area.width, area.height))
        if not pages or made.size[1] > left:
            pages.append([])
            left = area.height
        pages[-1].append((glued, made))
        left -= made.size[1] + BETWEEN
    return tuple(_sheet(context, page) for page in pages)


def _sheet(context: Context, page: Sequence[tuple[Glued, Block]]) -> Sheet:
    """Return the blocks under one another, parted by a thin line."""
    area = context.layout.area
    records: list[Record] = []
    y = area.top
    for n, (_, made) in enumerate(page):
        if n:
            records.append(Line((area.x, y + BETWEEN / 2), (area.x + area.width, y + BETWEEN / 2), Pen.THIN))
        records += [moved(r, area.x, y) for r in made.records]
        y -= made.size[1] + BETWEEN
    scales = dict.fromkeys(f"{made.scale[0]} : {made.scale[1]}" for _, made in page)
    return Sheet(
        key=f"glued/{page[0][0].parts[0].path}",
        kind="parts",
        title=f"{', '.join(glued.title for glued, _ in page)} after the glue-up",
        size=context.layout.size,
        records=tuple(records),
        scale=next(iter(scales)) if len(scales) == 1 else "as shown",
    )


def _fitted(context: Context, glued: Glued, room: tuple[float, float]) -> Block:
    """Return the block at the largest scale at which all figures find a place; else at the largest that fits at all."""
    heights = context.layout.heights
    ladder = [s for s in context.layout.scales[context.piece.units.system] if s[0] <= s[1]]
    for whole in (True, False):
        for scale in ladder:
            for height in dict.fromkeys((heights.figure, heights.least)):
                made = _block(context, glued, scale, height, room, whole=whole)
                if made is not None:
                    return made
    raise PaperFault(glued.title)


def _block(
    context: Context, glued: Glued, scale: tuple[int, int], height: float, room: tuple[float, float], *, whole: bool
) -> Block | None:
    """Return the block at one scale, None when it is too large, or, with `whole`, when a figure finds no place."""
    sign = 1 if context.piece.projection != "first angle" else -1
    factor = scale[0] / scale[1]
    records: list[list[Record]] = []
    extents: list[Extent] = []
    left: list[Wanted] = []
    for name, figures in glued.told.items():
        column, row = PLACES[name]
        lines = views.bounds(glued.drawn(name))
        if (lines[2] - lines[0]) * factor > room[0] or (lines[3] - lines[1]) * factor > room[1]:
            return None
        view, bounds, missed = _view(context, glued, name, figures, factor, height)
        left += missed
        records.append(view)
        extents.append(Extent(sign * column, sign * row, bounds))
    if whole and left:
        return None
    places = laid(extents)
    fields = [e.moved(by) for e, by in zip(extents, places, strict=True)]
    heading, above = _heading(context, glued, scale, room[0])
    said = Said(tuple(_words(context, glued, left)), context.layout.heights.note, context.metrics)
    place = spot(fields, said, (room[0], room[1] - above))
    if place is None:
        return None
    out = [moved(r, dx, dy - above) for view, (dx, dy) in zip(records, places, strict=True) for r in view]
    text = said.column(place.wide) if place.wide else said.two_columns(room[0])
    out += [moved(r, place.at[0], place.at[1] - above) for r in text]
    return Block((*heading, *out), (room[0], above + place.tall), scale)


def _view(
    context: Context, glued: Glued, name: str, figures: list[Figure], scale: float, height: float
) -> tuple[list[Record], Bounds, tuple[Wanted, ...]]:
    drawn = glued.drawn(name)
    lines = views.stroke_records(drawn, scale, (0.0, 0.0))
    x0, y0, x1, y1 = (c * scale for c in views.bounds(drawn))
    engine = Engine(
        [c for r in lines for c in views.chords(r)],
        outline=(x0, y0, x1, y1),
        scale=scale,
        at=(0.0, 0.0),
        rules=Rules(height=height),
        metrics=context.metrics,
    )
    arranged = engine.arrange(
        _plain(wish(f, f"{n:03d}", glued.parts[0], VIEWS[name], glued.notes)) for n, f in enumerate(figures)
    )
    b = arranged.bounds
    caption = Text(((x0 + x1) / 2, b[1] - 4.5), f"seen from the {name}", 2.5, "middle")
    return [*lines, *arranged.records, caption], around([b, box(caption, context.metrics).bounds()]), arranged.left


def _plain(wanted: Wanted) -> Wanted:
    """Return a dimension that runs from no datum: positions of single parts mean nothing here."""
    return replace(wanted, datum=False) if isinstance(wanted, Linear) else wanted


def _heading(context: Context, glued: Glued, scale: tuple[int, int], wide: float) -> tuple[list[Record], float]:
    heights = context.layout.heights
    told = f"{scale[0]} : {scale[1]}"
    room = wide - width(told, heights.note, context.metrics) - 4
    text = block(f"{glued.title}, after the glue-up", room, heights.heading, context.metrics, bold=True)
    return [
        *text.records((0.0, 0.0)),
        Text((wide, -heights.heading), told, heights.note, "right"),
    ], text.tall + AFTER_HEADING


def _words(context: Context, glued: Glued, left: Sequence[Wanted]) -> list[str]:
    names = {p.path: p.called for p in context.piece.parts}
    late = [f for p in glued.parts for f in _late(p)]
    done = dict.fromkeys(f.title or f.word for f in late)
    lines = [f"Glue up first: {'; '.join(p.called for p in glued.parts)}. Then, across the joints:"]
    lines += [f"{n}. {text}" for n, text in enumerate(done, 1)]
    assumed = dict.fromkeys(a.text for f in late for a in f.made.assumed)
    lines += ["Unless shown: " + "; ".join(assumed)] if assumed else []
    every = [f for figures in glued.told.values() for f in figures]
    many = max(f.count * f.size.times for f in every)
    lines += [f"{many}×: all there are, seen here or not"] if many > 1 else []
    lines += glued.notes.lines()
    lines += authority_key(f.size.authority for figures in glued.told.values() for f in figures)
    lines += ["Also: " + "; ".join(_text(w) for w in left)] if left else []
    return [in_words(line, names) for line in lines]


def _text(wanted: Wanted) -> str:
    return wanted.text if isinstance(wanted, Linear | Angular) else " ".join(wanted.lines)
