"""Machine set-ups: equal settings run together, in an order that changes as little as it can."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import product

from docgen.piece.model import Kind, Part, Piece
from docgen.piece.naming import in_words
from docgen.piece.records import Authority, Feature, Purpose, Setting, Stage
from docgen.schedules.as_drawn import as_drawn
from docgen.schedules.blanks import NO_STOP, in_turn
from docgen.schedules.feeds import exits, feed, leaves_by_slant, on_table, takes_exit
from docgen.schedules.leading import led_by
from docgen.schedules.led import led_places, led_values
from docgen.schedules.machining import from_blank, notes, passes, values
from docgen.schedules.proofs import proof
from docgen.schedules.rows import SetupRow, SetupRun, Values
from docgen.schedules.run_alike import arrises, faced, together
from docgen.schedules.showing import show_faces
from docgen.schedules.terms import exact, kind_numbers

MACHINES = (
    "table saw",
    "mitre saw",
    "band saw",
    "jigsaw",
    "lathe",
    "router",
    "router table",
    "loose tenon machine",
    "drill press",
    "hand drill",
    "tap",
    "hand saw",
)
"""The order of work where the stages do not decide: stock to size and angle, then joinery, then holes. Common practice."""

FIRST, PAIRED, GLUED = "", "marked from the mate, before gluing", "after glue-up"
MATED, MEASURED, FITTED = "marked through the mate", "once measured", "when fitting"
WHEN = (FIRST, PAIRED, GLUED, MATED, MEASURED, FITTED)
"""When a set-up is run: before anything is glued, the same but marked from the mate (dowels and wedges go in at the
gluing), on what is glued, where the mating part marks the place, on parts that wait for a measurement, at the fitting."""

PRESS, HAND = "drill press", "hand drill"
DAYLIGHT = 300
"""What stands between the table of a bench drill press and the drill, mm. Common practice; bench presses differ."""

REACH = 200
"""From the column of an ordinary drill press to its drill, mm. Common practice; bench presses reach less."""

AS_DRAWN = "the places are as drawn: what was measured rules, and the stop is set by that"

BEFORE_ENDS = "before the ends are cut at their slant, where the cutter would break out a feather edge"

LED = "the drill led by a block clamped against the face"

STAGES = {Stage.PART: FIRST, Stage.GLUED: GLUED, Stage.FITTED: FITTED}

EARLY, USUAL, LATE = 0, 1, 2
"""Within its time a set-up may come before the saws, or when all is done that is measured from the faces it takes away."""

Key = tuple[str, int, str, str, Values]
"""When, whether early or late, machine, what, values."""


@dataclass(slots=True)
class _Use:
    """One cut that asks for a set-up."""

    part: Part
    feature: Feature
    setting: Setting


@dataclass(slots=True)
class _Setup:
    """A set-up as it is gathered: what is set, and all that runs at it."""

    key: Key
    values: Values
    uses: list[_Use] = field(default_factory=list)
    after: set[Key] = field(default_factory=set)  # set-ups that have to be run before


def setups(piece: Piece, kinds: Sequence[Kind]) -> tuple[SetupRow, ...]:
    """Return each set-up once with all parts and features that run at it, in the order of work."""
    found = _gathered(piece, kinds)
    _exits_first(found)
    _mates_first(found)
    names = {part.path: part.called for part in piece.parts}
    numbers = kind_numbers(piece, kinds)
    rows: list[SetupRow] = []
    for when, turn in product(WHEN, (EARLY, USUAL, LATE)):
        machines = sorted({k[2] for k in found if k[:2] == (when, turn)}, key=_rank)
        for machine in machines:
            here = [s for k, s in found.items() if k[:3] == (when, turn, machine)]
            rows += [_row(piece, s, len(rows) + n, names, numbers) for n, s in enumerate(_fewest_changes(here), 1)]
    return as_drawn(piece, kinds, rows)


def _gathered(piece: Piece, kinds: Sequence[Kind]) -> dict[Key, _Setup]:
    found: dict[Key, _Setup] = {}
    for path in _in_order(piece, kinds):
        part = piece.part(path)
        for feature in part.features:
            for setting in worked(piece, part, feature, led_by(piece, part, feature)):
                led = replace(setting, values=led_values(part, feature, setting))
                told = values(piece, part, led)
                turn = LATE if setting.late else EARLY if leaves_by_slant(part, setting.travel) else USUAL
                key = (when_of(part, feature), turn, setting.machine, setting.what, _plain(told))
                found.setdefault(key, _Setup(key, told)).uses.append(_Use(part, feature, setting))
    return found


def when_of(part: Part, feature: Feature) -> str:
    """Return when a feature is made: parts that wait for a measurement, and holes that the mate rules, come later."""
    if part.authority is Authority.MEASURE and feature.stage is Stage.PART:
        return MEASURED
    mated = [hole for hole in feature.made.holes if hole.authority is Authority.MATE]
    if mated:
        return PAIRED if all(hole.purpose is Purpose.DOWEL for hole in mated) else MATED
    if any(cut.mated for cut in feature.made.cuts):
        return PAIRED
    return STAGES[feature.stage]


def worked(piece: Piece, part: Part, feature: Feature, guide: str = "") -> tuple[Setting, ...]:
    """Return the settings of a feature with the machine that takes the part as it is then.

    What is glued together, clamped to its mate or fitted does not go on the table of a drill press, nor does a part stand
    under one that is taller than its daylight, or reach further in than its column lets it: such holes are drilled by
    hand. Common practice. Holes of a `guide`, a part that lies against this one, lead the drill: no block is set beside them.
    """
    holes = feature.made.holes
    far = any(_far_in(piece, part, other) for other in part.features if _set_alike(other, feature))
    apart = far or any(part.size[hole.face.axis] > DAYLIGHT for hole in holes)
    if not apart and when_of(part, feature) not in (GLUED, MATED, FITTED):
        return feature.made.settings
    # A hinge leads the drill itself; a hole right through the middle of a sheet is held upright by eye.
    free = any(hole.authority is Authority.HARDWARE for hole in holes) or (far and all(h.depth is None for h in holes))
    led = f"the drill led by the holes of {guide}, when both lie together" if guide else "" if free else LED
    return tuple(_by_hand(s, led) if s.machine == PRESS else s for s in feature.made.settings)


def _set_alike(one: Feature, two: Feature) -> bool:
    """Return whether two features run at one set-up: what one of them is drilled with does the other too."""
    told = [[(s.machine, s.what, s.values) for s in f.made.settings] for f in (one, two)]
    return one is two or (one.stage is two.stage and told[0] == told[1])


def _far_in(piece: Piece, part: Part, feature: Feature) -> bool:
    """Return whether a hole lies further from every edge than the press reaches, as the shop states it or a usual one."""
    stated = dict(piece.shop).get("drill reach")
    reach = float(stated) if isinstance(stated, (int, float, Fraction)) else REACH
    spots = ((p, [i for i in range(3) if i != hole.face.axis]) for hole in feature.made.holes for p in hole.points)
    return any(min(min(float(p[i]), float(part.size[i] - p[i])) for i in plane) > reach for p, plane in spots)


def _by_hand(setting: Setting, led: str) -> Setting:
    leans = {name: name.replace("table tilt", "lean of the drill block") for name, _, _ in setting.values}
    values = tuple((leans[name], v, kind) for name, v, kind in setting.values if name != "table tilt, from the drill")
    note = "; ".join(n for n in (setting.note, led) if n)
    return replace(setting, machine=HAND, values=values, note=note)


def _in_order(piece: Piece, kinds: Sequence[Kind]) -> list[str]:
    """Return the paths of all parts that are made, equal ones beside each other."""
    first = {p: k.first for k in kinds for p in (*k.parts, *k.mirrored)}
    made = [p for p in piece.parts if not p.hardware]
    numbers = {p.path: p.number for p in piece.parts}
    return [p.path for p in sorted(made, key=lambda p: (numbers[first.get(p.path, p.path)], p.number))]


def _rank(machine: str) -> tuple[int, str]:
    return (MACHINES.index(machine) if machine in MACHINES else len(MACHINES), machine)


def _plain(told: Values) -> Values:
    """Return the values with numbers rounded, so that equal settings are found equal."""
    return tuple((name, v if isinstance(v, str) else exact(v), kind) for name, v, kind in told)


def _exits_first(found: dict[Key, _Setup]) -> None:
    """Note which set-ups have to wait: a cut that takes another's exit away comes after it."""
    place: dict[tuple[str, str], list[_Setup]] = {}
    for setup in found.values():
        for use in setup.uses:
            place.setdefault((use.part.path, use.feature.name), []).append(setup)
    for setup in found.values():
        for use in setup.uses:
            run = use.setting.travel
            if run is None or run.along == 0:
                continue
            for side in exits(run):
                later = takes_exit(use.part, use.feature, run, side)
                for other in place.get((use.part.path, later.name), ()) if later is not None else ():
                    if other is not setup and setup.key not in other.after and other.key not in setup.after:
                        other.after.add(setup.key)


