"""Machine set-ups: each once, with all parts that run at it, so that nothing is set twice."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby

from docgen.drawing.columns import Column
from docgen.drawing.records import Sheet
from docgen.drawing.tables import Row
from docgen.piece.records import Face
from docgen.schedules.rows import SetupRow
from docgen.sheets.context import Context
from docgen.sheets.flow import Flow, stacked, valued
from docgen.units import Number

ON_LINE = 1e-6  # of a division: rounding

COLUMNS = (
    Column("done", "middle"),
    Column("set-up"),
    Column("set to", grow=2.0),
    Column("what runs at it", grow=1.0),
)


def make(context: Context, before: Mapping[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """Return the set-ups by machine; nothing when no operation asks for one."""
    setups = context.lists.setups
    if not setups:
        return ()
    flow = Flow(context, key="setups", kind="setups", title="Machine set-ups")
    flow.text(
        "Set once, run all parts that stand beside it, with an offcut of the same thickness first. The machine's own "
        "manual rules: guards, knife and speeds as it says."
    )
    rows: list[Row] = []
    for machine, group in groupby(setups, key=lambda s: s.machine):
        rows.append(Row(heading=machine[:1].upper() + machine[1:]))
        rows += [_row(context, setup) for setup in group]
    flow.table(COLUMNS, rows)
    return flow.sheets()


def _row(context: Context, setup: SetupRow) -> Row:
    values = [
        f"{_faced(context, name, setup)}: {valued(context, value, kind)}{_metric(context, value, kind)}"
        for name, value, kind in setup.values
    ]
    return Row(cells=("□", setup.what, "\n".join(values) or "–", "; ".join(_parts(setup))), under=stacked(setup.note))


def _faced(context: Context, name: str, setup: SetupRow) -> str:
    """Return what a value is called, "the high face" by the word that the parts have for it."""
    for side, said in enumerate(("the low face", "the high face")):
        if said in name:
            paths = list(dict.fromkeys(path for path, _ in setup.parts))
            words = [f"the {context.piece.part(path).word(Face(2, side))} face" for path in paths]
            if len(set(words)) > 1:
                words = [f"{word} of {path}" for word, path in zip(words, paths, strict=True)]
            return name.replace(said, ", ".join(dict.fromkeys(words)))
    return name


def _metric(context: Context, value: Number | str, kind: str) -> str:
    """Return in millimetres what an inch rule has no line for: a cutter or a sheet of whole millimetres."""
    units = context.piece.units
    if isinstance(value, str) or kind != "length" or units.system != "inch":
        return ""
    size, line = float(value), float(units.finest) * 25.4
    on_rule = abs(size / line - round(size / line)) < ON_LINE
    whole = abs(size - round(size)) < ON_LINE
    return "" if on_rule or not whole else f" ({round(size)} mm)"


def _parts(setup: SetupRow) -> list[str]:
    """Return the features, each with the parts that have it; parts that share several stand behind them all."""
    features: dict[str, list[str]] = {}
    for path, title in setup.parts:
        features.setdefault(path, []).append(title)
    alike: dict[str, list[str]] = {}
    for path, titles in features.items():
        alike.setdefault(", ".join(dict.fromkeys(t for t in titles if t)), []).append(path)
    return [f"{titles}: {', '.join(paths)}".removeprefix(": ") for titles, paths in alike.items()]
