"""Jigs, test pieces and offcuts to keep, and until when: made from the set-ups, the gaps and the order of work.

Sizes of jigs are common practice, unless they follow from the piece.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Sequence
from fractions import Fraction

from docgen.piece.model import Part, Piece
from docgen.piece.records import Authority, HoleRow, Setting
from docgen.schedules.feeds import BACKED
from docgen.schedules.glueups import features_of, held
from docgen.schedules.holds import listed, said
from docgen.schedules.leading import led_by
from docgen.schedules.machining import BLADE, GAUGE
from docgen.schedules.rows import JigRow, SetupRow, Values, WorkRow
from docgen.schedules.setups import HAND, LED, worked
from docgen.schedules.strip_stock import strip_stock
from docgen.units import Number, format_angle, plain_length

GUIDE = 4
"""Diameters of a drill that its block guides at the least. Common practice."""

ROUND_UP = {"inch": Fraction(254, 40), "mm": Fraction(5)}
"""Blocks are made to a whole quarter of an inch, or to 5 mm."""

NARROW = 40
"""mm of a face that a router's base tips on without a second support. Common practice."""


def jigs(piece: Piece, setups: Sequence[SetupRow], work: Sequence[WorkRow]) -> tuple[JigRow, ...]:
    """Return what has to be made or kept beside the parts, in the order in which it is needed."""
    return (
        *_sleds(setups),
        *_stated(piece, setups),
        *_supports(piece, setups),
        *_backing(setups),
        *_mates(piece, setups, work),
        *_drill_blocks(piece, setups, work),
        *strip_stock(piece, setups, work),
        *_wedges(piece, setups, work),
        *_spacers(piece, work),
    )


def _step(row: WorkRow | None, otherwise: str) -> str:
    return otherwise if row is None else f"step {row.number}"


def _value(values: Values, *names: str) -> Number | None:
    return next((v for n, v, _ in values if n in names and not isinstance(v, str)), None)


def _sleds(setups: Sequence[SetupRow]) -> Iterator[JigRow]:
    for row in setups:
        swung = _value(row.values, "sled's fence, from square")
        taper = _value(row.values, "taper, from the edge")
        if swung is not None:
            size = f"fence fixed at {format_angle(swung)} from square; stop, and a clamp that holds the part down"
            yield JigRow("sled for the steep end", size, f"set-up {row.number}: {row.what}", f"set-up {row.number}")
        if taper is not None:
            size = f"fence at {format_angle(Fraction(round(float(taper) * 100), 100))} to the blade; two clamps"
            yield JigRow("taper sled", size, f"set-up {row.number}", f"set-up {row.number}")


def _stated(piece: Piece, setups: Sequence[SetupRow]) -> Iterator[JigRow]:
    """Yield what the cuts themselves say has to be made: a cradle, templates for a bearing."""
    found: dict[tuple[str, str], dict[int, tuple[str, ...]]] = {}
    own: dict[tuple[str, str], list[Number]] = {}
    for row in setups:
        for setting in _settings(piece, row):
            if setting.jig[0]:
                found.setdefault(setting.jig, {})[row.number] = tuple(dict.fromkeys(path for path, _ in row.parts))
                own.setdefault(setting.jig, []).extend([setting.run] if setting.run else [])
    for (what, size), runs in found.items():
        parts = (piece.part(path).size[0] for paths in runs.values() for path in paths)
        longest = max(own[what, size] or parts, key=float)
        each = "; ".join(f"set-up {number}: {listed(piece, paths)}" for number, paths in runs.items())
        yield JigRow(what, size, f"{each}; to {said(piece, longest)} long", f"set-up {max(runs)}")


def _settings(piece: Piece, row: SetupRow) -> Iterator[Setting]:
    """Yield the settings of the features that run at a set-up."""
    titles = set(row.parts)
    for path in dict.fromkeys(path for path, _ in row.parts):
        for feature in piece.part(path).features:
            for setting in feature.made.settings if (path, feature.title) in titles else ():
                if setting.what == row.what:
                    yield setting


