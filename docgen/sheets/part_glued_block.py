"""The views of parts that are cut together after the glue-up as one block, and details of where these cuts lie."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from docgen.drawing import crowds, views
from docgen.drawing.cells import block
from docgen.drawing.crowds import Crowd
from docgen.drawing.dimensions.wanted import Angular, Arranged, Linear, Wanted
from docgen.drawing.enlarged import Shown, engine_on, enlarged, lettered, mark
from docgen.drawing.lettering import box, width
from docgen.drawing.placing import PaperFault, around, moved
from docgen.drawing.records import Record, Text
from docgen.drawing.ring import ring
from docgen.drawing.specks import clear
from docgen.drawing.wishes import wish
from docgen.drawing.wording import authority_key
from docgen.geometry.hidden import VIEWS
from docgen.piece.naming import in_words
from docgen.sheets.context import Context
from docgen.sheets.part_block import LARGER
from docgen.sheets.part_broken import FUSED
from docgen.sheets.part_detail import Letters
from docgen.sheets.part_glued_cuts import PLACES, Glued, late
from docgen.sheets.part_room import Extent, Said, beside, laid, spot

AFTER_HEADING = 3.0  # mm
SMALLER = 1  # steps of scale: so much smaller the whole may be where details have its cuts
LOOSE = 5.0  # mm on paper for each figure: so loosely they may stand in a detail
AIR = 0.15  # of the radius is left about what is measured
RING = 1.5  # mm on paper: a ring is no smaller, and so far off what is measured

Room = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Place:
    """Where the cuts of one view crowd, and the letter of the detail that has their figures."""

    name: str
    crowd: Crowd
    letter: str


@dataclass(frozen=True, slots=True)
class Setting:
    """How a block is drawn: its scale, the height of its figures, and the details with their scale."""

    scale: tuple[int, int]
    height: float
    places: tuple[Place, ...] = ()
    large: tuple[int, int] = (1, 1)

    @property
    def factor(self) -> float:
        """Paper mm for each mm of the wood."""
        return self.scale[0] / self.scale[1]


@dataclass(frozen=True, slots=True)
class Block:
    """A block that hangs from its upper left corner; `arranged` has the figures of each of its views."""

    records: tuple[Record, ...]
    size: tuple[float, float]
    setting: Setting
    arranged: Mapping[str, Arranged] = field(default_factory=dict)

    @property
    def scale(self) -> tuple[int, int]:
        """The scale of the views."""
        return self.setting.scale


def fitted(context: Context, glued: Glued, room: Room) -> Block:
    """Return the block at the largest scale at which all figures find a place; else at the largest that fits at all."""
    heights = context.layout.heights
    ladder = [s for s in context.layout.scales[context.piece.units.system] if s[0] <= s[1]]
    for whole in (True, False):
        for scale in ladder:
            for height in dict.fromkeys((heights.figure, heights.least)):
                made = _block(context, glued, Setting(scale, height), room, whole=whole)
                if made is not None:
                    return made
    raise PaperFault(glued.title)


def detailed(context: Context, glued: Glued, plain: Block, places: tuple[Place, ...], room: Room) -> Block | None:
    """Return the block with details where its cuts crowd, as large as a room takes; None where there are none, or no room."""
    for at in _settings(context, plain, places) if places else ():
        made = _block(context, glued, at, room, whole=True)
        if made is not None:
            return made
    return None


def _settings(context: Context, plain: Block, places: tuple[Place, ...]) -> Iterator[Setting]:
    """Yield the scales that views and details may have, those with the largest details first."""
    ladder = sorted((s for s in context.layout.scales[context.piece.units.system] if s[0] <= s[1]), key=_ratio)
    smaller = [s for s in reversed(ladder) if _ratio(s) <= _ratio(plain.scale) + 1e-9][: 1 + SMALLER]
    least = min(p.crowd.least for p in places)
    for large in reversed(ladder):
        for scale in smaller:
            plainer = _ratio(large) < LARGER * _ratio(scale) - 1e-9
            if not plainer and _ratio(large) >= min(1.0, FUSED / least) - 1e-9:
                yield replace(plain.setting, scale=scale, places=places, large=large)


def _ratio(scale: tuple[int, int]) -> float:
    return scale[0] / scale[1]


def crowded(glued: Glued, plain: Block, letters: Letters) -> Iterator[Place]:
    """Yield where the cuts crowd, one place of each view: such a sheet is for these cuts alone, and one of them is enough."""
    found: dict[str, Crowd] = {}
    for name, arranged in plain.arranged.items():
        x0, y0, x1, y1 = views.bounds(glued.drawn(name))
        wanted, factor = [w for _, w in _wishes(glued, name)], plain.setting.factor
        every = crowds.crowded(arranged.placed, factor, many=1, hard=1)
        able = [
            crowds.place(wanted, keys, factor, max(x1 - x0, y1 - y0), dense=LOOSE, edge=RING, air=AIR) for keys in every
        ]
        best = max((c for c in able if c is not None), key=lambda c: (len(c.keys), -c.radius), default=None)
        if best is not None:
            found[name] = best
    names = letters.next(len(found))
    letters.given += len(found)
    yield from (Place(name, crowd, letter) for (name, crowd), letter in zip(found.items(), names, strict=True))


def _block(context: Context, glued: Glued, setting: Setting, room: Room, *, whole: bool) -> Block | None:
    """Return the block at one scale, None when it is too large, or, with `whole`, when a figure finds no place."""
    sign = 1 if context.piece.projection != "first angle" else -1
    shown: dict[str, Shown] = {}
    extents: list[Extent] = []
    for name in glued.told:
        column, row = PLACES[name]
        x0, y0, x1, y1 = (c * setting.factor for c in views.bounds(glued.drawn(name)))
        if x1 - x0 > room[0] or y1 - y0 > room[1]:
            return None
        shown[name] = _view(context, glued, name, setting)
        extents.append(Extent(sign * column, sign * row, shown[name].bounds))
    large = [_detail(context, glued, place, setting) for place in setting.places]
    left = [w for s in (*shown.values(), *large) for w in s.arranged.left]
    if whole and left:
        return None
    places = laid(extents)
    fields = [e.moved(by) for e, by in zip(extents, places, strict=True)]
    heading, above = _heading(context, glued, setting.scale, room[0])
    for s in large:
        at = beside(fields, s.bounds, (room[0], room[1] - above))
        if at is None:
            return None
        places.append(at)
        fields.append(Extent(0, 0, s.bounds).moved(at))
    said = Said(tuple(_words(context, glued, left)), context.layout.heights.note, context.metrics)
    place = spot(fields, said, (room[0], room[1] - above))
    if place is None:
        return None
    drawn = zip([*shown.values(), *large], places, strict=True)
    out = [moved(r, dx, dy - above) for s, (dx, dy) in drawn for r in s.records]
    text = said.column(place.wide) if place.wide else said.two_columns(room[0])
    out += [moved(r, place.at[0], place.at[1] - above) for r in text]
    arranged = {name: s.arranged for name, s in shown.items()}
    return Block((*heading, *out), (room[0], above + place.tall), setting, arranged)


def _wishes(glued: Glued, name: str) -> Iterator[tuple[str, Wanted]]:
    """Yield what is to be dimensioned in a view, each with its key."""
    for n, figure in enumerate(glued.told[name]):
        w = wish(figure, f"{n:03d}", glued.parts[0], VIEWS[name], glued.notes)
        yield w.key, replace(w, datum=False) if isinstance(w, Linear) else w  # places of single parts mean nothing here


def _view(context: Context, glued: Glued, name: str, setting: Setting) -> Shown:
    """Return one view about the paper origin, its details ringed, without the figures that stand in these; it is made once."""
    held = tuple(p for p in setting.places if p.name == name)
    key = (name, setting.scale, setting.height, held)
    if key not in glued.shown:
        glued.shown[key] = _viewed(context, glued, name, setting, held)
    return glued.shown[key]


def _viewed(context: Context, glued: Glued, name: str, setting: Setting, held: tuple[Place, ...]) -> Shown:
    drawn, scale = glued.drawn(name), setting.factor
    lines = views.stroke_records(clear(drawn, scale), scale, (0.0, 0.0))
    x0, y0, x1, y1 = (c * scale for c in views.bounds(drawn))
    engine = engine_on(lines, (x0, y0, x1, y1), scale, setting.height, context.metrics)
    radii = [max(p.crowd.radius * scale, RING) for p in held]
    rings = [ring((p.crowd.centre[0] * scale, p.crowd.centre[1] * scale), r) for p, r in zip(held, radii, strict=True)]
    mark(engine, rings)
    wanted = [w for key, w in _wishes(glued, name) if not any(key in p.crowd.keys for p in held)]
    letters = (lettered(p.letter, p.crowd.centre, r / scale) for p, r in zip(held, radii, strict=True))
    arranged = engine.arrange([*wanted, *letters])
    b = arranged.bounds
    caption = Text(((x0 + x1) / 2, b[1] - 4.5), f"seen from the {name}", 2.5, "middle")
    bounds = around([b, box(caption, context.metrics).bounds()])
    return Shown((*lines, *rings, *arranged.records, caption), bounds, arranged)


def _detail(context: Context, glued: Glued, place: Place, setting: Setting) -> Shown:
    """Return a detail about the paper origin; it is made once."""
    key = (place, setting.large, setting.height)
    if key not in glued.shown:
        glued.shown[key] = enlarged(
            views.stroke_records(glued.drawn(place.name), _ratio(setting.large), (0.0, 0.0)),
            (),
            [w for told, w in _wishes(glued, place.name) if told in place.crowd.keys],
            at=place.crowd.centre,
            radius=place.crowd.radius,
            letter=place.letter,
            scale=setting.large,
            height=setting.height,
            metrics=context.metrics,
        )
    return glued.shown[key]


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
    cuts = [f for p in glued.parts for f in late(p)]
    done = dict.fromkeys(f.title or f.word for f in cuts)
    lines = [f"Glue up first: {'; '.join(p.called for p in glued.parts)}. Then, across the joints:"]
    lines += [f"{n}. {text}" for n, text in enumerate(done, 1)]
    assumed = dict.fromkeys(a.text for f in cuts for a in f.made.assumed)
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
