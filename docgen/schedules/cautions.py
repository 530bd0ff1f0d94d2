"""Cautions that the piece asks for: by its operations and machines, by its materials and weights, and in general."""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Sequence as Sequence_
from dataclasses import dataclass
from functools import cache

from docgen.piece.model import Kind, Part, Piece
from docgen.piece.records import Feature, Setting
from docgen.piece.solids import Solids
from docgen.reading import Mapping, Node, Scalar, Sequence, read_tree
from docgen.schedules.from_stock import MACHINED
from docgen.schedules.holds import listed
from docgen.schedules.risks import BIG, cutter_across
from docgen.schedules.rows import CautionRow, CutRow, WorkRow
from docgen.schedules.setups import worked
from docgen.schedules.short import short
from docgen.schedules.strips import strips
from docgen.schedules.terms import weight
from docgen.tables import data_text
from docgen.trade.weights import weight_told

ALWAYS = ("every machine", "dust", "sanding", "glue up", "finish rags")
"""Topics that any piece of furniture asks for. Common practice."""

LIFT_ALONE = 23.0
"""kg that one person may lift under the best conditions: the load constant of the NIOSH lifting equation, from memory."""

HEAVY_TILT = 2.0
"""kg from which a tilting part is told as heavy. Common practice."""

BREAKS = ("glass",)

LOW = 1.0
"""Height over the least width of its box up to which nothing is said of tipping: such a box leans 45° before it falls. Statics."""


def _from_setting(setting: Setting) -> Iterator[str]:
    """Yield the cautions that a set-up asks for: its machine's, and those that its values give away."""
    yield setting.machine
    names = " ".join(name for name, _, _ in setting.values)
    large = setting.machine.startswith("router") and cutter_across(setting.values) > float(BIG) + 1e-6
    if "bearing" in names or large:
        yield "bearing-guided bit"
    if setting.machine.startswith("router") and "radius" in names:
        yield "round over"
    angled = any(kind == "angle" and not name.startswith("taper") for name, _, kind in setting.values)
    if setting.machine == "table saw" and angled:
        yield "mitre on saw"


@dataclass(frozen=True, slots=True)
class Text:
    """What shared/cautions.yaml says under one key; the line that says what rules stands first."""

    title: str
    lines: tuple[str, ...]
    symbols: tuple[str, ...]


@cache
def texts() -> dict[str, Text]:
    """Return all cautions by key, in the file's order."""
    root = read_tree("shared/cautions.yaml", data_text("shared", "cautions.yaml"))
    assert isinstance(root, Mapping)
    return {entry.key.text: _text(entry.value) for entry in root.items}


def _text(node: Node) -> Text:
    assert isinstance(node, Mapping)
    said = {entry.key.text: _strings(entry.value) for entry in node.items}
    return Text(said["title"][0], (*said["defers"], *said["lines"]), said["symbols"])


def _strings(node: Node) -> tuple[str, ...]:
    if isinstance(node, Scalar):
        return (node.text,)
    assert isinstance(node, Sequence)
    return tuple(s for item in node.items for s in _strings(item))


def cautions(
    piece: Piece,
    solids: Solids,
    kinds: Sequence_[Kind] = (),
    *,
    cutting: Sequence_[CutRow] = (),
    work: Sequence_[WorkRow] = (),
) -> tuple[CautionRow, ...]:
    """Return the cautions in the order of shared/cautions.yaml, each with what in this piece asks for it, equal parts counted.

    Steps of the `work` ask for those of the milling and the sawing to size, by which every part of the `cutting` list is made.

    A key that the file does not have gets the general text, under its own name: nothing is left unsaid.
    """
    why: dict[str, dict[str, None]] = {key: {} for key in ALWAYS}
    for key, reason in (
        *_from_steps(piece, cutting, work, kinds),
        *_from_features(piece, kinds),
        *_from_whole(piece, solids, kinds),
    ):
        why.setdefault(key, {}).setdefault(reason)
    known = texts()
    order = [k for k in known if k in why] + sorted(k for k in why if k not in known)
    return tuple(_row(key, tuple(r for r in why[key] if r)) for key in order)


def _row(key: str, why: tuple[str, ...]) -> CautionRow:
    known = texts()
    text = known.get(key)
    if text is None:
        general = known["every machine"]
        text = Text(key[:1].upper() + key[1:], general.lines, general.symbols)
    return CautionRow(key, text.title, text.lines, why, text.symbols)


