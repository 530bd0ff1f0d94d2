"""How a size is written: figure, label, count, authority sign; callouts of holes; notes told at the page's foot."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from docgen.drawing.symbols import AUTHORITY, AUTHORITY_WORDS
from docgen.piece.records import REMARK, Authority, HoleRow, Purpose, Size, SizeKind
from docgen.trade.drills import told
from docgen.units import Units, format_angle, format_length

_FRACTION = re.compile(r"(\d+)/(\d+)")

BEHIND = ("deep", "wide", "thick", "long")
"""Labels that stand behind their figure; all others stand before it."""


@dataclass(slots=True)
class Notes:
    """Remarks of one page, each with a letter that its figures carry: ``stop 3⁄4 (a)``."""

    units: Units
    texts: list[str] = field(default_factory=list)
    authorities: list[Authority] = field(default_factory=list)
    leaning: bool = False  # a table tells how drills lean

    def letter(self, text: str) -> str:
        """Return the sign of a remark, the same for the same words."""
        if text not in self.texts:
            self.texts.append(text)
        number = self.texts.index(text)
        return f"({chr(97 + number % 26)}{number // 26 or ''})"

    def sign(self, authority: Authority) -> str:
        """Return the authority's sign with a space before it, and note that the page needs its key."""
        if authority not in self.authorities:
            self.authorities.append(authority)
        return f" {AUTHORITY[authority]}" if AUTHORITY[authority] else ""

    def lines(self) -> list[str]:
        """Return the remarks as they stand at the foot."""
        return [f"{self.letter(t)} {t}" for t in self.texts]

    def keys(self) -> list[str]:
        """Return the key of the authority signs in use, in a settled order."""
        return authority_key(a for a in Authority if a in self.authorities)


def authority_key(used: Iterable[Authority]) -> list[str]:
    """Return one line for each authority that rules on a page, its sign first; cut alone needs no key."""
    used = list(dict.fromkeys(used))
    if all(a is Authority.CUT for a in used):
        return []
    return [f"{AUTHORITY[a]} {AUTHORITY_WORDS[a]}".strip() for a in used]


def figure_text(size: Size, notes: Notes, count: int = 1, *, reference: bool = False) -> str:
    """Return a size as it stands on its dimension line; `count` is how often its operation stands there.

    A figure for `reference` stands in brackets.
    """
    angle = size.kind is SizeKind.ANGLE
    figure = format_angle(size.value) if angle else format_length(size.value, notes.units)
    figure = {SizeKind.RADIUS: "R ", SizeKind.DIAMETER: "⌀"}.get(size.kind, "") + figure
    figure = f"({figure})" if reference else figure
    label = size.label.strip()
    remarks = [label] if len(label) > REMARK else []
    label = "" if remarks else label
    text = f"{figure} {label}" if label in BEHIND else f"{label} {figure}" if label else figure
    many = count * size.times
    if many > 1 and "×" not in label:
        text = f"{many}× {text}"
    text += notes.sign(size.authority)
    if size.over:
        remarks.append(f"cut {format_length(size.over, notes.units)} over, then fit")
    if size.note:
        remarks.append(size.note)
    return f"{text} {notes.letter(', '.join(remarks))}" if remarks else text


def drill_text(row: HoleRow, units: Units) -> str:
    """Return the drill as bought, ``17⁄64`` or ``#7``; a drill that is not named is told by its diameter."""
    if not row.drill:
        return format_length(row.diameter, units)
    drill = told(row.drill, units.system).removesuffix(f" {units.sign}")
    return _FRACTION.sub("\\1⁄\\2", drill)


def hole_head(rows: Sequence[HoleRow]) -> str:
    """Return what stands before the bore of rows that are alike: their names and the number of holes, ``A–D: 18× ``."""
    many = sum(len(row.points) for row in rows)
    names = [row.name for row in rows if row.name]
    count = f"{many}× " if many > 1 else ""
    return f"{_together(names)}: {count}" if names else count


def _together(names: Sequence[str]) -> str:
    """Return names in order, those that follow one another from the first to the last: ``A–D, F``."""
    out: list[list[str]] = []
    for name in sorted(dict.fromkeys(names), key=lambda n: (len(n), n)):
        follows = bool(out) and len(name) == len(out[-1][-1]) and name[:-1] == out[-1][-1][:-1]
        if follows and ord(name[-1]) == ord(out[-1][-1][-1]) + 1:
            out[-1].append(name)
        else:
            out.append([name])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 2 else ", ".join(run) for run in out)


def hole_lines(row: HoleRow, notes: Notes, head: str | None = None) -> tuple[str, ...]:
    """Return the callout of a row of holes, in the order count, hole, depth, then the widened mouth.

    `head` stands in place of name and count.
    """
    head = hole_head([row]) if head is None else head
    drill = drill_text(row, notes.units)
    bore = drill if drill.startswith("#") else f"⌀{drill}"
    deep = "THRU" if row.depth is None else f"↧ {format_length(row.depth, notes.units)}"
    lines: list[str] = []
    if row.purpose is Purpose.TAPPED and row.thread:
        full = "" if row.thread_depth is None else f" ↧ {format_length(row.thread_depth, notes.units)}"
        lines.append(f"{head}{row.thread}{full}{notes.sign(row.authority)}")
        lines.append(f"drill {bore} {deep}")
    else:
        lines.append(f"{head}{bore} {deep}{notes.sign(row.authority)}")
    if row.sink is not None:
        mouth = f"⌀{format_length(row.sink.diameter, notes.units, rest=False)}"
        if row.sink.angle is not None:
            lines.append(f"⌵ {mouth} × {format_angle(row.sink.angle)}")
        else:
            lines.append(f"⌴ {mouth} ↧ {format_length(row.sink.depth or 0, notes.units)}")
    note = row.note
    if notes.leaning and row.leaning is not None:
        note = note.removesuffix(row.leaning.text).removesuffix("; ")
    if note:
        lines[0] += " " + notes.letter(note)
    return tuple(lines)
