"""The steps of gluing: dry fit, clamps by the way each joint closes, what is set in without glue. Common practice."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from docgen.piece.model import Joint, Part, Piece, Sets
from docgen.schedules.glueups import MANY, GlueUp, direction, held, mitred, walls
from docgen.schedules.holds import listed
from docgen.schedules.inserts import with_glue
from docgen.schedules.risks import DRIVEN_GLUE, GLUE
from docgen.schedules.rows import WorkRow
from docgen.schedules.standing import standing
from docgen.schedules.steps import TOGETHER, step
from docgen.schedules.untied import untied
from docgen.trade.glueup import clamps
from docgen.units import unit_length

SCRAPE = 15
"""Minutes after which squeezed-out glue is scraped off, when it is like rubber. Common practice."""

AT_MITRES = "at the mitres across the joint, on cauls with 45° blocks"
STARTED = "round ends started by hand and not driven home"
DRIVEN = "round ends driven home with a mallet, no clamp on them"
TRIED = "Try each round end by hand in its own socket, and number both"
PAST = "end past the face, along its middle"
"""The figure of a joint that tells how far a round end goes in, or through."""
AT_CORNERS = "clamps both ways across the corners, on cauls that leave pins and fingers free"
DIAGONALS = "diagonals equal"
STRAIGHT = 0.9999
"""Cosine from which two ways are one."""

AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
MEASURES = ("length", "width", "thickness")
PATHS = ("left to right", "front to back", "up and down")


def smoothed(piece: Piece, glued: Sequence[GlueUp]) -> Iterator[WorkRow]:
    """Yield the sanding of what no block reaches once a case or frame is closed, and the finishing of panels that float in it."""
    closed = [unit for unit in glued if unit.slid or (len(unit.parts) > 2 and _true(unit) == DIAGONALS)]
    paths = list(dict.fromkeys(p for unit in closed for p in unit.parts))
    if not paths:
        return
    floating = [p for unit in glued for p in unit.enclosed if piece.part(p).material.solid_wood]
    panels = (
        f" Finish {listed(piece, floating)} now, edges too: it shrinks in its grooves and would show bare wood."
        if floating
        else ""
    )
    yield step(
        TOGETHER,
        "Sand now, to the last grit, all faces and edges that come to lie inside: no block reaches into their corners later. Keep clear "
        f"of everything that is glued or fitted.{panels}",
        "part sheets",
        "a shoulder or the cheek of a tongue sanded: the joint shows a gap",
        (*paths, *floating),
        key="sand inside",
    )


def one_glueup(piece: Piece, unit: GlueUp) -> Iterator[WorkRow]:
    """Yield the dry run and the gluing of what goes together at one time."""
    count = unit.count
    told = f"{count} joint{'s' if count > 1 else ''}"
    hands = " Many joints at once: a second pair of hands, or a glue with a long open time." if count > MANY else ""
    if all(j.driven for j in unit.joints):
        dry, glue, wrong = _by_mallet(piece, unit, told)
    else:
        dry, glue, wrong = _by_clamps(piece, unit, told)
    parts = (*unit.parts, *unit.enclosed)
    yield step(TOGETHER, dry, "general views, joinery details", wrong, parts)
    yield step(
        TOGETHER,
        f"{glue}{with_glue(piece, unit)}{hands}{_spread(piece, unit)}",
        "the glue's label",
        DRIVEN_GLUE if all(j.driven for j in unit.joints) else GLUE,
        parts,
        key=f"glue {(unit.slid or unit.parts)[0]}",
    )


def _by_clamps(piece: Piece, unit: GlueUp, told: str) -> tuple[str, str, str]:
    """Return the dry run, the gluing and what may go wrong at the dry run, where clamps press the joints."""
    panels = (
        f" {_cap(listed(piece, unit.enclosed))} {'goes' if len(unit.enclosed) == 1 else 'go'} in without glue."
        if unit.enclosed
        else ""
    )
    already, way, test = _already(piece, unit), _presses(piece, unit), _true(unit)
    dry_way = way.replace(DRIVEN, STARTED)
    dry, glue = f"Dry fit with all clamps and cauls: {dry_way}.", f"Glue up: {told}, {way}."
    if unit.slid:
        names = ", then ".join(piece.part(p).called for p in unit.slid)
        dry = f"Slide {names} in dry from the {unit.slid_from}, down to the stops, then all clamps and cauls: {way}."
        glue = (
            f"Slide {names} in from the {unit.slid_from}, with glue: {told}, {way}. Thin glue on the tongues, more of it only on the "
            "last third before they go home."
        )
    if unit.kept_out:
        panels += f" {_cap(listed(piece, unit.kept_out))} stay out: the bearing of a cut on the glued parts would strike them."
    dry = f"{dry} Joints closed, {test}, no twist.{_rings(piece, unit)}{already}{panels}"
    if unit.enclosed:
        lies = "lies in its groove" if len(unit.enclosed) == 1 else "lie in their grooves"
        glue = f"{glue} {_cap(listed(piece, unit.enclosed))} {lies} before the last corner closes, without glue."
    again = "measure both diagonals again" if test == DIAGONALS else "look at the angles again"
    glue = f"{glue} Tighten to a thin even line, {again}, scrape what squeezes out after about {SCRAPE} minutes."
    return dry, glue, "what does not close dry will not close wet"


def _by_mallet(piece: Piece, unit: GlueUp, told: str) -> tuple[str, str, str]:
    """Return the same where only round ends are driven into sockets: no clamp, no diagonals, each tried by hand."""
    paths = tuple(dict.fromkeys(j.parts[0] for j in unit.joints))
    numbered = all(_marked_in_place(piece.part(p)) for p in paths)
    tried = "Try each round end again by hand in its own socket, by the numbers" if numbered else TRIED
    dry = (
        f"{tried}: {listed(piece, paths)}. It starts by hand with a twist and goes no further than a finger's width; it is driven "
        f"home only once, with glue.{_rings(piece, unit)}{_already(piece, unit)}"
    )
    glue = (
        f"Glue up: {told}, {DRIVEN}. Sight each lean against the one beside it while the glue still lets it turn; wipe off what "
        "squeezes out."
    )
    return dry, glue, "driven home dry it does not come out again"


def _marked_in_place(part: Part) -> bool:
    """Return whether a part was in its place and numbered before, where a cut of it was marked from its mate."""
    return any(cut.mated for feature in part.features for cut in feature.made.cuts)


def _rings(piece: Piece, unit: GlueUp) -> str:
    """Return how it is seen that round ends are home: no shoulder stops them."""
    found: dict[str, dict[str, None]] = {}
    for joint in unit.joints:
        for name, value, _ in joint.figures if joint.driven else ():
            if name == PAST:
                end = f"{listed(piece, joint.parts[:1])} in {listed(piece, joint.parts[1:])}"
                found.setdefault(unit_length(value, piece.units), {})[end] = None
    which = {value: f" ({'; '.join(ends)})" if len(found) > 1 else "" for value, ends in found.items()}
    told = ", ".join(f"{value} from its tip{which[value]}" for value in found)
    return f" Pencil a ring round each, {told}: home is where the ring meets the face that it enters." if told else ""


def _already(piece: Piece, unit: GlueUp) -> str:
    """Return what comes to a glue-up glued together already."""
    told = "; ".join(listed(piece, b) for b in unit.before)
    return f" What is glued already, {told}, goes in whole." if told and not unit.slid else ""


def _true(unit: GlueUp) -> str:
    """Return how it is seen that a glue-up stands as drawn: diagonals where its joints close a ring, else its angles."""
    whole = {p: i for i, group in enumerate(unit.before) for p in group}
    nodes = {whole.get(p, p) for p in unit.parts}
    links = sum(len(j.parts) - 1 for j in unit.joints)
    return DIAGONALS if links >= len(nodes) else "the angles as drawn"


def _cap(text: str) -> str:
    return text[:1].upper() + text[1:]


def _presses(piece: Piece, unit: GlueUp) -> str:
    """Return which way the clamps press."""
    out = []
    for joint in unit.joints:
        way = direction(piece, joint)
        if joint.driven:
            out.append(DRIVEN)
            continue
        if way is None:
            out.append(AT_MITRES if mitred(piece, joint) else AT_CORNERS)
            continue
        axis = _along(way)
        out.append(f"clamps {PATHS[axis]}" if axis is not None else _leaning(piece, unit, joint, way))
        out += [f"clamps {PATHS[i]}" for wall in walls(piece, joint) if (i := _along(wall)) is not None]
    return ", ".join(dict.fromkeys(out))


def _along(way: tuple[float, float, float]) -> int | None:
    """Return the axis of the piece along which a way runs, None for one that leans."""
    return next((i for i in range(3) if abs(way[i]) > STRAIGHT), None)


def _leaning(piece: Piece, unit: GlueUp, joint: Joint, way: tuple[float, float, float]) -> str:
    """Return how clamps press on what leans in the piece: on the bench it lies flat, where its parts are square to each other."""
    parts = [piece.part(p) for p in unit.parts]
    if any(_square_to(part, parts[0], axis) is None for part in parts for axis in AXES):
        return "clamps square to the joint, on wedge blocks"
    told = [
        (axis, part) for part in parts if part.path in joint.parts for axis in range(3) if abs(_dot(part, AXES[axis], way)) > STRAIGHT
    ]  # fmt: skip
    lengthwise = next(((axis, part) for axis, part in told if axis == 0), told[0] if told else None)
    if lengthwise is None:
        return "clamps square to the joint, on wedge blocks"
    axis, part = lengthwise
    if axis == 0:
        alike = [p.called for p in parts if abs(_dot(p, AXES[0], way)) > STRAIGHT]
        return f"flat on the bench, clamps along {listed(piece, [p.path for p in parts if p.called in alike])}"
    return f"flat on the bench, clamps along the {MEASURES[axis]} of {part.called}"


def _square_to(part: Part, first: Part, axis: tuple[float, float, float]) -> int | None:
    """Return which axis of the first part an axis of this one runs along; None where it leans to all of them."""
    way = part.frame.direction(axis)
    return next((i for i in range(3) if abs(_dot(first, AXES[i], way)) > STRAIGHT), None)


def _dot(part: Part, axis: tuple[float, float, float], way: tuple[float, float, float]) -> float:
    return sum(a * b for a, b in zip(part.frame.direction(axis), way, strict=True))


def _spread(piece: Piece, unit: GlueUp) -> str:
    """Return how many clamps stand side by side on the widest straight joint, with cauls as thick as the boards.

    By the 45° rule: a clamp presses on what lies within 45° of it.
    """
    straight = [piece.part(j.parts[0]) for j in unit.joints if direction(piece, j) is not None and not j.driven]
    if not straight:
        return ""
    widest = max(straight, key=lambda p: float(p.size[1]))
    need = clamps(widest.size[1], 2 * widest.size[2])
    if need < 2:
        return ""
    alike = [p.path for p in straight if p.size[1:] == widest.size[1:]]
    which = "each of " if len(set(alike)) > 1 else ""
    spread = "one near each edge" if need == 2 else "side by side from edge to edge"
    return f" {need} clamps on {which}{listed(piece, list(dict.fromkeys(alike)))}, {spread}, on cauls as thick as the boards."


def unjoined(piece: Piece, later: Collection[str] = ()) -> Iterator[WorkRow]:
    """Yield what the file states to fix, and the parts that no joint of it holds: how these are put together is the maker's.

    The fixing of the parts `later` is told where they are put in, at the end. What stands on others comes after these: a
    tray after its ledges; of parts that are held to each other the place of the first is that of all.
    """
    fixed = [i for i in piece.items if i.sets is Sets.FIXES and not set(later) & set(i.parts)]
    for item in fixed:
        size, note = (f", {item.size}" if item.size else ""), (f", {item.note}" if item.note else "")
        yield step(
            TOGETHER,
            f"Fix {listed(piece, item.parts)} with {item.count} × {item.what}{size}{note}.{_where(piece, item.parts)}",
            "general views, part sheets",
            "fixed before it was tried: put all together dry first",
            item.parts,
        )
    alone = loose(piece)
    if alone and len(piece.parts) > 1:
        yield step(
            TOGETHER,
            f"Fit and fix {listed(piece, alone)}: no joint of the drawings holds them.{_where(piece, alone)}{_noted(piece, alone)}",
            "general views, part sheets",
            "fixed before it was tried: put all together dry first",
            alone,
        )
    for group in untied(piece):
        yield step(
            TOGETHER,
            f"Fit {listed(piece, group)}, held to each other already, to the rest: no joint of the drawings ties them to it. "
            f"Fix what is to stay; what is to come out, as a tray does, moves freely.{_where(piece, group[:1])}",
            "general views, part sheets",
            "fixed before it was tried: put all together dry first",
            group,
        )


def _joined(piece: Piece) -> set[str]:
    """Return the parts that joints, fasteners and drawers hold."""
    joined = {p for j in piece.joints if held(piece, j) for p in j.parts}
    return joined | {p for f in piece.fasteners for p in f.parts} | {p for d in piece.drawers for p in d.parts}


def loose(piece: Piece) -> list[str]:
    """Return the parts that no joint, no fastener, no drawer and nothing that fixes them names, in the order of the file."""
    fixed = {p for i in piece.items if i.sets is Sets.FIXES for p in i.parts}
    joined = _joined(piece) | fixed
    return [p.path for p in piece.parts if not p.hardware and p.path not in joined]


def _noted(piece: Piece, paths: Sequence[str]) -> str:
    """Return what the file notes of these parts, equal notes once; "" for nothing."""
    notes: dict[str, list[str]] = {}
    for part in map(piece.part, paths):
        if part.note:
            notes.setdefault(part.note, []).append(part.path)
    told = "; ".join(f"{listed(piece, named)}: {note}" for note, named in notes.items())
    return f" Noted: {told}." if told else ""


def _where(piece: Piece, paths: Sequence[str]) -> str:
    """Return where parts stand that no joint places, in figures from what they lie on; "" where none are known."""
    return "".join(f" {_cap(text)}." for text in standing(piece, paths))