def _supports(piece: Piece, setups: Sequence[SetupRow]) -> Iterator[JigRow]:
    """Yield the second support for a router whose base stands on a narrow face."""
    found: list[tuple[int, tuple[str, ...], Number]] = []
    for row in setups:
        if row.machine != "router":
            continue
        narrow: dict[str, Number] = {}
        for path, title in row.parts:
            part = piece.part(path)
            for feature in part.features:
                for setting in feature.made.settings if feature.title == title else ():
                    across = _stands_on(part, setting)
                    if across is not None and float(across) < NARROW:
                        narrow[path] = across
        if narrow:
            found.append((row.number, tuple(narrow), min(narrow.values(), key=float)))
    if found:
        size = "straight boards, clamped flush on both sides of the face"
        each = "; ".join(f"set-up {number}: {listed(piece, paths)}" for number, paths, _ in found)
        wide = dict.fromkeys(said(piece, wide) for _, _, wide in sorted(found, key=lambda f: float(f[2])))
        use = f"{each}; the router stands on faces {', '.join(wide)} wide"
        yield JigRow("support for the router", size, use, f"set-up {found[-1][0]}")


def _stands_on(part: Part, setting: Setting) -> Number | None:
    """Return how wide the face is on which the router's base stands over a trench; None where an edge is open beside it.

    A trench without a run of its own lies in an end cut at a slant: its base stands on the part's thickness.
    """
    run = setting.travel
    if run is not None:
        return part.size[3 - run.face.axis - run.along] if run.edge is None else None
    if setting.base:
        return setting.base
    trench = {"straight bit", "depth"} <= {name for name, _, _ in setting.values}
    return min(part.size[1], part.size[2], key=float) if trench and setting.machine == "router" else None


def _backing(setups: Sequence[SetupRow]) -> Iterator[JigRow]:
    numbers = [row.number for row in setups if any(BACKED in run.feed for run in row.runs)]
    if numbers:
        which = ", ".join(map(str, numbers))
        yield JigRow(
            "backing strip",
            "waste of the part's thickness, straight, clamped at the exit",
            f"set-up {which}",
            f"set-up {numbers[-1]}",
        )


def _mates(piece: Piece, setups: Sequence[SetupRow], work: Sequence[WorkRow]) -> Iterator[JigRow]:
    """Yield the offcuts in which the test pieces of tongues and tenons are tried: one for each trench."""
    found: dict[str, list[tuple[SetupRow, WorkRow | None]]] = {}
    for row in setups:
        fat = next((v for n, v, _ in row.values if "thickness, fat" in n), None)
        if fat is None or isinstance(fat, str):
            continue
        paths = {path for path, _ in row.parts}
        mates = dict.fromkeys(
            s.mate for path in paths for f in piece.part(path).features for s in f.made.settings if s.mate
        )
        until = next((w for w in work if w.hold and paths & set(w.parts) and w.what.startswith("Plane")), None)
        size = f"an offcut with the {', '.join(mates) or 'trench'} cut at the same set-up as the good one"
        found.setdefault(size, []).append((row, until))
    for size, rows in found.items():
        numbers = ", ".join(str(row.number) for row, _ in rows)
        what = ", ".join(dict.fromkeys(row.what.partition(",")[0] for row, _ in rows))
        last = max((w for _, w in rows if w is not None), key=lambda w: w.number, default=None)
        good = f"the good ones are fitted to their own at {_step(last, 'the dry fit')}"
        use = f"set-up {numbers}: the {what} of the test piece goes into it when planed, not before; {good}"
        yield JigRow("trial mate", size, use, f"set-up {rows[-1][0].number}")


