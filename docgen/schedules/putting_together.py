"""The last steps of the work: plugged screws, finish, what is laid in, hardware, fasteners, trying it. Common practice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from docgen.piece.model import Drawer, Fastener, Item, Joint, Part, Piece, Sets
from docgen.piece.records import Authority
from docgen.schedules.drilling import fastener_text
from docgen.schedules.fixings import UNFIXED, fixed_with, fixings, shared_out
from docgen.schedules.glueups import GlueUp, connected, features_of, held
from docgen.schedules.holds import is_ordered, lies_on, listed, said
from docgen.schedules.inserts import over_heads
from docgen.schedules.rows import WorkRow
from docgen.schedules.standing import standing
from docgen.schedules.steps import DRIVEN, FINISH, LAST, step
from docgen.schedules.wall_holes import wall_holes
from docgen.trade.drills import told as drill_told

BEADS = "Brads driven into the frame, clear of the pane, and no glue, so that it can be taken out again, are"
FRONT = "Screws from the inside, in holes wide enough to shift it until the gaps are equal, are"


def plugged(piece: Piece) -> Iterator[WorkRow]:
    """Yield the driving of the screws that get plugs over their heads, and the plugs: both before the finish."""
    covered = over_heads(piece)
    if not covered:
        return
    under = [f for f in piece.fasteners if _under_plugs(piece, f)]
    yield from _driven(piece, under, DRIVEN)
    told = "; ".join(f"{i.count} × {i.what}, {i.size}" for i in covered)
    yield step(
        DRIVEN,
        f"Glue in over the heads, grain with the part's: {told}. When dry, pare flush with the grain.",
        "hardware list, chart",
        "sawn off level at once they tear below the face: pare in thin slices and see which way the grain runs",
        list(dict.fromkeys(f.parts[0] for f in under if f.parts[0])),
        key="plugs",
    )


def _under_plugs(piece: Piece, fastener: Fastener) -> bool:
    spans = {i.origin.span for i in piece.items if i.sets is Sets.HEADS and i.origin.span is not None}
    return fastener.origin.span in spans


def finish(piece: Piece) -> Iterator[WorkRow]:
    """Yield sanding and finishing."""
    made = [p.path for p in piece.parts if not p.hardware and not is_ordered(p)]
    kept = "neither glued nor plugged over" if over_heads(piece) else "not glued"
    apart = "" if _is_one(piece, made) else f"Take everything apart that is {kept}. "
    yield step(
        FINISH,
        f"{apart}Sand what can still be reached, with the grain; break sharp arrises lightly, none where parts meet.",
        "part sheets",
        "joints and gaps sanded round stand open",
        made,
    )
    yield step(
        FINISH,
        "Finish inside and outside alike, as the finish's label says: of a penetrating oil two coats, 24 hours apart. Keep it out "
        "of holes and threads. Oily rags flat outdoors, or under water in a lidded metal can.",
        "safety: finish",
        "rags in a heap catch fire by themselves; wood finished on one side only cups",
        made,
    )


def _is_one(piece: Piece, made: Sequence[str]) -> bool:
    """Return whether all parts are held for good by now: glued, or by screws with plugs over their heads."""
    for_good = [j.parts for j in piece.joints if held(piece, j) == "glued"]
    for_good += [f.parts for f in piece.fasteners if _under_plugs(piece, f)]
    return any(set(made) <= set(whole) for whole in connected(for_good))


def put_in_last(piece: Piece, glued: Sequence[GlueUp]) -> frozenset[str]:
    """Return the parts whose own steps at the end tell what fixes them: what is laid in, strips round it, fronts."""
    inside = {p for unit in glued for p in unit.enclosed}
    bound = {p for f in piece.fasteners if not f.lays for p in f.parts}
    laid = {j.parts[0] for j in piece.joints if _lies(piece, j)} - inside - bound
    return frozenset({*laid, *_strips(piece, inside | bound), *(p for _, p in _loose_fronts(piece))})


def unfixed(piece: Piece) -> list[str]:
    """Return what lies in open rabbets and of which the file does not say what fixes it there, nor lays a strip before it."""
    bound = {p for f in piece.fasteners for p in f.parts} | set(fixings(piece)) | {p.pane for p in piece.panes}
    strips = _strips(piece, bound)
    laid = dict.fromkeys(j.parts[0] for j in piece.joints if _lies(piece, j) and _open(piece, j))
    return [p for p in laid if p not in bound and not any(_beside(piece, s, piece.part(p)) for s in strips)]


def laid_in(piece: Piece, glued: Sequence[GlueUp]) -> Iterator[WorkRow]:
    """Yield what lies in rabbets or slides into grooves, in the order of the parts, panes last, then strips that hold them."""
    inside = {p for unit in glued for p in unit.enclosed}
    bound = {p for f in piece.fasteners if not f.lays for p in f.parts}
    done: set[str] = set()
    panels = [(piece.part(j.parts[0]), j) for j in piece.joints if _lies(piece, j) and j.parts[0] not in inside]
    strips = _strips(piece, inside | bound)
    for part, joint in sorted(panels, key=lambda pair: (is_ordered(pair[0]), pair[0].number)):
        if part.path not in done and part.path not in bound:
            done.add(part.path)
            yield _laid(piece, part, joint, [p for p in strips if _beside(piece, p, part)])
    if strips:
        yield step(
            LAST,
            f"Fix {listed(piece, strips)} round what they hold{fixed_with(piece, strips, BEADS)}",
            "general views, part sheets",
            "a brad that touches the pane cracks it: slide the hammer along a piece of card",
            strips,
        )


def fronts(piece: Piece) -> Iterator[WorkRow]:
    """Yield the fixing of fronts to drawers that hang, where the file states no joint or screw for them."""
    for drawer, path in _loose_fronts(piece):
        yield step(
            LAST,
            f"Fix {listed(piece, [path])} to the box of {drawer.called}{fixed_with(piece, [path], FRONT)} {_reached(piece, drawer)}",
            "general views",
            "screwed tight before the gaps are equal all round",
            drawer.parts,
            key=f"front {path}",
        )


def _reached(piece: Piece, drawer: Drawer) -> str:
    """Return how a front keeps its place while its screws are driven: with the drawer shut nobody reaches them. Common practice."""
    gaps = f", its gaps on strips of {said(piece, drawer.gap)}" if drawer.gap else ""
    return (
        f"Shut the drawer, put double-sided tape on the box and press the front on in its place{gaps}. Draw the drawer out with it, "
        "clamp the front to the box, and only then drill and screw."
    )


def _loose_fronts(piece: Piece) -> list[tuple[Drawer, str]]:
    """Return the parts of drawers that no joint holds, nor any screw but those of a row through the box, with their drawers."""
    joined = {p for j in piece.joints for p in j.parts} | {p for f in piece.fasteners for p in f.parts if not f.lays}
    return [(drawer, path) for drawer in piece.drawers for path in drawer.parts if path not in joined]


def _lies(piece: Piece, joint: Joint) -> bool:
    """Return whether the first part of a joint only lies in cuts of the others: in rabbets, or by a measured place."""
    cut = {path for path, _ in joint.features}
    if not cut or joint.parts[0] in cut or joint.holds:
        return False
    return piece.part(joint.parts[0]).authority is Authority.MEASURE or _open(piece, joint)


def _open(piece: Piece, joint: Joint) -> bool:
    """Return whether what a joint cuts is open at one side all along: rabbets, into which a back is laid from behind."""
    runs = [s.travel for _, f in features_of(piece, joint) for s in f.made.settings if s.travel is not None]
    return bool(runs) and all(run.edge is not None for run in runs)


def _beside(piece: Piece, strip: str, part: Part) -> bool:
    """Return whether a strip lies on a face of a panel: their boxes touch and overlap along it."""
    return lies_on(piece.part(strip).box, part.box)


def _laid(piece: Piece, part: Part, joint: Joint, strips: Sequence[str]) -> WorkRow:
    """Return the laying in of a panel, by its trench and its stuff; strips that hold it are fixed after it."""
    runs = [s.travel for _, f in features_of(piece, joint) for s in f.made.settings if s.travel is not None]
    name, into = listed(piece, [part.path]), listed(piece, joint.parts[1:])
    if runs and all(run.edge is None for run in runs):
        way = f"Slide {name} into the grooves of {into}, without glue"
        how = "Where an edge of it lies in no groove, one or two small screws there are"
    elif is_ordered(part):
        way = f"Lay {name} into the rabbets of {into}, on felt, tape or a thin line of putty"
        how = "Beads, or points and putty, that press on the frame and not on the pane, are"
    elif part.material.solid_wood:
        way = f"Lay {name} into the rabbets of {into}, without glue"
        how = "It has to move across its grain: one fixing in the middle of each end is"
    else:
        way = f"Lay {name} into the rabbets of {into}"
        how = "Brads or small screws into the rabbets are"
    screwed = any(f.lays and part.path in f.parts for f in piece.fasteners)
    fixed = f": {listed(piece, strips)} hold it." if strips else fixed_with(piece, [part.path], how, "fixed with")
    around = "" if strips or not _open(piece, joint) else shared_out(piece, part)
    return step(
        LAST,
        f"{way}{fixed}{around}",
        f"general views, joinery details, {'chart' if screwed else 'part sheets'}",
        "forced in, it pushes the frame out of square: measure both diagonals before it is fixed",
        joint.parts,
        key=f"lay {part.path}",
    )


def _strips(piece: Piece, done: set[str]) -> list[str]:
    """Return parts that wait for a measurement and are joined only to one another: beads round a pane."""
    waits = {p.path for p in piece.parts if p.authority is Authority.MEASURE and p.path not in done}
    joints = [j for j in piece.joints if len(j.parts) > 1]
    found = {p for j in joints if set(j.parts) <= waits for p in j.parts}
    found -= {p for j in joints if not set(j.parts) <= waits for p in j.parts}
    return [p.path for p in piece.parts if p.path in found]


def framed(piece: Piece) -> Iterator[WorkRow]:
    """Yield the fasteners that hold the frame together: before backs, drawers and fronts bar the way to their heads."""
    yield from _driven(piece, [f for f in _at_last(piece) if not _turns(piece, f)], LAST)


def fastened(piece: Piece) -> Iterator[WorkRow]:
    """Yield the fasteners about which something turns, when all that it turns on is fitted."""
    yield from _driven(piece, [f for f in _at_last(piece) if _turns(piece, f)], LAST)


def _at_last(piece: Piece) -> list[Fastener]:
    laid = {j.parts[0] for j in piece.joints if _lies(piece, j)}
    loose = {path for _, path in _loose_fronts(piece)}
    own = [f for f in piece.fasteners if f.lays and (f.parts[0] in laid or f.parts[1] in loose)]  # told with these
    return [f for f in piece.fasteners if not _under_plugs(piece, f) and f not in own]


def _turns(piece: Piece, fastener: Fastener) -> bool:
    return bool({p for g in piece.groups for p in g.parts} & set(fastener.parts))


def _driven(piece: Piece, fasteners: Sequence[Fastener], phase: str) -> Iterator[WorkRow]:
    """Yield a step for each kind of fastener; pilot holes that no set-up drills are drilled through the parts in place."""
    groups: dict[str, list[Fastener]] = {}
    for f in fasteners:
        groups.setdefault(f.key, []).append(f)
    placed: set[str] = set()
    for key, found in groups.items():
        count = sum(f.count for f in found)
        pairs = "; ".join(
            dict.fromkeys(
                f"{listed(piece, [f.parts[0]])} to {listed(piece, [f.parts[1]])}" for f in found if all(f.parts)
            )
        )
        paths = list(dict.fromkeys(p for f in found for p in f.parts if p))
        first = found[0]
        washer = ", each with its washer" if first.washer else ""
        yield step(
            phase,
            f"Fasten {pairs}: {key}, {count} of {fastener_text(piece, first)}{washer}.{_with_them(piece, found)}{_pilots(piece, first, placed)}",
            "hardware list, chart, joinery details",
            "too long it bottoms, too short it strips: the hardware list has the length"
            if first.length is not None
            else "",
            paths,
            key=f"fasten {key}",
        )


def _with_them(piece: Piece, found: Sequence[Fastener]) -> str:
    """Return what goes on with some fasteners: washers between the parts."""
    spans = {f.origin.span for f in found} - {None}
    items = [i for i in piece.items if i.sets is Sets.BOLTED and i.origin.span in spans]
    told = [f"{i.count} × {i.what}" + (f", {i.note.partition(';')[0]}" if i.note else "") for i in items]
    return f" With them: {'; '.join(told)}." if told else ""


def _pilots(piece: Piece, fastener: Fastener, placed: set[str]) -> str:
    """Return how the pilot holes are drilled that no set-up drills; "" where one does, or none is wanted.

    Where the part lies is told before its first holes; then it is among those `placed`.
    """
    if not fastener.pilot:
        return ""
    drill = f"{drill_told(fastener.pilot, piece.units.system)}, {said(piece, fastener.drill_depth or fastener.engagement)} deep"
    held, into = fastener.parts
    where = "" if held in placed else "".join(f" ({text})" for text in standing(piece, [held], {held: [into]}))
    placed.add(held)
    return (
        f" Lay the parts together as they go{where}, drill {drill}, through the holes of {listed(piece, [held])} into "
        f"{listed(piece, [into])}, and drive."
    )


def fitted(piece: Piece) -> Iterator[WorkRow]:
    """Yield the fitting of what is bought and is no screw; what drawers run on is put back where it was."""
    hung = {d.origin.span for d in piece.drawers if d.origin.span is not None}
    bought = [i for i in piece.items if i.authority is Authority.HARDWARE and i.sets is Sets.LAST]
    stays = {g.stays[1] for g in piece.groups}
    loose = [i for i in bought if i.origin.span not in hung and i.what not in stays]
    rest = dict.fromkeys(i.what for i in loose)
    if rest:
        placed = {f.origin.span for p in piece.parts for f in p.features} - {None}
        unplaced = dict.fromkeys(i.what for i in loose if i.origin.span not in placed)
        own = (
            f" No page here tells the place of {', '.join(unplaced)}: mark it by the thing itself." if unplaced else ""
        )
        yield step(
            LAST,
            f"Fit, each by its own sheet: {'; '.join(rest)}.{own}",
            "hardware list" if len(unplaced) == len(rest) else "hardware list, chart",
            "fixed by the drawing and not by the thing in hand: try each before its screws are driven",
            _touched(piece, loose),
        )
    back = [d for d in piece.drawers if any(i.origin.span == d.origin.span for i in bought)]
    if back:
        yield step(
            LAST,
            f"Hang {', '.join(d.called for d in back)} on the slides again, these screwed into the same holes.",
            "chart",
            f"the slides of {'two drawers mixed up' if len(back) > 1 else 'both sides changed over'}: mark them when they come off",
            [p for d in back for p in d.parts if p not in {path for _, path in _loose_fronts(piece)}],
        )


def _touched(piece: Piece, items: Sequence[Item]) -> list[str]:
    """Return the parts that are cut for some things, of these the ones that a thing is said to sit in, where it says so."""
    out: dict[str, None] = {}
    for item in items:
        cut = [
            p for p in piece.parts if item.origin.span and any(f.origin.span == item.origin.span for f in p.features)
        ]
        named = [p for p in cut if p.called in item.where or p.path in item.where]
        out |= {p.path: None for p in named or cut}
    return [p.path for p in piece.parts if p.path in out]


def stayed(piece: Piece) -> Iterator[WorkRow]:
    """Yield the fitting of the stays that hold what turns, when it hangs in its pivots."""
    for group in piece.groups:
        count, what = group.stays
        found = [i for i in piece.items if i.what == what]
        if count and found:
            own = "" if _touched(piece, found) else " No page here tells its place: mark it by the thing itself."
            yield step(
                LAST,
                f"Prop {group.name} up, and fit, by its own sheet: {what}.{own} Try that it holds at each place before anybody lets go.",
                "hardware list",
                "the hand between the frame and what it falls on: prop it, and keep clear",
                group.parts,
            )


def last(piece: Piece) -> WorkRow:
    """Return the trying of the whole and, where the file says that it hangs, its fixing to the wall."""
    moving = [f"{g.name} turns through its whole way" for g in piece.groups] + [
        f"{d.called} runs" for d in piece.drawers
    ]
    stands = "stand it level where it belongs"
    if piece.stands == "wall":
        names = dict.fromkeys(row.name for _, _, row in wall_holes(piece))
        told = ", ".join(n for n in names if n)
        through = f"through its holes {told}" if told else f"({UNFIXED}: decide on it before it is hung)"
        stands = f"fix it to the wall {through}, with screws and plugs that suit the wall (hardware list)"
    elif piece.stands == "strapped":
        stands = "stand it level where it belongs, strap it to the wall near its top at both ends (hardware list)"
    then = f"{stands}, and load it little by little."
    return step(
        LAST,
        f"Try it: {'; '.join([*moving, 'nothing rubs'])}. Then {then}" if moving else f"{then[:1].upper()}{then[1:]}",
        "findings",
        UNFIXED_TIPS if piece.stands in ("wall", "strapped") else "",
        key=TRY,
    )


UNFIXED_TIPS = "a piece that is not fixed tips when it is pulled or climbed on"
TRY = "try it"
"""The key of the last step, to which the findings may add."""
