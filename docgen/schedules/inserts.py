"""What is small and made beside the parts: when it is made, and when it is set in.

Loose tenons, splines, wedges, keys, plugs, buttons: told by the items and the figures of the joints. How they are set in
is common practice.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from docgen.piece.model import Item, Piece, Sets
from docgen.piece.records import Authority
from docgen.schedules.glueups import GlueUp
from docgen.schedules.hardware import loose_tenons
from docgen.schedules.holds import said
from docgen.schedules.rows import WorkRow
from docgen.schedules.steps import BESIDE, LATER, step

LONG = {"inch": Fraction(12 * 254, 10), "mm": Fraction(300)}
"""From this length on a piece is held at saw and drill with the fingers clear of the blade or bit. Common practice."""


TRIED = " Rip and plane the strip until it goes into its slots by hand, the whole strip, before any is sawn off."
"""What goes into a slot is made when the slot is there to try it in. Common practice."""


def is_made(item: Item) -> bool:
    """Return whether the thing is made at the bench and not bought."""
    return item.authority is Authority.CUT and item.sets not in (Sets.FIXES, Sets.BOLTED)


MADE = "make "
"""How the keys of steps begin that make small things."""


def held_long(piece: Piece, rows: Sequence[WorkRow]) -> Iterator[WorkRow]:
    """Yield the steps, with how small things are held at the first that makes some."""
    first = next((n for n, row in enumerate(rows) if row.key.startswith(MADE)), None)
    for n, row in enumerate(rows):
        yield replace(row, what=f"{row.what} {_held_long(piece)}") if n == first else row


def _held_long(piece: Piece) -> str:
    """Return how small things are worked with the hands clear of blade and bit. Common practice."""
    return (
        f"Small things stay on a piece at least {said(piece, LONG[piece.units.system])} long until the last cut: mill, cut and drill "
        "that, clamped or with push sticks, and saw each off last; thin strips fall on the side of the blade away from the fence."
    )


def made_beside(piece: Piece) -> Iterator[WorkRow]:
    """Yield the making of each kind of small thing that goes in with the glue or later; keys wait for their slots."""
    for size, (count, _) in loose_tenons(piece, piece.joints).items():
        yield step(
            BESIDE,
            f"Make or buy {count} loose tenon{_s(count)}, {size} (thickness × width × length): grain along the length, edges "
            "rounded as the mortise's ends are; each goes into its own mortise by hand.",
            "hardware list",
            "swollen with damp they do not go in: keep them dry until the glue-up",
            key=f"{MADE}loose tenon {size}",
        )
    yield from _made(BESIDE, [i for i in piece.items if is_made(i) and i.sets is not Sets.SLOTS])


def _made(phase: str, items: Sequence[Item], more: str = "") -> Iterator[WorkRow]:
    for item in _together(items):
        note = f" ({item.note})" if item.note else ""
        yield step(
            phase,
            f"Make {item.count} × {item.what}, {item.size}{note}.{more}",
            "hardware list",
            "made to the figure and not to the place in hand: try the first one before the rest are cut",
            key=f"{MADE}{item.what} {item.size}",
        )


def with_glue(piece: Piece, unit: GlueUp) -> str:
    """Return what goes into the joints of a glue-up with the glue; "" for nothing."""
    told = [f"{i.count} × {i.what}, {i.size}" for i in _of(piece, unit, Sets.GLUED)]
    tenons = loose_tenons(piece, unit.joints)
    told += [f"{count} loose tenon{_s(count)} {size}" for size, (count, _) in tenons.items()]
    return f" With it go in: {'; '.join(told)}." if told else ""


def into_slots(piece: Piece, unit: GlueUp) -> Iterator[WorkRow]:
    """Yield the making and the gluing of what goes into slots that are cut across the corners of this glue-up."""
    found = _of(piece, unit, Sets.SLOTS)
    yield from _made(LATER, found, TRIED)
    if found:
        told = "; ".join(f"{i.count} × {i.what}, {i.size}" for i in found)
        yield step(
            LATER,
            f"Glue into their slots, down to the bottom: {told}. When dry, saw them off just proud and pare or plane them "
            "flush, from the corner inward.",
            "hardware list, part sheets",
            "planed toward the outside they break out at the corner",
            unit.parts,
            key=f"keys {unit.parts[0]}",
        )


def over_heads(piece: Piece) -> list[Item]:
    """Return what is glued over the heads of screws, equal things once."""
    return _together([i for i in piece.items if i.sets is Sets.HEADS])


def _of(piece: Piece, unit: GlueUp, sets: Sets) -> list[Item]:
    """Return the things that were stated with the joints of a glue-up."""
    spans = {j.origin.span for j in unit.joints if j.origin.span is not None}
    return _together([i for i in piece.items if i.sets is sets and i.origin.span in spans])


def _together(items: Sequence[Item]) -> list[Item]:
    """Return equal things once, with their count."""
    counts: dict[tuple[str, str, str], int] = {}
    first: dict[tuple[str, str, str], Item] = {}
    for item in items:
        key = (item.what, item.size, item.note)
        counts[key] = counts.get(key, 0) + item.count
        first.setdefault(key, item)
    return [replace(first[key], count=count) for key, count in counts.items()]


def _s(count: int) -> str:
    return "" if count == 1 else "s"