def _drill_blocks(piece: Piece, setups: Sequence[SetupRow], work: Sequence[WorkRow]) -> Iterator[JigRow]:
    """Yield a block for each drill that is led by hand: its guide length, and how far the drill stands out of the chuck."""
    found: dict[tuple[str, str], list[tuple[str, HoleRow]]] = {}
    titles: dict[tuple[str, str], set[tuple[str, str]]] = {}
    for part in piece.parts:
        for feature in part.features:
            if not any(LED in s.note for s in worked(piece, part, feature, led_by(piece, part, feature))):
                continue
            for hole in feature.made.holes:
                if hole.depth is not None:
                    key = (hole.drill or said(piece, hole.diameter), f"{float(hole.depth):.3f}")
                    found.setdefault(key, []).append((part.path, hole))
                    titles.setdefault(key, set()).add((part.path, feature.title))
    for (drill, deep), holes in found.items():
        hole = holes[0][1]
        unit = ROUND_UP[piece.units.system]
        long = math.ceil(float(GUIDE * hole.diameter) / float(unit) - 1e-9) * unit
        assert hole.depth is not None
        reach = plain_length(long + hole.depth, piece.units)
        names = ", ".join(dict.fromkeys(h.name for _, h in holes if h.name))
        size = (
            f"hardwood {said(piece, long)} thick, drilled {drill} on the press; collar on the drill at {reach} {piece.units.sign}, "
            f"block {plain_length(long, piece.units)} + depth {plain_length(hole.depth, piece.units)}, point not counted"
        )
        led = {f"set-up {s.number}" for s in setups if s.machine == HAND and titles[drill, deep] & set(s.parts)}
        last = next((w for w in reversed(work) if w.key in led), None)
        what = "drill block" + (" and tap block" if hole.thread else "")
        yield JigRow(
            what,
            size,
            f"holes {names}: {listed(piece, tuple(dict.fromkeys(p for p, _ in holes)))}",
            _step(last, "the last of them"),
        )


def _wedges(piece: Piece, setups: Sequence[SetupRow], work: Sequence[WorkRow]) -> Iterator[JigRow]:
    """Yield the offcuts of slanted ends that are glued: they carry the clamps."""
    joints = [joint for joint in piece.joints if held(piece, joint) == "glued"]
    cuts = [{(part.path, feature.title) for part, feature in features_of(piece, joint)} for joint in joints]
    glued = set().union(*cuts)
    steps = [w for w in work if w.key.startswith("glue ")]
    for row in setups:
        angle = _value(row.values, BLADE, GAUGE, "sled's fence, from square")
        paths = tuple(dict.fromkeys(path for path, title in row.parts if (path, title) in glued))
        own = [joint for joint, made in zip(joints, cuts, strict=True) if made & set(row.parts)]
        first = [next((w for w in steps if set(joint.parts) <= set(w.parts)), None) for joint in own]
        glue = max((w for w in first if w is not None), key=lambda w: w.number, default=None)
        if angle is None or row.when or glue is None:
            continue
        told = format_angle(Fraction(round(float(angle) * 100), 100))
        use = f"{told}: under the clamps of {listed(piece, paths)}, so that they press square to the joint"
        size = f"the wedges that fall off at set-up {row.number}"
        yield JigRow("offcuts as clamp blocks", size, use, _step(glue, "the glue-up"))


PLACED = ("fit", "lay", "front")
"""How the keys of steps begin that measure one part's place, or put it there."""


def _last_placed(paths: Collection[str], work: Sequence[WorkRow]) -> WorkRow | None:
    """Return the last step that puts one of the parts in its place: only then its spacers are done with."""
    own = {f"{word} {path}" for path in paths for word in PLACED}
    whole = ("glue ", "fasten ")
    return next(
        (w for w in reversed(work) if w.key in own or (w.key.startswith(whole) and set(paths) & set(w.parts))), None
    )


def _spacers(piece: Piece, work: Sequence[WorkRow]) -> Iterator[JigRow]:
    """Yield strips as thick as the gaps round drawer fronts and panels."""
    found: dict[float, tuple[Number, dict[str, None], WorkRow | None]] = {}
    gaps = [
        (d.gap, p) for d in piece.drawers for p in d.parts if piece.part(p).authority is Authority.MEASURE and d.gap
    ]
    gaps = [(g, p) for g, p in gaps if not any(p in j.parts for j in piece.joints)]
    for joint in piece.joints:
        for name, value, _ in joint.figures:
            waits = [p for p in joint.parts if piece.part(p).authority is Authority.MEASURE]
            if name in ("gap", "clearance") and value and waits:
                gaps.append((value, waits[0]))
    gaps += [(pane.clearance, pane.pane) for pane in piece.panes if pane.clearance]
    for gap, path in gaps:
        _, paths, _ = found.setdefault(round(float(gap), 4), (gap, {}, None))
        paths[path] = None
    for gap, paths, _ in found.values():
        size = f"strips {said(piece, gap)} thick, four or more: veneer, card, laminate"
        until = _step(_last_placed(paths, work), "all are fitted")
        yield JigRow("spacers", size, f"the gap, a side, round {listed(piece, tuple(paths))}", until)