def _mates_first(found: dict[Key, _Setup]) -> None:
    """Note that what is fitted to a mate is cut when the mate is there: dado before tongue, mortise before tenon.

    It does not wait for what has to wait for it: the rabbet that takes its exit away.
    """
    fitted = [k for k, setup in found.items() if any(use.setting.mate for use in setup.uses)]
    for key in fitted:
        later = _waiting_for(found, key)
        found[key].after |= {k for k in found if k not in fitted and k not in later}


def _waiting_for(found: dict[Key, _Setup], key: Key) -> set[Key]:
    """Return the set-ups that come after one, and those that come after these."""
    out: set[Key] = set()
    new = {key}
    while new:
        new = {k for k, setup in found.items() if setup.after & new and k not in out}
        out |= new
    return out


def _fewest_changes(found: list[_Setup]) -> list[_Setup]:
    """Return the set-ups so that each shares as many values as possible with the one before, deterministically.

    A set-up that has to wait for another one of the same machine stands behind it; equally set ones stay in the order of
    the file.
    """
    rest = sorted(found, key=_order)
    out: list[_Setup] = []
    while rest:
        left = {s.key for s in rest}
        ready = [s for s in rest if not s.after & left] or rest
        best = ready[0]
        if out:
            last = out[-1]
            best = ready[max(range(len(ready)), key=lambda i: (_alike(last.key, ready[i].key), -i))]
        rest = [s for s in rest if s is not best]
        out.append(best)
    return out


