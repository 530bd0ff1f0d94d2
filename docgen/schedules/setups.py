"""Machine set-ups: equal settings run together, in an order that changes as little as it can."""

from __future__ import annotations

from collections.abc import Sequence

from docgen.piece.model import Kind, Piece
from docgen.piece.records import Setting, Stage
from docgen.schedules.rows import SetupRow
from docgen.schedules.terms import exact
from docgen.units import Number

MACHINES = (
    "table saw",
    "mitre saw",
    "band saw",
    "router",
    "router table",
    "loose tenon machine",
    "drill press",
    "hand drill",
    "tap",
)
"""The order of work where the stages do not decide: stock to size and angle, then joinery, then holes. Common practice."""

STAGES = (Stage.PART, Stage.GLUED, Stage.FITTED)
STAGE_NOTES = {Stage.PART: "", Stage.GLUED: "after glue-up", Stage.FITTED: "when fitting"}

Values = tuple[tuple[str, Number | str, str], ...]
Parts = list[tuple[str, str]]


def setups(piece: Piece, kinds: Sequence[Kind]) -> tuple[SetupRow, ...]:
    """Return each set-up once with all parts and features that run at it, in the order of work."""
    found: dict[tuple[Stage, str, str, Values], tuple[Setting, Parts]] = {}
    for path in _in_order(piece, kinds):
        for feature in piece.part(path).features:
            for setting in feature.made.settings:
                key = (feature.stage, setting.machine, setting.what, _plain(setting.values))
                _, parts = found.setdefault(key, (setting, []))
                if (path, feature.title) not in parts:
                    parts.append((path, feature.title))
    rows = []
    for stage in STAGES:
        machines = sorted({k[1] for k in found if k[0] is stage}, key=_rank)
        for machine in machines:
            keys = [k for k in found if k[0] is stage and k[1] == machine]
            rows += [_row(stage, *found[k]) for k in _fewest_changes(keys)]
    return tuple(rows)


def _in_order(piece: Piece, kinds: Sequence[Kind]) -> list[str]:
    """Return the paths of all parts that are made, equal ones beside each other."""
    first = {p: k.first for k in kinds for p in (*k.parts, *k.mirrored)}
    made = [p for p in piece.parts if not p.hardware]
    numbers = {p.path: p.number for p in piece.parts}
    return [p.path for p in sorted(made, key=lambda p: (numbers[first.get(p.path, p.path)], p.number))]


def _rank(machine: str) -> tuple[int, str]:
    return (MACHINES.index(machine) if machine in MACHINES else len(MACHINES), machine)


def _plain(values: Values) -> Values:
    """Return the values with numbers rounded, so that equal settings are found equal."""
    return tuple((name, v if isinstance(v, str) else exact(v), kind) for name, v, kind in values)


def _fewest_changes(keys: list[tuple[Stage, str, str, Values]]) -> list[tuple[Stage, str, str, Values]]:
    """Return the set-ups so that each shares as many values as possible with the one before, deterministically."""
    rest = sorted(keys, key=_order)
    out = [rest.pop(0)]
    while rest:
        last = out[-1]
        best = max(range(len(rest)), key=lambda i: (_alike(last, rest[i]), -i))
        out.append(rest.pop(best))
    return out


def _order(key: tuple[Stage, str, str, Values]) -> tuple[object, ...]:
    return tuple((n, isinstance(v, str), v if isinstance(v, str) else float(v)) for n, v, _ in key[3]), key[2]


def _alike(a: tuple[Stage, str, str, Values], b: tuple[Stage, str, str, Values]) -> int:
    """Return how much of a set-up can stay: the first value (the cutter) counts more than all the others."""
    same = set(a[3]) & set(b[3])
    first = 100 if a[3] and b[3] and a[3][0] == b[3][0] else 0
    return first + len(same) + (a[2] == b[2])


def _row(stage: Stage, setting: Setting, parts: Parts) -> SetupRow:
    note = "; ".join(n for n in (STAGE_NOTES[stage], setting.note) if n)
    return SetupRow(setting.machine, setting.what, setting.values, tuple(parts), note)