def _from_steps(
    piece: Piece, cutting: Sequence_[CutRow], work: Sequence_[WorkRow], kinds: Sequence_[Kind]
) -> Iterator[tuple[str, str]]:
    """Yield (key, the steps that ask for it); for the milling also the parts that are too short for it by themselves."""
    numbers: dict[str, list[int]] = {}
    for row in work:
        for key in row.cautions:
            numbers.setdefault(key, []).append(row.number)
    for key, found in numbers.items():
        yield key, f"step{'s' if len(found) > 1 else ''} {', '.join(map(str, found))} of the order of work"
    small = [path for row in short(piece, cutting) for path in row.parts]
    if small and set(MACHINED) <= set(numbers):
        yield MACHINED[0], f"too short by themselves: {listed(piece, small, kinds)}"


def _from_features(piece: Piece, kinds: Sequence_[Kind]) -> Iterator[tuple[str, str]]:
    """Yield (key, what asks for it) for each caution and machine, one line a kind of work with its parts."""
    parts: dict[tuple[str, str], dict[str, None]] = {}
    for part in piece.parts:
        for feature in part.features:
            for key, what in _asked(piece, part, feature):
                parts.setdefault((key, what), {})[part.path] = None
    works: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for (key, what), paths in parts.items():
        works.setdefault((key, tuple(paths)), []).append(what)
    for (key, same), whats in works.items():
        yield key, f"{', '.join(whats)} in {listed(piece, same, kinds)}"


def _asked(piece: Piece, part: Part, feature: Feature) -> dict[tuple[str, str], None]:
    """Return (key, the work as its set-up calls it) for what a feature asks for.

    A caution that no set-up brings, and that no set-up named already, goes by the feature's first set-up.
    """
    setups = worked(piece, part, feature)
    spared = {s.machine for s in feature.made.settings} - {s.machine for s in setups}
    out = {(key, s.what.split(",")[0]): None for s in setups for key in _from_setting(s)}
    named = {key for key, _ in out}
    first = setups[0].what.split(",")[0] if setups else feature.title
    for c in feature.made.cautions:
        if c.key not in spared and (c.note or c.key not in named):
            out[c.key, f"{first} ({c.note})" if c.note else first] = None
    return out


def _from_whole(piece: Piece, solids: Solids, kinds: Sequence_[Kind]) -> Iterator[tuple[str, str]]:
    weights = [(p, weight(p, solids)) for p in piece.parts]
    for part, _ in weights:
        if any(word in part.material.sheet for word in BREAKS):
            yield "glass", part.called
    for group in piece.groups:
        total = sum(w or 0.0 for p, w in weights if p.path in group.parts)
        if total >= HEAVY_TILT:
            yield "heavy panel", f"{group.name}, {weight_told(total, piece.units.system)}"
    if thin := strips(piece):
        yield "thin strips", listed(piece, thin, kinds)
    yield from _where_it_stands(piece)
    yield from _too_heavy(weights, piece.units.system)


def _where_it_stands(piece: Piece) -> Iterator[tuple[str, str]]:
    """Yield what asks for care where the piece hangs or stands: a wall, a height over its width, drawers."""
    if piece.stands == "wall":
        yield "hung on the wall", ""
    elif _tall(piece):
        yield "tipping", ""
    if piece.drawers:
        yield "drawers", ""


def _tall(piece: Piece) -> bool:
    """Return True for a piece that is higher than it is wide or deep, all its boxes taken together."""
    ends = [
        part.frame.point((float(x), float(y), float(z)))
        for part in piece.parts
        for x in (0, part.size[0])
        for y in (0, part.size[1])
        for z in (0, part.size[2])
    ]
    across, deep, up = (max(p[i] for p in ends) - min(p[i] for p in ends) for i in range(3))
    return up > LOW * min(across, deep)


def _too_heavy(weights: list[tuple[Part, float | None]], system: str) -> Iterator[tuple[str, str]]:
    for part, kg in weights:
        if kg is not None and kg > LIFT_ALONE:
            yield "lifting", f"{part.called}, {weight_told(kg, system)}"
    total = sum(kg or 0.0 for _, kg in weights)
    if total > LIFT_ALONE:
        yield "lifting", f"the whole piece, {weight_told(total, system)}"