def _order(setup: _Setup) -> tuple[object, ...]:
    told = setup.key[4]
    return tuple((n, isinstance(v, str), v if isinstance(v, str) else float(v)) for n, v, _ in told)


def _alike(a: Key, b: Key) -> int:
    """Return how much of a set-up can stay: the first value (the cutter) counts more than all the others."""
    same = set(a[4]) & set(b[4])
    first = 100 if a[4] and b[4] and a[4][0] == b[4][0] else 0
    return first + len(same) + (a[3] == b[3])


def _row(piece: Piece, setup: _Setup, number: int, names: dict[str, str], numbers: dict[str, int]) -> SetupRow:
    when, turn, machine, what, _ = setup.key
    first = setup.uses[0]
    parts = tuple(dict.fromkeys((u.part.path, u.feature.title) for u in setup.uses))
    said = dict.fromkeys(n for u in setup.uses for n in notes(piece, u.part, u.setting))
    if when == MEASURED and any(kind == "length" for u in setup.uses for _, _, kind in u.setting.places):
        said = {AS_DRAWN: None, **said}
    by_show = [u.part.path for u in setup.uses if any(n.endswith("from the show face") for n, _, _ in u.setting.places)]
    said |= {show_faces(piece, by_show): None}
    if turn == EARLY:
        blanks = [run.name for run in piece.runs if any(path in run.parts for path, _ in parts)]
        whole = {f"along the blank {', '.join(blanks)} while it is whole, on its inner face": None} if blanks else {}
        said = {BEFORE_ENDS: None, **whole, **said}
    return SetupRow(
        machine=machine,
        what=what,
        values=setup.values,
        parts=parts,
        note="; ".join(n for n in (when, *said) if n),
        number=number,
        when=when,
        runs=_runs(piece, setup, names, numbers),
        proof=proof(piece, [u.part for u in setup.uses], first.setting),
    )


def _runs(piece: Piece, setup: _Setup, names: dict[str, str], numbers: dict[str, int]) -> tuple[SetupRun, ...]:
    """Return the parts that run alike at a set-up, once: same places on each, same feed; end grain before long grain."""
    alike: dict[tuple[Values, str, str], tuple[dict[str, None], dict[str, None]]] = {}
    for use in sorted(setup.uses, key=_end_grain_first):
        run, title = use.setting.travel, in_words(use.feature.title, names)
        times = passes(use.setting, use.part)
        fed = use.setting.feed or (feed(piece, use.part, use.feature, run, numbers, times) if run is not None else "")
        fed = on_table(fed) if run is not None and use.setting.machine == "router table" else fed
        led = replace(use.setting, places=led_places(piece, use.part, use.feature, use.setting))
        places = from_blank(use.part, use.feature, led)
        turn = in_turn(piece, use.part, use.feature, use.setting)
        places, fed = (turn, NO_STOP) if turn else (places, fed)
        key = (_plain(places), fed, "" if places else title)
        paths, titles = alike.setdefault(key, ({}, {}))
        paths[use.part.path] = titles[title] = None
    # What has no places of its own and is done to the same parts is told in one go, whatever it is called.
    out: dict[tuple[tuple[str, ...], Values, str], dict[str, None]] = {}
    for (places, fed, _), (paths, titles) in alike.items():
        out.setdefault((tuple(paths), places, fed), {}).update(titles)
    return tuple(
        SetupRun(paths, together(tuple(titles)), places, in_words(fed, names))
        for paths, places, fed, titles in faced(piece, arrises(out))
    )


def _end_grain_first(use: _Use) -> bool:
    run = use.setting.travel
    return run is not None and run.edge is not None and run.along == 0
